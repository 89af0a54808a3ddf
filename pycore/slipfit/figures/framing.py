"""What the figures about the shot share: how they read it, and why one of them has no value."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from slipfit.figures.figure import Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import ShotState, camera_of, shot_of

SOURCE = "Geometry of the shot, see The shot"


def from_shot(pick: Callable[[ShotState], object]) -> Callable[[Performance], Array]:
    """A figure's value from the shot; NaN without a camera."""

    def value(p: Performance) -> Array:
        shot = shot_of(p)
        if shot is None:
            return np.full_like(p.top_speed_m_s, np.nan)
        found = np.broadcast_to(np.asarray(pick(shot), dtype=float), p.top_speed_m_s.shape)
        return np.where(p.can_hover, found, np.nan)

    return value


def the_shot(p: Performance) -> ShotState:
    """The shot where a figure has a value, so that there is one."""
    shot = shot_of(p)
    assert shot is not None
    return shot


def first(values: object) -> float:
    """The first sample."""
    return float(np.ravel(np.asarray(values, dtype=float))[0])


def degrees(angle_rad: object) -> str:
    """An angle of the first sample as text."""
    return f"{shown(np.degrees(first(angle_rad)))}°"


def pass_s(shot: ShotState) -> Array:
    """Time over the course; NaN where the speed is not reached."""
    known = np.isfinite(shot.tilt_rad)
    return np.where(known, shot.course_m / np.where(known, shot.speed_m_s, 1.0), np.nan)


def field_spread(p: Performance) -> float:
    """Relative spread of a distance, from that of the field of view."""
    camera = camera_of(p.build)
    origin = camera.origins.get("horizontal_fov_rad") if camera else None
    if camera is None or origin is None:
        return 0.0
    fov = camera.horizontal_fov_rad
    bend = fov / np.sin(fov) if camera.lens_model.id == "pinhole" else 1.0
    return float(origin.spread * bend)


# --- Why a figure has no value; empty where the build cannot fly, which says it all -------------


def no_camera(p: Performance) -> str:
    """Why the camera's view is not known."""
    return "" if camera_of(p.build) else "there is no camera in the build"


def no_shot(p: Performance) -> str:
    """Why the shot is not known."""
    if no_camera(p) or not p.can_hover[0, 0]:
        return no_camera(p)
    if np.isnan(the_shot(p).range_m):
        return "no distance makes the subject that large in this picture"
    if np.isnan(first(the_shot(p).tilt_rad)):
        return "this build does not reach the subject's speed"
    return ""


def _not_in_picture(p: Performance, what: str, row: Callable[[ShotState], Array]) -> str:
    reason = no_shot(p)
    if reason or not p.can_hover[0, 0]:
        return reason
    place = first(row(the_shot(p)))
    if abs(place) <= 1.0:
        return ""
    return f"the {what} is out of the picture, {'above' if place < 0.0 else 'below'} it"


def out_of_frame(p: Performance) -> str:
    """Why nothing is known of the subject in the picture."""
    return _not_in_picture(p, "subject", lambda shot: shot.row)


def no_horizon(p: Performance) -> str:
    """Why the horizon is not in the picture."""
    return _not_in_picture(p, "horizon", lambda shot: shot.horizon_row)


def never_in_frame(p: Performance) -> str:
    """Why there is no speed with the subject in the picture."""
    if no_camera(p) or not p.can_hover[0, 0]:
        return no_camera(p)
    return "with this uptilt the subject is out of the picture at every speed"


def no_ground(p: Performance) -> str:
    """Why the picture shows no ground."""
    reason = no_shot(p)
    if reason or not p.can_hover[0, 0]:
        return reason
    return "the picture shows no ground: its lower edge is above the horizon"


# --- Steps of explanations ----------------------------------------------------------------------


def axis_step(p: Performance) -> Step:
    """Where the axis points."""
    shot = the_shot(p)
    return Step(
        words="In level flight the axis stands above the horizon by the uptilt less the tilt of "
        "the frame.",
        formula="θ = ε − τ(V)",
        numbers=f"{degrees(p.build.uptilt_rad)} − {degrees(shot.tilt_rad)} = "
        f"{degrees(shot.axis_elevation_rad)} at {shown(shot.speed_m_s)} m/s",
    )


def span_step(p: Performance, sign: str) -> Step:
    """Where the subject reaches the lower (+) or upper (−) edge."""
    shot = the_shot(p)
    edge = f"{'−' if sign == '−' else ''}{degrees(shot.view.half_angle_rad)}"
    return Step(
        words="Where the subject lies half a field of view from the axis.",
        formula=f"ε − τ(V) + δ = {sign if sign == '−' else ''}FOV / 2",
        numbers=f"{degrees(p.build.uptilt_rad)} − τ + {degrees(shot.wanted.depression_rad)} = "
        f"{edge}",
    )


def range_step(p: Performance) -> Step:
    """How far the subject is from the lens."""
    shot = the_shot(p)
    return Step(
        words="The distance at which the subject takes its share of the picture's width through "
        f"the {shot.view.lens.label} lens.",
        formula="x(L / 2, R, β) = share × x(FOV / 2)",
        numbers=f"R = {shown(shot.range_m)} m for {shown(shot.wanted.subject_length_m)} m and "
        f"{100 * shot.wanted.size:.3g} %",
    )
