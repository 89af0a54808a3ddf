"""The shot: where the camera looks at each speed, and what it then sees.

The uptilt is the angle of the optical axis above the plane of the rotors; in level flight the frame
tips forwards by its tilt, so the axis points `uptilt - tilt(V)` above the horizon. The subject lies
ahead and below at the depression angle, on level ground. Angles in the picture are counted from its
middle, downwards positive. Everything is for still air and a lens in the plane of symmetry.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.build import Build
from slipfit.constants import G0_M_S2
from slipfit.errors import require_range
from slipfit.flight.performance import Performance
from slipfit.frame.frame import Frame, Shot
from slipfit.numerics import Array, CubicAxis, Real, as_real, bracketed_root
from slipfit.parts.camera import Camera
from slipfit.parts.prop import Prop
from slipfit.physics.lens import Lens

_FINE = 257  # speeds at which the span in frame is looked for, before it is closed in on
_RIM_POINTS = 72
_ROOT_STEPS = 24


@dataclass(frozen=True, kw_only=True)
class View:
    """What a camera sees: its lens, and half the picture's sides in focal lengths."""

    lens: Lens
    half_width: float
    half_height: float
    pixels_across: int
    pixels_down: int

    @property
    def half_angle_rad(self) -> float:
        """From the middle of the picture to its upper or lower edge."""
        return float(self.lens.off_axis(self.half_height))

    def row(self, below_axis_rad: Real) -> Real:
        """Distance below the picture's middle of a direction straight below the axis, in halves of
        the picture's height: 1 is the lower edge; infinite where the lens cannot see it."""
        angle = np.asarray(below_axis_rad, dtype=float)
        seen = np.abs(angle) <= self.lens.widest_rad / 2
        radius = np.asarray(self.lens.image_radius(np.where(seen, np.abs(angle), 0.0)))
        row = np.where(seen, radius / self.half_height, np.inf) * np.sign(angle)
        return as_real(np.where(np.isnan(angle), np.nan, row))

    def below_axis(self, row: Real) -> Real:
        """Angle below the axis of a row: the inverse of `row`."""
        radius = np.abs(np.asarray(row, dtype=float)) * self.half_height
        return as_real(np.sign(row) * np.asarray(self.lens.off_axis(radius)))

    def share_across(self, width_m: float, below_axis_rad: Real, range_m: Real) -> Real:
        """Share of the picture's width that something takes which stands across the view, in the
        middle from left to right, at a distance from the lens."""
        R, b = np.asarray(range_m, dtype=float), np.asarray(below_axis_rad, dtype=float)
        x, _ = self.lens.image_point(np.asarray(width_m / 2), R * np.sin(b), R * np.cos(b))
        return as_real(x / self.half_width)


def view_of(camera: Camera) -> View:
    """The view of a camera."""
    lens = camera.lens_model
    half_width = float(lens.image_radius(camera.horizontal_fov_rad / 2))
    return View(
        lens=lens,
        half_width=half_width,
        half_height=half_width * camera.pixels_down / camera.pixels_across,
        pixels_across=camera.pixels_across,
        pixels_down=camera.pixels_down,
    )


def axis_elevation(uptilt_rad: Real, tilt_rad: Real) -> Real:
    """Elevation of the optical axis above the horizon in level flight."""
    return as_real(np.asarray(uptilt_rad) - np.asarray(tilt_rad))


def below_axis(axis_elevation_rad: Real, depression_rad: Real) -> Real:
    """How far below the optical axis something lies that is seen at a depression angle."""
    return as_real(np.asarray(axis_elevation_rad) + np.asarray(depression_rad))


def uptilt_for(tilt_rad: Real, depression_rad: Real, below_axis_rad: Real = 0.0) -> Real:
    """Uptilt that puts something seen at a depression angle at a given angle below the axis."""
    return as_real(np.asarray(tilt_rad) + below_axis_rad - np.asarray(depression_rad))


@lru_cache(maxsize=32)
def range_for_share(view: View, width_m: float, share: float, below_axis_rad: float) -> float:
    """Distance from the lens at which something of a width takes a share of the picture's width;
    NaN where no distance is near enough."""
    require_range("range_for_share", "share", share, 1e-6, 1.0, "a share of the picture")
    small_angle_m = width_m / (2 * share * view.half_width)

    def spare(log_range: Array) -> Array:
        R = small_angle_m * np.exp(log_range)
        return np.asarray(
            np.nan_to_num(view.share_across(width_m, below_axis_rad, R), nan=2.0) - share
        )

    root = bracketed_root(spare, -4.0, 4.0, _ROOT_STEPS)
    found = abs(float(spare(root))) < 1e-9
    return small_angle_m * float(np.exp(root)) if found else float("nan")


def ground_ahead(height_m: Real, depression_rad: Real) -> Real:
    """Distance ahead at which a line of sight meets level ground: negative behind, NaN where it
    never does."""
    d = np.asarray(depression_rad, dtype=float)
    h = np.asarray(height_m, dtype=float)
    with np.errstate(divide="ignore", invalid="ignore"):
        return as_real(np.where((d > 0.0) & (d < np.pi), h * np.cos(d) / np.sin(d), np.nan))


def ground_width(view: View, height_m: Real, axis_elevation_rad: Real, row: Real) -> Real:
    """Width of the ground between the picture's left and right edge on one of its rows; NaN where
    the row's ends look past the ground."""
    theta, y = np.broadcast_arrays(
        np.asarray(axis_elevation_rad, dtype=float), np.asarray(row, dtype=float) * view.half_height
    )
    known = np.isfinite(y)
    right, down, ahead = view.lens.direction(
        np.full_like(y, view.half_width), np.where(known, y, 0.0)
    )
    falls = down * np.cos(theta) - ahead * np.sin(theta)
    there = known & (falls > 1e-9)
    return as_real(np.where(there, 2 * height_m * right / np.where(there, falls, 1.0), np.nan))


def throw_distance(height_m: Real, speed_m_s: Real) -> Real:
    """How far ahead something lands that is let go in level flight, with no air to hold it back:
    `V sqrt(2 h / g)`."""
    require_range("throw_distance", "height_m", height_m, 0.0, 1e6, "above the ground")
    fall_s = np.sqrt(2.0 * np.asarray(height_m, dtype=float) / G0_M_S2)
    return as_real(np.asarray(speed_m_s) * fall_s)


@dataclass(frozen=True, kw_only=True)
class ShotState:
    """The shot of one performance; arrays are (samples, 1), NaN where there is no answer.

    Distances are those of the framing that is wanted; what the camera shows is for the build's own
    uptilt at those distances.
    """

    wanted: Shot
    course_m: float
    view: View
    speed_m_s: Array
    tilt_rad: Array
    axis_elevation_rad: Array
    uptilt_rad: Array  # that gives the wanted framing
    range_m: float
    behind_m: float
    above_m: float
    below_axis_rad: Array  # the subject
    row: Array  # of the subject
    horizon_row: Array
    share: Array
    slowest_m_s: Array
    fastest_m_s: Array

    @property
    def in_frame(self) -> Array:
        """1 where the subject lies in the picture, 0 where not, NaN where nothing is known."""
        return np.where(np.isnan(self.row), np.nan, (np.abs(self.row) <= 1.0).astype(float))


def camera_of(build: Build) -> Camera | None:
    """The build's camera."""
    part = build.parts.get("camera")
    return part if isinstance(part, Camera) else None


def course(build: Build) -> float:
    """Length of the pass that is flown again and again, or of the last one; NaN where the flight
    has none."""
    passes = [leg for leg in build.legs or build.frame.legs if leg.kind == "pass"]
    repeated = [leg for leg in passes if leg.count is None]
    lengths = [leg.length_m for leg in (*passes, *repeated) if leg.length_m is not None]
    return lengths[-1] if lengths else float("nan")


def chase_speed(p: Performance) -> Array:
    """Speed at which the shot is flown: the subject's, or that of best range."""
    chase = p.build.chase
    return np.full_like(p.top_speed_m_s, chase) if chase > 0.0 else p.cruise_speed_m_s


@lru_cache(maxsize=8)
def _speed_axis(p: Performance) -> CubicAxis:
    return CubicAxis(p.speeds_m_s)


def tilt_at(p: Performance, speed_m_s: Array) -> Array:
    """Tilt from the level-flight curve, a row of speeds for each sample; NaN beyond its end."""
    flown = (speed_m_s >= 0.0) & (speed_m_s <= np.nan_to_num(p.top_speed_m_s, nan=-1.0))
    tilt = np.broadcast_to(p.curve.trim.tilt_rad, p.curve.flyable.shape)
    within = np.where(flown, speed_m_s, 0.0)
    first, weights = _speed_axis(p).weights(within.ravel())
    four = (first[:, None] + np.arange(4)).reshape(*within.shape, 4)
    near = np.take_along_axis(tilt[:, None, :], four, axis=2)
    return np.where(flown, (near * weights.reshape(*within.shape, 4)).sum(axis=2), np.nan)


@lru_cache(maxsize=8)
def shot_of(p: Performance) -> ShotState | None:
    """The shot of a performance; None without a camera."""
    camera = camera_of(p.build)
    if camera is None:
        return None
    view, wanted = view_of(camera), p.build.framing
    delta = wanted.depression_rad
    beta = float(view.below_axis(1.0 - 2.0 * wanted.place))
    far = range_for_share(view, wanted.subject_length_m, wanted.size, beta)
    V = chase_speed(p)
    tilt = tilt_at(p, V)
    theta = np.asarray(axis_elevation(p.build.uptilt_rad, tilt))
    below = np.asarray(below_axis(theta, delta))
    row = np.asarray(view.row(below))
    inside = np.abs(row) <= 1.0
    share = view.share_across(wanted.subject_length_m, np.where(inside, below, 0.0), far)
    slowest, fastest = _span_in_frame(p, view, delta)
    return ShotState(
        wanted=wanted,
        course_m=course(p.build),
        view=view,
        speed_m_s=V,
        tilt_rad=tilt,
        axis_elevation_rad=theta,
        uptilt_rad=np.asarray(uptilt_for(tilt, delta, beta)),
        range_m=far,
        behind_m=far * float(np.cos(delta)),
        above_m=far * float(np.sin(delta)),
        below_axis_rad=below,
        row=row,
        horizon_row=np.asarray(view.row(theta)),
        share=np.where(inside, share, np.nan),
        slowest_m_s=slowest,
        fastest_m_s=fastest,
    )


def _span_in_frame(p: Performance, view: View, depression_rad: float) -> tuple[Array, Array]:
    """First and last speed at which the subject lies in the picture, with the build's uptilt."""
    V = np.linspace(0.0, 1.0, _FINE) * np.nan_to_num(p.top_speed_m_s, nan=0.0)
    theta = axis_elevation(p.build.uptilt_rad, tilt_at(p, V))
    outside = np.abs(np.asarray(below_axis(theta, depression_rad))) - view.half_angle_rad
    inside = outside <= 0.0
    last = V.shape[1] - 1
    first_in = np.argmax(inside, axis=1)
    last_in = last - np.argmax(inside[:, ::-1], axis=1)
    rows = np.arange(len(V))

    def edge(at: Array, beyond: Array) -> Array:
        """Speed between two neighbours at which the subject reaches the picture's edge."""
        a, b = outside[rows, at], outside[rows, beyond]
        share = np.divide(-a, b - a, out=np.zeros_like(a), where=(beyond != at) & (b > 0.0))
        return np.asarray(V[rows, at] + share * (V[rows, beyond] - V[rows, at]))

    ever = inside.any(axis=1)
    slowest = np.where(ever, edge(first_in, np.maximum(first_in - 1, 0)), np.nan)
    fastest = np.where(ever, edge(last_in, np.minimum(last_in + 1, last)), np.nan)
    return slowest[:, None], fastest[:, None]


# --- The frame in its own picture ---------------------------------------------------------------


def lens_place(build: Build, camera: Camera) -> tuple[float, float, float]:
    """Station, right and front of the lens: half the camera's depth ahead of its pivot."""
    seat, up = build.frame.camera_seat, build.uptilt_rad
    ahead = camera.depth_m / 2
    return (
        seat.station_m - ahead * float(np.sin(up)),
        seat.right_m,
        seat.front_m + ahead * float(np.cos(up)),
    )


def rows_and_columns(
    build: Build, camera: Camera, station_m: Array, right_m: Array, front_m: Array
) -> tuple[Array, Array]:
    """Where points of the frame lie in the picture, in halves of its sides from the middle (right,
    down); NaN where the lens cannot see them."""
    view = view_of(camera)
    s, r, f = lens_place(build, camera)
    up = build.uptilt_rad
    nose, right, front = s - station_m, right_m - r, front_m - f
    ahead = nose * np.sin(up) + front * np.cos(up)
    down = front * np.sin(up) - nose * np.cos(up)
    x, y = view.lens.image_point(right, down, ahead)
    return x / view.half_width, y / view.half_height


def _reach(across: Array, down: Array) -> float:
    """How far from the nearest edge into the picture the deepest of some points lies, as a share of
    that side: 0 where none is in the picture, 0.5 in its middle."""
    if not across.size:
        return 0.0
    worst = np.fmin.reduce(np.fmax(np.abs(across), np.abs(down)).ravel(), initial=np.inf)
    return max(0.0, float(1.0 - worst) / 2.0)


def props_in_frame(build: Build) -> float:
    """How far the propellers reach into the picture, 0 to 0.5; NaN without camera or prop."""
    camera, prop = camera_of(build), build.parts.get("prop")
    if camera is None or not isinstance(prop, Prop):
        return float("nan")
    turn = np.linspace(0.0, 2 * np.pi, _RIM_POINTS, endpoint=False)
    places = np.array([(r.station_m, r.right_m, r.front_m) for r in build.frame.rotors])
    station, right, front = (places[:, k, None] for k in range(3))
    radius = prop.diameter_m / 2
    across, down = rows_and_columns(
        build, camera, station, right + radius * np.cos(turn), front + radius * np.sin(turn)
    )
    seen = np.isfinite(across)
    return _reach(across[seen], down[seen])


def shell_in_frame(build: Build) -> float:
    """How far the shell beside its window reaches into the picture, in the plane of symmetry: 0
    where there is no shell, NaN where the frame does not say where its window is."""
    camera, seat = camera_of(build), build.frame.camera_seat
    if camera is None:
        return float("nan")
    outline = build.frame.outline
    if not outline.stations_m:
        return 0.0
    if seat.window_end_m <= seat.window_start_m:
        return float("nan")
    station, front = _opaque(build.frame)
    across, down = rows_and_columns(build, camera, station, np.zeros_like(station), front)
    seen = np.isfinite(across)
    return _reach(across[seen], down[seen])


def _opaque(frame: Frame) -> tuple[Array, Array]:
    """Stations and fronts of the shell's contour that are not window."""
    outline, seat = frame.outline, frame.camera_seat
    known, half = np.array(outline.stations_m), np.array(outline.half_heights_m)
    ends = np.array([seat.window_start_m, seat.window_end_m])
    station = np.union1d(known, np.clip(ends, known[0], known[-1]))
    high = np.interp(station, known, half)
    solid = (station <= ends[0]) | (station >= ends[1])
    return np.concatenate([station[solid], station]), np.concatenate([high[solid], -high])


def hover_bottom(build: Build) -> float:
    """Elevation of the picture's lower edge in hover, where the frame stands upright; NaN without
    a camera."""
    camera = camera_of(build)
    if camera is None:
        return float("nan")
    return build.uptilt_rad - view_of(camera).half_angle_rad
