"""Lowest speed at which the subject stays in the picture."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import SOURCE, first, from_shot, never_in_frame, span_step, the_shot
from slipfit.flight.performance import Performance
from slipfit.units import SPEED


def _cause(p: Performance) -> str:
    if first(the_shot(p).slowest_m_s) < 0.1:
        return "the subject is in the picture from hover on"
    return "slower, the frame stands more upright and the subject sinks out of the picture"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (span_step(p, "+"),)


KIND = FigureKind(
    id="shot_slowest",
    label="slowest with the subject in the picture",
    display=SPEED,
    value=from_shot(lambda s: s.slowest_m_s),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=never_in_frame,
)
