"""Highest speed at which the subject stays in the picture."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import SOURCE, first, from_shot, never_in_frame, span_step, the_shot
from slipfit.flight.performance import Performance
from slipfit.units import SPEED


def _cause(p: Performance) -> str:
    if first(the_shot(p).fastest_m_s) > 0.999 * first(p.top_speed_m_s):
        return "the subject stays in the picture up to top speed"
    return "faster, the frame leans further and the subject climbs out of the picture"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (span_step(p, "−"),)


KIND = FigureKind(
    id="shot_fastest",
    label="fastest with the subject in the picture",
    display=SPEED,
    value=from_shot(lambda s: s.fastest_m_s),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=never_in_frame,
)
