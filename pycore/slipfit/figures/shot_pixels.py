"""Pixels that the subject takes across."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, from_shot, out_of_frame, the_shot
from slipfit.flight.performance import Performance
from slipfit.units import COUNT


def _cause(p: Performance) -> str:
    return f"of {the_shot(p).view.pixels_across} across"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    return (
        Step(
            words="Its share of the picture's width.",
            numbers=f"{shown(shot.share)} × {shot.view.pixels_across}",
        ),
    )


KIND = FigureKind(
    id="shot_pixels",
    label="pixels across the subject",
    display=COUNT,
    value=from_shot(lambda s: s.share * s.view.pixels_across),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=out_of_frame,
)
