"""Speed of longest flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.envelope import envelope
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SPEED


def _value(p: Performance) -> Array:
    return envelope(p).endurance_speed_m_s


def _cause(p: Performance) -> str:
    if envelope(p).endurance_speed_m_s[0, 0] <= 0.0:
        return "nothing lasts longer than hanging still"
    return "least current in level flight"


def _explain(p: Performance) -> tuple[Step, ...]:
    e = envelope(p)
    return (
        Step(
            words="Where the pack's current is least on the level-flight curve.",
            formula="min I(V)",
            numbers=f"at {shown(e.endurance_speed_m_s)} m/s the flown charge lasts "
            f"{shown(e.endurance_s / 60)} min",
        ),
    )


KIND = FigureKind(
    id="endurance_speed",
    label="speed of longest flight",
    display=SPEED,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
