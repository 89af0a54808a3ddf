"""Hottest winding of the flight against the class of its insulation."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.flight import flight_of
from slipfit.flight.inputs import motor_of
from slipfit.flight.performance import Performance
from slipfit.units import TEMPERATURE


def _asked(p: Performance) -> Asked | None:
    flight = flight_of(p)
    if not flight.able[0]:
        return None
    hottest = first(flight.peak(flight.condition.winding_K))
    air_K = p.build.day.air_temperature_K
    return Asked(value=hottest, allowed=motor_of(p.build).max_winding_temperature_K, base=air_K)


def _fix(p: Performance, asked: Asked) -> str:
    return "a larger stator, less pitch, fewer cells, shorter passes or longer pauses between them"


LIMIT = LimitKind(
    id="winding",
    kind="motor",
    subject="winding temperature",
    when="at its hottest in the flight",
    display=TEMPERATURE,
    asked=_asked,
    basis="thermal class of the winding's insulation (IEC 60085; class H, 180 °C, where the part "
    "states none). Ratios are those of rises above the day's air",
    fix=_fix,
    flown=True,
)
