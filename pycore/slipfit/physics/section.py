"""Lift and drag of blade sections: shipped tables, the stall and beyond, rotation, and Mach number.

The tables (`data/sections.npz`, made by tools/make_sections.py) hold lift and drag over angle of
attack -24 to 24 degrees, Reynolds number 1e4 to 1e6 and thickness. Here they are carried on to the
full circle; rotation near the hub and Mach number change them by the formulas below. `polar.py`
turns them into curves that a rotor evaluates quickly.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.data import table_from_npz
from slipfit.errors import InputError, nearest
from slipfit.numerics import Array, Real

ALPHA_RAD = np.deg2rad(np.arange(-180.0, 181.0))  # the circle by degrees
_BLADE_ASPECT_RATIO = 8.0  # radius over chord of common small propellers, for the plate drag below
_KORN = 0.87  # technology factor of conventional sections; Mason's form of Korn's relation
_DRAG_RISE = 20.0  # Lock's fourth-power law; cd = 20 (M - Mcr)^4
_CRITICAL_BELOW_DIVERGENCE = (0.1 / 80.0) ** (1.0 / 3.0)  # slope dcd/dM = 0.1 at divergence
# Measured over computed sections: share of the lift, share of the drag, and drag by lift squared.
# By least squares from the attached range of NACA 0015 in NACA TN 626, tables V to VII
# (tests/data/airfoil_naca0015_tn626.csv). Ours were computed for smooth sections in a steady wind;
# real ones have thicker boundary layers, more so as lift grows. No rotor had part in it.
_MEASURED = (0.97, 1.08, 0.010)
_BREAK_SPAN = 0.04  # Mach numbers over which shocks take the compressibility gain of lift away


@dataclass(frozen=True, kw_only=True, eq=False)
class SectionTable:
    """Lift and drag of one family on the full circle, with axes thickness, Reynolds, angle."""

    name: str
    thickness_ratio: Array
    reynolds: Array
    lift: Array
    drag: Array


@lru_cache(maxsize=1)
def section_names() -> list[str]:
    """Names of the families in the shipped table."""
    return [str(name) for name in table_from_npz("sections").columns["families"]]


@lru_cache(maxsize=16)
def section_table(name: str) -> SectionTable:
    """One family on the full circle, as sections measure; InputError for an unknown name."""
    columns = table_from_npz("sections").columns
    known = [str(x) for x in columns["families"]]
    if name not in known:
        raise InputError(
            f"section: name must be a shipped family, got '{name}'{nearest(name, known)}"
        )
    inner_rad = np.deg2rad(columns["alpha_deg"].astype(float))
    lift_share, drag_share, by_lift = _MEASURED
    cl = lift_share * columns[f"{name}/cl"].astype(float)
    cd = drag_share * columns[f"{name}/cd"].astype(float) + by_lift * cl * cl
    lift, drag = full_circle(inner_rad, cl, cd)
    reynolds = columns["reynolds"].astype(float)
    return SectionTable(
        name=name,
        thickness_ratio=columns[f"{name}/thickness_ratio"].astype(float),
        reynolds=10.0 ** _halved(np.log10(reynolds)[None, :, None])[0, :, 0],
        lift=_halved(lift),
        drag=_halved(drag),
    )


def _halved(values: Array) -> Array:
    """Values with one more between each pair on the middle axis, on the cubic of four neighbours.

    A rotor joins the rows by straight lines; with twice the rows these hardly bend.
    """
    padded = np.concatenate(
        [
            3 * values[:, :1] - 3 * values[:, 1:2] + values[:, 2:3],
            values,
            3 * values[:, -1:] - 3 * values[:, -2:-1] + values[:, -3:-2],
        ],
        axis=1,
    )
    middle = (9 * (padded[:, 1:-2] + padded[:, 2:-1]) - padded[:, :-3] - padded[:, 3:]) / 16
    out = np.empty((values.shape[0], 2 * values.shape[1] - 1, values.shape[2]))
    out[:, ::2], out[:, 1::2] = values, middle
    return out


def viterna_lift(alpha_rad: Real, alpha_stall_rad: Real, cl_stall: Real, cd_max: Real) -> Real:
    r"""Lift coefficient of a stalled section, joined to its value at the stall.

    $$ c_l = \tfrac12 C_{d,\max} \sin 2\alpha + A_2 \frac{\cos^2\alpha}{\sin\alpha}, \quad
       A_2 = \left(c_{l,s} - C_{d,\max} \sin\alpha_s \cos\alpha_s\right)
             \frac{\sin\alpha_s}{\cos^2\alpha_s} $$

    Parameters
    ----------
    alpha_rad : float or array, shape (...)
        Angle of attack $\alpha$, from the stall to a right angle. [rad]
    alpha_stall_rad : float or array, shape (...)
        Angle at which the attached table ends. [rad]
    cl_stall : float or array, shape (...)
        Lift coefficient there. [1]
    cd_max : float or array, shape (...)
        Drag coefficient square to the flow. [1]

    Returns
    -------
    cl : float or array, same shape
        Lift coefficient on the chord. [1]

    Validity
    --------
    alpha_stall_rad <= alpha_rad <= pi/2. An empirical continuation: measured sections scatter
    by some 20 % between 30 and 60 degrees.

    Source
    ------
    L. A. Viterna and R. D. Corrigan, Fixed pitch rotor performance of large horizontal axis wind
    turbines, NASA CP-2230 (1981), pp. 69-85; the formula is from memory.

    Examples
    --------
    Square to the flow there is no lift, and the joint is met:

    >>> float(viterna_lift(np.pi / 2, 0.25, 1.1, 1.25).round(6))
    0.0
    >>> float(viterna_lift(0.25, 0.25, 1.1, 1.25).round(6))
    1.1
    """
    a, s = np.asarray(alpha_rad, dtype=float), np.asarray(alpha_stall_rad, dtype=float)
    A2 = (cl_stall - cd_max * np.sin(s) * np.cos(s)) * np.sin(s) / np.cos(s) ** 2
    return np.asarray(0.5 * cd_max * np.sin(2 * a) + A2 * np.cos(a) ** 2 / np.sin(a))


def viterna_drag(alpha_rad: Real, alpha_stall_rad: Real, cd_stall: Real, cd_max: Real) -> Real:
    r"""Drag coefficient of a stalled section, joined to its value at the stall.

    $$ c_d = C_{d,\max} \sin^2\alpha + B_2 \cos\alpha, \quad
       B_2 = \frac{c_{d,s} - C_{d,\max} \sin^2\alpha_s}{\cos\alpha_s} $$

    Parameters
    ----------
    alpha_rad : float or array, shape (...)
        Angle of attack $\alpha$, from the stall to a right angle. [rad]
    alpha_stall_rad : float or array, shape (...)
        Angle at which the attached table ends. [rad]
    cd_stall : float or array, shape (...)
        Drag coefficient there. [1]
    cd_max : float or array, shape (...)
        Drag coefficient square to the flow. [1]

    Returns
    -------
    cd : float or array, same shape
        Drag coefficient on the chord. [1]

    Validity
    --------
    alpha_stall_rad <= alpha_rad <= pi/2; see `viterna_lift`.

    Source
    ------
    As `viterna_lift`.

    Examples
    --------
    >>> float(viterna_drag(np.pi / 2, 0.25, 0.05, 1.25).round(6))
    1.25
    >>> float(viterna_drag(0.25, 0.25, 0.05, 1.25).round(6))
    0.05
    """
    a, s = np.asarray(alpha_rad, dtype=float), np.asarray(alpha_stall_rad, dtype=float)
    B2 = (cd_stall - cd_max * np.sin(s) ** 2) / np.cos(s)
    return np.asarray(cd_max * np.sin(a) ** 2 + B2 * np.cos(a))


def full_circle(inner_rad: Array, cl: Array, cd: Array) -> tuple[Array, Array]:
    """Lift and drag at every degree of the circle from those at small angles.

    The joint with Viterna's curves lies at the ends of the table. Past a right angle the section
    flies tail first: the same plate curves mirrored, with 0.7 of their lift (a sharp edge leads),
    and both signs of lift meet in a straight line through the reversed chord. Drag past the stall
    is at least that of `separated_drag`.

    Parameters
    ----------
    inner_rad : array, shape (n,)
        Angles of attack of the table, every degree, of both signs. [rad]
    cl, cd : array, shape (..., n)
        Lift and drag coefficients there. [1]

    Returns
    -------
    lift, drag : array, shape (..., 361)
        Coefficients from -180 to 180 degrees. [1]

    Validity
    --------
    Past the stall an empirical continuation, see `viterna_lift` and `separated_drag`; flying tail
    first it is a guess that only windmilling and reversed flow near the hub meet.

    Source
    ------
    As the functions that it joins; the tail-first part is our own.
    """
    cd_max = 1.11 + 0.018 * _BLADE_ASPECT_RATIO  # Viterna's fit for finite blades
    lift = np.empty((*cl.shape[:-1], len(ALPHA_RAD)))
    drag = np.empty_like(lift)
    inside = (ALPHA_RAD >= inner_rad[0] - 1e-9) & (ALPHA_RAD <= inner_rad[-1] + 1e-9)
    lift[..., inside], drag[..., inside] = cl, cd
    for sign, joint in ((1.0, -1), (-1.0, 0)):
        stall = abs(inner_rad[joint])
        cl_s = sign * cl[..., joint, None]
        cd_s = cd[..., joint, None]
        forward = (sign * ALPHA_RAD > stall + 1e-9) & (sign * ALPHA_RAD <= np.pi / 2)
        a = sign * ALPHA_RAD[forward]
        lift[..., forward] = sign * np.asarray(viterna_lift(a, stall, cl_s, cd_max))
        drag[..., forward] = viterna_drag(a, stall, cd_s, cd_max)
        back = sign * ALPHA_RAD > np.pi / 2
        b = np.pi - sign * ALPHA_RAD[back]  # angle from the reversed chord
        plate = np.asarray(viterna_lift(np.maximum(b, stall), stall, cl_s, cd_max))
        lift[..., back] = -sign * 0.7 * plate * np.minimum(b / stall, 1.0)
        drag[..., back] = np.maximum(viterna_drag(b, stall, cd_s, cd_max), 0.02)
    zero_rad = zero_lift_angle(lift)[..., None]
    for sign in (1, -1):
        ahead = np.flatnonzero((sign * ALPHA_RAD > -1e-9) & (sign * ALPHA_RAD < np.pi / 2 - 1e-6))
        a, own = sign * ALPHA_RAD[ahead], sign * lift[..., ahead]
        attached = separation_point_kirchhoff(own, a - sign * zero_rad)
        drag[..., ahead] = separated_drag(drag[..., ahead], own, a, attached)
    return lift, drag


def zero_lift_angle(lift: Array) -> Array:
    """Angle of zero lift, the highest from -12 to 4 degrees at which lift rises through zero.

    Parameters
    ----------
    lift : array, shape (..., 361)
        Lift coefficient at every degree of the circle. [1]

    Returns
    -------
    angle_rad : array, shape (...)
        Between degrees by a straight line. [rad]

    Validity
    --------
    Sections with up to some 8 % camber.

    Source
    ------
    Definition.
    """
    first, last = 180 - 12, 180 + 4
    window = lift[..., first : last + 1]
    rising = (window[..., :-1] <= 0.0) & (window[..., 1:] > 0.0)
    k = rising.shape[-1] - 1 - np.argmax(rising[..., ::-1], axis=-1)
    low = np.take_along_axis(window, k[..., None], -1)[..., 0]
    high = np.take_along_axis(window, k[..., None] + 1, -1)[..., 0]
    share = np.where(rising.any(axis=-1), -low / np.where(high == low, 1.0, high - low), 0.0)
    return np.asarray(ALPHA_RAD[first + k] + share * np.deg2rad(1.0))


def separation_point_kirchhoff(cl: Array, incidence_rad: Array) -> Array:
    r"""Share of the chord along which the flow is attached, from lift.

    $$ f = \left(2 \sqrt{\frac{c_l}{2 \pi \sin(\alpha - \alpha_0)}} - 1\right)^2 $$

    Parameters
    ----------
    cl : array, shape (...)
        Lift coefficient. [1]
    incidence_rad : array, shape (...)
        Angle of attack from that of zero lift, $\alpha - \alpha_0$. [rad]

    Returns
    -------
    attached : array, same shape
        1 where the flow is attached, 0 where it has left the leading edge. [1]

    Validity
    --------
    Positive incidence; 1 below it. Within a degree of zero lift the ratio says little.

    Source
    ------
    Kirchhoff and Helmholtz's flow past a plate, as in J. G. Leishman and T. S. Beddoes, A
    semi-empirical model for dynamic stall, J. Am. Helicopter Soc. 34 (1989), pp. 3-17; from
    memory.

    Examples
    --------
    A quarter of the attached lift is left when all has separated:

    >>> float(separation_point_kirchhoff(np.array(0.25 * np.pi), np.array(np.pi / 6)))
    0.0
    """
    potential = 2 * np.pi * np.sin(np.maximum(incidence_rad, 1e-3))
    root = 2.0 * np.sqrt(np.clip(cl / potential, 0.25, 1.0)) - 1.0
    return np.asarray(np.where(incidence_rad > 0.0, root * root, 1.0))


def stall_angle(attached: Array) -> Array:
    """Angle at which half of the chord has separated: about that of greatest lift.

    Parameters
    ----------
    attached : array, shape (..., n)
        Attached share of the chord at every degree from zero, n >= 25. [1]

    Returns
    -------
    angle_rad : array, shape (...)
        The highest such angle up to 24 degrees; 3 where the flow separates before. [rad]

    Validity
    --------
    From 3 to 24 degrees.

    Source
    ------
    As `separation_point_kirchhoff`.
    """
    f = attached[..., 3:25]
    k = f.shape[-1] - 1 - np.argmax((f >= 0.5)[..., ::-1], axis=-1)
    k = np.where((f >= 0.5).any(axis=-1), np.minimum(k, f.shape[-1] - 2), 0)
    high = np.take_along_axis(f, k[..., None], -1)[..., 0]
    low = np.take_along_axis(f, k[..., None] + 1, -1)[..., 0]
    share = np.clip((high - 0.5) / np.maximum(high - low, 1e-9), 0.0, 1.0)
    return np.asarray(np.deg2rad(3.0 + k + np.where(high >= 0.5, share, 0.0)))


def separated_drag(cd: Array, cl: Array, alpha_rad: Array, attached: Array) -> Array:
    r"""Drag coefficient with the suction at the leading edge lost as the flow separates.

    $$ c_d = c_{d,a} + s \max(0,\; c_l \tan\alpha - c_{d,a}), \quad
       s = x^2 (3 - 2x), \; x = 1 - f / 0.7 $$

    Parameters
    ----------
    cd : array, shape (...)
        Drag coefficient of the table, $c_{d,a}$. [1]
    cl : array, shape (...)
        Lift coefficient. [1]
    alpha_rad : array, shape (...)
        Angle of attack, from zero to a right angle. [rad]
    attached : array, shape (...)
        Share of the chord with attached flow, $f$. [1]

    Returns
    -------
    cd : array, same shape
        Drag coefficient. [1]

    Validity
    --------
    Once the flow has left the upper side the pressure force stands square on the chord, so drag is
    lift times tan(alpha). Panel codes, and what learns from them, fall short of it by half. Stall
    begins where 0.7 of the chord is attached, the break of Beddoes and Leishman's model.

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Lift*, 1975, ch. 4: normal force of stalled plates; from memory.
    The break: as `separation_point_kirchhoff`.

    Examples
    --------
    Far past the stall the force is square on the chord:

    >>> a = np.deg2rad(30.0)
    >>> float(np.round(separated_drag(0.2, 0.9, a, 0.0) / np.tan(a), 3))
    0.9
    """
    x = np.clip(1.0 - attached / 0.7, 0.0, 1.0)
    s = x * x * (3.0 - 2.0 * x)
    return np.asarray(cd + s * np.maximum(cl * np.tan(alpha_rad) - cd, 0.0))


def finite_blade_factor(aspect_ratio: Real) -> Real:
    r"""Ratio of a section's lift slope on a short blade to that in plane flow.

    $$ k = \frac{1}{\sqrt{1 + (2 / \Lambda)^2}} $$

    The induced flow still grows along the chord behind the lifting line that momentum theory
    stands for; thin sections feel it at three quarters of the chord. Helmbold's lift slope of a
    straight wing, $2\pi / (\sqrt{1 + (2/\Lambda)^2} + 2/\Lambda)$, is the lifting line's
    with this factor on the section.

    Parameters
    ----------
    aspect_ratio : float or array, shape (...)
        Blade length over mean chord, $\Lambda$. [1]

    Returns
    -------
    factor : float or array, same shape
        Factor on the lift slope. [1]

    Validity
    --------
    Straight blades; made for wings, and taken over for blades without change.

    Source
    ------
    H. B. Helmbold, Der unverwundene Ellipsenfluegel als tragende Flaeche, Jahrbuch 1942 der
    deutschen Luftfahrtforschung, p. I 111; from memory.

    Examples
    --------
    >>> float(np.round(finite_blade_factor(6.0), 3))
    0.949
    """
    return np.asarray(1.0 / np.sqrt(1.0 + np.square(2.0 / np.asarray(aspect_ratio, dtype=float))))


def thick_root(
    cl: Array, cd: Array, thickness_ratio: Array, thickest: float
) -> tuple[Array, Array]:
    r"""Lift and drag of sections thicker than the thickest of a family, on the way to a round bar.

    $$ c_l' = (1 - s)\, c_l, \quad c_d' = c_d + 1.1\, s\, (t/c)^2, \quad
       s = \frac{t/c - (t/c)_{\max}}{1 - (t/c)_{\max}} $$

    Parameters
    ----------
    cl, cd : array, shape (...)
        Coefficients of the thickest section. [1]
    thickness_ratio : array, shape (...)
        Thickness over chord. [1]
    thickest : float
        Thickness ratio of the thickest section. [1]

    Returns
    -------
    cl, cd : array, same shape
        Coefficients of the root; unchanged up to `thickest`. [1]

    Validity
    --------
    The innermost part of a blade, which carries little. The straight fade $s$ is our own.

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Drag*, 1965, ch. 3: 1.1 (t/c)^2 on the chord for bluff ellipses;
    from memory.

    Examples
    --------
    A round bar has no lift and the drag of a cylinder:

    >>> cl, cd = thick_root(np.array(0.8), np.array(0.0), np.array(1.0), 0.2)
    >>> float(cl), float(cd)
    (0.0, 1.1)
    """
    share = np.clip((thickness_ratio - thickest) / (1.0 - thickest), 0.0, 1.0)
    return cl * (1.0 - share), cd + 1.1 * thickness_ratio**2 * share


def stall_delay(
    cl: Array, alpha_rad: Array, zero_lift_rad: Array, chord_to_radius: Array, cos_inflow: Array
) -> Array:
    r"""Lift coefficient with the stall delayed by rotation.

    $$ c_l = c_{l,2D} + \tanh\!\left(3.1 (c/r)^2\right) \cos^2\!\phi \;
       \left(2\pi \sin(\alpha - \alpha_0) - c_{l,2D}\right) w(\alpha) $$

    Parameters
    ----------
    cl : array, shape (...)
        Two-dimensional lift coefficient. [1]
    alpha_rad : array, shape (...)
        Angle of attack. [rad]
    zero_lift_rad : array, shape (...)
        Angle of zero lift. [rad]
    chord_to_radius : array, shape (...)
        Chord over local radius. [1]
    cos_inflow : array, shape (...)
        Cosine of the inflow angle: share of rotation in the local speed. [1]

    Returns
    -------
    cl : array, same shape
        Lift coefficient on the rotating blade. [1]

    Validity
    --------
    Fades out between 30 and 60 degrees of incidence, $w$, as in the source; below zero lift it is
    not applied. The hyperbolic tangent only keeps the factor below 1 near the hub, where the
    source's own expression passes it.

    Source
    ------
    H. Snel, R. Houwink and J. Bosschers, Sectional prediction of lift coefficients on rotating
    wind turbine blades in stall, ECN-C--93-052 (1994); factor from memory.

    Examples
    --------
    >>> stall_delay(np.array(1.0), np.array(0.3), np.array(0.0), np.array(0.0), np.array(1.0))
    array(1.)
    """
    x = alpha_rad - zero_lift_rad
    fade = np.clip((np.deg2rad(60.0) - x) / np.deg2rad(30.0), 0.0, 1.0)
    w = fade**2 * (3 - 2 * fade)
    gain = np.tanh(3.1 * chord_to_radius**2) * cos_inflow**2 * w
    potential = np.pi * np.sin(2 * x)
    return np.asarray(np.where(x > 0.0, cl + gain * np.maximum(potential - cl, 0.0), cl))


def drag_divergence_mach(thickness_ratio: Real, cl: Real) -> Real:
    r"""Mach number at which the drag of an unswept section starts to rise steeply.

    $$ M_{dd} = \kappa - t/c - c_l / 10, \quad \kappa = 0.87 $$

    Parameters
    ----------
    thickness_ratio : float or array, shape (...)
        Thickness over chord. [1]
    cl : float or array, shape (...)
        Lift coefficient. [1]

    Returns
    -------
    mach : float or array, same shape
        Drag divergence Mach number, where dcd/dM = 0.1. [1]

    Validity
    --------
    Conventional sections, 0.03 <= t/c <= 0.2.

    Source
    ------
    Korn's relation as in W. H. Mason, Configuration aerodynamics (lecture notes), ch. 7; from
    memory.

    Examples
    --------
    >>> float(np.round(drag_divergence_mach(0.12, 0.0), 3))
    0.75
    """
    return np.asarray(_KORN - np.asarray(thickness_ratio) - np.abs(cl) / 10.0)


def wave_drag(mach: Real, divergence_mach: Real) -> Real:
    r"""Drag coefficient of the shocks on a section.

    $$ c_{d,w} = 20 \,(M - M_{cr})^4, \quad M_{cr} = M_{dd} - (0.1/80)^{1/3} $$

    Parameters
    ----------
    mach : float or array, shape (...)
        Mach number of the section. [1]
    divergence_mach : float or array, shape (...)
        Its drag divergence Mach number. [1]

    Returns
    -------
    cd : float or array, same shape
        Wave drag coefficient, zero up to the critical Mach number. [1]

    Validity
    --------
    Up to about 0.1 past divergence; beyond that the law is steeper than measured sections.

    Source
    ------
    C. N. H. Lock's law as in W. H. Mason, Configuration aerodynamics, ch. 7; from memory.

    Examples
    --------
    At drag divergence the law gives 20 drag counts:

    >>> float(np.round(wave_drag(0.75, 0.75), 4))
    0.0027
    """
    excess = np.asarray(mach) - np.asarray(divergence_mach) + _CRITICAL_BELOW_DIVERGENCE
    excess = np.maximum(excess, 0.0)
    square = excess * excess
    return np.asarray(_DRAG_RISE * square * square)


def lift_slope_factor(mach: Real, divergence_mach: Real) -> Real:
    r"""Ratio of the lift slope at a Mach number to that of incompressible flow.

    $$ K = 1 + \left(\frac{1}{\sqrt{1 - M^2}} - 1\right)
           \frac{1}{1 + e^{(M - M_{dd} - 0.05)/0.04}} $$

    Parameters
    ----------
    mach : float or array, shape (...)
        Mach number of the section. [1]
    divergence_mach : float or array, shape (...)
        Its drag divergence Mach number. [1]

    Returns
    -------
    factor : float or array, same shape
        Prandtl and Glauert's factor, lost again past drag divergence. [1]

    Validity
    --------
    0 <= mach <= 0.95, held beyond. The loss (half of the gain is gone 0.05 past divergence) is
    a stated shape, not a fit: the lift slope of wind-tunnel sections peaks just past divergence.

    Source
    ------
    H. Glauert, Proc. R. Soc. A 118 (1928), p. 113, for the first factor.

    Examples
    --------
    >>> float(np.round(lift_slope_factor(0.5, 0.8), 2))
    1.15
    """
    M = np.minimum(np.asarray(mach, dtype=float), 0.95)
    gain = 1.0 / np.sqrt(1.0 - M * M) - 1.0
    excess = (M - np.asarray(divergence_mach) - 0.05) / _BREAK_SPAN
    return np.asarray(1.0 + gain / (1.0 + np.exp(np.minimum(excess, 50.0))))
