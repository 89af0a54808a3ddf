"""The rear of a body: form factor, suction on a boat-tail and on the base behind it."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real

# K, power of the closed share of the section, power of the open share; fitted by us, see
# boattail_drag_attached.
_BOATTAIL: Final = (0.989, 0.65, 1.15)
_ATTACHED_TO_RAD: Final = float(np.radians(15.0))  # common practice, no source
_SEPARATED_FROM_RAD: Final = float(np.radians(25.0))  # our choice: all of the tail stalled
_BASE_SUCTION: Final = 0.029  # Hoerner, Fluid-Dynamic Drag, chapter 3
# MIL-HDBK-762 prints 0.17 for a body whose friction gives 0.058 in Hoerner's formula. The ratio of
# the two for a body as short as ours is 1.6, and the truth lies between them more often than not.
BASE_SPREAD: Final = 0.4


def form_factor_hoerner(fineness: Real) -> Real:
    r"""Drag of a streamlined body of revolution over the friction of a plate of its wetted area.

    $$ F = 1 + 1.5 \left(\frac{d}{l}\right)^{1.5} + 7 \left(\frac{d}{l}\right)^3 $$

    Parameters
    ----------
    fineness : float or array, shape (...)
        Length over diameter, $l/d$. [-]

    Returns
    -------
    form_factor : float or array, same shape
        $F$. [-]

    Validity
    --------
    1 <= fineness <= 100; ValidityError outside. Attached flow. The last term is the pressure
    drag of a closed tail; for a short body other authors give twice this and more (3.2 against
    1.5 at a fineness of 3).

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Drag*, 1965, chapter 6, as tabulated in
    tests/data/body_form_factor.csv (computed there).

    Examples
    --------
    The table gives 1.29688 for l/d = 4:

    >>> form_factor_hoerner(4.0)
    1.29688
    """
    require_range("form_factor_hoerner", "fineness", fineness, 1.0, 100.0, "bodies of revolution")
    f = np.asarray(fineness, dtype=float)
    return as_real(1.0 + 1.5 / f**1.5 + 7.0 / f**3)


def base_drag_hoerner(friction_coefficient: Real, base_ratio: Real) -> Real:
    r"""Drag coefficient of a blunt base behind a body of revolution.

    $$ C_{Db} = 0.029 \frac{(d_b/d)^3}{\sqrt{C_{Df}}} $$

    Parameters
    ----------
    friction_coefficient : float or array, shape (...)
        Friction drag coefficient of the body before it, on the largest section, $C_{Df}$. [-]
    base_ratio : float or array, shape (...)
        Base diameter over largest diameter, $d_b/d$. [-]

    Returns
    -------
    drag_coefficient : float or array, broadcast shape
        $C_{Db}$ on the largest section. [-]

    Validity
    --------
    0.001 <= friction_coefficient <= 100, 0 <= base_ratio <= 1; ValidityError outside. Flow
    attached up to the base, closed base, no jet. Two published figures differ by nearly a factor
    three for slender bodies (MIL-HDBK-762 prints 0.17 where this gives 0.058 to 0.06) and by 1.6
    for short ones; this one is used because it sees the boundary layer and the boat-tail, and
    `BASE_SPREAD` is the half-width of the range that the disagreement leaves.

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Drag*, 1965, chapter 3, as tabulated in
    tests/data/body_base_drag.csv.

    Examples
    --------
    The table gives 0.04695 for a friction of 0.10 and a base of 0.8 diameters:

    >>> base_drag_hoerner(0.10, 0.8)
    0.04695
    """
    who = "base_drag_hoerner"
    require_range(who, "friction_coefficient", friction_coefficient, 1e-3, 100.0, "bodies")
    require_range(who, "base_ratio", base_ratio, 0.0, 1.0, "a share of the diameter")
    CDf = np.asarray(friction_coefficient, dtype=float)
    return as_real(_BASE_SUCTION * np.asarray(base_ratio, dtype=float) ** 3 / np.sqrt(CDf))


def boattail_drag_attached(half_angle_rad: Real, base_ratio: Real) -> Real:
    r"""Pressure drag coefficient of a conical boat-tail that the flow follows.

    $$ C_{D\beta} = 0.989 \tan\beta\; s^{0.65} (1 - s)^{1.15}, \quad s = 1 - (d_b/d)^2 $$

    Parameters
    ----------
    half_angle_rad : float or array, shape (...)
        Half angle of the cone, $\beta$. [rad]
    base_ratio : float or array, shape (...)
        Base diameter over largest diameter, $d_b/d$. [-]

    Returns
    -------
    drag_coefficient : float or array, broadcast shape
        $C_{D\beta}$ on the largest section. [-]

    Validity
    --------
    0 <= half_angle_rad <= 0.262 (15 deg, beyond which the flow leaves), 0 <= base_ratio <= 1;
    ValidityError outside. A fit of our own to 28 of the source's points (3 to 10 deg, lengths of
    0.6 to 1 diameter, Mach 0.3 to 0.6): r.m.s. residual 0.0019, largest 0.005; the points are
    given as 0.002 uncertain. Extrapolated from 10 to 15 deg and to bases under 0.65 diameters,
    where it goes to zero with the base as a closed tail does.

    Source
    ------
    NASA TN D-6789, 1972, figure 12 (points transcribed by a third party), in
    tests/data/body_boattail_drag.csv.

    Examples
    --------
    The source gives 0.0505 to 0.0535 below Mach 0.6 for 10 deg and a base of 0.722 diameters:

    >>> boattail_drag_attached(np.radians(10.0), 0.722)
    0.0510
    """
    who = "boattail_drag_attached"
    require_range(who, "half_angle_rad", half_angle_rad, 0.0, _ATTACHED_TO_RAD + 1e-9, "attached")
    require_range(who, "base_ratio", base_ratio, 0.0, 1.0, "a share of the diameter")
    K, a, c = _BOATTAIL
    s = 1.0 - np.asarray(base_ratio, dtype=float) ** 2
    beta = np.asarray(half_angle_rad, dtype=float)
    return as_real(K * np.tan(beta) * s**a * (1.0 - s) ** c)


def separated_share(half_angle_rad: float) -> float:
    r"""How much of a boat-tail has lost the flow.

    $$ s = 3 t^2 - 2 t^3, \quad t = \frac{\beta - 15^\circ}{10^\circ} $$

    Parameters
    ----------
    half_angle_rad : float
        Half angle of the boat-tail, $\beta$. [rad]

    Returns
    -------
    separated : float
        0 up to 15 deg, 1 from 25 deg on. [-]

    Validity
    --------
    Any angle. The 15 deg are common practice, the 25 deg and the curve between are our choice.

    Source
    ------
    None.

    Examples
    --------
    >>> separated_share(np.radians(20.0))
    0.50
    """
    t = (half_angle_rad - _ATTACHED_TO_RAD) / (_SEPARATED_FROM_RAD - _ATTACHED_TO_RAD)
    t = min(max(t, 0.0), 1.0)
    return float(t * t * (3.0 - 2.0 * t))


def afterbody_drag(
    half_angle_rad: float, base_ratio: float, friction_coefficient: Array
) -> tuple[Array, Array]:
    r"""Drag coefficients of a boat-tail and of the base behind it, attached or not.

    $$ C_{D\beta} + s \left[\max\left(C_{Db,1} (1 - r^2),\, C_{D\beta}\right)
       - C_{D\beta}\right], \quad C_{Db} + s \left[C_{Db,1} r^2 - C_{Db}\right],
       \quad r = d_b/d $$

    Parameters
    ----------
    half_angle_rad : float
        Half angle of the boat-tail. [rad]
    base_ratio : float
        Base diameter over largest diameter, $r$. [-]
    friction_coefficient : array, shape (...)
        Friction drag coefficient of the body before it, on the largest section. [-]

    Returns
    -------
    tail_coefficient, base_coefficient : array, shape (...)
        Both on the largest section. [-]

    Validity
    --------
    As `boattail_drag_attached` and `base_drag_hoerner` up to 15 deg. Beyond, by `separated_share`
    $s$, the flow leaves at the shoulder: tail and base then feel the suction $C_{Db,1}$ of a
    blunt base as wide as the body, but the tail never less than the attached one at 15 deg. So a
    stalled tail has about the drag of none.

    Source
    ------
    The two formulas it joins; the joint is our own.

    Examples
    --------
    A tail of 10 deg to a base of 0.7 diameters, friction 0.1:

    >>> tail, base = afterbody_drag(np.radians(10.0), 0.7, np.array(0.1))
    >>> float(tail), float(base)
    (0.0496, 0.0315)
    """
    attached_rad = min(half_angle_rad, _ATTACHED_TO_RAD)
    tail = np.asarray(boattail_drag_attached(attached_rad, base_ratio))
    base = np.asarray(base_drag_hoerner(friction_coefficient, base_ratio))
    blunt = np.asarray(base_drag_hoerner(friction_coefficient, 1.0))
    share = separated_share(half_angle_rad)
    stalled_tail = np.maximum(blunt * (1.0 - base_ratio**2), tail)
    stalled_base = blunt * base_ratio**2
    return (
        np.asarray(tail + share * (stalled_tail - tail)),
        np.asarray(base + share * (stalled_base - base)),
    )
