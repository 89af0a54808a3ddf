"""Warmest pack of the flight against what cells bear."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.flight import PACK_LIMIT_K, flight_of
from slipfit.flight.performance import Performance
from slipfit.units import TEMPERATURE


def _asked(p: Performance) -> Asked | None:
    flight = flight_of(p)
    if not flight.able[0]:
        return None
    hottest = first(flight.peak(flight.condition.pack_K))
    air_K = p.build.day.air_temperature_K
    return Asked(value=hottest, allowed=PACK_LIMIT_K, base=air_K)


def _fix(p: Performance, asked: Asked) -> str:
    return (
        "a pack of more capacity or less resistance, less pitch, fewer passes, or a pack that "
        "is not warmed so far before take-off"
    )


LIMIT = LimitKind(
    id="pack_heat",
    kind="pack",
    subject="pack temperature",
    when="at its hottest in the flight",
    display=TEMPERATURE,
    asked=_asked,
    basis="60 °C in the cells: common practice, no source. Ratios are those of rises above the "
    "day's air",
    fix=_fix,
    flown=True,
)
