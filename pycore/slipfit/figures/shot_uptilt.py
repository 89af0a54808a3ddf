"""Uptilt that gives the wanted framing."""

from __future__ import annotations

import math

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import SOURCE, degrees, first, from_shot, no_shot, the_shot
from slipfit.fit.camera import uptilt_reach
from slipfit.flight.performance import Performance
from slipfit.shot import camera_of
from slipfit.units import ANGLE


def _cause(p: Performance) -> str:
    shot, camera = the_shot(p), camera_of(p.build)
    uptilt = first(shot.uptilt_rad)
    assert camera is not None  # or there is no shot
    low, high = uptilt_reach(p.build.frame.camera_seat, camera)
    if not low <= uptilt <= high:
        between = f"{math.degrees(low):.0f}° to {math.degrees(high):.0f}°"
        return f"outside what the cage can do: with this camera it turns from {between}"
    return f"the camera now stands at {math.degrees(p.build.uptilt_rad):.0f}°"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    wanted = shot.view.below_axis(1.0 - 2.0 * shot.wanted.place)
    return (
        Step(
            words="The tilt at the subject's speed, and how far below the axis its place in the "
            "picture lies, less the depression.",
            formula="ε = τ(V) + β − δ",
            numbers=f"{degrees(shot.tilt_rad)} + {degrees(wanted)} − "
            f"{degrees(shot.wanted.depression_rad)}",
        ),
    )


KIND = FigureKind(
    id="shot_uptilt",
    label="uptilt for this shot",
    display=ANGLE,
    value=from_shot(lambda s: s.uptilt_rad),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_shot,
)
