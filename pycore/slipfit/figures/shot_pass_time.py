"""How long one pass lasts."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, from_shot, no_shot, pass_s, the_shot
from slipfit.flight.performance import Performance
from slipfit.shot import course
from slipfit.units import SECONDS


def _cause(p: Performance) -> str:
    return f"over the {shown(the_shot(p).course_m)} m of a pass, beside the subject"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    return (
        Step(
            words="The course over the speed.",
            numbers=f"{shown(shot.course_m)} m / {shown(shot.speed_m_s)} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return no_shot(p) or ("" if np.isfinite(course(p.build)) else "the flight has no pass")


KIND = FigureKind(
    id="shot_pass_time",
    label="length of one pass",
    display=SECONDS,
    value=from_shot(pass_s),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=_missing,
)
