"""Heat: films of moving air on cylinders and plates, a motor's two temperatures, a board's one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from slipfit.constants import COPPER_TEMPERATURE_COEFFICIENT_PER_K, GAMMA_AIR, R_AIR_J_KG_K
from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real
from slipfit.physics.air import viscosity_sutherland
from slipfit.physics.motor import T20_K

HEAT_CAPACITY_AIR_J_KG_K: Final = GAMMA_AIR / (GAMMA_AIR - 1.0) * R_AIR_J_KG_K  # 1004.7
_CONDUCTIVITY_ISO_2533: Final = (2.648151e-3, 245.4, 12.0)
_CHURCHILL_BERNSTEIN: Final = (0.3, 0.62, 0.4, 282_000.0)
STILL_AIR_W_M2_K: Final = 10.0  # natural convection and radiation of a small warm part; memory

# Inside of a motor: from windings and stator through base, bearings and air to the can, per area
# of the stator's surface. Our own sum for a 28 x 8 mm motor (gap 0.1, end turns 0.4, base 0.7
# W/K), from memory of such parts: right within a factor 1.5.
_WINDING_TO_CASE_W_M2_K: Final = 600.0
WINDING_TO_CASE_SPREAD: Final = 0.5  # half-width of the 10-90 % range
_INNER_MASS_SHARE: Final = 0.5  # copper and stator iron; the rest is can, magnets, base; memory
_INNER_J_KG_K: Final = 430.0  # copper 385, iron 460; memory
_CASE_J_KG_K: Final = 600.0  # aluminium 900, iron 460, magnets 440; memory


@dataclass(frozen=True, kw_only=True)
class MotorTemperatures:
    """Temperatures of a motor's two nodes; nan where `steady` is false."""

    winding_K: Array  # copper and stator
    case_K: Array  # can, magnets, base
    steady: NDArray[np.bool_]  # false where copper's resistance grows faster than cooling does


def air_conductivity(temperature_K: Real) -> Real:
    r"""Thermal conductivity of air.

    $$ \lambda = \frac{2.648151 \times 10^{-3}\, T^{3/2}}{T + 245.4 \times 10^{-12/T}} $$

    Parameters
    ----------
    temperature_K : float or array, shape (...)
        Air temperature $T$. [K]

    Returns
    -------
    conductivity_W_m_K : float or array, same shape
        Thermal conductivity $\lambda$. [W/(m K)]

    Validity
    --------
    200 <= temperature_K <= 500; ValidityError outside. Dry air.

    Source
    ------
    ISO 2533:1975, *Standard Atmosphere* (form and constants as general atmosphere libraries give
    them; the standard itself was not at hand).

    Examples
    --------
    An atmosphere library prints 0.02534283 W/(m K) at 15 degC:

    >>> air_conductivity(288.15)
    0.02534
    """
    require_range("air_conductivity", "temperature_K", temperature_K, 200.0, 500.0, "films of air")
    c, S, p = _CONDUCTIVITY_ISO_2533
    T = np.asarray(temperature_K, dtype=float)
    return as_real(c * T**1.5 / (T + S * 10.0 ** (-p / T)))


def air_prandtl(temperature_K: Real) -> Real:
    r"""Prandtl number of air.

    $$ \mathrm{Pr} = \mu c_p / \lambda $$

    Parameters
    ----------
    temperature_K : float or array, shape (...)
        Air temperature. [K]

    Returns
    -------
    prandtl : float or array, same shape
        Prandtl number. [-]

    Validity
    --------
    200 <= temperature_K <= 400; ValidityError outside. Constant heat capacity 1004.7 J/(kg K).

    Source
    ------
    Definition, with `viscosity_sutherland` and `air_conductivity`.

    Examples
    --------
    >>> air_prandtl(300.0)
    0.706
    """
    mu = np.asarray(viscosity_sutherland(temperature_K))
    return as_real(mu * HEAT_CAPACITY_AIR_J_KG_K / np.asarray(air_conductivity(temperature_K)))


def nusselt_cylinder_churchill_bernstein(reynolds: Real, prandtl: Real) -> Real:
    r"""Mean Nusselt number of a cylinder in cross flow.

    $$ \mathrm{Nu} = 0.3 + \frac{0.62\, \mathrm{Re}^{1/2} \mathrm{Pr}^{1/3}}
       {\left[1 + (0.4/\mathrm{Pr})^{2/3}\right]^{1/4}}
       \left[1 + \left(\frac{\mathrm{Re}}{282\,000}\right)^{5/8}\right]^{4/5} $$

    Parameters
    ----------
    reynolds : float or array, shape (...)
        Reynolds number on the diameter, at film temperature. [-]
    prandtl : float or array, shape (...)
        Prandtl number at film temperature. [-]

    Returns
    -------
    nusselt : float or array, broadcast shape
        Mean Nusselt number on the diameter. [-]

    Validity
    --------
    0 <= reynolds <= 1e7; ValidityError outside. The source asks for Re Pr >= 0.2: below that, down
    to still air, the value tends to its constant and natural convection takes over
    (`film_coefficient_cylinder`). Within about 20 % of measurements.

    Source
    ------
    S. W. Churchill and M. Bernstein, 1977, as general heat transfer libraries and textbooks print
    it; the paper itself was not at hand.

    Examples
    --------
    A textbook's cylinder at Re = 6071 and Pr = 0.7, 40.6371 as a documentation page prints it:

    >>> nusselt_cylinder_churchill_bernstein(6071.0, 0.7)
    40.6371
    """
    who = "nusselt_cylinder_churchill_bernstein"
    require_range(who, "reynolds", reynolds, 0.0, 1e7, "Churchill and Bernstein")
    a, b, c, Re0 = _CHURCHILL_BERNSTEIN
    Re, Pr = (np.asarray(x, dtype=float) for x in (reynolds, prandtl))
    laminar = b * np.sqrt(Re) * np.cbrt(Pr) / (1.0 + (c / Pr) ** (2.0 / 3.0)) ** 0.25
    return as_real(a + laminar * (1.0 + (Re / Re0) ** 0.625) ** 0.8)


def nusselt_plate_laminar(reynolds: Real, prandtl: Real) -> Real:
    r"""Mean Nusselt number of a flat plate in laminar flow.

    $$ \mathrm{Nu} = 0.664\, \mathrm{Re}^{1/2} \mathrm{Pr}^{1/3} $$

    Parameters
    ----------
    reynolds : float or array, shape (...)
        Reynolds number on the plate's length, at film temperature. [-]
    prandtl : float or array, shape (...)
        Prandtl number at film temperature. [-]

    Returns
    -------
    nusselt : float or array, broadcast shape
        Mean Nusselt number on the length. [-]

    Validity
    --------
    0 <= reynolds <= 5e5 and prandtl above 0.6; ValidityError outside. A smooth plate: parts on a
    board stir the air, so that the true value is higher.

    Source
    ------
    E. Pohlhausen's solution of the laminar boundary layer, as textbooks print it.

    Examples
    --------
    >>> nusselt_plate_laminar(10000.0, 0.71)
    59.2
    """
    require_range("nusselt_plate_laminar", "reynolds", reynolds, 0.0, 5e5, "laminar plate")
    require_range("nusselt_plate_laminar", "prandtl", prandtl, 0.6, 1000.0, "laminar plate")
    Re, Pr = (np.asarray(x, dtype=float) for x in (reynolds, prandtl))
    return as_real(0.664 * np.sqrt(Re) * np.cbrt(Pr))


def _with_still_air(forced: Array) -> Array:
    """Forced and natural convection together: cube root of the sum of cubes."""
    return np.asarray(np.cbrt(forced**3 + STILL_AIR_W_M2_K**3))


def film_coefficient_cylinder(
    speed_m_s: Real, diameter_m: Real, film_temperature_K: Real, density_kg_m3: Real
) -> Real:
    r"""Heat transfer from a cylinder to moving air, down to still air.

    $$ h = \left[\left(\mathrm{Nu}\, \lambda / D\right)^3 + h_0^3\right]^{1/3} $$

    Parameters
    ----------
    speed_m_s : float or array, shape (...)
        Air speed past the cylinder; its sign does not matter. [m/s]
    diameter_m : float or array, shape (...)
        Diameter $D$. [m]
    film_temperature_K : float or array, shape (...)
        Mean of wall and air temperature. [K]
    density_kg_m3 : float or array, shape (...)
        Air density at film temperature. [kg/m3]

    Returns
    -------
    film_coefficient_W_m2_K : float or array, broadcast shape
        Heat transfer coefficient $h$. [W/(m2 K)]

    Validity
    --------
    Reynolds number up to 1e7, 200 <= film_temperature_K <= 400; ValidityError outside. Cross flow;
    along the axis a short can sheds about as much (within the 20 % of the correlation, our own
    reasoning). Natural convection and radiation are one constant, 10 W/(m2 K) from memory.

    Source
    ------
    `nusselt_cylinder_churchill_bernstein`; the third-power blend of forced and natural
    convection is a textbook rule.

    Examples
    --------
    A 34 mm can at 20 m/s:

    >>> film_coefficient_cylinder(20.0, 0.034, 310.0, 1.14)
    96.3
    """
    V, D, T, rho = np.broadcast_arrays(
        *(
            np.asarray(x, dtype=float)
            for x in (speed_m_s, diameter_m, film_temperature_K, density_kg_m3)
        )
    )
    Re = rho * np.abs(V) * D / np.asarray(viscosity_sutherland(T))
    Nu = np.asarray(nusselt_cylinder_churchill_bernstein(Re, air_prandtl(T)))
    return as_real(_with_still_air(Nu * np.asarray(air_conductivity(T)) / D))


def film_coefficient_plate(
    speed_m_s: Real, length_m: Real, film_temperature_K: Real, density_kg_m3: Real
) -> Real:
    r"""Heat transfer from a small flat plate to moving air, down to still air.

    $$ h = \left[\left(\mathrm{Nu}\, \lambda / L\right)^3 + h_0^3\right]^{1/3} $$

    Parameters
    ----------
    speed_m_s : float or array, shape (...)
        Air speed along the plate; its sign does not matter. [m/s]
    length_m : float or array, shape (...)
        Length $L$ along the air. [m]
    film_temperature_K : float or array, shape (...)
        Mean of wall and air temperature. [K]
    density_kg_m3 : float or array, shape (...)
        Air density at film temperature. [kg/m3]

    Returns
    -------
    film_coefficient_W_m2_K : float or array, broadcast shape
        Heat transfer coefficient $h$ of one side. [W/(m2 K)]

    Validity
    --------
    Reynolds number up to 5e5, 200 <= film_temperature_K <= 400; ValidityError outside. Natural
    convection and radiation are one constant, 10 W/(m2 K) from memory.

    Source
    ------
    `nusselt_plate_laminar`; the third-power blend of forced and natural convection is a textbook
    rule.

    Examples
    --------
    A 40 mm board at 5 m/s:

    >>> film_coefficient_plate(5.0, 0.040, 320.0, 1.10)
    43.8
    """
    V, L, T, rho = np.broadcast_arrays(
        *(
            np.asarray(x, dtype=float)
            for x in (speed_m_s, length_m, film_temperature_K, density_kg_m3)
        )
    )
    Re = rho * np.abs(V) * L / np.asarray(viscosity_sutherland(T))
    Nu = np.asarray(nusselt_plate_laminar(Re, air_prandtl(T)))
    return as_real(_with_still_air(Nu * np.asarray(air_conductivity(T)) / L))


def board_temperature(
    loss_W: Real, area_m2: Real, film_coefficient_W_m2_K: Real, ambient_temperature_K: Real
) -> Real:
    r"""Steady mean temperature of a board that sheds a loss into air.

    $$ T = T_a + \frac{P}{h A} $$

    Parameters
    ----------
    loss_W : float or array, shape (...)
        Loss $P$ of the whole board. [W]
    area_m2 : float or array, shape (...)
        Area $A$ that air reaches, both sides where it does. [m2]
    film_coefficient_W_m2_K : float or array, shape (...)
        Heat transfer coefficient $h$ (`film_coefficient_plate`). [W/(m2 K)]
    ambient_temperature_K : float or array, shape (...)
        Air temperature $T_a$ in the bay. [K]

    Returns
    -------
    temperature_K : float or array, broadcast shape
        Mean board temperature $T$; its switches are hotter. [K]

    Validity
    --------
    film_coefficient_W_m2_K > 0. One temperature for the whole board, nothing carried off by
    screws and wires: on the warm side.

    Source
    ------
    Heat balance.

    Examples
    --------
    A board of 40 x 40 mm with both sides in air, 10 W at 40 W/(m2 K):

    >>> board_temperature(10.0, 0.0032, 40.0, 293.15)
    371.3
    """
    P, A, h, Ta = (
        np.asarray(x, dtype=float)
        for x in (loss_W, area_m2, film_coefficient_W_m2_K, ambient_temperature_K)
    )
    return as_real(Ta + P / (h * A))


def case_area(can_diameter_m: Real, can_length_m: Real) -> Real:
    r"""Area of a motor's outside that air reaches.

    $$ A = \pi D L + \tfrac{\pi}{4} D^2 $$

    Parameters
    ----------
    can_diameter_m : float or array, shape (...)
        Outside diameter $D$. [m]
    can_length_m : float or array, shape (...)
        Length $L$ without the shaft. [m]

    Returns
    -------
    area_m2 : float or array, broadcast shape
        Side and one end $A$; the other end is the mount. [m2]

    Validity
    --------
    A closed can. Openings let air through, which helps and is left out.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> case_area(0.034, 0.023) * 1e6
    3364.7
    """
    D, L = (np.asarray(x, dtype=float) for x in (can_diameter_m, can_length_m))
    return as_real(np.pi * D * L + 0.25 * np.pi * D**2)


def estimated_winding_conductance(stator_diameter_m: Real, stator_height_m: Real) -> Real:
    r"""Thermal conductance from a motor's winding to its case.

    $$ G_w = u \left(\pi D h + \tfrac{\pi}{2} D^2\right) $$

    Parameters
    ----------
    stator_diameter_m : float or array, shape (...)
        Stator diameter $D$. [m]
    stator_height_m : float or array, shape (...)
        Stator stack height $h$. [m]

    Returns
    -------
    conductance_W_K : float or array, broadcast shape
        Conductance $G_w$. [W/K]

    Validity
    --------
    Small outrunners at work, when the turning can stirs the air inside. Spread +-50 %
    (`WINDING_TO_CASE_SPREAD`): no published figure at hand.

    Source
    ------
    Our own sum over gap, end turns and base of a 28 x 8 mm motor, 600 W/(m2 K) on the stator's
    surface, from memory of such parts.

    Examples
    --------
    >>> estimated_winding_conductance(0.028, 0.008)
    1.16
    """
    D, h = (np.asarray(x, dtype=float) for x in (stator_diameter_m, stator_height_m))
    return as_real(_WINDING_TO_CASE_W_M2_K * (np.pi * D * h + 0.5 * np.pi * D**2))


def estimated_winding_heat_capacity(mass_kg: Real) -> Real:
    r"""Heat capacity of a motor's copper and stator.

    $$ C_w = 0.5\, m \times 430\ \mathrm{J/(kg\,K)} $$

    Parameters
    ----------
    mass_kg : float or array, shape (...)
        Mass $m$ of the motor. [kg]

    Returns
    -------
    heat_capacity_J_K : float or array, same shape
        Heat capacity $C_w$. [J/K]

    Validity
    --------
    Small outrunners; good to some 20 %.

    Source
    ------
    Memory of shares of mass and of heat capacities.

    Examples
    --------
    >>> estimated_winding_heat_capacity(0.056)
    12.0
    """
    return as_real(_INNER_MASS_SHARE * _INNER_J_KG_K * np.asarray(mass_kg, dtype=float))


def estimated_case_heat_capacity(mass_kg: Real) -> Real:
    r"""Heat capacity of a motor's can, magnets and base.

    $$ C_c = 0.5\, m \times 600\ \mathrm{J/(kg\,K)} $$

    Parameters
    ----------
    mass_kg : float or array, shape (...)
        Mass $m$ of the motor. [kg]

    Returns
    -------
    heat_capacity_J_K : float or array, same shape
        Heat capacity $C_c$. [J/K]

    Validity
    --------
    Small outrunners; good to some 20 %.

    Source
    ------
    Memory of shares of mass and of heat capacities.

    Examples
    --------
    >>> estimated_case_heat_capacity(0.056)
    16.8
    """
    return as_real((1.0 - _INNER_MASS_SHARE) * _CASE_J_KG_K * np.asarray(mass_kg, dtype=float))


def motor_temperatures(
    current_A: Real,
    resistance_ohm: Real,
    iron_loss_W: Real,
    winding_conductance_W_K: Real,
    case_conductance_W_K: Real,
    ambient_temperature_K: Real,
) -> MotorTemperatures:
    r"""Steady temperatures of a motor's winding and case at a current.

    $$ T_w = T_a + \frac{i^2 R_a + P_i}{G - \alpha i^2 R_{20}}, \quad
       \frac1G = \frac1{G_w} + \frac1{G_c}, \quad
       T_c = T_a + \frac{G}{G_c} (T_w - T_a) $$

    Parameters
    ----------
    current_A : float or array, shape (...)
        Motor current $i$. [A]
    resistance_ohm : float or array, shape (...)
        Winding resistance $R_{20}$ at 20 degC; $R_a$ is its value at $T_a$. [ohm]
    iron_loss_W : float or array, shape (...)
        No-load loss $P_i$ at this speed, all of it in the stator. [W]
    winding_conductance_W_K : float or array, shape (...)
        Conductance $G_w$ from winding to case. [W/K]
    case_conductance_W_K : float or array, shape (...)
        Conductance $G_c$ from case to air: film coefficient times area. [W/K]
    ambient_temperature_K : float or array, shape (...)
        Air temperature $T_a$. [K]

    Returns
    -------
    temperatures : MotorTemperatures
        Arrays of the broadcast shape, and where a steady state exists. [-]

    Validity
    --------
    Two nodes, each of one temperature; all heat leaves through the case. Linear in the winding's
    resistance, hence exact and without iteration. A dash of half a minute stays well below:
    `motor_temperatures_after`.

    Source
    ------
    Heat balance with the copper coefficient of IEC 60028.

    Examples
    --------
    40 A, 29 mohm, 40 W of iron loss, 1.16 and 0.8 W/K, at 20 degC:

    >>> float(motor_temperatures(40.0, 0.029, 40.0, 1.16, 0.8, 293.15).winding_K)
    589.9
    """
    I, R, Pi, Gw, Gc, Ta = np.broadcast_arrays(  # noqa: E741
        *(
            np.asarray(x, dtype=float)
            for x in (
                current_A,
                resistance_ohm,
                iron_loss_W,
                winding_conductance_W_K,
                case_conductance_W_K,
                ambient_temperature_K,
            )
        )
    )
    alpha = COPPER_TEMPERATURE_COEFFICIENT_PER_K
    G = Gw * Gc / (Gw + Gc)
    left = G - alpha * I**2 * R
    steady = np.asarray(left > 0.0)
    cold = I**2 * R * (1.0 + alpha * (Ta - T20_K)) + Pi
    rise = np.divide(cold, left, out=np.full_like(left, np.nan), where=steady)
    return MotorTemperatures(winding_K=Ta + rise, case_K=Ta + rise * G / Gc, steady=steady)


def motor_temperatures_after(
    duration_s: Real,
    winding_temperature_K: Real,
    case_temperature_K: Real,
    current_A: Real,
    resistance_ohm: Real,
    iron_loss_W: Real,
    winding_conductance_W_K: Real,
    case_conductance_W_K: Real,
    winding_heat_capacity_J_K: Real,
    case_heat_capacity_J_K: Real,
    ambient_temperature_K: Real,
) -> MotorTemperatures:
    r"""Temperatures of a motor's winding and case after a time at constant current and cooling.

    $$ C_w \dot T_w = i^2 R(T_w) + P_i - G_w (T_w - T_c), \quad
       C_c \dot T_c = G_w (T_w - T_c) - G_c (T_c - T_a) $$

    Parameters
    ----------
    duration_s : float or array, shape (...)
        Time since the start. [s]
    winding_temperature_K : float or array, shape (...)
        Winding temperature $T_w$ at the start. [K]
    case_temperature_K : float or array, shape (...)
        Case temperature $T_c$ at the start. [K]
    current_A : float or array, shape (...)
        Motor current $i$. [A]
    resistance_ohm : float or array, shape (...)
        Winding resistance at 20 degC. [ohm]
    iron_loss_W : float or array, shape (...)
        No-load loss $P_i$ at this speed. [W]
    winding_conductance_W_K : float or array, shape (...)
        Conductance $G_w$ from winding to case. [W/K]
    case_conductance_W_K : float or array, shape (...)
        Conductance $G_c$ from case to air. [W/K]
    winding_heat_capacity_J_K : float or array, shape (...)
        Heat capacity $C_w$ of copper and stator. [J/K]
    case_heat_capacity_J_K : float or array, shape (...)
        Heat capacity $C_c$ of can, magnets and base. [J/K]
    ambient_temperature_K : float or array, shape (...)
        Air temperature $T_a$. [K]

    Returns
    -------
    temperatures : MotorTemperatures
        Arrays of the broadcast shape; `steady` says whether they will ever settle. [-]

    Validity
    --------
    Exact solution of the two linear equations, for any time in one step, also where no steady
    state exists (temperatures then grow without bound, as they would).

    Source
    ------
    Heat balance of two nodes; matrix exponential of two equations in closed form.

    Examples
    --------
    The motor of `motor_temperatures` after 20 s from cold:

    >>> float(motor_temperatures_after(20.0, 293.15, 293.15, 40.0, 0.029, 40.0, 1.16, 0.8,
    ...                                12.0, 16.8, 293.15).winding_K)
    383.3
    """
    t, Tw, Tc, I, R, Pi, Gw, Gc, Cw, Cc, Ta = (  # noqa: E741
        np.asarray(x, dtype=float)
        for x in (
            duration_s,
            winding_temperature_K,
            case_temperature_K,
            current_A,
            resistance_ohm,
            iron_loss_W,
            winding_conductance_W_K,
            case_conductance_W_K,
            winding_heat_capacity_J_K,
            case_heat_capacity_J_K,
            ambient_temperature_K,
        )
    )
    slope = COPPER_TEMPERATURE_COEFFICIENT_PER_K * I**2 * R  # loss per kelvin of the winding
    heat = I**2 * R * (1.0 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (Ta - T20_K)) + Pi
    # x' = A x + b for x = temperatures above ambient
    a11, a12 = (slope - Gw) / Cw, Gw / Cw
    a21, a22 = Gw / Cc, -(Gw + Gc) / Cc
    half_trace, det = 0.5 * (a11 + a22), a11 * a22 - a12 * a21
    root = np.sqrt(half_trace**2 - det)  # real: a12 and a21 have one sign
    fast, slow = np.exp((half_trace - root) * t), np.exp((half_trace + root) * t)
    even, odd = 0.5 * (slow + fast), (slow - fast) / (2.0 * root)
    end_w, end_c = -(heat / Cw) * a22 / det, (heat / Cw) * a21 / det  # where x' = 0
    w, c = Tw - Ta - end_w, Tc - Ta - end_c
    winding = Ta + end_w + even * w + odd * ((a11 - half_trace) * w + a12 * c)
    return MotorTemperatures(
        winding_K=winding,
        case_K=Ta + end_c + even * c + odd * (a21 * w + (a22 - half_trace) * c),
        steady=np.broadcast_to(det > 0.0, np.shape(winding)),
    )


def case_conductance(
    speed_m_s: Real,
    rim_speed_m_s: Real,
    can_diameter_m: Real,
    can_length_m: Real,
    ambient_temperature_K: Real,
    density_kg_m3: Real,
) -> Real:
    r"""Thermal conductance from a turning motor's case to the air that passes it.

    $$ G_c = h(V_e, D) A, \quad V_e = \sqrt{V^2 + (\omega D / 2)^2} $$

    Parameters
    ----------
    speed_m_s : float or array, shape (...)
        Air speed $V$ past the motor: slipstream, or less inside a fairing. [m/s]
    rim_speed_m_s : float or array, shape (...)
        Speed of the can's surface; 0 leaves rotation out. [m/s]
    can_diameter_m : float or array, shape (...)
        Outside diameter $D$. [m]
    can_length_m : float or array, shape (...)
        Length without the shaft. [m]
    ambient_temperature_K : float or array, shape (...)
        Air temperature; the film is taken 30 K warmer. [K]
    density_kg_m3 : float or array, shape (...)
        Density of that air. [kg/m3]

    Returns
    -------
    conductance_W_K : float or array, broadcast shape
        Conductance $G_c$. [W/K]

    Validity
    --------
    As `film_coefficient_cylinder`; 30 K more or less in the film changes it by 2 %. That the
    surface speed adds to the air's at right angles is our own reasoning; measurements on small
    outrunners (F. Saemi and others, *Aerospace* 11, 2024, 401, abstract seen) find both to matter.

    Source
    ------
    `film_coefficient_cylinder` and `case_area`.

    Examples
    --------
    A 34 x 23 mm can at 80 m/s, its rim at 68 m/s:

    >>> case_conductance(80.0, 68.0, 0.034, 0.023, 293.15, 1.204)
    0.96
    """
    V = np.hypot(np.asarray(speed_m_s, dtype=float), np.asarray(rim_speed_m_s, dtype=float))
    Ta, rho = (np.asarray(x, dtype=float) for x in (ambient_temperature_K, density_kg_m3))
    film = Ta + 30.0
    h = film_coefficient_cylinder(V, can_diameter_m, film, rho * Ta / film)
    return as_real(np.asarray(h) * np.asarray(case_area(can_diameter_m, can_length_m)))
