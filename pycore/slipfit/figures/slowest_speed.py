"""Slowest level flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.envelope import envelope
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SPEED


def _value(p: Performance) -> Array:
    return envelope(p).slowest_m_s


def _cause(p: Performance) -> str:
    if p.can_hover[0, 0]:
        return "it hovers, so there is no slowest speed above nothing"
    return "below it full throttle does not hold the weight"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="The first speed of the level-flight curve at which the throttle is enough.",
            formula="duty(V) ≤ 1",
            numbers=f"{shown(envelope(p).slowest_m_s)} m/s",
        ),
    )


KIND = FigureKind(
    id="slowest_speed",
    label="slowest level flight",
    display=SPEED,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
