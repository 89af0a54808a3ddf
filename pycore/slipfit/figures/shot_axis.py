"""Elevation of the optical axis at the subject's speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import SOURCE, axis_step, first, from_shot, no_shot, the_shot
from slipfit.flight.performance import Performance
from slipfit.units import ANGLE


def _cause(p: Performance) -> str:
    down = first(the_shot(p).axis_elevation_rad) < 0.0
    return f"the lens looks {'below' if down else 'above'} the horizon at the subject's speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (axis_step(p),)


KIND = FigureKind(
    id="shot_axis",
    label="axis of the lens above the horizon",
    display=ANGLE,
    value=from_shot(lambda s: s.axis_elevation_rad),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_shot,
)
