"""Electronic speed control: where its power goes and what it takes from the pack."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.constants import ZERO_CELSIUS_K
from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real
from slipfit.physics.motor import electrical_frequency

T25_K: Final = ZERO_CELSIUS_K + 25.0  # reference temperature of on-resistance
HOT_JUNCTION_K: Final = ZERO_CELSIUS_K + 125.0  # at work; on-resistance 1.5 times that at 25 degC

_RESISTANCE_TEMPERATURE_PER_K: Final = 0.005  # memory of data-sheet curves
_RATED_DROP_V: Final = 0.050  # rated current x on-resistance of one switch at 25 degC; memory
FET_RESISTANCE_SPREAD: Final = 0.40  # half-width of the 10-90 % range of that estimate; memory


@dataclass(frozen=True, kw_only=True)
class Switch:
    """A power switch of the class on boards of this kind.

    The values are those of the worked example (tests/data/electric_drive.csv, "synthetic
    values"); data sheets of 25 to 40 V transistors of 1 mohm lie within a factor 2 (memory).
    """

    transition_s: float = 40e-9  # rise and fall time together
    dead_time_s: float = 200e-9  # both switches off, twice in a period
    diode_drop_V: float = 0.8
    gate_charge_C: float = 40e-9
    gate_voltage_V: float = 10.0
    recovery_charge_C: float = 40e-9
    output_capacitance_F: float = 500e-12


SWITCH: Final = Switch()


@dataclass(frozen=True, kw_only=True)
class EscLosses:
    """Losses of one channel by cause."""

    conduction_W: Array
    switching_W: Array
    dead_time_W: Array
    gate_W: Array
    recovery_W: Array
    output_capacitance_W: Array

    @property
    def chopping_W(self) -> Array:
        """Everything but conduction: what duty times current does not account for."""
        return (
            self.switching_W
            + self.dead_time_W
            + self.gate_W
            + self.recovery_W
            + self.output_capacitance_W
        )

    @property
    def total_W(self) -> Array:
        """Sum over the causes."""
        return self.conduction_W + self.chopping_W


def fet_resistance(resistance_ohm: Real, junction_temperature_K: Real) -> Real:
    r"""On-resistance of a switch at its temperature.

    $$ R = R_{25} \left[1 + 0.005 (T_j - 298.15)\right] $$

    Parameters
    ----------
    resistance_ohm : float or array, shape (...)
        On-resistance $R_{25}$ at 25 degC. [ohm]
    junction_temperature_K : float or array, shape (...)
        Junction temperature $T_j$. [K]

    Returns
    -------
    resistance_ohm : float or array, broadcast shape
        On-resistance $R$ when hot. [ohm]

    Validity
    --------
    230 <= junction_temperature_K <= 450; ValidityError outside. Silicon power transistors of 25 to
    40 V; the slope is from memory of data-sheet curves (1.5 times at 125 degC).

    Source
    ------
    Common practice, no source; the factor 1.5 is that of the worked example
    (tests/data/electric_drive.csv, ESC-COND).

    Examples
    --------
    >>> fet_resistance(1.0e-3, 398.15) * 1e3
    1.5
    """
    require_range(
        "fet_resistance",
        "junction_temperature_K",
        junction_temperature_K,
        230.0,
        450.0,
        "silicon switches",
    )
    dT = np.asarray(junction_temperature_K, dtype=float) - T25_K
    R25 = np.asarray(resistance_ohm, dtype=float)
    return as_real(R25 * (1.0 + _RESISTANCE_TEMPERATURE_PER_K * dT))


def chopped_share(
    duty: Real, pwm_frequency_Hz: Real, dead_time_s: Real = SWITCH.dead_time_s
) -> Real:
    r"""Share of switching periods in which a channel really switches.

    $$ s = \min\left(1, \frac{\min(D, 1 - D)}{2 t_d f}\right) $$

    Parameters
    ----------
    duty : float or array, shape (...)
        Duty $D$, mean motor voltage over supply voltage, 0 to 1. [-]
    pwm_frequency_Hz : float or array, shape (...)
        Switching frequency $f$. [Hz]
    dead_time_s : float or array, shape (...)
        Dead time $t_d$, twice in a period. [s]

    Returns
    -------
    share : float or array, broadcast shape
        0 when fully on or off, 1 when every period has both states. [-]

    Validity
    --------
    0 <= duty <= 1; ValidityError outside. A pulse shorter than its two dead times cannot be made,
    so near full throttle periods without a pulse must make up the mean: our own reasoning.

    Source
    ------
    None; the limit keeps losses continuous up to full throttle, where a switch stays on.

    Examples
    --------
    >>> chopped_share(np.array([0.0, 0.5, 1.0]), 48e3)
    array([0., 1., 0.])
    """
    require_range("chopped_share", "duty", duty, 0.0, 1.0, "a fraction")
    D = np.asarray(duty, dtype=float)
    width = 2.0 * np.asarray(dead_time_s, dtype=float) * np.asarray(pwm_frequency_Hz, dtype=float)
    shortest = np.minimum(D, 1.0 - D)
    return as_real(np.where(shortest >= width, 1.0, shortest / np.where(width > 0.0, width, 1.0)))


def esc_losses(
    current_A: Real,
    supply_voltage_V: Real,
    duty: Real,
    fet_resistance_ohm: Real,
    pwm_frequency_Hz: Real,
    junction_temperature_K: Real = HOT_JUNCTION_K,
    switch: Switch = SWITCH,
) -> EscLosses:
    r"""Losses of one ESC channel in six-step drive with synchronous rectification.

    $$ P = 2 I^2 R_h + s f \left[\tfrac12 V I (t_r + t_f) + 2 V_f I t_d + Q_{rr} V
       + C_{oss} V^2\right] + 2 Q_g V_g f $$

    Parameters
    ----------
    current_A : float or array, shape (...)
        Motor current $I$; its sign does not matter. [A]
    supply_voltage_V : float or array, shape (...)
        Supply voltage $V$ at the board. [V]
    duty : float or array, shape (...)
        Mean motor voltage over supply voltage, 0 to 1. [-]
    fet_resistance_ohm : float or array, shape (...)
        On-resistance of one switch at 25 degC. [ohm]
    pwm_frequency_Hz : float or array, shape (...)
        Switching frequency $f$. [Hz]
    junction_temperature_K : float or array, shape (...)
        Temperature of the switches, for their on-resistance $R_h$. [K]
    switch : Switch
        Times and charges of a switch. [-]

    Returns
    -------
    losses : EscLosses
        Arrays of the broadcast shape, by cause. [-]

    Validity
    --------
    0 <= duty <= 1, 230 <= junction_temperature_K <= 450; ValidityError outside. Two switches
    carry the current at any duty (one chops with its partner, one stays on); the terms of $f$
    hold for the share $s$ of periods that have a pulse (`chopped_share`), the gate's always.
    Commutation, ten times rarer than switching, is left out.

    Source
    ------
    Standard expressions of half-bridge losses; worked example with synthetic values in
    tests/data/electric_drive.csv (ESC-*, computed).

    Examples
    --------
    The worked example, 40 A at 25.2 V and 48 kHz with 1.0 mohm, gives 6.4841 W:

    >>> float(esc_losses(40.0, 25.2, 0.7, 1.0e-3, 48e3).total_W)
    6.4841
    """
    I, V, D, R25, f, T = np.broadcast_arrays(  # noqa: E741
        *(
            np.asarray(x, dtype=float)
            for x in (
                current_A,
                supply_voltage_V,
                duty,
                fet_resistance_ohm,
                pwm_frequency_Hz,
                junction_temperature_K,
            )
        )
    )
    I = np.abs(I)  # noqa: E741
    sf = f * chopped_share(D, f, switch.dead_time_s)
    return EscLosses(
        conduction_W=2.0 * I**2 * fet_resistance(R25, T),
        switching_W=0.5 * V * I * switch.transition_s * sf,
        dead_time_W=switch.diode_drop_V * I * 2.0 * switch.dead_time_s * sf,
        gate_W=2.0 * switch.gate_charge_C * switch.gate_voltage_V * f,
        recovery_W=switch.recovery_charge_C * V * sf,
        output_capacitance_W=switch.output_capacitance_F * V**2 * sf,
    )


class Channel:
    """One ESC channel of a build (or of its samples) for the thousands of states of a flight: what
    `esc_losses` says, as a polynomial in current and voltage that is made once. A dead time above
    zero is taken for granted."""

    def __init__(self, fet_resistance_ohm: Real, pwm_frequency_Hz: Real) -> None:
        one = esc_losses(1.0, 1.0, 0.5, fet_resistance_ohm, pwm_frequency_Hz)
        self._narrowest = 2.0 * SWITCH.dead_time_s * pwm_frequency_Hz  # of a pulse, over a period
        share = np.minimum(0.5 / self._narrowest, 1.0)
        self.gates_W, self._per_A2 = one.gate_W, one.conduction_W
        self._per_A_V, self._per_A = one.switching_W / share, one.dead_time_W / share
        self._per_V, self._per_V2 = one.recovery_W / share, one.output_capacitance_W / share

    def loss_W(self, current_A: Array, bus_V: Array, duty: Array) -> Array:
        """Loss of the channel; a duty outside 0 to 1 counts as the nearer of these."""
        current = np.abs(current_A)
        shortest = np.minimum(np.maximum(duty, 0.0), np.maximum(1.0 - duty, 0.0))
        share = np.minimum(shortest / self._narrowest, 1.0)
        of_current = current * (self._per_A_V * bus_V + self._per_A)
        of_voltage = bus_V * (self._per_V + self._per_V2 * bus_V)
        return np.asarray(
            self._per_A2 * current**2 + self.gates_W + share * (of_current + of_voltage)
        )


def esc_duty(
    motor_voltage_V: Real, current_A: Real, supply_voltage_V: Real, resistance_ohm: Real
) -> Real:
    r"""Duty that puts a mean voltage across a motor.

    $$ D = \frac{v + 2 I R_h}{V} $$

    Parameters
    ----------
    motor_voltage_V : float or array, shape (...)
        Mean motor voltage $v$. [V]
    current_A : float or array, shape (...)
        Motor current $I$. [A]
    supply_voltage_V : float or array, shape (...)
        Supply voltage $V$ at the board. [V]
    resistance_ohm : float or array, shape (...)
        On-resistance $R_h$ of one hot switch (`fet_resistance`). [ohm]

    Returns
    -------
    duty : float or array, broadcast shape
        Duty $D$; above 1 the supply cannot give that voltage. [-]

    Validity
    --------
    supply_voltage_V > 0. Averaged model; dead time is left out.

    Source
    ------
    Kirchhoff's law around two conducting switches.

    Examples
    --------
    >>> esc_duty(22.2, 40.0, 25.2, 1.5e-3)
    0.886
    """
    v, I, V, R = (  # noqa: E741
        np.asarray(x, dtype=float)
        for x in (motor_voltage_V, current_A, supply_voltage_V, resistance_ohm)
    )
    return as_real((v + 2.0 * I * R) / V)


def commutation_frequency(omega_rad_s: Real, pole_count: Real) -> Real:
    r"""Commutations in a second of six-step drive.

    $$ f_c = 6 f_e = 6\, \frac{p}{2} \frac{\omega}{2\pi} $$

    Parameters
    ----------
    omega_rad_s : float or array, shape (...)
        Shaft speed $\omega$. [rad/s]
    pole_count : float or array, shape (...)
        Number $p$ of magnet poles. [-]

    Returns
    -------
    commutation_frequency_Hz : float or array, broadcast shape
        Commutations $f_c$ in a second. [Hz]

    Validity
    --------
    Any speed and an even number of poles. Boards state a greatest one; near half the switching
    frequency the averaged model of this module no longer holds.

    Source
    ------
    Definition (tests/data/electric_drive.csv, ESC-COMM, computed).

    Examples
    --------
    The reference gives 27 573 for 14 poles at 39 390 rpm:

    >>> commutation_frequency(39390 * np.pi / 30, 14)
    27573.0
    """
    return as_real(6.0 * np.asarray(electrical_frequency(omega_rad_s, pole_count)))


def estimated_fet_resistance(continuous_A: Real) -> Real:
    r"""On-resistance of a switch on a board that is known by its continuous current only.

    $$ R_{25} = 50\ \mathrm{mV} / I_c $$

    Parameters
    ----------
    continuous_A : float or array, shape (...)
        Continuous current $I_c$ that is claimed for a channel. [A]

    Returns
    -------
    fet_resistance_ohm : float or array, same shape
        On-resistance $R_{25}$ of one switch at 25 degC. [ohm]

    Validity
    --------
    5 <= continuous_A <= 200; ValidityError outside. Spread +-40 % (`FET_RESISTANCE_SPREAD`).

    Source
    ------
    Memory: boards of 50 A carry switches of about 1 mohm, since every board sheds about the
    same heat from one area.

    Examples
    --------
    >>> estimated_fet_resistance(50.0) * 1e3
    1.0
    """
    require_range(
        "estimated_fet_resistance", "continuous_A", continuous_A, 5.0, 200.0, "from memory"
    )
    return as_real(_RATED_DROP_V / np.asarray(continuous_A, dtype=float))
