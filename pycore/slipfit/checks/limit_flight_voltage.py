"""Least voltage per cell of the flight against the least that packs bear."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.checks.limit_cell_voltage import LEAST_CELL_V
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.units import VOLTAGE


def _asked(p: Performance) -> Asked | None:
    flight = flight_of(p)
    if not flight.able[0]:
        return None
    least = first(flight.least(flight.steps.pack_least_V)) / flight.circuit.cells
    return Asked(value=least, allowed=LEAST_CELL_V, floor=True)


def _fix(p: Performance, asked: Asked) -> str:
    return "fewer passes, a larger or warmer pack, less pitch, or easier run-ups"


LIMIT = LimitKind(
    id="flight_voltage",
    kind="pack",
    subject="least cell voltage",
    when="at the worst moment of the flight",
    display=VOLTAGE,
    asked=_asked,
    basis="3.3 V per cell under load: common practice, no source; run-ups at full throttle on an "
    "emptying pack are the worst moment",
    fix=_fix,
    flown=True,
    near=0.95,
)
