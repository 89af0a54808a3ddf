"""Distance flown while somebody reacts."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import DISTANCE

REACTION_S = 1.0  # to see, decide and move a thumb; common practice, no source


def _value(p: Performance) -> Array:
    return p.top_speed_m_s * REACTION_S


def _cause(p: Performance) -> str:
    return "in one second at top speed, before anybody has done anything"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="One second to see, decide and act: an assumption, and a hopeful one for "
            "somebody who is not waiting for it.",
            formula="V × 1 s",
            numbers=f"{shown(p.top_speed_m_s)} m/s × 1 s",
        ),
    )


KIND = FigureKind(
    id="reaction_distance",
    label="flown in one second of reaction",
    display=DISTANCE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="An assumption, see Rules and distances",
)
