"""Top speed over the ground with the wind."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SPEED


def _value(p: Performance) -> Array:
    return p.top_speed_m_s + p.build.day.wind_m_s


def _cause(p: Performance) -> str:
    if p.build.day.wind_m_s == 0.0:
        return "the day is set to no wind"
    return f"in a wind of {SPEED.text(p.build.day.wind_m_s, 'metric')}"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Top speed through the air and the wind.",
            formula="V + W",
            numbers=f"{shown(p.top_speed_m_s)} m/s + {shown(p.build.day.wind_m_s)} m/s",
        ),
    )


KIND = FigureKind(
    id="ground_speed_with",
    label="top speed over the ground, with the wind",
    display=SPEED,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
