"""Fit of a camera in its cage: width class, and the room behind and above it."""

from __future__ import annotations

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, says, size, state_of
from slipfit.fit.camera import cage_fit, class_name
from slipfit.parts.camera import Camera

# A camera must not touch the shell with its back or its lens; common practice, no source.
SHELL_ROOM_M = 0.5e-3


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
