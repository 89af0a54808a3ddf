"""Distance over the ground against the wind."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.envelope import envelope
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import RANGE, SPEED


def _value(p: Performance) -> Array:
    return envelope(p).upwind_range_m


def _cause(p: Performance) -> str:
    speed = SPEED.text(float(envelope(p).upwind_speed_m_s[0, 0]), "metric")
    if p.build.day.wind_m_s == 0.0:
        return f"the day is set to no wind; at {speed}"
    return f"at {speed} through the air, which goes furthest against it"


def _explain(p: Performance) -> tuple[Step, ...]:
    e = envelope(p)
    return (
        Step(
            words="Where the current over the speed over the ground is least.",
            formula="0.8 Q / min (I / (V − W))",
            numbers=f"V = {shown(e.upwind_speed_m_s)} m/s against "
            f"{shown(p.build.day.wind_m_s)} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return "" if not p.can_hover[0, 0] else "no level flight is faster than this wind"


KIND = FigureKind(
    id="upwind_range",
    label="distance over the ground against the wind",
    display=RANGE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
    missing=_missing,
)
