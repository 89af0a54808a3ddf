"""How long one pass lasts."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, from_shot, no_shot, pass_s, the_shot
from slipfit.flight.performance import Performance
from slipfit.units import SECONDS


def _cause(p: Performance) -> str:
    return "over the whole course at the subject's speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    return (
        Step(
            words="The course over the speed.",
            numbers=f"{shown(shot.wanted.course_m)} m / {shown(shot.speed_m_s)} m/s",
        ),
    )


KIND = FigureKind(
    id="shot_pass_time",
    label="length of one pass",
    display=SECONDS,
    value=from_shot(pass_s),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_shot,
)
