"""Height of the lens above the ground."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import (
    SOURCE,
    degrees,
    field_spread,
    from_shot,
    no_shot,
    range_step,
    the_shot,
)
from slipfit.flight.performance import Performance
from slipfit.units import DISTANCE_FINE


def _cause(p: Performance) -> str:
    shot = the_shot(p)
    if shot.above_m < shot.wanted.subject_height_m:
        return f"lower than the top of the subject ({shot.wanted.subject}): stay to one side"
    return f"higher than the top of the subject ({shot.wanted.subject})"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    return (
        range_step(p),
        Step(
            words="Its part upwards.",
            formula="h = R sin δ",
            numbers=f"{shown(shot.range_m)} m × sin {degrees(shot.wanted.depression_rad)}",
        ),
    )


KIND = FigureKind(
    id="shot_above",
    label="height above the ground",
    display=DISTANCE_FINE,
    value=from_shot(lambda s: s.above_m),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_shot,
    spread=field_spread,
)
