"""Fit of a camera in its cage: width class, the room behind and above it, and its uptilt."""

from __future__ import annotations

import math

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, says, size, state_of
from slipfit.fit.camera import cage_fit, class_name, uptilt_reach
from slipfit.parts.camera import Camera

# A camera must not touch the shell with its back or its lens; common practice, no source.
SHELL_ROOM_M = 0.5e-3
# How far off an uptilt may be that is set by hand; common practice, no source.
SETTING_RAD = math.radians(2.0)


def judge_camera_cage(build: Build) -> Verdict | None:
    """The camera's width between the cage's side plates."""
    camera = build.parts.get("camera")
    if not isinstance(camera, Camera):
        return None
    widths = build.frame.camera_seat.widths_m
    fit = cage_fit(camera.width_m, widths)
    state = "clashes" if fit.gap_m < 0 else "clear"
    name = class_name(camera.width_m)
    class_text = f"{name} class, " if name else ""

    def sentence(system: str) -> str:
        own = f"{class_text}{size(camera.width_m, system)}"
        if state == "clashes":
            return f"Camera clashes by {size(fit.gap_m, system)} in width ({own})"
        if fit.washer_m > 0:
            return (
                f"Camera is clear: {size(fit.gap_m, system)} left in width ({own}), to be filled "
                f"with a washer of {size(fit.washer_m, system)} on each side"
            )
        return f"Camera is clear: it fills the cage in width ({own})"

    fix = ""
    if state == "clashes":
        fix = f"a camera up to {both(max(widths))} wide would be clear"
    elif fit.washer_m > 0:
        fix = f"a washer of {both(fit.washer_m)} on each side centres it"
    listed = " and ".join(both(width) for width in widths)
    return fit_verdict(
        "camera_cage", "camera", "Camera", state, fit.gap_m, sentence,
        f"The frame file's cage takes cameras {listed} wide as they are.",
        fix,
    )  # fmt: skip


def judge_camera_room(build: Build) -> Verdict | None:
    """The camera's height and depth in the nose."""
    camera = build.parts.get("camera")
    if not isinstance(camera, Camera):
        return None
    seat = build.frame.camera_seat
    gaps = {
        "height": (seat.max_height_m - camera.height_m, seat.max_height_m, "high"),
        "depth": (seat.max_depth_m - camera.depth_m, seat.max_depth_m, "deep"),
    }
    side = min(gaps, key=lambda key: gaps[key][0])
    gap, limit, adjective = gaps[side]
    gap = 0.0 if abs(gap) < 1e-9 else gap
    state = state_of(gap, SHELL_ROOM_M)
    return fit_verdict(
        "camera_room", "camera", "Camera", state, gap,
        lambda system: says("Camera", state, gap, f"in {side}", system),
        f"The frame file's cage takes {both(seat.max_height_m)} in height and "
        f"{both(seat.max_depth_m)} in depth, lens included; {both(SHELL_ROOM_M)} less is clear "
        "(common practice).",
        "" if state == "clear" else
        f"a camera up to {both(limit - SHELL_ROOM_M)} {adjective} would be clear",
    )  # fmt: skip


def judge_camera_uptilt(build: Build) -> Verdict | None:
    """The build's uptilt among those that its camera reaches in the cage; in degrees. None for one
    that is too deep to go in, of which `camera_room` speaks."""
    camera = build.parts.get("camera")
    seat, uptilt = build.frame.camera_seat, build.uptilt_rad
    if not isinstance(camera, Camera) or 0.0 < seat.behind_m < camera.depth_m / 2:
        return None
    low, high = uptilt_reach(seat, camera)
    gap = min(uptilt - low, high - uptilt)
    gap = 0.0 if abs(gap) < 1e-9 else gap
    state = state_of(gap, SETTING_RAD)
    between = f"{_degrees(uptilt)} of {_degrees(low)} to {_degrees(high)}"
    said = (
        f"Camera clashes by {_degrees(abs(gap))} in uptilt ({between})"
        if state == "clashes"
        else f"Camera is {state}: {_degrees(gap)} left in uptilt ({between})"
    )
    basis = (
        f"The frame file's cage turns from {_degrees(seat.uptilt_low_rad)} to "
        f"{_degrees(seat.uptilt_high_rad)}"
    )
    if high < seat.uptilt_high_rad:
        basis += (
            f", and what stands {both(seat.behind_m)} behind its pivot stops the back of this "
            f"camera, {both(camera.depth_m)} deep, before that"
        )
    fix = ""
    if state != "clear":
        fix = _uptilt_fix(seat.behind_m, camera.height_m, low, high)
    return fit_verdict(
        "camera_uptilt", "camera", "Camera", state, gap, lambda _: said,
        f"{basis}; {_degrees(SETTING_RAD)} from either end is clear (common practice).",
        fix,
    )  # fmt: skip


def _uptilt_fix(behind_m: float, height_m: float, low: float, high: float) -> str:
    if high - low >= 2 * SETTING_RAD:
        least, largest = _degrees(low + SETTING_RAD), _degrees(high - SETTING_RAD)
        return f"an uptilt of {least} to {largest} would be clear"
    deep = 2.0 * math.sqrt(max(behind_m**2 - height_m**2 / 4, 0.0))
    if deep > 0.0:
        return f"a camera up to {both(deep)} deep, as high as this one, turns through the whole arc"
    return "a camera that is less high and less deep turns further"


def _degrees(angle_rad: float) -> str:
    return f"{math.degrees(angle_rad):.1f}°".replace("-", "−")
