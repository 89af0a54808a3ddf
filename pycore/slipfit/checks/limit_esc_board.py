"""Hottest ESC board of the flight against what its parts bear."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.flight import BOARD_LIMIT_K, flight_of
from slipfit.flight.performance import Performance
from slipfit.units import TEMPERATURE


def _asked(p: Performance) -> Asked | None:
    flight = flight_of(p)
    if not flight.able[0]:
        return None
    hottest = first(flight.peak(flight.board_K))
    air_K = p.build.day.air_temperature_K
    return Asked(value=hottest, allowed=BOARD_LIMIT_K, base=air_K)


def _fix(p: Performance, asked: Asked) -> str:
    return "more air past the board, an ESC with less resistance, or shorter passes"


LIMIT = LimitKind(
    id="esc_heat",
    kind="esc",
    subject="ESC board temperature",
    when="at its hottest in the flight",
    display=TEMPERATURE,
    asked=_asked,
    basis="105 °C, which capacitors and laminate of such boards bear: from memory, no source. "
    "Ratios are those of rises above the day's air",
    fix=_fix,
    flown=True,
)
