"""First bending frequency of an arm with a motor at its end, and the modulus of its laminate."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real, bracketed_root

_RAYLEIGH_SHARE: Final = 33.0 / 140.0  # of a beam's own mass that moves with its tip
# Rayleigh's beta l is right to 0.75 % and never low: the bracket of the exact one
_BRACKET: Final = (0.99, 1.0005)


def second_moment_rectangle(width_m: Real, height_m: Real) -> Real:
    r"""Second moment of area of a rectangle.

    $$ I = \frac{b h^3}{12} $$

    Parameters
    ----------
    width_m : float or array, shape (...)
        Width across the bending plane, $b$. [m]
    height_m : float or array, shape (...)
        Height in the bending plane, $h$. [m]

    Returns
    -------
    second_moment_m4 : float or array, broadcast shape
        $I$. [m4]

    Validity
    --------
    Positive sides; ValidityError otherwise.

    Source
    ------
    Definition.

    Examples
    --------
    An arm 12 mm wide and 5 mm thick, in mm^4:

    >>> 1e12 * second_moment_rectangle(0.012, 0.005)
    125.0
    """
    require_range("second_moment_rectangle", "width_m", width_m, 0.0, np.inf, "a side")
    require_range("second_moment_rectangle", "height_m", height_m, 0.0, np.inf, "a side")
    b, h = np.asarray(width_m, dtype=float), np.asarray(height_m, dtype=float)
    return as_real(b * h**3 / 12.0)


def cantilever_stiffness(length_m: Real, modulus_Pa: Real, second_moment_m4: Real) -> Real:
    r"""Force at the tip of a cantilever over its deflection there.

    $$ k = \frac{3 E I}{L^3} $$

    Parameters
    ----------
    length_m : float or array, shape (...)
        Free length, $L$. [m]
    modulus_Pa : float or array, shape (...)
        Modulus along the arm, $E$; of a laminate, `laminate_modulus`. [Pa]
    second_moment_m4 : float or array, shape (...)
        Second moment of area, $I$. [m4]

    Returns
    -------
    stiffness_N_m : float or array, broadcast shape
        $k$. [N/m]

    Validity
    --------
    length_m > 0; ValidityError otherwise. Slender (length above ten heights), rigid root: a
    bolted root lowers it by a fifth or more.

    Source
    ------
    Euler-Bernoulli beam theory.

    Examples
    --------
    A carbon arm of 90 x 12 x 5 mm with 60 GPa:

    >>> cantilever_stiffness(0.090, 60e9, 125e-12)
    30864.2
    """
    require_range("cantilever_stiffness", "length_m", length_m, 1e-6, np.inf, "a beam")
    L = np.asarray(length_m, dtype=float)
    E, inertia = np.asarray(modulus_Pa, dtype=float), np.asarray(second_moment_m4, dtype=float)
    return as_real(3.0 * E * inertia / L**3)


def cantilever_frequency_rayleigh(
    stiffness_N_m: Real, tip_mass_kg: Real, beam_mass_kg: Real
) -> Real:
    r"""First bending frequency of a cantilever with a mass at its tip, by Rayleigh.

    $$ f = \frac{1}{2\pi} \sqrt{\frac{k}{M + \tfrac{33}{140} m}} $$

    Parameters
    ----------
    stiffness_N_m : float or array, shape (...)
        Tip stiffness, $k$. [N/m]
    tip_mass_kg : float or array, shape (...)
        Mass at the tip, $M$. [kg]
    beam_mass_kg : float or array, shape (...)
        Mass of the beam, $m$. [kg]

    Returns
    -------
    frequency_Hz : float or array, broadcast shape
        $f$. [Hz]

    Validity
    --------
    Masses not negative, not both zero; ValidityError otherwise. At most 1.5 % high (bare beam),
    0.05 % high where tip and beam weigh the same.

    Source
    ------
    Lord Rayleigh's method with the static deflection curve.

    Examples
    --------
    The arm of `cantilever_stiffness`, 8.37 g, with 40 g at its tip:

    >>> cantilever_frequency_rayleigh(30864.2, 0.040, 0.00837)
    136.478
    """
    who = "cantilever_frequency_rayleigh"
    require_range(who, "tip_mass_kg", tip_mass_kg, 0.0, np.inf, "a mass")
    require_range(who, "beam_mass_kg", beam_mass_kg, 0.0, np.inf, "a mass")
    M, m = np.asarray(tip_mass_kg, dtype=float), np.asarray(beam_mass_kg, dtype=float)
    moving = M + _RAYLEIGH_SHARE * m
    require_range(who, "tip_mass_kg and beam_mass_kg", moving, 1e-12, np.inf, "something moves")
    return as_real(np.sqrt(np.asarray(stiffness_N_m, dtype=float) / moving) / (2.0 * np.pi))


def cantilever_mode(mass_ratio: Real) -> Real:
    r"""First eigenvalue of a uniform cantilever with a mass at its tip.

    $$ 1 + \cos b \cosh b = \mu\, b \left(\sin b \cosh b - \cos b \sinh b\right),
       \quad \lambda = b^2 $$

    Parameters
    ----------
    mass_ratio : float or array, shape (...)
        Tip mass over beam mass, $\mu$. [-]

    Returns
    -------
    eigenvalue : float or array, same shape
        $\lambda = (\beta L)^2$; the angular frequency is $\lambda \sqrt{EI/(m L^3)}$. [-]

    Validity
    --------
    0 <= mass_ratio <= 1e4; ValidityError outside. Point mass without rotary inertia, no shear.

    Source
    ------
    Euler-Bernoulli beam theory.

    Examples
    --------
    3.51602 for the bare beam, 1.5573 for a tip as heavy as the beam:

    >>> cantilever_mode(0.0)
    3.51602
    >>> cantilever_mode(1.0)
    1.5573
    """
    require_range("cantilever_mode", "mass_ratio", mass_ratio, 0.0, 1e4, "tip over beam")
    mu = np.asarray(mass_ratio, dtype=float)

    def residual(b: Array) -> Array:
        cos, cosh, sin, sinh = np.cos(b), np.cosh(b), np.sin(b), np.sinh(b)
        return np.asarray(1.0 + cos * cosh - mu * b * (sin * cosh - cos * sinh))

    guess = (3.0 / (mu + _RAYLEIGH_SHARE)) ** 0.25
    b = bracketed_root(residual, _BRACKET[0] * guess, _BRACKET[1] * guess, steps=20)
    return as_real(b**2)


def cantilever_frequency(
    length_m: Real,
    modulus_Pa: Real,
    second_moment_m4: Real,
    tip_mass_kg: Real,
    beam_mass_kg: Real,
) -> Real:
    r"""First bending frequency of a uniform cantilever with a mass at its tip.

    $$ f = \frac{\lambda(M/m)}{2\pi} \sqrt{\frac{E I}{m L^3}} $$

    Parameters
    ----------
    length_m : float or array, shape (...)
        Free length, $L$. [m]
    modulus_Pa : float or array, shape (...)
        Modulus along the arm, $E$. [Pa]
    second_moment_m4 : float or array, shape (...)
        Second moment of area, $I$. [m4]
    tip_mass_kg : float or array, shape (...)
        Mass at the tip, $M$. [kg]
    beam_mass_kg : float or array, shape (...)
        Mass of the beam, $m$. [kg]

    Returns
    -------
    frequency_Hz : float or array, broadcast shape
        $f$. [Hz]

    Validity
    --------
    Tip up to 10 000 times the beam's mass; ValidityError outside (use the Rayleigh form for a
    beam without mass). Rigid root, uniform section, point mass: a real motor arm lies 10 to
    30 % lower by the give of its root.

    Source
    ------
    Euler-Bernoulli beam theory, eigenvalue of `cantilever_mode`.

    Examples
    --------
    The carbon arm of 90 x 12 x 5 mm with 40 g at its tip:

    >>> cantilever_frequency(0.090, 60e9, 125e-12, 0.040, 0.00837)
    136.474
    """
    m, L = np.asarray(beam_mass_kg, dtype=float), np.asarray(length_m, dtype=float)
    require_range("cantilever_frequency", "beam_mass_kg", m, 1e-9, np.inf, "a beam with mass")
    mode = np.asarray(cantilever_mode(np.asarray(tip_mass_kg, dtype=float) / m))
    E, inertia = np.asarray(modulus_Pa, dtype=float), np.asarray(second_moment_m4, dtype=float)
    return as_real(mode / (2.0 * np.pi) * np.sqrt(E * inertia / (m * L**3)))


def laminate_modulus(
    angle_rad: Real,
    modulus_along_Pa: Real,
    modulus_across_Pa: Real,
    shear_modulus_Pa: Real,
    poisson_ratio: Real,
) -> Real:
    r"""Modulus of a ply or balanced cloth loaded at an angle to its fibres.

    $$ \frac{1}{E_x} = \frac{\cos^4\theta}{E_1} + \frac{\sin^4\theta}{E_2}
       + \left(\frac{1}{G_{12}} - \frac{2\nu_{12}}{E_1}\right) \sin^2\theta \cos^2\theta $$

    Parameters
    ----------
    angle_rad : float or array, shape (...)
        Angle between arm and fibres, $\theta$. [rad]
    modulus_along_Pa : float or array, shape (...)
        Modulus along the fibres, $E_1$. [Pa]
    modulus_across_Pa : float or array, shape (...)
        Modulus across them, $E_2$; of cloth, equal to $E_1$. [Pa]
    shear_modulus_Pa : float or array, shape (...)
        In-plane shear modulus, $G_{12}$. [Pa]
    poisson_ratio : float or array, shape (...)
        $\nu_{12}$. [-]

    Returns
    -------
    modulus_Pa : float or array, broadcast shape
        $E_x$. [Pa]

    Validity
    --------
    Any angle. A ply by itself; plies bonded at other angles hold one another and are stiffer
    than this off their axes.

    Source
    ------
    R. M. Jones, *Mechanics of Composite Materials*, chapter 2 (memory).

    Examples
    --------
    Carbon cloth of 60 GPa and 2.7 GPa in shear, an arm cut at 45 deg, in GPa:

    >>> laminate_modulus(np.radians(45.0), 60e9, 60e9, 2.7e9, 0.05) / 1e9
    9.95
    """
    c2 = np.cos(np.asarray(angle_rad, dtype=float)) ** 2
    s2 = 1.0 - c2
    E1, E2 = np.asarray(modulus_along_Pa, dtype=float), np.asarray(modulus_across_Pa, dtype=float)
    G, nu = np.asarray(shear_modulus_Pa, dtype=float), np.asarray(poisson_ratio, dtype=float)
    return as_real(1.0 / (c2**2 / E1 + s2**2 / E2 + (1.0 / G - 2.0 * nu / E1) * s2 * c2))
