"""Wire: gauge geometry, resistance, how warm it gets, rated currents, which gauge to choose."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from slipfit.constants import (
    COPPER_RESISTIVITY_OHM_M,
    COPPER_TEMPERATURE_COEFFICIENT_PER_K,
    ZERO_CELSIUS_K,
)
from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real, over_argument

T20_K: Final = ZERO_CELSIUS_K + 20.0  # reference temperature of resistance
SILICONE_LIMIT_K: Final = ZERO_CELSIUS_K + 200.0  # of silicone insulation; memory

# Continuous current of a copper conductor over gauge, for conductors rated 105, 150 and 200 degC.
# FAA AC 43.13-1B wire table (tests/data/wire_ac4313_1b.csv, seen). For aircraft harnesses: small
# against what short leads in moving air carry for seconds.
_AC_GAUGES: Final = (8, 10, 12, 14, 16, 18, 20, 22, 24)
_AC_LIMITS_C: Final = (105.0, 150.0, 200.0)
_AC_CURRENTS_A: Final = (
    (38.0, 17.0, 13.0, 10.0, 7.0, 6.0, 4.0, 3.0, 2.5),
    (57.0, 26.0, 19.0, 14.0, 11.0, 9.0, 7.0, 5.0, 4.0),
    (71.0, 32.0, 25.0, 18.0, 14.0, 12.0, 9.0, 6.0, 5.0),
)

# Single wire in free air, conductor at 105 degC in 50 degC: MIL-W-5088B
# (tests/data/wire_mil_w_5088b.csv, seen).
_MIL_GAUGES: Final = (8, 10, 12, 14, 18, 20, 22)
_MIL_CURRENTS_A: Final = (75.0, 55.0, 40.0, 31.2, 15.4, 8.33, 5.0)

# Outside diameter of finely stranded wire with silicone insulation [mm]; memory, makes differ by
# 10 % (12 AWG as in tests/data/electric_drive.csv, WIRE-RISE).
_SILICONE_GAUGES: Final = (8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30)
_SILICONE_MM: Final = (6.3, 5.5, 4.5, 3.5, 3.0, 2.3, 1.8, 1.7, 1.6, 1.5, 1.2, 0.8)

_COPPER: Final = (8960.0, 385.0)  # kg/m3, J/(kg K); memory
_RUNAWAY: Final = 200.0  # e-folds of a wire that runs away: beyond any heat, yet a finite number
_SILICONE: Final = (1150.0, 1300.0)  # kg/m3, J/(kg K); memory
SOLD_GAUGES: Final = (8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30)  # thick to thin


@dataclass(frozen=True, kw_only=True)
class WireHeat:
    """Steady temperature of a wire; nan where `steady` is false."""

    rise_K: Array
    steady: NDArray[np.bool_]  # false where resistance grows faster with heat than cooling does


def awg_diameter(gauge: Real) -> Real:
    r"""Diameter of a solid conductor of an American wire gauge.

    $$ d = 0.127\ \mathrm{mm} \times 92^{(36 - n)/39} $$

    Parameters
    ----------
    gauge : float or array, shape (...)
        Gauge number $n$. [-]

    Returns
    -------
    diameter_m : float or array, same shape
        Conductor diameter $d$. [m]

    Validity
    --------
    0 <= gauge <= 40; ValidityError outside. Stranded wire of the same number has the same area of
    copper in a wider bundle.

    Source
    ------
    ASTM B258, definition of the gauge (tests/data/wire_awg.csv, computed).

    Examples
    --------
    The table gives 2.0525 mm for 12 AWG:

    >>> awg_diameter(12) * 1e3
    2.0525
    """
    require_range("awg_diameter", "gauge", gauge, 0.0, 40.0, "gauges sold as single wires")
    n = np.asarray(gauge, dtype=float)
    return as_real(0.127e-3 * 92.0 ** ((36.0 - n) / 39.0))


def awg_area(gauge: Real) -> Real:
    r"""Area of copper of an American wire gauge.

    $$ A = \pi d^2 / 4 $$

    Parameters
    ----------
    gauge : float or array, shape (...)
        Gauge number. [-]

    Returns
    -------
    area_m2 : float or array, same shape
        Area $A$. [m2]

    Validity
    --------
    0 <= gauge <= 40; ValidityError outside.

    Source
    ------
    ASTM B258, definition of the gauge (tests/data/wire_awg.csv, computed).

    Examples
    --------
    The table gives 3.3088 mm2 for 12 AWG:

    >>> awg_area(12) * 1e6
    3.3088
    """
    d = np.asarray(awg_diameter(gauge), dtype=float)
    return as_real(0.25 * np.pi * d**2)


def awg_resistance(gauge: Real, temperature_K: Real = T20_K) -> Real:
    r"""Resistance of a metre of copper wire.

    $$ r = \frac{\rho_{20}}{A} \left[1 + \alpha_{20} (T - 293.15)\right] $$

    Parameters
    ----------
    gauge : float or array, shape (...)
        Gauge number. [-]
    temperature_K : float or array, shape (...)
        Conductor temperature $T$. [K]

    Returns
    -------
    resistance_ohm_per_m : float or array, broadcast shape
        Resistance $r$ of one conductor, there but not back. [ohm/m]

    Validity
    --------
    0 <= gauge <= 40, 200 <= temperature_K <= 520; ValidityError outside. Solid annealed copper;
    the lay of fine strands adds 2 to 4 %, tin another 2 to 3 % (memory).

    Source
    ------
    IEC 60028:1925 resistivity and coefficient; ASTM B258 area (tests/data/wire_awg.csv, computed,
    within 0.1 % of a printed table, seen).

    Examples
    --------
    The table gives 5.211 ohm/km for 12 AWG at 20 degC:

    >>> awg_resistance(12) * 1e3
    5.211
    """
    require_range(
        "awg_resistance", "temperature_K", temperature_K, 200.0, 520.0, "insulated copper wire"
    )
    T = np.asarray(temperature_K, dtype=float)
    r20 = COPPER_RESISTIVITY_OHM_M / np.asarray(awg_area(gauge), dtype=float)
    return as_real(r20 * (1.0 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (T - T20_K)))


def silicone_wire_diameter(gauge: Real) -> Real:
    r"""Outside diameter of finely stranded wire with silicone insulation.

    $$ D = D(n)\ \text{(table)} $$

    Parameters
    ----------
    gauge : float or array, shape (...)
        Gauge number $n$. [-]

    Returns
    -------
    outer_diameter_m : float or array, same shape
        Outside diameter $D$. [m]

    Validity
    --------
    8 <= gauge <= 30; ValidityError outside. Between table gauges a straight line. Makes differ
    by 10 %.

    Source
    ------
    Memory of common wire; 12 AWG as in the worked example (tests/data/electric_drive.csv,
    WIRE-RISE).

    Examples
    --------
    >>> silicone_wire_diameter(12) * 1e3
    4.5
    """
    require_range("silicone_wire_diameter", "gauge", gauge, 8.0, 30.0, "table from memory")
    return as_real(np.interp(gauge, _SILICONE_GAUGES, _SILICONE_MM) * 1e-3)


def wire_temperature_rise(
    current_A: Real,
    gauge: Real,
    outer_diameter_m: Real,
    film_coefficient_W_m2_K: Real,
    ambient_temperature_K: Real = T20_K,
) -> WireHeat:
    r"""Steady temperature of a wire above the air around it.

    $$ \Delta T = \frac{a}{1 - a\, \alpha / b}, \quad a = \frac{I^2 r_{20}\, b}{h \pi D}, \quad
       b = 1 + \alpha (T_a - 293.15) $$

    Parameters
    ----------
    current_A : float or array, shape (...)
        Direct or effective current $I$. [A]
    gauge : float or array, shape (...)
        Gauge number. [-]
    outer_diameter_m : float or array, shape (...)
        Diameter $D$ over the insulation. [m]
    film_coefficient_W_m2_K : float or array, shape (...)
        Heat transfer $h$ at the outside: 10 to 20 in still air (memory). [W/(m2 K)]
    ambient_temperature_K : float or array, shape (...)
        Air temperature $T_a$ around the wire. [K]

    Returns
    -------
    heat : WireHeat
        Rise of the conductor, and where a steady one exists. [-]

    Validity
    --------
    A long single wire; heat leaving along it and the drop across the insulation (a few kelvin)
    are left out. Compare with `SILICONE_LIMIT_K` and with the joints, which solder limits.

    Source
    ------
    Heat balance with the copper coefficient of IEC 60028 (tests/data/electric_drive.csv,
    WIRE-RISE, computed, with h from memory).

    Examples
    --------
    The reference gives 24.2204 K for 12 AWG of 4.5 mm at 30 A and h = 15:

    >>> float(wire_temperature_rise(30.0, 12, 0.0045, 15.0).rise_K)
    24.2204
    """
    I, r, D, h, Ta = np.broadcast_arrays(  # noqa: E741
        *(
            np.asarray(x, dtype=float)
            for x in (
                current_A,
                awg_resistance(gauge, T20_K),
                outer_diameter_m,
                film_coefficient_W_m2_K,
                ambient_temperature_K,
            )
        )
    )
    alpha = COPPER_TEMPERATURE_COEFFICIENT_PER_K
    cold = I**2 * r / (h * np.pi * D)  # rise if resistance stayed that of 20 degC
    left = 1.0 - cold * alpha
    steady = np.asarray(left > 0.0)
    rise = np.divide(
        cold * (1.0 + alpha * (Ta - T20_K)), left, out=np.full_like(left, np.nan), where=steady
    )
    return WireHeat(rise_K=rise, steady=steady)


def wire_time_constant(gauge: Real, outer_diameter_m: Real, film_coefficient_W_m2_K: Real) -> Real:
    r"""Time in which a wire comes to 63 % of its steady temperature rise.

    $$ \tau = \frac{\sum A \rho c}{h \pi D} $$

    Parameters
    ----------
    gauge : float or array, shape (...)
        Gauge number. [-]
    outer_diameter_m : float or array, shape (...)
        Diameter $D$ over the insulation. [m]
    film_coefficient_W_m2_K : float or array, shape (...)
        Heat transfer $h$ at the outside. [W/(m2 K)]

    Returns
    -------
    time_constant_s : float or array, broadcast shape
        Time constant $\tau$. [s]

    Validity
    --------
    Small rises; copper and silicone warm together. A burst much shorter than this warms the wire
    by less than its share of the steady rise.

    Source
    ------
    Heat balance; properties of copper and silicone rubber from memory.

    Examples
    --------
    >>> wire_time_constant(12, 0.0045, 15.0)
    142.6
    """
    copper = np.asarray(awg_area(gauge), dtype=float)
    D, h = (np.asarray(x, dtype=float) for x in (outer_diameter_m, film_coefficient_W_m2_K))
    rubber = 0.25 * np.pi * D**2 - copper
    heat = copper * _COPPER[0] * _COPPER[1] + rubber * _SILICONE[0] * _SILICONE[1]
    return as_real(heat / (h * np.pi * D))


def wire_temperature_after(
    duration_s: Real,
    temperature_K: Real,
    current_A: Real,
    gauge: Real,
    outer_diameter_m: Real,
    film_coefficient_W_m2_K: Real,
    ambient_temperature_K: Real = T20_K,
) -> Real:
    r"""Temperature of a wire after a time at constant current.

    $$ c\, \dot T = I^2 r_{20} \left[1 + \alpha (T - 293.15)\right] - h \pi D (T - T_a) $$

    Parameters
    ----------
    duration_s : float or array, shape (...)
        Time since the start. [s]
    temperature_K : float or array, shape (...)
        Temperature at the start. [K]
    current_A : float or array, shape (...)
        Direct or effective current $I$. [A]
    gauge : float or array, shape (...)
        Gauge number. [-]
    outer_diameter_m : float or array, shape (...)
        Diameter $D$ over the insulation. [m]
    film_coefficient_W_m2_K : float or array, shape (...)
        Heat transfer $h$ at the outside: 10 to 20 in still air (memory). [W/(m2 K)]
    ambient_temperature_K : float or array, shape (...)
        Air temperature $T_a$ around the wire. [K]

    Returns
    -------
    temperature_K : float or array, broadcast shape
        Temperature $T$ of copper and insulation. [K]

    Validity
    --------
    As `wire_temperature_rise`, to which it tends where that is steady; where it is not, the
    temperature grows without bound, as it would. Exact for any time in one step. Heat capacity $c$
    as in `wire_time_constant`.

    Source
    ------
    Heat balance with the copper coefficient of IEC 60028; its first moment agrees with adiabatic
    heating of copper and insulation together.

    Examples
    --------
    100 A in 12 AWG for ten seconds, from 20 degC:

    >>> wire_temperature_after(10.0, 293.15, 100.0, 12, 0.0045, 15.0)
    310.
    """
    t, T0, I, r, D, h, Ta = np.broadcast_arrays(  # noqa: E741
        *(
            np.asarray(x, dtype=float)
            for x in (
                duration_s,
                temperature_K,
                current_A,
                awg_resistance(gauge, T20_K),
                outer_diameter_m,
                film_coefficient_W_m2_K,
                ambient_temperature_K,
            )
        )
    )
    shed = h * np.pi * D
    c = np.asarray(wire_time_constant(gauge, D, h)) * shed
    alpha = COPPER_TEMPERATURE_COEFFICIENT_PER_K
    gain = I**2 * r * alpha - shed  # of power with temperature
    push = I**2 * r * (1.0 + alpha * (T0 - T20_K)) - shed * (T0 - Ta)  # power at the start
    growth = over_argument(np.expm1, np.minimum(gain * t / c, _RUNAWAY))
    return as_real(T0 + push * t / c * growth)


def rated_current_ac4313(gauge: Real, conductor_limit_K: Real) -> Real:
    r"""Continuous current for an aircraft harness by the rated temperature of its conductor.

    $$ I = I(n, T)\ \text{(table)} $$

    Parameters
    ----------
    gauge : float or array, shape (...)
        Gauge number $n$. [-]
    conductor_limit_K : float or array, shape (...)
        Rated conductor temperature $T$: silicone wire 473.15. [K]

    Returns
    -------
    current_A : float or array, broadcast shape
        Continuous current $I$. [A]

    Validity
    --------
    8 <= gauge <= 24 and 378.15 <= conductor_limit_K <= 473.15; ValidityError outside. The table at
    its nodes; between them straight lines in temperature and in the logarithm of current. Meant
    for harnesses for years of service: short leads in moving air carry several times as much for
    seconds (`wire_temperature_rise`).

    Source
    ------
    FAA AC 43.13-1B, wire table, conductors rated 105, 150 and 200 degC
    (tests/data/wire_ac4313_1b.csv, seen).

    Examples
    --------
    The table gives 25 A for 12 AWG at 200 degC:

    >>> rated_current_ac4313(12, 473.15)
    25.0
    """
    who = "rated_current_ac4313"
    require_range(who, "gauge", gauge, 8.0, 24.0, "AC 43.13-1B")
    require_range(who, "conductor_limit_K", conductor_limit_K, 378.15, 473.15, "AC 43.13-1B")
    n, T = np.broadcast_arrays(
        np.asarray(gauge, dtype=float), np.asarray(conductor_limit_K, dtype=float)
    )
    t = T - ZERO_CELSIUS_K
    low, middle, high = (np.exp(np.interp(n, _AC_GAUGES, np.log(row))) for row in _AC_CURRENTS_A)
    t0, t1, t2 = _AC_LIMITS_C
    cool = low + (middle - low) * (t - t0) / (t1 - t0)
    warm = middle + (high - middle) * (t - t1) / (t2 - t1)
    return as_real(np.where(t < t1, cool, warm))


def rated_current_mil5088(gauge: Real) -> Real:
    r"""Current of a single wire in free air, conductor at 105 degC in air of 50 degC.

    $$ I = I(n)\ \text{(table)} $$

    Parameters
    ----------
    gauge : float or array, shape (...)
        Gauge number $n$. [-]

    Returns
    -------
    current_A : float or array, same shape
        Current $I$. [A]

    Validity
    --------
    8 <= gauge <= 22; ValidityError outside. The table at its nodes, between them a straight line
    in the logarithm of current. A rise of 55 K: silicone wire may rise further.

    Source
    ------
    MIL-W-5088B, single wire in free air (tests/data/wire_mil_w_5088b.csv, seen).

    Examples
    --------
    The table gives 40 A for 12 AWG:

    >>> rated_current_mil5088(12)
    40.0
    """
    require_range("rated_current_mil5088", "gauge", gauge, 8.0, 22.0, "MIL-W-5088B")
    return as_real(np.exp(np.interp(gauge, _MIL_GAUGES, np.log(_MIL_CURRENTS_A))))


def suggested_gauge(
    current_A: Real,
    allowed_rise_K: Real,
    film_coefficient_W_m2_K: Real,
    ambient_temperature_K: Real = T20_K,
) -> Real:
    r"""Thinnest silicone wire sold that stays within a steady temperature rise.

    $$ n = \max \{ n : \Delta T(I, n) \le \Delta T_{max} \} $$

    Parameters
    ----------
    current_A : float or array, shape (...)
        Direct or effective current $I$. [A]
    allowed_rise_K : float or array, shape (...)
        Greatest rise of the conductor above the air. [K]
    film_coefficient_W_m2_K : float or array, shape (...)
        Heat transfer at the outside: 10 to 20 in still air (memory). [W/(m2 K)]
    ambient_temperature_K : float or array, shape (...)
        Air temperature around the wire. [K]

    Returns
    -------
    gauge : float or array, broadcast shape
        Gauge number of `SOLD_GAUGES`; nan where even the thickest is too thin. [-]

    Validity
    --------
    As `wire_temperature_rise`, with the diameters of `silicone_wire_diameter`.

    Source
    ------
    `wire_temperature_rise` for each gauge sold.

    Examples
    --------
    30 A in still air, a rise of 60 K:

    >>> suggested_gauge(30.0, 60.0, 15.0)
    14.0
    """
    gauges = np.array(SOLD_GAUGES, dtype=float)
    I, limit, h, Ta = (  # noqa: E741
        np.asarray(x, dtype=float)[..., None]
        for x in (current_A, allowed_rise_K, film_coefficient_W_m2_K, ambient_temperature_K)
    )
    heat = wire_temperature_rise(I, gauges, silicone_wire_diameter(gauges), h, Ta)
    fine = heat.steady & (np.where(heat.steady, heat.rise_K, np.inf) <= limit)
    thinnest = np.where(fine, gauges, -np.inf).max(axis=-1)
    return as_real(np.where(np.isfinite(thinnest), thinnest, np.nan))
