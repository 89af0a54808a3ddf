"""How far the frame is thrown when everything stops."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import from_shot, no_shot, the_shot
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import throw_distance
from slipfit.units import DISTANCE


def _value(p: Performance) -> Array:
    height = from_shot(lambda s: s.above_m)(p)
    known = np.isfinite(height)
    thrown = np.asarray(throw_distance(np.where(known, height, 0.0), p.top_speed_m_s))
    return np.where(known, thrown, np.nan)


def _cause(p: Performance) -> str:
    return "from the shot's height, level, at top speed, without air; it then slides and bounces on"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Everything stops in level flight at top speed and at the shot's height. Drag "
            "would shorten the throw and is left out; sliding and bouncing come on top.",
            formula="V √(2 h / g)",
            numbers=f"{shown(p.top_speed_m_s)} m/s × √(2 × {shown(the_shot(p).above_m)} m / "
            "9.81 m/s²)",
        ),
    )


KIND = FigureKind(
    id="throw_distance",
    label="thrown when everything stops",
    display=DISTANCE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Free fall without air, see Rules and distances",
    missing=no_shot,
)
