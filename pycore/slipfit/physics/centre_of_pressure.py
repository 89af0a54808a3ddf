"""Where the air's side force acts at small incidence: nose, shoulder, boat-tail and fins."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from slipfit.errors import InputError, ValidityError, nearest, require_range
from slipfit.numerics import Real, as_real

# Centre of pressure over nose length. Cone and ogive: Barrowman; ellipsoid: 1 - V/(S l), exact.
NOSES: Final[Mapping[str, float]] = {"cone": 0.666, "ogive": 0.466, "ellipsoid": 1.0 / 3.0}


@dataclass(frozen=True, kw_only=True)
class NormalForce:
    """A normal-force slope on the reference section, and the station where it acts."""

    slope_per_rad: Real
    station_m: Real


def nose_barrowman(
    length_m: Real, diameter_m: Real, reference_diameter_m: Real, kind: str = "ogive"
) -> NormalForce:
    r"""Normal force of a nose that begins at station 0.

    $$ C_{N\alpha} = 2 \left(\frac{d_n}{d}\right)^2, \quad \bar X = k\, L $$

    Parameters
    ----------
    length_m : float or array, shape (...)
        Length of the nose, $L$. [m]
    diameter_m : float or array, shape (...)
        Diameter at its rear end, $d_n$. [m]
    reference_diameter_m : float or array, shape (...)
        Diameter of the reference section, $d$. [m]
    kind : str
        "cone" ($k$ = 0.666), "ogive" (0.466) or "ellipsoid" (1/3). [-]

    Returns
    -------
    force : NormalForce
        Slope on the reference section [1/rad] and its station. [m]

    Validity
    --------
    Incidence to about 10 deg, Mach below 0.8, smooth nose that comes to a point or nearly.
    InputError for a nose that is not in `NOSES`.

    Source
    ------
    J. S. Barrowman and J. A. Barrowman, *The Theoretical Prediction of the Center of Pressure*,
    NARAM-8 research report, 1966.

    Examples
    --------
    The report's first example, an ogive 110 in long, has its centre at 51.3 in:

    >>> nose_barrowman(110.0, 22.0, 22.0).station_m
    51.3
    """
    if kind not in NOSES:
        raise InputError(f"nose_barrowman: no nose '{kind}'{nearest(kind, NOSES)}", field="kind")
    ratio = np.asarray(diameter_m, dtype=float) / np.asarray(reference_diameter_m, dtype=float)
    return NormalForce(
        slope_per_rad=as_real(2.0 * ratio**2),
        station_m=as_real(NOSES[kind] * np.asarray(length_m, dtype=float)),
    )


def transition_barrowman(
    front_diameter_m: Real,
    rear_diameter_m: Real,
    length_m: Real,
    start_station_m: Real,
    reference_diameter_m: Real,
) -> NormalForce:
    r"""Normal force of a conical shoulder (widening) or boat-tail (narrowing).

    $$ C_{N\alpha} = 2 \left[\left(\frac{d_R}{d}\right)^2 - \left(\frac{d_F}{d}\right)^2\right],
       \quad \bar X = X_P + \frac{L}{3} \left[1 + \frac{1 - d_F/d_R}{1 - (d_F/d_R)^2}\right] $$

    Parameters
    ----------
    front_diameter_m : float or array, shape (...)
        Diameter at the front end, $d_F$. [m]
    rear_diameter_m : float or array, shape (...)
        Diameter at the rear end, $d_R$. [m]
    length_m : float or array, shape (...)
        Length, $L$. [m]
    start_station_m : float or array, shape (...)
        Station of the front end, $X_P$. [m]
    reference_diameter_m : float or array, shape (...)
        Diameter of the reference section, $d$. [m]

    Returns
    -------
    force : NormalForce
        Slope on the reference section, negative for a boat-tail [1/rad], and its station. [m]

    Validity
    --------
    Incidence to about 10 deg, Mach below 0.8, flow attached (a boat-tail of up to about 15 deg
    of half angle; a stalled one has less effect). Front and rear diameter not both zero.

    Source
    ------
    J. S. and J. A. Barrowman, 1966, with the last factor written as $d_R / (d_R + d_F)$, its
    value for every pair of diameters.

    Examples
    --------
    A cone is a transition from nothing, centre at two thirds:

    >>> transition_barrowman(0.0, 0.1, 0.3, 0.0, 0.1)
    NormalForce(slope_per_rad=2.0, station_m=0.2)
    """
    dF, dR = np.asarray(front_diameter_m, dtype=float), np.asarray(rear_diameter_m, dtype=float)
    d, L = np.asarray(reference_diameter_m, dtype=float), np.asarray(length_m, dtype=float)
    station = np.asarray(start_station_m, dtype=float) + L / 3.0 * (1.0 + dR / (dR + dF))
    return NormalForce(
        slope_per_rad=as_real(2.0 * (dR**2 - dF**2) / d**2), station_m=as_real(station)
    )


def slender_body_force(
    stations_m: ArrayLike, sections_m2: ArrayLike, reference_m2: Real
) -> NormalForce:
    r"""Normal force of a body of any contour, from its sections along the axis.

    $$ C_{N\alpha} = \frac{2 (k_2 - k_1) S_b}{S}, \quad
       \bar X = \frac{1}{S_b} \int x \,\mathrm{d}S, \quad k_2 - k_1 = 1 $$

    Parameters
    ----------
    stations_m : array, shape (n,)
        Stations from the nose on, rising, $x$. [m]
    sections_m2 : array, shape (n,)
        Section areas there; the last is the base, $S_b$. [m2]
    reference_m2 : float or array, shape (...)
        Reference section, $S$. [m2]

    Returns
    -------
    force : NormalForce
        Slope on the reference section [1/rad] and its station. [m]

    Validity
    --------
    Slender bodies at small incidence; multiply the slope by `apparent_mass_factor_munk` for a
    short one. ValidityError for a body whose base is less than a hundredth of its largest
    section: its forces are a couple, which has no centre.

    Source
    ------
    M. M. Munk, NACA Report 184, 1924.

    Examples
    --------
    A cone in two stations:

    >>> slender_body_force([0.0, 0.3], [0.0, 0.01], 0.01)
    NormalForce(slope_per_rad=2.0, station_m=0.15)
    """
    x, S = np.asarray(stations_m, dtype=float), np.asarray(sections_m2, dtype=float)
    require_range("slender_body_force", "rise of stations_m", np.diff(x), 0.0, np.inf, "in order")
    require_range(
        "slender_body_force",
        "base over largest section",
        S[-1] / S.max(),
        0.01,
        1.0,
        "a closed body has a couple, not a force",
    )
    middle = 0.5 * (x[1:] + x[:-1])
    station = (S[0] * x[0] + np.sum(middle * np.diff(S))) / S[-1]
    slope = 2.0 * S[-1] / np.asarray(reference_m2, dtype=float)
    return NormalForce(slope_per_rad=as_real(slope), station_m=float(station))


def fin_body_interference(span_m: Real, body_diameter_m: Real) -> Real:
    r"""Normal force of fins on a body over that of the same fins alone.

    $$ K = 1 + \frac{R}{S + R} $$

    Parameters
    ----------
    span_m : float or array, shape (...)
        Exposed span of one fin, root to tip, $S$. [m]
    body_diameter_m : float or array, shape (...)
        Diameter of the body at the fins, $2R$. [m]

    Returns
    -------
    interference_factor : float or array, broadcast shape
        $K$. [-]

    Validity
    --------
    span_m > 0, body_diameter_m >= 0; ValidityError otherwise. Three or four fins.

    Source
    ------
    J. S. and J. A. Barrowman, 1966.

    Examples
    --------
    Fins as long as the body's radius:

    >>> fin_body_interference(0.05, 0.1)
    1.5
    """
    require_range("fin_body_interference", "span_m", span_m, 1e-9, np.inf, "a fin")
    require_range("fin_body_interference", "body_diameter_m", body_diameter_m, 0.0, np.inf, "body")
    S, R = np.asarray(span_m, dtype=float), 0.5 * np.asarray(body_diameter_m, dtype=float)
    return as_real(1.0 + R / (S + R))


def fins_barrowman(
    count: int,
    root_chord_m: Real,
    tip_chord_m: Real,
    span_m: Real,
    sweep_m: Real,
    root_station_m: Real,
    body_diameter_m: Real,
    reference_diameter_m: Real,
) -> NormalForce:
    r"""Normal force of a set of equal fins spread evenly around a body.

    $$ C_{N\alpha} = K \frac{4 n (S/d)^2}{1 + \sqrt{1 + \left(\frac{2 l}{a + b}\right)^2}},
       \quad \bar X = X_f + \frac{m (a + 2b)}{3 (a + b)}
       + \frac16 \left[a + b - \frac{a b}{a + b}\right] $$

    Parameters
    ----------
    count : int
        Number of fins, $n$. [-]
    root_chord_m : float or array, shape (...)
        Chord at the body, $a$. [m]
    tip_chord_m : float or array, shape (...)
        Chord at the tip, $b$. [m]
    span_m : float or array, shape (...)
        Exposed span of one fin, $S$. [m]
    sweep_m : float or array, shape (...)
        How far the tip's leading edge lies aft of the root's, $m$. [m]
    root_station_m : float or array, shape (...)
        Station of the root's leading edge, $X_f$. [m]
    body_diameter_m : float or array, shape (...)
        Diameter of the body at the fins. [m]
    reference_diameter_m : float or array, shape (...)
        Diameter of the reference section, $d$. [m]

    Returns
    -------
    force : NormalForce
        Slope of the whole set on the reference section [1/rad] and its station. [m]

    Validity
    --------
    3 to 8 fins; ValidityError outside (past four they shade one another, which is left out, and
    the true force is up to 15 % less). Thin fins at small incidence, Mach below 0.8. $l$ is the
    length of the mid-chord line.

    Source
    ------
    J. S. and J. A. Barrowman, 1966.

    Examples
    --------
    The report's first example, four fins, lengths in inches, prints 19.5 and 425.37:

    >>> fins_barrowman(4, 50.0, 25.0, 34.2, 34.2, 400.45, 22.0, 22.0)
    NormalForce(slope_per_rad=19.5, station_m=425.37)
    """
    require_range("fins_barrowman", "count", count, 3, 8, "fins spread around a body")
    a, b = np.asarray(root_chord_m, dtype=float), np.asarray(tip_chord_m, dtype=float)
    S, m = np.asarray(span_m, dtype=float), np.asarray(sweep_m, dtype=float)
    d = np.asarray(reference_diameter_m, dtype=float)
    l = np.hypot(S, m + 0.5 * (b - a))  # noqa: E741  the report's symbol
    K = np.asarray(fin_body_interference(span_m, body_diameter_m))
    slope = K * 4.0 * count * (S / d) ** 2 / (1.0 + np.sqrt(1.0 + (2.0 * l / (a + b)) ** 2))
    inner = m * (a + 2.0 * b) / (3.0 * (a + b)) + (a + b - a * b / (a + b)) / 6.0
    return NormalForce(
        slope_per_rad=as_real(slope),
        station_m=as_real(np.asarray(root_station_m, dtype=float) + inner),
    )


def centre_of_pressure(forces: Iterable[NormalForce]) -> NormalForce:
    r"""All normal forces of a body together.

    $$ C_{N\alpha} = \sum C_i, \quad \bar X = \frac{\sum C_i \bar X_i}{\sum C_i} $$

    Parameters
    ----------
    forces : Iterable of NormalForce
        Slopes on one reference section [1/rad] and their stations. [m]

    Returns
    -------
    force : NormalForce
        Total slope [1/rad] and the centre of pressure's station. [m]

    Validity
    --------
    Total slope above 0.001 per rad; ValidityError otherwise: forces that cancel are a couple,
    which has no centre.

    Source
    ------
    J. S. and J. A. Barrowman, 1966.

    Examples
    --------
    >>> nose = NormalForce(slope_per_rad=2.0, station_m=0.1)
    >>> fins = NormalForce(slope_per_rad=6.0, station_m=0.3)
    >>> centre_of_pressure([nose, fins])
    NormalForce(slope_per_rad=8.0, station_m=0.25)
    """
    parts = list(forces)
    slope = np.asarray(sum(np.asarray(part.slope_per_rad, dtype=float) for part in parts))
    if not np.all(slope > 1e-3):
        raise ValidityError(
            "centre_of_pressure: total slope_per_rad must be above 0.001 (forces that cancel have"
            f" no centre), got {float(np.min(slope)):g}",
            field="slope_per_rad",
            low=1e-3,
        )
    moment = sum(np.asarray(part.slope_per_rad) * np.asarray(part.station_m) for part in parts)
    return NormalForce(slope_per_rad=as_real(slope), station_m=as_real(moment / slope))


def static_margin(pressure_station_m: Real, balance_station_m: Real, diameter_m: Real) -> Real:
    r"""Distance of the centre of pressure behind the balance point, in body diameters.

    $$ s = \frac{\bar X - X_{cg}}{d} $$

    Parameters
    ----------
    pressure_station_m : float or array, shape (...)
        Station of the centre of pressure, $\bar X$. [m]
    balance_station_m : float or array, shape (...)
        Station of the balance point, $X_{cg}$. [m]
    diameter_m : float or array, shape (...)
        Diameter of the body, $d$. [m]

    Returns
    -------
    static_margin : float or array, broadcast shape
        $s$: positive is stable. [-]

    Validity
    --------
    diameter_m > 0; ValidityError otherwise.

    Source
    ------
    Definition.

    Examples
    --------
    >>> static_margin(0.25, 0.20, 0.1)
    0.5
    """
    require_range("static_margin", "diameter_m", diameter_m, 1e-6, np.inf, "a body")
    lever = np.asarray(pressure_station_m, dtype=float) - np.asarray(balance_station_m, dtype=float)
    return as_real(lever / np.asarray(diameter_m, dtype=float))
