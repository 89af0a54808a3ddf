"""Brushless motor: first-order model with temperature, and estimates of what a maker leaves out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.constants import COPPER_TEMPERATURE_COEFFICIENT_PER_K, ZERO_CELSIUS_K
from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real

T20_K: Final = ZERO_CELSIUS_K + 20.0  # reference temperature of data-sheet resistance and Kv

# Thermal classes of winding insulation: greatest temperature [K]. IEC 60085 (N, R: from memory).
INSULATION_CLASSES: Final[Mapping[str, float]] = {
    "Y": 363.15, "A": 378.15, "E": 393.15, "B": 403.15,
    "F": 428.15, "H": 453.15, "N": 473.15, "R": 493.15,
}  # fmt: skip

# Neodymium magnet grade letters: greatest working temperature [K]; makers' tables.
MAGNET_GRADES: Final[Mapping[str, float]] = {
    "": 353.15, "M": 373.15, "H": 393.15, "SH": 423.15, "UH": 453.15, "EH": 473.15, "AH": 493.15,
}  # fmt: skip
REMANENCE_COEFFICIENT_PER_K: Final = -0.0012  # grades without letter, M; H -0.0011, SH -0.0010

# No-load loss torque over speed, 1 + w/w1 + (w/w2)^2: hysteresis and bearings, eddies, windage.
# From memory of no-load currents at two voltages: doubling 2000 rad/s raises i0 by 1.3 to 1.5.
_NO_LOAD_SPEEDS: Final = (5_000.0, 8_000.0)  # rad/s

# Scaling laws below: shape from the geometry of slotted machines, factors fitted to twelve
# remembered motors of 11 to 31 mm stators (tests/data/motor_estimates.csv).
_MOTOR_CONSTANT: Final = (4.75e5, 0.25)  # Km^2 = c D^4 h^2 / (h + b D) [(N m)^2/(W m^5)], b
_LEAD_RESISTANCE_OHM: Final = (
    0.010  # two leads of 0.15 m, 20 AWG, in series: data sheets include them
)
_NO_LOAD_TORQUE: Final = 1.03e3  # N m per m3 of D^2 h at standstill, grows as _NO_LOAD_SPEEDS
_MASS: Final = (6_300.0, 3.4e-3)  # kg per m3 of D^2 (h + b), b [m]
_CAN_DIAMETER: Final = (1.13, 2.4e-3)  # D_can = a D + b, b [m]
_CAN_LENGTH: Final = (0.45, 2.5e-3)  # L_can = h + a D + b, b [m]

# Half-width of the 10-90 % range of each estimate, relative; from the same memory.
ESTIMATE_SPREADS: Final[Mapping[str, float]] = {
    "resistance_ohm": 0.25,
    "no_load_current_A": 0.35,
    "mass_kg": 0.12,
    "can_diameter_m": 0.04,
    "can_length_m": 0.10,
}


@dataclass(frozen=True, kw_only=True)
class MotorState:
    """A motor at work: what turns, what flows, where the power goes."""

    omega_rad_s: Array
    torque_Nm: Array
    current_A: Array
    voltage_V: Array
    shaft_power_W: Array
    electrical_power_W: Array
    copper_loss_W: Array
    iron_loss_W: Array  # everything that no-load current stands for: iron, bearings, windage
    efficiency: Array  # shaft over electrical power; 0 where either is not positive


def torque_constant(kv_rad_s_V: Real) -> Real:
    r"""Torque constant of a motor.

    $$ K_t = 1 / K_v $$

    Parameters
    ----------
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$, no-load speed over back-EMF. [rad/(s V)]

    Returns
    -------
    torque_constant_Nm_A : float or array, same shape
        Torque constant $K_t$. [N m/A]

    Validity
    --------
    kv_rad_s_V > 0. Six-step or ideal sinusoidal drive with current in phase with back-EMF.

    Source
    ------
    M. Drela, *First-Order DC Electric Motor Model*, 2007, with K_Q = K_V
    (tests/data/electric_drive.csv, MOT-KT, computed).

    Examples
    --------
    The reference gives 0.00489708 N m/A for 1950 rpm/V:

    >>> torque_constant(1950 * np.pi / 30)
    0.00489708
    """
    return as_real(1.0 / np.asarray(kv_rad_s_V, dtype=float))


def winding_resistance(resistance_ohm: Real, winding_temperature_K: Real) -> Real:
    r"""Resistance of a copper winding at its temperature.

    $$ R = R_{20} \left[1 + \alpha_{20} (T - 293.15)\right] $$

    Parameters
    ----------
    resistance_ohm : float or array, shape (...)
        Resistance $R_{20}$ at 20 degC, between two leads. [ohm]
    winding_temperature_K : float or array, shape (...)
        Mean winding temperature $T$. [K]

    Returns
    -------
    resistance_ohm : float or array, broadcast shape
        Resistance $R$ at that temperature. [ohm]

    Validity
    --------
    220 <= winding_temperature_K <= 620; ValidityError outside. Within 0.2 % of the
    (235 + t) rule of IEC 60034 from -20 to 180 degC. Skin effect is left out.

    Source
    ------
    IEC 60028:1925 coefficient of standard annealed copper, 0.00393 1/K at 20 degC
    (tests/data/motor_copper_resistance.csv, computed).

    Examples
    --------
    The table gives a ratio of 1.3144 at 100 degC:

    >>> winding_resistance(1.0, 373.15)
    1.3144
    """
    require_range(
        "winding_resistance",
        "winding_temperature_K",
        winding_temperature_K,
        220.0,
        620.0,
        "copper in a motor",
    )
    R20 = np.asarray(resistance_ohm, dtype=float)
    T = np.asarray(winding_temperature_K, dtype=float)
    return as_real(R20 * (1.0 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (T - T20_K)))


def hot_kv(
    kv_rad_s_V: Real,
    magnet_temperature_K: Real,
    remanence_coefficient_per_K: Real = REMANENCE_COEFFICIENT_PER_K,
) -> Real:
    r"""Speed constant of a motor whose magnets are not at 20 degC.

    $$ K_v = \frac{K_{v,20}}{1 + \alpha_{B} (T_m - 293.15)} $$

    Parameters
    ----------
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_{v,20}$ with magnets at 20 degC. [rad/(s V)]
    magnet_temperature_K : float or array, shape (...)
        Magnet temperature $T_m$, about that of the can. [K]
    remanence_coefficient_per_K : float or array, shape (...)
        Temperature coefficient $\alpha_B$ of remanence. [1/K]

    Returns
    -------
    kv_rad_s_V : float or array, broadcast shape
        Speed constant $K_v$ at that temperature. [rad/(s V)]

    Validity
    --------
    220 <= magnet_temperature_K <= 500; ValidityError outside. Reversible loss only: past the
    grade's working temperature (`MAGNET_GRADES`) some of it stays for good.

    Source
    ------
    Back-EMF proportional to remanence; coefficients from makers' tables
    (tests/data/motor_magnet_grades.csv, seen; MOT2-KV, computed).

    Examples
    --------
    The reference gives 2101.29 rpm/V for a 1950 rpm/V motor with magnets at 80 degC:

    >>> hot_kv(1950.0, 353.15)
    2101.29
    """
    require_range(
        "hot_kv", "magnet_temperature_K", magnet_temperature_K, 220.0, 500.0, "neodymium magnets"
    )
    Kv = np.asarray(kv_rad_s_V, dtype=float)
    dT = np.asarray(magnet_temperature_K, dtype=float) - T20_K
    return as_real(Kv / (1.0 + np.asarray(remanence_coefficient_per_K, dtype=float) * dT))


def no_load_current(
    omega_rad_s: Real, reference_current_A: Real, reference_omega_rad_s: Real
) -> Real:
    r"""No-load current of a motor at a speed, from the one quoted at another speed.

    $$ i_0(\omega) = i_{0,r} \frac{1 + \omega/\omega_1 + (\omega/\omega_2)^2}
       {1 + \omega_r/\omega_1 + (\omega_r/\omega_2)^2} $$

    Parameters
    ----------
    omega_rad_s : float or array, shape (...)
        Shaft speed $\omega$; its sign does not matter. [rad/s]
    reference_current_A : float or array, shape (...)
        No-load current $i_{0,r}$ as quoted. [A]
    reference_omega_rad_s : float or array, shape (...)
        Speed $\omega_r$ at which it was measured, about Kv times the voltage. [rad/s]

    Returns
    -------
    no_load_current_A : float or array, broadcast shape
        No-load current $i_0$. [A]

    Validity
    --------
    |omega_rad_s| <= 8000 (76 000 rpm); ValidityError outside. The constant part stands for
    hysteresis and bearings, the linear one for eddy currents, the square one for windage. Their
    shares are from memory (w1 = 5000, w2 = 8000 rad/s), good to about 15 % over a doubling of
    speed: a bench run at two voltages is better.

    Source
    ------
    M. Drela, *Second-Order DC Electric Motor Model*, 2006: i0 as a quadratic in speed (form from
    memory; shares as above).

    Examples
    --------
    Quoted 1.5 A at 10 V and 1950 rpm/V; at 39 390 rpm:

    >>> no_load_current(4125.0, 1.5, 2042.0)
    2.12
    """
    require_range(
        "no_load_current", "omega_rad_s", omega_rad_s, -8_000.0, 8_000.0, "shares from memory"
    )
    w1, w2 = _NO_LOAD_SPEEDS
    w = np.abs(np.asarray(omega_rad_s, dtype=float))
    wr = np.abs(np.asarray(reference_omega_rad_s, dtype=float))
    shape = (1.0 + w / w1 + (w / w2) ** 2) / (1.0 + wr / w1 + (wr / w2) ** 2)
    return as_real(np.asarray(reference_current_A, dtype=float) * shape)


def back_emf(omega_rad_s: Real, kv_rad_s_V: Real, torque_lag_s: Real = 0.0) -> Real:
    r"""Back-EMF of a turning motor.

    $$ v_m = (1 + \tau \omega)\, \omega / K_v $$

    Parameters
    ----------
    omega_rad_s : float or array, shape (...)
        Shaft speed $\omega$. [rad/s]
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$ at the magnets' temperature. [rad/(s V)]
    torque_lag_s : float or array, shape (...)
        Torque lag $\tau$ that commutation adds; 0 gives the first-order model. [s]

    Returns
    -------
    back_emf_V : float or array, broadcast shape
        Back-EMF $v_m$. [V]

    Validity
    --------
    Any speed. The lag is of the order of 2 us where it matters at all (memory).

    Source
    ------
    M. Drela, *Second-Order DC Electric Motor Model*, 2006 (form from memory; MOT2-LAG, computed).

    Examples
    --------
    >>> back_emf(4125.0, 204.2)
    20.2
    """
    w = np.asarray(omega_rad_s, dtype=float)
    lag = 1.0 + np.asarray(torque_lag_s, dtype=float) * np.abs(w)
    return as_real(lag * w / np.asarray(kv_rad_s_V, dtype=float))


def motor_current(torque_Nm: Real, kv_rad_s_V: Real, no_load_current_A: Real) -> Real:
    r"""Current of a motor that gives a torque.

    $$ i = Q K_v + i_0 $$

    Parameters
    ----------
    torque_Nm : float or array, shape (...)
        Shaft torque $Q$; negative where a windmilling propeller drives the motor. [N m]
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$ at the magnets' temperature. [rad/(s V)]
    no_load_current_A : float or array, shape (...)
        No-load current $i_0$ at this speed (`no_load_current`). [A]

    Returns
    -------
    current_A : float or array, broadcast shape
        Motor current $i$. [A]

    Validity
    --------
    Steady state, current in phase with back-EMF.

    Source
    ------
    M. Drela, *First-Order DC Electric Motor Model*, 2007 (tests/data/electric_drive.csv, MOT-Q,
    computed).

    Examples
    --------
    The reference motor gives 0.188537 N m at 40 A:

    >>> motor_current(0.188537, 1950 * np.pi / 30, 1.5)
    40.000
    """
    Q, Kv, i0 = (np.asarray(x, dtype=float) for x in (torque_Nm, kv_rad_s_V, no_load_current_A))
    return as_real(Q * Kv + i0)


def motor_voltage(
    omega_rad_s: Real, current_A: Real, kv_rad_s_V: Real, resistance_ohm: Real
) -> Real:
    r"""Voltage that a motor asks for at a speed and current.

    $$ v = \omega / K_v + i R $$

    Parameters
    ----------
    omega_rad_s : float or array, shape (...)
        Shaft speed $\omega$. [rad/s]
    current_A : float or array, shape (...)
        Motor current $i$. [A]
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$ at the magnets' temperature. [rad/(s V)]
    resistance_ohm : float or array, shape (...)
        Winding resistance $R$ at its temperature. [ohm]

    Returns
    -------
    voltage_V : float or array, broadcast shape
        Mean voltage $v$ across two leads. [V]

    Validity
    --------
    Steady state; for the torque lag of the second-order model add `back_emf` and the resistive
    drop.

    Source
    ------
    M. Drela, *First-Order DC Electric Motor Model*, 2007 (tests/data/electric_drive.csv, MOT-RPM,
    computed).

    Examples
    --------
    The reference motor turns 39 390 rpm on 22.2 V at 40 A:

    >>> motor_voltage(39390 * np.pi / 30, 40.0, 1950 * np.pi / 30, 0.050)
    22.200
    """
    i, R = (np.asarray(x, dtype=float) for x in (current_A, resistance_ohm))
    return as_real(back_emf(omega_rad_s, kv_rad_s_V) + i * R)


def _state(
    omega: Array, torque: Array, current: Array, voltage: Array, R: Array, i0: Array, emf: Array
) -> MotorState:
    shaft, electrical = omega * torque, voltage * current
    works = (shaft > 0.0) & (electrical > 0.0)
    efficiency = np.divide(shaft, electrical, out=np.zeros_like(shaft), where=works)
    # copper plus iron is exactly electrical minus shaft power
    return MotorState(
        omega_rad_s=omega,
        torque_Nm=torque,
        current_A=current,
        voltage_V=voltage,
        shaft_power_W=shaft,
        electrical_power_W=electrical,
        copper_loss_W=current**2 * R,
        iron_loss_W=emf * current - shaft,
        efficiency=efficiency,
    )


def motor_from_shaft(
    omega_rad_s: Real,
    torque_Nm: Real,
    kv_rad_s_V: Real,
    resistance_ohm: Real,
    no_load_current_A: Real,
    torque_lag_s: Real = 0.0,
) -> MotorState:
    r"""State of a motor that turns a known load: current and voltage that it asks for.

    $$ i = Q K_v + i_0, \quad v = \omega / K_v + i R $$

    Parameters
    ----------
    omega_rad_s : float or array, shape (...)
        Shaft speed $\omega$. [rad/s]
    torque_Nm : float or array, shape (...)
        Load torque $Q$; negative where a windmilling propeller drives the motor. [N m]
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$ at the magnets' temperature. [rad/(s V)]
    resistance_ohm : float or array, shape (...)
        Winding resistance $R$ at its temperature. [ohm]
    no_load_current_A : float or array, shape (...)
        No-load current $i_0$ at this speed (`no_load_current`). [A]
    torque_lag_s : float or array, shape (...)
        See `back_emf`. [s]

    Returns
    -------
    state : MotorState
        Arrays of the broadcast shape. [-]

    Validity
    --------
    Steady state; voltage is the mean that the ESC puts across two leads. At standstill without
    load the current is the no-load current, which is what holds against friction.

    Source
    ------
    M. Drela, *First-Order DC Electric Motor Model*, 2007 (tests/data/electric_drive.csv, MOT,
    computed).

    Examples
    --------
    The reference motor at 40 A and 22.2 V makes 0.188537 N m at 39 390 rpm:

    >>> float(motor_from_shaft(4124.92, 0.188537, 204.2035, 0.050, 1.5).current_A)
    40.0
    """
    w, Q, Kv, R, i0, tau = np.broadcast_arrays(
        *(
            np.asarray(x, dtype=float)
            for x in (
                omega_rad_s,
                torque_Nm,
                kv_rad_s_V,
                resistance_ohm,
                no_load_current_A,
                torque_lag_s,
            )
        )
    )
    i = Q * Kv + i0
    emf = np.asarray(back_emf(w, Kv, tau))
    return _state(w, Q, i, emf + i * R, R, i0, emf)


def motor_from_supply(
    voltage_V: Real,
    current_A: Real,
    kv_rad_s_V: Real,
    resistance_ohm: Real,
    no_load_current_A: Real,
) -> MotorState:
    r"""State of a motor at a known voltage and current: speed and torque that it gives.

    $$ \omega = K_v (v - i R), \quad Q = (i - i_0) / K_v $$

    Parameters
    ----------
    voltage_V : float or array, shape (...)
        Mean voltage $v$ across two leads. [V]
    current_A : float or array, shape (...)
        Motor current $i$. [A]
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$ at the magnets' temperature. [rad/(s V)]
    resistance_ohm : float or array, shape (...)
        Winding resistance $R$ at its temperature. [ohm]
    no_load_current_A : float or array, shape (...)
        No-load current $i_0$ at the resulting speed. [A]

    Returns
    -------
    state : MotorState
        Arrays of the broadcast shape. [-]

    Validity
    --------
    Steady state; first-order model without torque lag.

    Source
    ------
    M. Drela, *First-Order DC Electric Motor Model*, 2007 (tests/data/electric_drive.csv, MOT,
    computed).

    Examples
    --------
    The reference gives an efficiency of 0.875788 for 1950 rpm/V, 50 mohm, 1.5 A at 22.2 V, 40 A:

    >>> float(motor_from_supply(22.2, 40.0, 1950 * np.pi / 30, 0.050, 1.5).efficiency)
    0.875788
    """
    v, i, Kv, R, i0 = np.broadcast_arrays(
        *(
            np.asarray(x, dtype=float)
            for x in (voltage_V, current_A, kv_rad_s_V, resistance_ohm, no_load_current_A)
        )
    )
    emf = v - i * R
    return _state(Kv * emf, (i - i0) / Kv, i, v, R, i0, emf)


def best_efficiency_current(voltage_V: Real, resistance_ohm: Real, no_load_current_A: Real) -> Real:
    r"""Current at which a motor is most efficient at a voltage.

    $$ i = \sqrt{i_0 v / R} $$

    Parameters
    ----------
    voltage_V : float or array, shape (...)
        Motor voltage $v$. [V]
    resistance_ohm : float or array, shape (...)
        Winding resistance $R$. [ohm]
    no_load_current_A : float or array, shape (...)
        No-load current $i_0$, taken as constant. [A]

    Returns
    -------
    current_A : float or array, broadcast shape
        Current of best efficiency. [A]

    Validity
    --------
    resistance_ohm > 0 and constant no-load current.

    Source
    ------
    First-order model, derivative of efficiency (tests/data/electric_drive.csv, MOT-IOPT,
    computed).

    Examples
    --------
    The reference gives 25.807 A:

    >>> best_efficiency_current(22.2, 0.050, 1.5)
    25.807
    """
    v, R, i0 = (np.asarray(x, dtype=float) for x in (voltage_V, resistance_ohm, no_load_current_A))
    return as_real(np.sqrt(i0 * v / R))


def best_efficiency(voltage_V: Real, resistance_ohm: Real, no_load_current_A: Real) -> Real:
    r"""Greatest efficiency of a motor at a voltage.

    $$ \eta = \left(1 - \sqrt{i_0 R / v}\right)^2 $$

    Parameters
    ----------
    voltage_V : float or array, shape (...)
        Motor voltage $v$. [V]
    resistance_ohm : float or array, shape (...)
        Winding resistance $R$. [ohm]
    no_load_current_A : float or array, shape (...)
        No-load current $i_0$, taken as constant. [A]

    Returns
    -------
    efficiency : float or array, broadcast shape
        Greatest shaft power over electrical power. [-]

    Validity
    --------
    voltage_V > no_load_current_A * resistance_ohm (the motor turns at all).

    Source
    ------
    First-order model (tests/data/electric_drive.csv, MOT-ETAMAX, computed).

    Examples
    --------
    The reference gives 0.887131:

    >>> best_efficiency(22.2, 0.050, 1.5)
    0.887131
    """
    v, R, i0 = (np.asarray(x, dtype=float) for x in (voltage_V, resistance_ohm, no_load_current_A))
    return as_real((1.0 - np.sqrt(i0 * R / v)) ** 2)


def electrical_frequency(omega_rad_s: Real, pole_count: Real) -> Real:
    r"""Electrical frequency of a motor.

    $$ f_e = \frac{p}{2} \frac{\omega}{2\pi} $$

    Parameters
    ----------
    omega_rad_s : float or array, shape (...)
        Shaft speed $\omega$. [rad/s]
    pole_count : float or array, shape (...)
        Number $p$ of magnet poles, 14 on most motors of this kind. [-]

    Returns
    -------
    frequency_Hz : float or array, broadcast shape
        Electrical frequency $f_e$; six-step drive commutates six times as often. [Hz]

    Validity
    --------
    Any speed and an even number of poles.

    Source
    ------
    Definition (tests/data/electric_drive.csv, ESC-FE, computed).

    Examples
    --------
    The reference gives 4595.5 Hz for 14 poles at 39 390 rpm:

    >>> electrical_frequency(39390 * np.pi / 30, 14)
    4595.5
    """
    w = np.asarray(omega_rad_s, dtype=float)
    return as_real(0.5 * np.asarray(pole_count, dtype=float) * w / (2.0 * np.pi))


def _require_stator(who: str, stator_diameter_m: Real, stator_height_m: Real) -> None:
    reason = "small outrunners; numbers from memory"
    require_range(who, "stator_diameter_m", stator_diameter_m, 0.008, 0.045, reason)
    require_range(who, "stator_height_m", stator_height_m, 0.001, 0.025, reason)


def estimated_resistance(stator_diameter_m: Real, stator_height_m: Real, kv_rad_s_V: Real) -> Real:
    r"""Winding resistance of a motor that is known by stator size and speed constant only.

    $$ R_{20} = \frac{1}{K_v^2 K_m^2} + R_l, \quad K_m^2 = c \frac{D^4 h^2}{h + b D} $$

    Parameters
    ----------
    stator_diameter_m : float or array, shape (...)
        Stator diameter $D$. [m]
    stator_height_m : float or array, shape (...)
        Stator stack height $h$. [m]
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$. [rad/(s V)]

    Returns
    -------
    resistance_ohm : float or array, broadcast shape
        Resistance between two leads at 20 degC, leads included. [ohm]

    Validity
    --------
    Outrunners of 8 to 45 mm stator diameter and 1 to 25 mm height; ValidityError outside. One
    measured or quoted resistance is better: spread +-25 % (`ESTIMATE_SPREADS`).

    Source
    ------
    Scaling law. Torque per ampere goes with turns N, height and radius; resistance with
    N^2 (h + b D) over the slots' area, which goes with D^2; so Km^2 = Kt^2/R does not depend on
    the winding. c = 4.75e5, b = 0.25, R_l = 10 mohm fit twelve remembered motors within 17 %
    (tests/data/motor_estimates.csv, memory).

    Examples
    --------
    A 22 x 7 mm stator wound for 1950 rpm/V:

    >>> estimated_resistance(0.022, 0.007, 204.2)
    0.065
    """
    _require_stator("estimated_resistance", stator_diameter_m, stator_height_m)
    c, b = _MOTOR_CONSTANT
    D, h, Kv = (
        np.asarray(x, dtype=float) for x in (stator_diameter_m, stator_height_m, kv_rad_s_V)
    )
    Km2 = c * D**4 * h**2 / (h + b * D)
    return as_real(1.0 / (Kv**2 * Km2) + _LEAD_RESISTANCE_OHM)


def estimated_no_load_current(
    stator_diameter_m: Real, stator_height_m: Real, kv_rad_s_V: Real, voltage_V: Real = 10.0
) -> Real:
    r"""No-load current of a motor that is known by stator size and speed constant only.

    $$ i_0 = K_v\, q\, D^2 h \left[1 + \omega/\omega_1 + (\omega/\omega_2)^2\right],
       \quad \omega = K_v v $$

    Parameters
    ----------
    stator_diameter_m : float or array, shape (...)
        Stator diameter $D$. [m]
    stator_height_m : float or array, shape (...)
        Stator stack height $h$. [m]
    kv_rad_s_V : float or array, shape (...)
        Speed constant $K_v$. [rad/(s V)]
    voltage_V : float or array, shape (...)
        Voltage $v$ of the no-load run; 10 V is what data sheets use. [V]

    Returns
    -------
    no_load_current_A : float or array, broadcast shape
        No-load current $i_0$ at that voltage. [A]

    Validity
    --------
    Outrunners of 8 to 45 mm stator diameter and 1 to 25 mm height; ValidityError outside.
    Spread +-35 % (`ESTIMATE_SPREADS`).

    Source
    ------
    Scaling law: loss torque goes with the volume of iron and the speed terms of
    `no_load_current`; q = 1030 N m/m3 is the geometric mean over nine
    remembered motors (tests/data/motor_estimates.csv, memory).

    Examples
    --------
    A 22 x 7 mm stator wound for 1950 rpm/V, at 10 V:

    >>> estimated_no_load_current(0.022, 0.007, 204.2)
    1.05
    """
    _require_stator("estimated_no_load_current", stator_diameter_m, stator_height_m)
    D, h, Kv, v = (
        np.asarray(x, dtype=float)
        for x in (stator_diameter_m, stator_height_m, kv_rad_s_V, voltage_V)
    )
    standstill = Kv * _NO_LOAD_TORQUE * D**2 * h
    return no_load_current(as_real(Kv * v), as_real(standstill), 0.0)


def estimated_mass(stator_diameter_m: Real, stator_height_m: Real) -> Real:
    r"""Mass of a motor that is known by stator size only.

    $$ m = \rho_e D^2 (h + b) $$

    Parameters
    ----------
    stator_diameter_m : float or array, shape (...)
        Stator diameter $D$. [m]
    stator_height_m : float or array, shape (...)
        Stator stack height $h$. [m]

    Returns
    -------
    mass_kg : float or array, broadcast shape
        Mass with short leads, without screws. [kg]

    Validity
    --------
    Outrunners of 8 to 45 mm stator diameter and 1 to 25 mm height; ValidityError outside.
    Spread +-12 % up to 31 mm (`ESTIMATE_SPREADS`); flat, hollow motors above that are lighter.

    Source
    ------
    Scaling law with 6300 kg/m3 and b = 3.4 mm for bell, base and end turns, from memory
    (tests/data/motor_estimates.csv).

    Examples
    --------
    A 22 x 7 mm stator:

    >>> estimated_mass(0.022, 0.007)
    0.032
    """
    _require_stator("estimated_mass", stator_diameter_m, stator_height_m)
    rho, b = _MASS
    D, h = (np.asarray(x, dtype=float) for x in (stator_diameter_m, stator_height_m))
    return as_real(rho * D**2 * (h + b))


def estimated_can_diameter(stator_diameter_m: Real) -> Real:
    r"""Outside diameter of a motor that is known by stator diameter only.

    $$ D_c = 1.13\, D + 2.4\ \mathrm{mm} $$

    Parameters
    ----------
    stator_diameter_m : float or array, shape (...)
        Stator diameter $D$. [m]

    Returns
    -------
    can_diameter_m : float or array, same shape
        Outside diameter $D_c$ of the turning can. [m]

    Validity
    --------
    8 to 45 mm; ValidityError outside. Spread +-4 % (`ESTIMATE_SPREADS`): measure before you
    print a fairing.

    Source
    ------
    Air gap, magnets and flux ring grow with the motor; numbers from memory
    (tests/data/motor_estimates.csv).

    Examples
    --------
    A 28 mm stator sits in a can of about 34 mm:

    >>> estimated_can_diameter(0.028)
    0.034
    """
    _require_stator("estimated_can_diameter", stator_diameter_m, 0.005)
    a, b = _CAN_DIAMETER
    return as_real(a * np.asarray(stator_diameter_m, dtype=float) + b)


def estimated_can_length(stator_diameter_m: Real, stator_height_m: Real) -> Real:
    r"""Length of a motor, base to top of the bell, that is known by stator size only.

    $$ L_c = h + 0.45\, D + 2.5\ \mathrm{mm} $$

    Parameters
    ----------
    stator_diameter_m : float or array, shape (...)
        Stator diameter $D$. [m]
    stator_height_m : float or array, shape (...)
        Stator stack height $h$. [m]

    Returns
    -------
    can_length_m : float or array, broadcast shape
        Length $L_c$ without the shaft above the bell. [m]

    Validity
    --------
    8 to 45 mm stator diameter, 1 to 25 mm height; ValidityError outside. Spread +-10 %
    (`ESTIMATE_SPREADS`).

    Source
    ------
    End turns, base and bell roof grow with the diameter; numbers from memory
    (tests/data/motor_estimates.csv).

    Examples
    --------
    A 28 x 8 mm stator:

    >>> estimated_can_length(0.028, 0.008)
    0.023
    """
    _require_stator("estimated_can_length", stator_diameter_m, stator_height_m)
    a, b = _CAN_LENGTH
    D, h = (np.asarray(x, dtype=float) for x in (stator_diameter_m, stator_height_m))
    return as_real(h + a * D + b)
