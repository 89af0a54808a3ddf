"""Best-range speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SPEED


def _value(p: Performance) -> Array:
    return p.cruise_speed_m_s


def _cause(p: Performance) -> str:
    return "least energy per metre in level flight"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = p.cruise.drive
    return (
        Step(
            words="Where pack power over speed is least on the level-flight curve.",
            formula="min P(V) / V",
            numbers=f"{shown(d.pack_power_W)} W at {shown(p.cruise_speed_m_s)} m/s",
        ),
    )


KIND = FigureKind(
    id="cruise_speed",
    label="speed of best range",
    display=SPEED,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
