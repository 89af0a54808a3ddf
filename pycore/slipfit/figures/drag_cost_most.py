"""Top speed that the largest cause of drag costs."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out
from slipfit.flight.drag_cost import MOST, largest_causes, speed_cost
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SPEED


def _value(p: Performance) -> Array:
    # of one build, the chart asks for the others too: all are solved at once, and kept
    names = largest_causes(p, MOST if len(p.can_hover) == 1 else 1)
    if not names:
        return np.full(p.can_hover.shape, np.nan)
    return speed_cost(p, names)[:, :1]


def _cause(p: Performance) -> str:
    name = largest_causes(p, 1)[0]
    return f"{name}: {shown(p.top.trim.drag_causes_N[name])} N flat out"


def _explain(p: Performance) -> tuple[Step, ...]:
    without = _value(p) + p.top_speed_m_s
    return (
        Step(
            words="Level flight flat out, solved again without this cause.",
            formula="V without − V",
            numbers=f"{shown(without)} m/s − {shown(p.top_speed_m_s)} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return missing_flat_out(p)


KIND = FigureKind(
    id="drag_cost_most",
    label="speed that the largest cause of drag costs",
    display=SPEED,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Body",
    missing=_missing,
)
