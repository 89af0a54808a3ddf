"""Uptilt that gives the wanted framing."""

from __future__ import annotations

import math

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import SOURCE, degrees, first, from_shot, no_shot, the_shot
from slipfit.flight.performance import Performance
from slipfit.units import ANGLE


def _cause(p: Performance) -> str:
    shot, seat = the_shot(p), p.build.frame.camera_seat
    uptilt = first(shot.uptilt_rad)
    if not seat.uptilt_low_rad <= uptilt <= seat.uptilt_high_rad:
        low, high = math.degrees(seat.uptilt_low_rad), math.degrees(seat.uptilt_high_rad)
        return f"outside what the cage can do: it turns from {low:.0f}° to {high:.0f}°"
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
