"""Lift of small wings: slope by aspect ratio, and the normal force up to broadside."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real

_PLATE_NORMAL: Final = (1.17, 1.98, 30.0)  # square plate, endless plate, aspect of half way
_TAN_STALL: Final = float(np.tan(np.radians(20.0)))  # incidence where half the wing's lift is lost


def lift_slope_helmbold(aspect_ratio: Real) -> Real:
    r"""Lift slope of a straight wing of low or high aspect ratio.

    $$ C_{L\alpha} = \frac{2 \pi A}{2 + \sqrt{A^2 + 4}} $$

    Parameters
    ----------
    aspect_ratio : float or array, shape (...)
        Span squared over area, $A$. [-]

    Returns
    -------
    slope_per_rad : float or array, same shape
        Lift slope $C_{L\alpha}$ on the wing's area. [1/rad]

    Validity
    --------
    0 <= aspect_ratio <= 100; ValidityError outside. Thin, unswept, incompressible, attached flow
    (to about 10 deg); for sweep or Mach number use `lift_slope_datcom`.

    Source
    ------
    H. B. Helmbold, 1942, as tabulated in tests/data/fin_lift_slope.csv (computed there).

    Examples
    --------
    The table gives 2.60258 for A = 2:

    >>> lift_slope_helmbold(2.0)
    2.60258
    """
    require_range("lift_slope_helmbold", "aspect_ratio", aspect_ratio, 0.0, 100.0, "thin wings")
    A = np.asarray(aspect_ratio, dtype=float)
    return as_real(2.0 * np.pi * A / (2.0 + np.sqrt(A**2 + 4.0)))


def lift_slope_datcom(
    aspect_ratio: Real,
    mid_chord_sweep_rad: Real = 0.0,
    mach: Real = 0.0,
    section_slope_ratio: Real = 1.0,
) -> Real:
    r"""Lift slope of a swept wing at subsonic speed.

    $$ C_{L\alpha} = \frac{2 \pi A}{2 + \sqrt{\frac{A^2 \beta^2}{k^2}
       \left(1 + \frac{\tan^2 \Lambda_{c/2}}{\beta^2}\right) + 4}},
       \quad \beta^2 = 1 - M^2 $$

    Parameters
    ----------
    aspect_ratio : float or array, shape (...)
        Span squared over area, $A$. [-]
    mid_chord_sweep_rad : float or array, shape (...)
        Sweep of the mid-chord line, $\Lambda_{c/2}$. [rad]
    mach : float or array, shape (...)
        Mach number $M$. [-]
    section_slope_ratio : float or array, shape (...)
        Section lift slope over $2\pi$, $k$. [-]

    Returns
    -------
    slope_per_rad : float or array, broadcast shape
        Lift slope $C_{L\alpha}$ on the wing's area. [1/rad]

    Validity
    --------
    0 <= aspect_ratio <= 100, |mid_chord_sweep_rad| <= 1.22 (70 deg), 0 <= mach <= 0.7,
    0.5 <= section_slope_ratio <= 1.2; ValidityError outside. Attached flow.

    Source
    ------
    USAF Stability and Control DATCOM, section 4.1.3.2, as tabulated in
    tests/data/fin_lift_slope.csv (computed there).

    Examples
    --------
    The table gives 3.14159 for A = 3 with 30 deg of sweep:

    >>> lift_slope_datcom(3.0, np.radians(30.0))
    3.14159
    """
    who = "lift_slope_datcom"
    require_range(who, "aspect_ratio", aspect_ratio, 0.0, 100.0, "thin wings")
    require_range(who, "mid_chord_sweep_rad", mid_chord_sweep_rad, -1.22, 1.22, "DATCOM 4.1.3.2")
    require_range(who, "mach", mach, 0.0, 0.7, "DATCOM 4.1.3.2, subsonic")
    require_range(who, "section_slope_ratio", section_slope_ratio, 0.5, 1.2, "thin sections")
    A, M = np.asarray(aspect_ratio, dtype=float), np.asarray(mach, dtype=float)
    k = np.asarray(section_slope_ratio, dtype=float)
    tan = np.tan(np.asarray(mid_chord_sweep_rad, dtype=float))
    root = np.sqrt((A / k) ** 2 * (1.0 - M**2 + tan**2) + 4.0)
    return as_real(2.0 * np.pi * A / (2.0 + root))


def plate_drag_broadside(aspect_ratio: Real) -> Real:
    r"""Drag coefficient of a rectangular plate square to the flow.

    $$ C_{D90} = 1.17 + 0.81 \frac{A - 1}{A - 1 + 30}, \quad A = \max(a/b,\, b/a) $$

    Parameters
    ----------
    aspect_ratio : float or array, shape (...)
        One side over the other, $a/b$; either way round. [-]

    Returns
    -------
    drag_coefficient : float or array, same shape
        $C_{D90}$ on the plate's area. [-]

    Validity
    --------
    0.001 <= aspect_ratio <= 1000; ValidityError outside. Sharp edges, Reynolds number above
    1e3. The ends 1.17 (square) and 1.98 (endless) are the source's; the shape between is our
    own curve through wind-tunnel values from memory (1.2 at 5, 1.5 at 20), within 6 % of them.

    Source
    ------
    Matthews, *Aeronautical Engineer's Data Book*, figure 5.13b, as in
    tests/data/body_bluff_shapes.csv.

    Examples
    --------
    1.17 for a square plate:

    >>> plate_drag_broadside(1.0)
    1.17
    """
    require_range("plate_drag_broadside", "aspect_ratio", aspect_ratio, 1e-3, 1e3, "plates")
    a = np.asarray(aspect_ratio, dtype=float)
    square, endless, half_way = _PLATE_NORMAL
    x = np.maximum(a, 1.0 / a) - 1.0
    return as_real(square + (endless - square) * x / (x + half_way))


def attached_share(along_speed_m_s: Real, across_speed_m_s: Real) -> Real:
    r"""How much of a thin wing's flow is still attached at an incidence.

    $$ a = \frac{u^2}{u^2 + w^2 / \tan^2 20^\circ} $$

    Parameters
    ----------
    along_speed_m_s : float or array, shape (...)
        Speed in the wing's own plane, $u$. [m/s]
    across_speed_m_s : float or array, shape (...)
        Speed square to the wing, $w$. [m/s]

    Returns
    -------
    attached : float or array, broadcast shape
        1 along the wing, half at 20 deg of incidence, 0 square to it and in still air. [-]

    Validity
    --------
    Any incidence. Our own blend, see `plate_normal_force`.

    Source
    ------
    Own form.

    Examples
    --------
    >>> attached_share(10.0, 3.6397)
    0.50
    """
    u = np.asarray(along_speed_m_s, dtype=float)
    w = np.asarray(across_speed_m_s, dtype=float)
    return as_real(u**2 / (u**2 + (w / _TAN_STALL) ** 2 + 1e-18))


def plate_normal_force(
    along_speed_m_s: Real,
    across_speed_m_s: Real,
    area_m2: Real,
    slope_per_rad: Real,
    broadside: Real,
    density_kg_m3: Real,
) -> Real:
    r"""Normal force of a thin wing or plate at any incidence.

    $$ N = \tfrac12 \rho S V w \left[C_{D90} +
       \left(C_{L\alpha} - C_{D90}\right) \frac{u^2}{u^2 + w^2 / \tan^2 20^\circ}\right],
       \quad V^2 = u^2 + w^2 $$

    Parameters
    ----------
    along_speed_m_s : float or array, shape (...)
        Speed in the wing's own plane, $u$. [m/s]
    across_speed_m_s : float or array, shape (...)
        Speed square to the wing, $w$; gives the force its sign. [m/s]
    area_m2 : float or array, shape (...)
        Area of the wing, one side, $S$. [m2]
    slope_per_rad : float or array, shape (...)
        Lift slope $C_{L\alpha}$ of attached flow. [1/rad]
    broadside : float or array, shape (...)
        Drag coefficient $C_{D90}$ square to the flow. [-]
    density_kg_m3 : float or array, shape (...)
        Density of the air $\rho$. [kg/m3]

    Returns
    -------
    normal_N : float or array, broadcast shape
        Force square to the wing, $N$. [N]

    Validity
    --------
    Any incidence; zero in still air. Our own blend between two limits that are sourced: the
    attached slope at zero incidence and the broadside plate at 90 deg, with half of the
    difference gone at 20 deg. A thin wing of aspect ratio 4 gets 0.79 at 15 deg, about what
    low Reynolds numbers give (memory). Rises with `across_speed_m_s` at any `along_speed_m_s`.

    Source
    ------
    Own form; limits from `lift_slope_helmbold` and `plate_drag_broadside`.

    Examples
    --------
    Square to the flow only the plate's drag is left, here 1.2 on 0.01 m2 at 10 m/s:

    >>> plate_normal_force(0.0, 10.0, 0.01, 3.0, 1.2, 1.25)
    0.75
    """
    u = np.asarray(along_speed_m_s, dtype=float)
    w = np.asarray(across_speed_m_s, dtype=float)
    S, rho = np.asarray(area_m2, dtype=float), np.asarray(density_kg_m3, dtype=float)
    slope, cd90 = np.asarray(slope_per_rad, dtype=float), np.asarray(broadside, dtype=float)
    attached = np.asarray(attached_share(u, w))
    return as_real(0.5 * rho * S * np.hypot(u, w) * w * (cd90 + (slope - cd90) * attached))
