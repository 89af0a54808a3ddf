"""The polars of a blade's annuli: smooth curves per degree, looked up for many cases at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from slipfit.numerics import Array, Real
from slipfit.physics.section import (
    ALPHA_RAD,
    drag_divergence_mach,
    finite_blade_factor,
    lift_slope_factor,
    section_table,
    separated_drag,
    separation_point_kirchhoff,
    stall_angle,
    stall_delay,
    thick_root,
    wave_drag,
    zero_lift_angle,
)

_CELLS = 360  # one cubic per degree of angle of attack, from -180 to 180 degrees
_PER_RAD = 180.0 / np.pi
_SLOPE_RANGE_RAD = np.deg2rad(15.0)  # incidence at which a flow is no longer a small disturbance


@dataclass(frozen=True, kw_only=True, eq=False)
class Polar:
    """Sections of one blade's annuli as cubics per degree, ready for a rotor's solver.

    `lift` and `drag` have a row of eight for each annulus, Reynolds interval and degree, flattened
    in this order: the four coefficients at the lower Reynolds number and their change to the
    upper. `zero_lift_rad` and `stall_rad` have shape (annuli, reynolds).
    """

    log10_reynolds: Array
    lift: Array
    drag: Array
    zero_lift_rad: Array
    stall_rad: Array
    thickness_ratio: Array
    slope_factor: float


def polar_at(
    section: str,
    thickness_ratio: Array,
    chord_to_radius: Array,
    pitch_angle_rad: Array,
    with_stall_delay: bool = True,
    aspect_ratio: float = np.inf,
) -> Polar:
    """Polar of each annulus of a blade.

    Parameters
    ----------
    section : str
        Family, one of `section_names()`. [1]
    thickness_ratio : array, shape (annuli,)
        Thickness over chord. [1]
    chord_to_radius : array, shape (annuli,)
        Chord over local radius. [1]
    pitch_angle_rad : array, shape (annuli,)
        Angle of the chord line to the disk. [rad]
    with_stall_delay : bool
        Whether rotation delays the stall, see `stall_delay`. [1]
    aspect_ratio : float
        Of the blade, infinite for plane flow; see `finite_blade_factor`. [1]

    Returns
    -------
    polar : Polar
        The curves. [1]

    Validity
    --------
    Sections thinner than the family's table are held at its end; thicker ones are roots, see
    `thick_root`.

    Source
    ------
    The functions of `section.py`.
    """
    table = section_table(section)
    lift = _at_thickness(table.thickness_ratio, table.lift, thickness_ratio)
    drag = _at_thickness(table.thickness_ratio, table.drag, thickness_ratio)
    thick = np.asarray(thickness_ratio, dtype=float)[:, None, None]
    lift, drag = thick_root(lift, drag, thick, float(table.thickness_ratio[-1]))
    zero_lift_rad = zero_lift_angle(lift)
    ahead = slice(180, 180 + 90)
    attached = separation_point_kirchhoff(
        lift[..., ahead], ALPHA_RAD[ahead] - zero_lift_rad[..., None]
    )
    if with_stall_delay:
        lift = stall_delay(
            lift,
            ALPHA_RAD,
            zero_lift_rad[..., None],
            chord_to_radius[:, None, None],
            np.cos(pitch_angle_rad[:, None, None] - ALPHA_RAD),
        )
        # what rotation adds to a separated section is normal force, so it brings drag with it
        drag[..., ahead] = separated_drag(
            drag[..., ahead], lift[..., ahead], ALPHA_RAD[ahead], attached
        )
    return Polar(
        log10_reynolds=np.log10(table.reynolds),
        lift=_cubics(lift),
        drag=_cubics(drag),
        zero_lift_rad=zero_lift_rad,
        stall_rad=stall_angle(attached),
        thickness_ratio=np.minimum(thickness_ratio, table.thickness_ratio[-1]),
        slope_factor=float(finite_blade_factor(aspect_ratio)),
    )


class Station:
    """Annuli at given Reynolds and Mach numbers: lift and drag there at any angle of attack.

    All arrays have one shape; `annulus` says which annulus each element belongs to and may be
    anything that broadcasts to it.
    """

    def __init__(
        self, polar: Polar, annulus: NDArray[np.intp], reynolds: Array, mach: Array
    ) -> None:
        knots = polar.log10_reynolds
        intervals = len(knots) - 1
        position = (np.log10(np.maximum(reynolds, 1.0)) - knots[0]) / (knots[1] - knots[0])
        position = np.minimum(np.maximum(position, 0.0), intervals)
        k = np.minimum(position.astype(np.intp), intervals - 1)
        self._polar = polar
        self._share = position - k
        self._base = (annulus * intervals + k) * _CELLS
        row = annulus * (intervals + 1) + k
        zero = polar.zero_lift_rad.ravel()
        stall = polar.stall_rad.ravel()
        low, high = zero[row], zero[row + 1]
        self.zero_lift_rad = low + self._share * (high - low)
        low, high = stall[row], stall[row + 1]
        self.stall_rad = low + self._share * (high - low)
        self._thickness = polar.thickness_ratio[annulus]
        self._mach = mach
        self._gain: Array = np.full_like(mach, polar.slope_factor - 1.0)

    def compress(self, cl: Array) -> None:
        """Set the gain of lift slope by compressibility from a first estimate of lift."""
        divergence = drag_divergence_mach(self._thickness, cl)
        factor = np.asarray(lift_slope_factor(self._mach, divergence))
        self._gain = self._polar.slope_factor * factor - 1.0

    def lift(self, alpha_rad: Array) -> tuple[Array, Array]:
        """Lift coefficient and its slope [1/rad]."""
        angle, stretch = self._equivalent(alpha_rad)
        (c0, c1, c2, c3), f = self._cubic(self._polar.lift, angle)
        cl = ((c3 * f + c2) * f + c1) * f + c0
        slope = (3.0 * c3 * f + 2.0 * c2) * f + c1
        return cl, slope * stretch * _PER_RAD

    def drag(self, alpha_rad: Array, cl: Array) -> Array:
        """Drag coefficient, waves included, at an angle whose lift coefficient is known."""
        angle, _ = self._equivalent(alpha_rad)
        (c0, c1, c2, c3), f = self._cubic(self._polar.drag, angle)
        cd = ((c3 * f + c2) * f + c1) * f + c0
        return np.asarray(cd + wave_drag(self._mach, drag_divergence_mach(self._thickness, cl)))

    def _equivalent(self, alpha_rad: Array) -> tuple[Array, Array]:
        """The incompressible angle with the same lift, and its rate of change.

        Compressibility steepens the lift curve but does not raise the greatest lift, and a short
        blade flattens it, so the angle is stretched rather than the lift; from some 15 degrees on
        it is left as it is.
        """
        x = alpha_rad - self.zero_lift_rad
        y = x * (1.0 / _SLOPE_RANGE_RAD)
        y *= y
        y *= y
        y += 1.0
        share = self._gain / y
        return alpha_rad + share * x, 1.0 + share * (4.0 / y - 3.0)

    def _cubic(self, table: Array, angle_rad: Array) -> tuple[Array, Array]:
        """Coefficients at the Reynolds number, one row each, and the place within the degree."""
        u = angle_rad * _PER_RAD
        u += 180.0
        cell = np.floor(u)
        u -= cell
        index = cell.astype(np.intp)
        if index.size and (index.min() < 0 or index.max() >= _CELLS):
            index %= _CELLS
        index += self._base
        # rows of eight lie in one line of memory each; turned, the sums run along the cases
        rows = np.ascontiguousarray(table.take(index.ravel(), axis=0).T).reshape(8, *index.shape)
        return rows[:4] + self._share * rows[4:], u


def section_coefficients(
    name: str, alpha_rad: Real, reynolds: Real, thickness_ratio: float, mach: Real = 0.0
) -> tuple[Array, Array]:
    """Lift and drag coefficients of a section in plane flow that does not rotate.

    Parameters
    ----------
    name : str
        Family, one of `section_names()`. [1]
    alpha_rad : float or array, shape (...)
        Angle of attack. [rad]
    reynolds : float or array, shape (...)
        Reynolds number on the chord. [1]
    thickness_ratio : float
        Thickness over chord. [1]
    mach : float or array, shape (...)
        Mach number. [1]

    Returns
    -------
    cl, cd : array, broadcast shape
        Coefficients on the chord. [1]

    Validity
    --------
    Outside 1e4 <= reynolds <= 1e6 the nearest table row is used, as in the rotor.

    Source
    ------
    The table of `data/sections.npz`, its header.

    Examples
    --------
    A symmetric section has no lift without incidence:

    >>> cl, cd = section_coefficients("naca-0012", 0.0, 2e5, 0.12)
    >>> bool(abs(cl) < 0.01), bool(0.005 < cd < 0.02)
    (True, True)
    """
    polar = polar_at(name, np.array([thickness_ratio]), np.zeros(1), np.zeros(1), False)
    alpha, re, M = np.broadcast_arrays(
        np.asarray(alpha_rad, dtype=float),
        np.asarray(reynolds, dtype=float),
        np.asarray(mach, dtype=float),
    )
    station = Station(polar, np.zeros(alpha.shape, dtype=np.intp), re, M)
    station.compress(station.lift(alpha)[0])
    cl, _ = station.lift(alpha)
    return cl, station.drag(alpha, cl)


def _at_thickness(knots: Array, values: Array, wanted: Array) -> Array:
    if len(knots) == 1:
        return np.repeat(values, len(wanted), axis=0)
    held = np.clip(wanted, knots[0], knots[-1])
    k = np.clip(np.searchsorted(knots, held, side="right") - 1, 0, len(knots) - 2)
    t = ((held - knots[k]) / (knots[k + 1] - knots[k]))[:, None, None]
    return np.asarray((1 - t) * values[k] + t * values[k + 1])


def _cubics(values: Array) -> Array:
    """Rows of `Polar`: smooth curves through values at every degree, a closed circle."""
    slope = np.empty_like(values)
    slope[..., 1:-1] = 0.5 * (values[..., 2:] - values[..., :-2])
    slope[..., 0] = slope[..., -1] = 0.5 * (values[..., 1] - values[..., -2])
    y0, m0, m1 = values[..., :-1], slope[..., :-1], slope[..., 1:]
    rise = values[..., 1:] - y0
    rows = np.empty((len(values), values.shape[1] - 1, _CELLS, 8))
    cubic = m0 + m1 - 2 * rise
    for k, c in enumerate((y0, m0, rise - m0 - cubic, cubic)):
        rows[..., k] = c[:, :-1]
        np.subtract(c[:, 1:], c[:, :-1], out=rows[..., 4 + k])
    return rows.reshape(-1, 8)
