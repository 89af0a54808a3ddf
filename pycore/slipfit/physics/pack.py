"""Pack: open-circuit voltage, resistance over temperature and charge, sag, energy, estimates.

Charge is the charge left over the cell's full charge, 1 when full, 0 when empty.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from slipfit.constants import ZERO_CELSIUS_K
from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real, pchip_slopes

# Open-circuit voltage of a lithium cobalt oxide / graphite pouch cell at 25 degC, full at 4.2 V:
# charge [%], voltage [V]. Every knot is a row of the published parameter set Ai2020
# (tests/data/pack_ocv_soc.csv, computed), the one of the two sets at hand that is a 4.2 V pouch
# cell of the chemistry of polymer packs. The last two rows, for cells filled past 4.2 V, carry on
# at 1.2 V for a full charge, the slope of the last tenth rounded (memory: filling to 4.35 V adds
# 10 to 13 % of charge).
_OCV: Final = (
    (0, 3.0), (1, 3.21918), (2, 3.33876), (3, 3.42394), (4, 3.4893), (5, 3.54206),
    (6, 3.58251), (7, 3.60945), (8, 3.62501), (10, 3.63956), (12, 3.64756), (14, 3.65722),
    (16, 3.67327), (20, 3.69538), (25, 3.71676), (30, 3.73309), (35, 3.74813), (40, 3.76219),
    (45, 3.7763), (50, 3.79251), (55, 3.81216), (60, 3.83646), (65, 3.8675), (70, 3.90889),
    (75, 3.95195), (80, 3.99448), (85, 4.04086), (90, 4.08795), (95, 4.13836), (98, 4.17002),
    (100, 4.2), (112.5, 4.35), (125, 4.5),
)  # fmt: skip
FULL_CELL_V: Final = 4.2
NOMINAL_CELL_V: Final = 3.7  # convention

# Resistance over temperature: a share that does not change (foils, tabs, contacts) and one that
# is thermally activated, R/R25 = a + (1 - a) exp[E (1/T - 1/T25)].
_RESISTANCE_TEMPERATURE: Final = (0.15, 2440.0)  # a, E [K]
T25_K: Final = ZERO_CELSIUS_K + 25.0

# Resistance over charge, 1 at half charge: mean of both parameter sets, 1 s pulses at 25 degC
# (tests/data/pack_resistance_ratio.csv, computed); below 10 % from memory.
_RESISTANCE_CHARGE: Final = (
    (0.0, 2.3), (0.05, 1.65), (0.10, 1.336), (0.20, 1.172), (0.50, 1.0), (0.80, 0.993),
    (0.90, 1.019), (0.95, 1.065), (1.0, 1.11),
)  # fmt: skip

_RESISTANCE_CAPACITY_OHM_C: Final = 0.0033 * 3600.0  # 3.3 mohm Ah; memory: 2 to 5 for power cells
CELL_RESISTANCE_SPREAD: Final = 0.45  # half-width of the 10-90 % range of that estimate; memory
_ENERGY_OF_MASS_J_KG: Final = 150.0 * 3600.0  # low end of 150 to 200 Wh/kg of cells (seen)
_LEADS_KG: Final = 0.020  # leads, connector, balance plug, wrap; memory
MASS_SPREAD: Final = 0.12  # half-width of the 10-90 % range of that estimate; memory
HEAT_CAPACITY_J_KG_K: Final = 1000.0  # of a pouch cell; memory: 900 to 1100

# One resistor and capacitor in series with the rest: how sag grows in the first half minute.
# From R(10 s)/R(1 s) = 1.10 at 25 degC, half charge, of the parameter set used for the voltage.
POLARISATION_SHARE: Final = 0.22  # of the resistance after 1 s
POLARISATION_TIME_S: Final = 12.0

# What cycles take from a cell, as a published law of a laboratory's cells has it: factors of the
# square of the distance of the mean voltage from a best one [V], of nothing, and of the depth.
_FADE: Final = (7.348e-3, 3.667, 7.600e-4, 4.081e-3)  # of capacity, for the root of a throughput
_GROWTH: Final = (2.153e-4, 3.725, -1.521e-5, 2.798e-4)  # of resistance, for a throughput
_LAW_CELL_AH: Final = 2.05  # that a cycle moves twice; the law counts ampere-hours
FLOWN_DEPTH: Final = 0.8  # of a flight; common practice, no source
# A flight at the currents of a fast frame ages a pack as this many of the law's cycles, which are
# of an hour each way: a fifth of the capacity is then gone after 250 flights, the middle of the 200
# to 300 that people count (seen, weak web source).
CYCLES_OF_A_FLIGHT: Final = 2.7
# Half-width of the 10-90 % range of what a pack has lost, over that. Judgement: a fifth is gone
# after 25 flights at the greatest current or 500 at half of it (a packs' handbook, seen quoted).
AGE_SPREAD: Final = 0.6


def _cubics(knots: tuple[tuple[float, float], ...], scale: float) -> tuple[Array, Array, Array]:
    """Knots, cubic coefficients (4, n-1) of the shape-preserving curve, its integral at knots."""
    x, y = np.array(knots, dtype=float).T
    x = x * scale
    h, d, m = np.diff(x), np.diff(y) / np.diff(x), pchip_slopes(x, y)
    c = np.array(
        [y[:-1], m[:-1], (3 * d - 2 * m[:-1] - m[1:]) / h, (m[:-1] + m[1:] - 2 * d) / h**2]
    )
    area = c[0] * h + c[1] * h**2 / 2 + c[2] * h**3 / 3 + c[3] * h**4 / 4
    return x, c, np.concatenate([[0.0], np.cumsum(area)])


_OCV_X, _OCV_C, _OCV_AREA = _cubics(_OCV, 0.01)
_RATIO_X, _RATIO_C, _ = _cubics(_RESISTANCE_CHARGE, 1.0)


def _value(x: Array, c: Array, at: Array) -> Array:
    k = np.clip(
        np.searchsorted(x, at, side="right") - 1, 0, len(x) - 2
    )  # the end belongs to the last piece
    t = at - x[k]
    return np.asarray(c[0][k] + t * (c[1][k] + t * (c[2][k] + t * c[3][k])))


def _area(at: Array) -> Array:
    """Integral of the open-circuit voltage from empty."""
    k = np.clip(np.searchsorted(_OCV_X, at, side="right") - 1, 0, len(_OCV_X) - 2)
    t, c = at - _OCV_X[k], _OCV_C
    return np.asarray(
        _OCV_AREA[k] + t * (c[0][k] + t * (c[1][k] / 2 + t * (c[2][k] / 3 + t * c[3][k] / 4)))
    )


_FULL_X: Final = np.linspace(
    0.8, 1.25, 1801
)  # to find where a cell is full; 0.25 mV between points
_FULL_V: Final = _value(_OCV_X, _OCV_C, _FULL_X)


def _full_charge(who: str, full_cell_V: Real) -> Array:
    """Charge on the 4.2 V cell's axis at which a cell is full."""
    require_range(who, "full_cell_V", full_cell_V, 4.0, 4.45, "lithium cobalt oxide and graphite")
    return np.asarray(np.interp(full_cell_V, _FULL_V, _FULL_X))


@dataclass(frozen=True, kw_only=True)
class PackState:
    """A pack under load; nan where `deliverable` is false."""

    voltage_V: Array
    current_A: Array
    power_W: Array
    heat_W: Array
    deliverable: NDArray[np.bool_]  # false where no current gives the power that was asked


def cell_ocv(charge: Real, full_cell_V: Real = FULL_CELL_V) -> Real:
    r"""Open-circuit voltage of a high-power lithium-polymer cell.

    $$ U(s) = U_{4.2}(s\, s_f), \quad U_{4.2}(s_f) = V_f $$

    Parameters
    ----------
    charge : float or array, shape (...)
        Charge $s$ left over the full charge, 0 to 1. [-]
    full_cell_V : float or array, shape (...)
        Voltage $V_f$ to which a full cell is charged. [V]

    Returns
    -------
    cell_ocv_V : float or array, broadcast shape
        Open-circuit voltage $U$ of one cell after rest. [V]

    Validity
    --------
    0 <= charge <= 1 and 4.0 <= full_cell_V <= 4.45; ValidityError outside. A cobalt oxide and
    graphite pouch cell at 25 degC; makes differ by some 30 mV in the middle, and temperature
    moves it by less than 10 mV. Between knots a monotone cubic, within 1.2 mV of all 101 rows
    of the table. A cell filled past 4.2 V uses more of the same electrodes: its charge axis is
    stretched (to 4.35 V by an eighth), which is our own reasoning.

    Source
    ------
    Parameter set Ai2020 of a published porous-electrode model (tests/data/pack_ocv_soc.csv,
    computed). The other set at hand is a 4.1 V cell with a flat middle, not a power pouch cell.

    Examples
    --------
    The table gives 3.79251 V at half charge:

    >>> cell_ocv(0.5)
    3.79251
    """
    require_range("cell_ocv", "charge", charge, 0.0, 1.0, "empty to full")
    full = _full_charge("cell_ocv", full_cell_V)
    return as_real(_value(_OCV_X, _OCV_C, np.asarray(charge, dtype=float) * full))


def cell_resistance_ratio(temperature_K: Real, charge: Real = 0.5) -> Real:
    r"""Resistance of a cell over its value at 25 degC and half charge.

    $$ \frac{R}{R_{25}} = \left[a + (1 - a)
       \exp E\left(\frac1T - \frac1{T_{25}}\right)\right] g(s) $$

    Parameters
    ----------
    temperature_K : float or array, shape (...)
        Cell temperature $T$. [K]
    charge : float or array, shape (...)
        Charge $s$ left over the full charge, 0 to 1. [-]

    Returns
    -------
    ratio : float or array, broadcast shape
        Resistance ratio, 1 at 25 degC and half charge. [-]

    Validity
    --------
    248.15 <= temperature_K <= 338.15 and 0 <= charge <= 1; ValidityError outside. Fit of our own
    (a = 0.15, E = 2440 K) to 24 rows of the set Marquis2019 from -10 to 25 degC, residual 5 % rms:
    a factor 2.7 at -10 degC. The set Ai2020 gives 1.24 there because only its electrolyte
    depends on temperature. Above 25 degC the fit is continued and lies between the two sets.
    Charge factor g: mean of both, below 10 % charge from memory.

    Source
    ------
    Two published parameter sets of a porous-electrode model, 1 s and 10 s pulses
    (tests/data/pack_resistance_ratio.csv, computed).

    Examples
    --------
    >>> cell_resistance_ratio(263.15)
    2.67
    """
    require_range(
        "cell_resistance_ratio",
        "temperature_K",
        temperature_K,
        248.15,
        338.15,
        "pulse data from -10 to 55 degC",
    )
    require_range("cell_resistance_ratio", "charge", charge, 0.0, 1.0, "empty to full")
    a, E = _RESISTANCE_TEMPERATURE
    T = np.asarray(temperature_K, dtype=float)
    warm = a + (1.0 - a) * np.exp(E * (1.0 / T - 1.0 / T25_K))
    return as_real(warm * _value(_RATIO_X, _RATIO_C, np.asarray(charge, dtype=float)))


def pack_at_current(
    open_circuit_voltage_V: Real, resistance_ohm: Real, current_A: Real
) -> PackState:
    r"""State of a pack that gives a current.

    $$ V = U - I R $$

    Parameters
    ----------
    open_circuit_voltage_V : float or array, shape (...)
        Open-circuit voltage $U$ of the pack. [V]
    resistance_ohm : float or array, shape (...)
        Resistance $R$ of cells in series, leads and connector. [ohm]
    current_A : float or array, shape (...)
        Current $I$ out of the pack. [A]

    Returns
    -------
    state : PackState
        Arrays of the broadcast shape. [-]

    Validity
    --------
    Any current; `deliverable` is false where the voltage would not be positive.

    Source
    ------
    Ohm's law.

    Examples
    --------
    >>> float(pack_at_current(25.2, 0.020, 100.0).voltage_V)
    23.2
    """
    U, R, I = np.broadcast_arrays(  # noqa: E741
        *(np.asarray(x, dtype=float) for x in (open_circuit_voltage_V, resistance_ohm, current_A))
    )
    V = U - I * R
    good = np.asarray(V > 0.0)
    V = np.where(good, V, np.nan)
    I = np.where(good, I, np.nan)  # noqa: E741
    return PackState(voltage_V=V, current_A=I, power_W=V * I, heat_W=I**2 * R, deliverable=good)


def pack_at_power(open_circuit_voltage_V: Real, resistance_ohm: Real, power_W: Real) -> PackState:
    r"""State of a pack that gives a power.

    $$ I = \frac{2 P}{U + \sqrt{U^2 - 4 R P}}, \quad V = U - I R $$

    Parameters
    ----------
    open_circuit_voltage_V : float or array, shape (...)
        Open-circuit voltage $U$ of the pack. [V]
    resistance_ohm : float or array, shape (...)
        Resistance $R$ of cells in series, leads and connector. [ohm]
    power_W : float or array, shape (...)
        Power $P$ at the terminals. [W]

    Returns
    -------
    state : PackState
        Arrays of the broadcast shape; `deliverable` is false where $P > U^2 / 4R$. [-]

    Validity
    --------
    open_circuit_voltage_V > 0. The smaller of the two currents, the one that a falling load leads
    to; the form has no 0/0 for an ideal pack (R = 0).

    Source
    ------
    Ohm's law and P = V I, solved for the current.

    Examples
    --------
    >>> float(pack_at_power(25.2, 0.020, 2320.0).current_A)
    100.0
    """
    U, R, P = np.broadcast_arrays(
        *(np.asarray(x, dtype=float) for x in (open_circuit_voltage_V, resistance_ohm, power_W))
    )
    square = U**2 - 4.0 * R * P
    good = np.asarray(square >= 0.0)
    root = np.sqrt(np.where(good, square, np.nan))
    I = 2.0 * P / (U + root)  # noqa: E741
    V = U - I * R
    return PackState(voltage_V=V, current_A=I, power_W=V * I, heat_W=I**2 * R, deliverable=good)


def greatest_power(open_circuit_voltage_V: Real, resistance_ohm: Real) -> Real:
    r"""Greatest power that a pack can give, at half its open-circuit voltage.

    $$ P_{max} = \frac{U^2}{4 R} $$

    Parameters
    ----------
    open_circuit_voltage_V : float or array, shape (...)
        Open-circuit voltage $U$ of the pack. [V]
    resistance_ohm : float or array, shape (...)
        Resistance $R$ of cells in series, leads and connector. [ohm]

    Returns
    -------
    power_W : float or array, broadcast shape
        Greatest power at the terminals. [W]

    Validity
    --------
    resistance_ohm > 0. No pack is meant to work there: half the energy heats it.

    Source
    ------
    Maximum power transfer, Ohm's law.

    Examples
    --------
    >>> greatest_power(25.2, 0.020)
    7938.0
    """
    U, R = (np.asarray(x, dtype=float) for x in (open_circuit_voltage_V, resistance_ohm))
    return as_real(U**2 / (4.0 * R))


def pack_resistance(
    cell_resistance_ohm: Real, cell_count: Real, parallel_count: Real = 1.0
) -> Real:
    r"""Resistance of the cells of a pack.

    $$ R = \frac{n_s}{n_p} R_c $$

    Parameters
    ----------
    cell_resistance_ohm : float or array, shape (...)
        Resistance $R_c$ of one cell at its temperature and charge. [ohm]
    cell_count : float or array, shape (...)
        Cells $n_s$ in series. [-]
    parallel_count : float or array, shape (...)
        Cells $n_p$ in parallel; 1 if the resistance is that of a whole parallel group. [-]

    Returns
    -------
    resistance_ohm : float or array, broadcast shape
        Resistance $R$ of all cells, without leads. [ohm]

    Validity
    --------
    Equal cells.

    Source
    ------
    Ohm's law.

    Examples
    --------
    >>> pack_resistance(0.002, 6)
    0.012
    """
    Rc, ns, np_ = (
        np.asarray(x, dtype=float) for x in (cell_resistance_ohm, cell_count, parallel_count)
    )
    return as_real(Rc * ns / np_)


def polarisation_voltage(
    start_V: Real, current_A: Real, resistance_ohm: Real, duration_s: Real
) -> Real:
    r"""Voltage of the pack's slow element after a time at constant current.

    $$ v = v_0 e^{-t/\tau} + I R_1 \left(1 - e^{-t/\tau}\right), \quad R_1 = 0.22\, R $$

    Parameters
    ----------
    start_V : float or array, shape (...)
        Voltage $v_0$ at the start; 0 after rest. [V]
    current_A : float or array, shape (...)
        Current $I$ during the time. [A]
    resistance_ohm : float or array, shape (...)
        Resistance $R$ of the cells as a 1 s pulse shows it. [ohm]
    duration_s : float or array, shape (...)
        Time $t$. [s]

    Returns
    -------
    polarisation_V : float or array, broadcast shape
        Voltage $v$ by which the terminals lie lower than `pack_at_current` says. [V]

    Validity
    --------
    duration_s >= 0. One resistor and capacitor with a time of 12 s, chosen so that a pulse of
    10 s shows 1.10 times the resistance of one of 1 s, as the table does at half charge.

    Source
    ------
    First-order circuit; the ratio from the set Ai2020 (tests/data/pack_resistance_ratio.csv,
    computed), the time from memory.

    Examples
    --------
    100 A through 20 mohm for a minute:

    >>> polarisation_voltage(0.0, 100.0, 0.020, 60.0)
    0.437
    """
    v0, I, R, t = (  # noqa: E741
        np.asarray(x, dtype=float) for x in (start_V, current_A, resistance_ohm, duration_s)
    )
    decay = np.exp(-t / POLARISATION_TIME_S)
    return as_real(v0 * decay + I * POLARISATION_SHARE * R * (1.0 - decay))


def usable_energy(
    capacity_C: Real,
    cell_count: Real,
    charge_from: Real = 1.0,
    charge_to: Real = 0.2,
    full_cell_V: Real = FULL_CELL_V,
    current_A: Real = 0.0,
    resistance_ohm: Real = 0.0,
) -> Real:
    r"""Energy that a pack gives between two charges at a constant current.

    $$ E = n_s Q \int_{s_1}^{s_0} U(s)\, ds - I R\, Q (s_0 - s_1) $$

    Parameters
    ----------
    capacity_C : float or array, shape (...)
        Charge $Q$ of the full pack. [C]
    cell_count : float or array, shape (...)
        Cells $n_s$ in series. [-]
    charge_from : float or array, shape (...)
        Charge $s_0$ at the start, 0 to 1. [-]
    charge_to : float or array, shape (...)
        Charge $s_1$ at the end, 0 to 1. [-]
    full_cell_V : float or array, shape (...)
        Voltage to which a full cell is charged. [V]
    current_A : float or array, shape (...)
        Mean current $I$; 0 gives the stored energy. [A]
    resistance_ohm : float or array, shape (...)
        Resistance $R$ of the pack, its mean over the discharge. [ohm]

    Returns
    -------
    energy_J : float or array, broadcast shape
        Energy $E$ at the terminals. [J]

    Validity
    --------
    0 <= charge <= 1, 4.0 <= full_cell_V <= 4.45; ValidityError outside. Exact integral of the
    curve of `cell_ocv`. At currents where sag reaches the voltage limit early, less is usable.

    Source
    ------
    Definition; the curve is that of `cell_ocv`.

    Examples
    --------
    Six cells of 1.5 Ah, all that is stored, in J:

    >>> usable_energy(5400.0, 6, 1.0, 0.0)
    123772.1
    """
    who = "usable_energy"
    require_range(who, "charge_from", charge_from, 0.0, 1.0, "empty to full")
    require_range(who, "charge_to", charge_to, 0.0, 1.0, "empty to full")
    full = _full_charge(who, full_cell_V)
    Q, ns, s0, s1, I, R = (  # noqa: E741
        np.asarray(x, dtype=float)
        for x in (capacity_C, cell_count, charge_from, charge_to, current_A, resistance_ohm)
    )
    mean = (_area(s0 * full) - _area(s1 * full)) / full
    return as_real(Q * (ns * mean - I * R * (s0 - s1)))


def cycled_capacity(cycles: Real, depth: Real = FLOWN_DEPTH, mean_cell_V: Real = 3.85) -> Real:
    r"""Capacity of a cell after cycles over that of the new cell.

    $$ \frac{Q}{Q_0} = 1 - \left[7.348\,10^{-3} (\bar V - 3.667)^2 + 7.6\,10^{-4}
       + 4.081\,10^{-3} D\right] \sqrt{2 \cdot 2.05\, D N} $$

    Parameters
    ----------
    cycles : float or array, shape (...)
        Cycles $N$ since the cell was new. [-]
    depth : float or array, shape (...)
        Share $D$ of the capacity that each takes and gives back, 0 to 1. [-]
    mean_cell_V : float or array, shape (...)
        Quadratic mean $\bar V$ of the cell's voltage over a cycle. [V]

    Returns
    -------
    ratio : float or array, broadcast shape
        Capacity ratio, 1 for a new cell. [-]

    Validity
    --------
    0 <= cycles <= 2000 and 0 <= depth <= 1; ValidityError outside. Measured on cylindrical cells
    of 2.05 Ah at 35 degC and one capacity an hour; the law knows neither current nor warmth. Packs
    of fast frames lose as much in about 2.7 times fewer flights (`CYCLES_OF_A_FLIGHT`), to
    +-60 % of the loss (`AGE_SPREAD`). Cells that are near their end fall faster than the root.

    Source
    ------
    J. Schmalstieg et al., *J. Power Sources* 257, 2014, 325-334: law and coefficients as two
    public programs repeat them (seen); that the ampere-hours are those of a cell of 2.05 Ah, both
    ways, from one of these.

    Examples
    --------
    After 100 cycles of four fifths:

    >>> cycled_capacity(100.0)
    0.923
    """
    moved, D, V = _aged("cycled_capacity", cycles, depth, mean_cell_V)
    a, best, b, c = _FADE
    return as_real(1.0 - (a * (V - best) ** 2 + b + c * D) * np.sqrt(moved))


def cycled_resistance(cycles: Real, depth: Real = FLOWN_DEPTH, mean_cell_V: Real = 3.85) -> Real:
    r"""Resistance of a cell after cycles over that of the new cell.

    $$ \frac{R}{R_0} = 1 + \left[2.153\,10^{-4} (\bar V - 3.725)^2 - 1.521\,10^{-5}
       + 2.798\,10^{-4} D\right] 2 \cdot 2.05\, D N $$

    Parameters
    ----------
    cycles : float or array, shape (...)
        Cycles $N$ since the cell was new. [-]
    depth : float or array, shape (...)
        Share $D$ of the capacity that each takes and gives back, 0 to 1. [-]
    mean_cell_V : float or array, shape (...)
        Quadratic mean $\bar V$ of the cell's voltage over a cycle. [V]

    Returns
    -------
    ratio : float or array, broadcast shape
        Resistance ratio, 1 for a new cell, never below. [-]

    Validity
    --------
    0 <= cycles <= 2000 and 0 <= depth <= 1; ValidityError outside. As `cycled_capacity`. Cycles
    so shallow that the law's factor is negative leave the resistance as it was.

    Source
    ------
    J. Schmalstieg et al., *J. Power Sources* 257, 2014, 325-334: law and coefficients as two
    public programs repeat them (seen).

    Examples
    --------
    After 100 cycles of four fifths:

    >>> cycled_resistance(100.0)
    1.07
    """
    moved, D, V = _aged("cycled_resistance", cycles, depth, mean_cell_V)
    a, best, b, c = _GROWTH
    return as_real(1.0 + np.maximum(a * (V - best) ** 2 + b + c * D, 0.0) * moved)


def _aged(who: str, cycles: Real, depth: Real, mean_cell_V: Real) -> tuple[Array, Array, Array]:
    """Ampere-hours that a cell of the law has moved, depth, voltage."""
    require_range(who, "cycles", cycles, 0.0, 2000.0, "cells that are not near their end")
    require_range(who, "depth", depth, 0.0, 1.0, "empty to full")
    N, D, V = (np.asarray(x, dtype=float) for x in (cycles, depth, mean_cell_V))
    return 2.0 * _LAW_CELL_AH * D * N, D, V


def claimed_current(capacity_C: Real, c_rating: Real) -> Real:
    r"""Current that a pack's C rating claims.

    $$ I = c\, Q / (1\ \mathrm{h}) $$

    Parameters
    ----------
    capacity_C : float or array, shape (...)
        Charge $Q$ of the full pack. [C]
    c_rating : float or array, shape (...)
        Rating $c$, in capacities an hour. [-]

    Returns
    -------
    current_A : float or array, broadcast shape
        Claimed current $I$. [A]

    Validity
    --------
    A claim, not a model: ratings of 10 to 120 are seen on packs that differ far less.

    Source
    ------
    Definition.

    Examples
    --------
    1.5 Ah at 100:

    >>> claimed_current(5400.0, 100.0)
    150.0
    """
    Q, c = (np.asarray(x, dtype=float) for x in (capacity_C, c_rating))
    return as_real(Q * c / 3600.0)


def estimated_cell_resistance(capacity_C: Real) -> Real:
    r"""Resistance of a cell that is known by its capacity only.

    $$ R_c = 3.3\ \mathrm{m\Omega\,Ah} / Q $$

    Parameters
    ----------
    capacity_C : float or array, shape (...)
        Charge $Q$ of the full cell, or of a group in parallel. [C]

    Returns
    -------
    cell_resistance_ohm : float or array, same shape
        Resistance $R_c$ at 25 degC and half charge, to direct current for seconds. [ohm]

    Validity
    --------
    capacity_C > 0; high-power pouch cells. Spread +-45 % (`CELL_RESISTANCE_SPREAD`): 2 to 5 mohm
    Ah from memory; age and cold come on top. The energy cells of the published parameter sets
    have 80 to 130 mohm Ah.

    Source
    ------
    Memory. Area of electrode, hence conductance, goes with capacity.

    Examples
    --------
    A cell of 1.5 Ah:

    >>> estimated_cell_resistance(5400.0)
    0.0022
    """
    return as_real(_RESISTANCE_CAPACITY_OHM_C / np.asarray(capacity_C, dtype=float))


def estimated_pack_mass(capacity_C: Real, cell_count: Real) -> Real:
    r"""Mass of a pack that is known by its capacity and cells only.

    $$ m = \frac{3.7\ \mathrm{V}\; n_s Q}{150\ \mathrm{Wh/kg}} + 20\ \mathrm{g} $$

    Parameters
    ----------
    capacity_C : float or array, shape (...)
        Charge $Q$ of the full pack. [C]
    cell_count : float or array, shape (...)
        Cells $n_s$ in series. [-]

    Returns
    -------
    mass_kg : float or array, broadcast shape
        Mass with leads and connector. [kg]

    Validity
    --------
    About 0.5 to 5 Ah and 3 to 8 cells. Spread +-12 % (`MASS_SPREAD`).

    Source
    ------
    S. Prior, *Optimizing Small Multi-Rotor Unmanned Aircraft*, 2018, ch. 2 abstract: 150 to
    200 Wh/kg (seen); high-power packs take the low end. Leads from memory.

    Examples
    --------
    Six cells of 1.5 Ah:

    >>> estimated_pack_mass(5400.0, 6)
    0.242
    """
    Q, ns = (np.asarray(x, dtype=float) for x in (capacity_C, cell_count))
    return as_real(NOMINAL_CELL_V * ns * Q / _ENERGY_OF_MASS_J_KG + _LEADS_KG)
