"""Lenses: where a direction lies in the picture, and how wide a camera sees.

A picture is measured from its middle in focal lengths. The pinhole lens keeps straight lines
straight; the equidistant lens, the usual fisheye, puts equal angles at equal distances.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.errors import ValidityError, require_range
from slipfit.numerics import Array, Real, as_real

_WIDEST_PINHOLE_RAD = np.radians(170.0)  # beyond, its picture grows without bound
_WIDEST_EQUIDISTANT_RAD = np.radians(300.0)


def _above_zero(who: str, name: str, value: Real) -> None:
    if not np.all(np.asarray(value, dtype=float) > 0.0):
        worst = float(np.min(np.asarray(value, dtype=float)))
        raise ValidityError(f"{who}: {name} must be > 0, got {worst:g}", field=name, low=0.0)


def image_radius_pinhole(off_axis_rad: Real) -> Real:
    r"""Distance from the picture's middle of a direction seen through a pinhole, in focal lengths.

    $$ \frac{r}{f} = \tan \theta $$

    Parameters
    ----------
    off_axis_rad : float or array, shape (...)
        Angle $\theta$ between the direction and the optical axis. [rad]

    Returns
    -------
    image_radius : float or array, same shape
        $r / f$. [-]

    Validity
    --------
    0 <= theta <= 85 degrees (half of the widest field that is worth drawing); ValidityError
    outside. A lens without distortion.

    Source
    ------
    Central projection.
    """
    half = _WIDEST_PINHOLE_RAD / 2 * (1 + 1e-12)
    require_range("image_radius_pinhole", "off_axis_rad", off_axis_rad, 0.0, half, "a pinhole")
    return as_real(np.tan(off_axis_rad))


def image_radius_equidistant(off_axis_rad: Real) -> Real:
    r"""Distance from the picture's middle of a direction seen through an equidistant fisheye.

    $$ \frac{r}{f} = \theta $$

    Parameters
    ----------
    off_axis_rad : float or array, shape (...)
        Angle $\theta$ between the direction and the optical axis. [rad]

    Returns
    -------
    image_radius : float or array, same shape
        $r / f$, in focal lengths. [-]

    Validity
    --------
    0 <= theta <= pi. Real fisheyes follow this to a few per cent of the angle.

    Source
    ------
    Definition of the equidistant projection.
    """
    require_range("image_radius_equidistant", "off_axis_rad", off_axis_rad, 0.0, np.pi, "an angle")
    return as_real(np.asarray(off_axis_rad, dtype=float))


def off_axis_pinhole(image_radius: Real) -> Real:
    r"""Angle off the optical axis of a point of a pinhole's picture.

    $$ \theta = \arctan \frac{r}{f} $$

    Parameters
    ----------
    image_radius : float or array, shape (...)
        Distance from the picture's middle, in focal lengths. [-]

    Returns
    -------
    off_axis_rad : float or array, same shape
        $\theta$. [rad]

    Validity
    --------
    r >= 0.

    Source
    ------
    Central projection.
    """
    require_range("off_axis_pinhole", "image_radius", image_radius, 0.0, np.inf, "a distance")
    return as_real(np.arctan(image_radius))


def off_axis_equidistant(image_radius: Real) -> Real:
    r"""Angle off the optical axis of a point of an equidistant fisheye's picture.

    $$ \theta = \frac{r}{f} $$

    Parameters
    ----------
    image_radius : float or array, shape (...)
        Distance from the picture's middle, in focal lengths. [-]

    Returns
    -------
    off_axis_rad : float or array, same shape
        $\theta$; beyond $\pi$ no direction lies there. [rad]

    Validity
    --------
    r >= 0.

    Source
    ------
    Definition of the equidistant projection.
    """
    require_range("off_axis_equidistant", "image_radius", image_radius, 0.0, np.inf, "a distance")
    return as_real(np.asarray(image_radius, dtype=float))


def field_of_view_pinhole(extent_m: Real, focal_length_m: Real) -> Real:
    r"""Angle that a pinhole lens sees across a side (or the diagonal) of its sensor.

    $$ \text{FOV} = 2 \arctan \frac{x}{2 f} $$

    Parameters
    ----------
    extent_m : float or array, shape (...)
        Side or diagonal of the sensor, $x$. [m]
    focal_length_m : float or array, shape (...)
        Focal length $f$. [m]

    Returns
    -------
    fov_rad : float or array, same shape
        Field of view. [rad]

    Validity
    --------
    Both above zero; ValidityError otherwise. Focused far away, no distortion.

    Source
    ------
    Central projection.

    Examples
    --------
    A full frame of 36 mm behind 50 mm sees 39.598 degrees across:

    >>> float(np.degrees(field_of_view_pinhole(36e-3, 50e-3)))
    39.598
    """
    _above_zero("field_of_view_pinhole", "extent_m", extent_m)
    _above_zero("field_of_view_pinhole", "focal_length_m", focal_length_m)
    return as_real(2 * np.arctan(np.asarray(extent_m) / (2 * np.asarray(focal_length_m))))


def field_of_view_equidistant(extent_m: Real, focal_length_m: Real) -> Real:
    r"""Angle that an equidistant fisheye sees across a side (or the diagonal) of its sensor.

    $$ \text{FOV} = \frac{x}{f} $$

    Parameters
    ----------
    extent_m : float or array, shape (...)
        Side or diagonal of the sensor, $x$. [m]
    focal_length_m : float or array, shape (...)
        Focal length $f$. [m]

    Returns
    -------
    fov_rad : float or array, same shape
        Field of view; above 360 degrees the picture does not fill the sensor. [rad]

    Validity
    --------
    Both above zero; ValidityError otherwise.

    Source
    ------
    Definition of the equidistant projection.

    Examples
    --------
    A diagonal of 6 mm behind 2.5 mm sees 137.51 degrees:

    >>> float(np.degrees(field_of_view_equidistant(6e-3, 2.5e-3)))
    137.51
    """
    _above_zero("field_of_view_equidistant", "extent_m", extent_m)
    _above_zero("field_of_view_equidistant", "focal_length_m", focal_length_m)
    return as_real(np.asarray(extent_m) / np.asarray(focal_length_m))


@dataclass(frozen=True, kw_only=True)
class Lens:
    """One lens model: picture radius of an angle and back, and the widest field it can have."""

    id: str
    label: str
    image_radius: Callable[[Real], Real]
    off_axis: Callable[[Real], Real]
    field_of_view: Callable[[Real, Real], Real]
    widest_rad: float

    def image_point(self, right: Array, down: Array, ahead: Array) -> tuple[Array, Array]:
        """Where a direction lies in the picture: to the right and down, in focal lengths; NaN
        where the lens cannot see that far round."""
        right, down, ahead = np.broadcast_arrays(right, down, ahead)
        aside = np.asarray(np.hypot(right, down))
        angle = np.arctan2(aside, ahead)
        seen = angle <= self.widest_rad / 2
        radius = np.where(seen, self.image_radius(np.where(seen, angle, 0.0)), np.nan)
        empty = np.asarray(np.where(seen, 0.0, np.nan))
        scale = np.divide(radius, aside, out=empty, where=aside > 0.0)
        return np.asarray(right * scale), np.asarray(down * scale)

    def direction(self, right: Array, down: Array) -> tuple[Array, Array, Array]:
        """The direction (right, down, ahead) of a point of the picture, as a unit vector."""
        radius = np.asarray(np.hypot(right, down))
        angle = np.asarray(self.off_axis(radius))
        unit = np.ones_like(radius)
        scale = np.divide(np.sin(angle), radius, out=unit, where=radius > 0.0)
        return np.asarray(right * scale), np.asarray(down * scale), np.cos(angle)


LENSES: Final[Mapping[str, Lens]] = {
    "pinhole": Lens(
        id="pinhole",
        label="pinhole",
        image_radius=image_radius_pinhole,
        off_axis=off_axis_pinhole,
        field_of_view=field_of_view_pinhole,
        widest_rad=_WIDEST_PINHOLE_RAD,
    ),
    "fisheye": Lens(
        id="fisheye",
        label="equidistant fisheye",
        image_radius=image_radius_equidistant,
        off_axis=off_axis_equidistant,
        field_of_view=field_of_view_equidistant,
        widest_rad=_WIDEST_EQUIDISTANT_RAD,
    ),
}
