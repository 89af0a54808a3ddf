"""Distance behind the subject."""

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
    return "along the ground, for the size and depression that are wanted"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    return (
        range_step(p),
        Step(
            words="Its part along the ground.",
            formula="D = R cos δ",
            numbers=f"{shown(shot.range_m)} m × cos {degrees(shot.wanted.depression_rad)}",
        ),
    )


KIND = FigureKind(
    id="shot_behind",
    label="distance behind the subject",
    display=DISTANCE_FINE,
    value=from_shot(lambda s: s.behind_m),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_shot,
    spread=field_spread,
)
