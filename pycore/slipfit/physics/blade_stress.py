"""Tension in a turning blade by its own weight, and how its mass lies along it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from slipfit.errors import require_range
from slipfit.numerics import Array, Real


def blade_stress(
    stations_m: ArrayLike, sections_m2: ArrayLike, omega_rad_s: Real, density_kg_m3: Real
) -> Array:
    r"""Tension along a turning blade, from the mass outboard of each station.

    $$ \sigma(r) = \frac{\rho\, \omega^2}{S(r)} \int_r^R S(x)\, x \,\mathrm{d}x $$

    Parameters
    ----------
    stations_m : array, shape (n,)
        Radii from the root to the tip, rising, $r$. [m]
    sections_m2 : array, shape (n,)
        Area of the section there, $S$; only its ratios along the blade matter. [m2]
    omega_rad_s : float or array, shape (...)
        Turning speed, $\omega$. [rad/s]
    density_kg_m3 : float or array, shape (...)
        Density of the blade, $\rho$. [kg/m3]

    Returns
    -------
    stress_Pa : array, shape (..., n)
        Mean tension over the section at each radius, $\sigma$. [Pa]

    Validity
    --------
    Straight blades, stations rising; ValidityError otherwise. Tension alone: bending by thrust
    and the notch at the hub come on top, and a nick multiplies it. Sections are taken as
    straight between the stations.

    Source
    ------
    Balance of a rod against its own centrifugal force; a uniform rod has
    $\rho \omega^2 (R^2 - r^2)/2$.

    Examples
    --------
    A uniform rod of 60 mm at 4000 rad/s and 1200 kg/m3, in MPa at the axis:

    >>> float(blade_stress([0.0, 0.03, 0.06], [1.0, 1.0, 1.0], 4000.0, 1200.0)[0]) / 1e6
    34.56
    """
    r, S = np.asarray(stations_m, dtype=float), np.asarray(sections_m2, dtype=float)
    require_range("blade_stress", "rise of stations_m", np.diff(r), 0.0, np.inf, "in order")
    require_range("blade_stress", "sections_m2", S, 1e-300, np.inf, "a blade")
    # exact for S linear in each piece: S x is a parabola, Simpson's rule is its integral
    middle = 0.25 * (S[1:] + S[:-1]) * (r[1:] + r[:-1])
    pieces = np.diff(r) / 6.0 * (S[:-1] * r[:-1] + 4.0 * middle + S[1:] * r[1:])
    outboard = np.concatenate([np.cumsum(pieces[::-1])[::-1], [0.0]])
    pull = np.asarray(density_kg_m3, dtype=float) * np.asarray(omega_rad_s, dtype=float) ** 2
    return np.asarray(pull[..., None] * outboard / S)


def blade_gyration(stations_m: ArrayLike, sections_m2: ArrayLike) -> float:
    r"""Radius of gyration of a blade about the axis on which it turns.

    $$ k^2 = \frac{\int S(r)\, r^2 \,\mathrm{d}r}{\int S(r) \,\mathrm{d}r} $$

    Parameters
    ----------
    stations_m : array, shape (n,)
        Radii from the root to the tip, rising, $r$. [m]
    sections_m2 : array, shape (n,)
        Area of the section there, $S$; only its ratios along the blade matter. [m2]

    Returns
    -------
    gyration_m : float
        Radius at which all of its mass would have the same inertia, $k$. [m]

    Validity
    --------
    Blades of one material, stations rising; ValidityError otherwise. Sections are taken as
    straight between the stations. What is inboard of the first station, the hub, is left out.

    Source
    ------
    Definition of the moment of inertia; a uniform rod from the axis has $k^2 = R^2/3$.

    Examples
    --------
    A uniform rod of 60 mm, in mm:

    >>> round(1e3 * blade_gyration([0.0, 0.03, 0.06], [1.0, 1.0, 1.0]), 3)
    34.641
    """
    r, S = np.asarray(stations_m, dtype=float), np.asarray(sections_m2, dtype=float)
    require_range("blade_gyration", "rise of stations_m", np.diff(r), 0.0, np.inf, "in order")
    require_range("blade_gyration", "sections_m2", S, 1e-300, np.inf, "a blade")
    # exact for S linear in each piece: S r^2 is a cubic, Simpson's rule is its integral
    middle = 0.25 * (S[1:] + S[:-1]) * (r[1:] + r[:-1]) ** 2 * 0.5
    second = np.sum(np.diff(r) / 6.0 * (S[:-1] * r[:-1] ** 2 + 4.0 * middle + S[1:] * r[1:] ** 2))
    return float(np.sqrt(second / np.sum(np.diff(r) * 0.5 * (S[1:] + S[:-1]))))
