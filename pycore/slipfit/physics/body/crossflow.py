"""Flow across long bodies: cross-flow drag of a section, and how the ends lower it."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real, pchip

# NASA TR R-474 (Jorgensen, 1977), figure 1: cross-flow Mach number, drag coefficient of a cylinder.
_CDN_MACH: Final = np.array([0, 0.2, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7])
_CDN: Final = np.array([1.2, 1.2, 1.21, 1.237, 1.271, 1.305, 1.334, 1.458, 1.552])
# NASA TR R-474, figure 4 (Reynolds number 88 000): length over diameter, end factor. The first two
# rows are 0.63/1.2 at 1 diameter (NASA TN D-540, figure 5) and its level below it.
_ETA_FINENESS: Final = np.array([1, 2, 4, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40.0])
_ETA: Final = np.array(
    [0.525, 0.577, 0.607, 0.643, 0.668, 0.685, 0.701, 0.724, 0.753, 0.775, 0.795, 0.805, 0.815]
)


def crossflow_drag_jorgensen(crossflow_mach: Real) -> Real:
    r"""Drag coefficient of an endless circular cylinder by the Mach number across it.

    $$ C_{dn} = f(M \sin\alpha) $$

    Parameters
    ----------
    crossflow_mach : float or array, shape (...)
        Mach number of the flow component square to the axis. [-]

    Returns
    -------
    drag_coefficient : float or array, same shape
        $C_{dn}$ on length times diameter. [-]

    Validity
    --------
    0 <= crossflow_mach <= 0.7; ValidityError outside. Laminar separation: Reynolds number of the
    diameter below 2e5, which 60 mm reaches at 50 m/s across; beyond, a smooth cylinder drops to
    a quarter of this.

    Source
    ------
    L. H. Jorgensen, NASA TR R-474, 1977, figure 1, through its points in
    tests/data/body_crossflow_jorgensen.csv by a shape-preserving cubic.

    Examples
    --------
    The figure gives 1.2 up to Mach 0.2:

    >>> crossflow_drag_jorgensen(0.1)
    1.2
    """
    require_range("crossflow_drag_jorgensen", "crossflow_mach", crossflow_mach, 0.0, 0.7, "fig. 1")
    return as_real(pchip(_CDN_MACH, _CDN, crossflow_mach))


def end_factor_jorgensen(fineness: Real) -> Real:
    r"""Cross-flow drag of a body of finite length over that of an endless one.

    $$ \eta = f(l/d) $$

    Parameters
    ----------
    fineness : float or array, shape (...)
        Length over diameter, $l/d$. [-]

    Returns
    -------
    end_factor : float or array, same shape
        $\eta$. [-]

    Validity
    --------
    1 <= fineness <= 40; ValidityError outside. Reynolds number of the diameter 88 000. The value
    at 1 is from another source's broadside cylinder (0.63 of 1.2).

    Source
    ------
    L. H. Jorgensen, NASA TR R-474, 1977, figure 4, through its points in
    tests/data/body_crossflow_jorgensen.csv by a shape-preserving cubic.

    Examples
    --------
    The figure gives 0.607 for 4 diameters:

    >>> end_factor_jorgensen(4.0)
    0.607
    """
    require_range("end_factor_jorgensen", "fineness", fineness, 1.0, 40.0, "NASA TR R-474, fig. 4")
    return as_real(pchip(_ETA_FINENESS, _ETA, fineness))


def apparent_mass_factor_munk(fineness: Real) -> Real:
    r"""How much of slender-body theory's normal force a body of finite length keeps.

    $$ k_2 - k_1, \quad k_i = \frac{\alpha_i}{2 - \alpha_i}, \quad
       \alpha_1 = \frac{2 (1 - e^2)}{e^3} \left(L - e\right), \quad
       \alpha_2 = \frac{1}{e^2} - \frac{1 - e^2}{e^3} L, \quad
       L = \tfrac12 \ln\frac{1 + e}{1 - e}, \quad e^2 = 1 - (d/l)^2 $$

    Parameters
    ----------
    fineness : float or array, shape (...)
        Length over diameter, $l/d$. [-]

    Returns
    -------
    apparent_mass_factor : float or array, same shape
        $k_2 - k_1$: 0 for a sphere, 1 for an endless body. [-]

    Validity
    --------
    1 <= fineness <= 1000; ValidityError outside. Prolate spheroids in potential flow, used for
    other bodies of the same fineness as is usual. Next to the sphere ($e < 0.05$) the series
    $0.45 e^2$ stands in for the 0/0.

    Source
    ------
    M. M. Munk, NACA Report 184, 1924, after H. Lamb, *Hydrodynamics*, articles 114 and 373.

    Examples
    --------
    Munk's table gives 0.778 for 3.99 (memory):

    >>> apparent_mass_factor_munk(3.99)
    0.778
    """
    require_range(
        "apparent_mass_factor_munk", "fineness", fineness, 1.0, 1000.0, "prolate spheroids"
    )
    e2 = np.asarray(1.0 - 1.0 / np.asarray(fineness, dtype=float) ** 2)
    near = e2 < 0.0025
    e = np.sqrt(np.where(near, 0.25, e2))
    L = np.arctanh(e)
    a1 = 2.0 * (1.0 - e**2) / e**3 * (L - e)
    a2 = 1.0 / e**2 - (1.0 - e**2) / e**3 * L
    exact = a2 / (2.0 - a2) - a1 / (2.0 - a1)
    return as_real(np.where(near, 0.45 * e2, exact))


def slender_lift_pressure(axial_speed_m_s: Real, side_speed_m_s: Real, density_kg_m3: Real) -> Real:
    r"""Slender-body lift over the base area that it acts on.

    $$ p = \tfrac12 \rho V^2 \sin 2\alpha \cos\tfrac{\alpha}{2} $$

    Parameters
    ----------
    axial_speed_m_s : float or array, shape (...)
        Air along the axis, $V \cos\alpha$; its sign does not matter. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air across it, $V \sin\alpha$; gives the result its sign. [m/s]
    density_kg_m3 : float or array, shape (...)
        Density of the air $\rho$. [kg/m3]

    Returns
    -------
    pressure_Pa : float or array, broadcast shape
        $p$; zero in still air. [Pa]

    Validity
    --------
    Any incidence: past 90 deg the tail leads and the form is mirrored, as in the source.

    Source
    ------
    H. J. Allen and E. W. Perkins, NACA Report 1048, 1951, in the form of L. H. Jorgensen, NASA
    TR R-474, 1977.

    Examples
    --------
    At 45 deg and 10 m/s, half rho V^2 times cos 22.5 deg:

    >>> slender_lift_pressure(7.0711, 7.0711, 1.2)
    55.43
    """
    u = np.abs(np.asarray(axial_speed_m_s, dtype=float))
    w, rho = np.asarray(side_speed_m_s, dtype=float), np.asarray(density_kg_m3, dtype=float)
    cos_half = np.sqrt(0.5 * (1.0 + u / (np.hypot(u, w) + 1e-9)))
    return as_real(rho * u * w * cos_half)
