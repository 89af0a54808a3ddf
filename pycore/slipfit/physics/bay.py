"""Boards in a bay: the air that reaches them, how warm they get, and the capacitor beside them."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.numerics import Real, as_real
from slipfit.physics.heat import HEAT_CAPACITY_AIR_J_KG_K, air_prandtl

_BOARD_J_KG_K: Final = 800.0  # glass laminate 1000, copper 385, ceramics and silicon 800; memory


def recovery_temperature(air_temperature_K: Real, speed_m_s: Real) -> Real:
    r"""Temperature that moving air takes at a wall which sheds no heat.

    $$ T_r = T + r \frac{V^2}{2 c_p}, \quad r = \sqrt{\mathrm{Pr}} $$

    Parameters
    ----------
    air_temperature_K : float or array, shape (...)
        Temperature $T$ of the air at rest far away. [K]
    speed_m_s : float or array, shape (...)
        Speed $V$ of the air past the wall; its sign does not matter. [m/s]

    Returns
    -------
    temperature_K : float or array, broadcast shape
        Recovery temperature $T_r$: what convection works against. [K]

    Validity
    --------
    200 <= air_temperature_K <= 400; ValidityError outside. Laminar boundary layer of a perfect
    gas with 1004.7 J/(kg K); a turbulent one recovers a little more (cube root of Pr).

    Source
    ------
    Textbook result for the flat plate (E. Pohlhausen, 1921); the paper was not at hand.

    Examples
    --------
    At 100 m/s air arrives about 4 K warmer:

    >>> recovery_temperature(288.15, 100.0) - 288.15
    4.2
    """
    T, V = (np.asarray(x, dtype=float) for x in (air_temperature_K, speed_m_s))
    r = np.sqrt(np.asarray(air_prandtl(T)))
    return as_real(T + r * V**2 / (2.0 * HEAT_CAPACITY_AIR_J_KG_K))


def ducted_air_speed(speed_m_s: Real, inlet_area_m2: Real, capture: Real, section_m2: Real) -> Real:
    r"""Speed of cooling air in a duct that an inlet feeds.

    $$ v = \frac{k A_i V}{A_s} $$

    Parameters
    ----------
    speed_m_s : float or array, shape (...)
        Speed $V$ of the air that meets the inlet; backwards counts the same. [m/s]
    inlet_area_m2 : float or array, shape (...)
        Area $A_i$ of all inlets. [m2]
    capture : float or array, shape (...)
        Speed through the inlet over the speed of flight, $k$. [-]
    section_m2 : float or array, shape (...)
        Free section $A_s$ of the duct beside the boards. [m2]

    Returns
    -------
    speed_m_s : float or array, broadcast shape
        Mean speed $v$ past the boards. [m/s]

    Validity
    --------
    section_m2 > 0, low Mach numbers. Air that finds a way around the boards is not counted off.

    Source
    ------
    Continuity of an incompressible flow.

    Examples
    --------
    180 mm2 of inlet feeding 12 cm2 at 60 m/s:

    >>> ducted_air_speed(60.0, 180e-6, 0.6, 12e-4)
    5.4
    """
    V, A, k, S = (
        np.asarray(x, dtype=float) for x in (speed_m_s, inlet_area_m2, capture, section_m2)
    )
    return as_real(k * A * np.abs(V) / S)


def estimated_board_heat_capacity(mass_kg: Real) -> Real:
    r"""Heat capacity of an electronic board.

    $$ C = m \times 800\ \mathrm{J/(kg\,K)} $$

    Parameters
    ----------
    mass_kg : float or array, shape (...)
        Mass $m$ of the board with everything on it. [kg]

    Returns
    -------
    heat_capacity_J_K : float or array, same shape
        Heat capacity $C$. [J/K]

    Validity
    --------
    Boards without a block of metal on them; good to some 20 %.

    Source
    ------
    Memory of heat capacities of laminate, copper and ceramics.

    Examples
    --------
    >>> estimated_board_heat_capacity(0.016)
    12.8
    """
    return as_real(_BOARD_J_KG_K * np.asarray(mass_kg, dtype=float))


def board_temperature_after(
    duration_s: Real,
    temperature_K: Real,
    loss_W: Real,
    conductance_W_K: Real,
    heat_capacity_J_K: Real,
    ambient_temperature_K: Real,
) -> Real:
    r"""Temperature of a board after a time at constant loss and cooling.

    $$ C \dot T = P - G (T - T_a) $$

    Parameters
    ----------
    duration_s : float or array, shape (...)
        Time since the start. [s]
    temperature_K : float or array, shape (...)
        Temperature at the start. [K]
    loss_W : float or array, shape (...)
        Loss $P$ of the whole board. [W]
    conductance_W_K : float or array, shape (...)
        Conductance $G$ to the air: film coefficient times area. [W/K]
    heat_capacity_J_K : float or array, shape (...)
        Heat capacity $C$ (`estimated_board_heat_capacity`). [J/K]
    ambient_temperature_K : float or array, shape (...)
        Temperature $T_a$ of the air that passes. [K]

    Returns
    -------
    temperature_K : float or array, broadcast shape
        Mean temperature $T$ of the board; its switches are hotter. [K]

    Validity
    --------
    conductance_W_K > 0. One temperature for the board; for a long time it tends to
    `heat.board_temperature`. Exact for any time in one step.

    Source
    ------
    Heat balance of one node.

    Examples
    --------
    20 W on a board of 12.8 J/K with 0.13 W/K to air of 20 degC, after a minute:

    >>> board_temperature_after(60.0, 293.15, 20.0, 0.13, 12.8, 293.15)
    363.4
    """
    t, T0, P, G, C, Ta = (
        np.asarray(x, dtype=float)
        for x in (
            duration_s,
            temperature_K,
            loss_W,
            conductance_W_K,
            heat_capacity_J_K,
            ambient_temperature_K,
        )
    )
    end = Ta + P / G
    return as_real(end + (T0 - end) * np.exp(-t * G / C))


def bus_capacitance(current_A: Real, duty: Real, pwm_frequency_Hz: Real, ripple_V: Real) -> Real:
    r"""Capacitance that keeps the ripple which an ESC chops onto its supply within a bound.

    $$ C = \frac{I D (1 - D)}{f\, \Delta V} $$

    Parameters
    ----------
    current_A : float or array, shape (...)
        Motor current $I$ of all channels together. [A]
    duty : float or array, shape (...)
        Duty $D$ of the channels, 0 to 1. [-]
    pwm_frequency_Hz : float or array, shape (...)
        Switching frequency $f$. [Hz]
    ripple_V : float or array, shape (...)
        Allowed ripple $\Delta V$, peak to peak. [V]

    Returns
    -------
    capacitance_F : float or array, broadcast shape
        Capacitance $C$. [F]

    Validity
    --------
    0 <= duty <= 1. All channels switch together, which is the worst case; the pack gives the mean
    current only, its leads keep the rest out. The resistance of the capacitor adds to the ripple
    and is left out: choose one made for switching.

    Source
    ------
    Charge balance at the input of a step-down chopper, as textbooks of power electronics have it.

    Examples
    --------
    Four channels of 20 A at half duty, 48 kHz, half a volt:

    >>> bus_capacitance(80.0, 0.5, 48e3, 0.5) * 1e6
    833.
    """
    I, D, f, dV = (  # noqa: E741
        np.asarray(x, dtype=float) for x in (current_A, duty, pwm_frequency_Hz, ripple_V)
    )
    return as_real(I * D * (1.0 - D) / (f * dV))
