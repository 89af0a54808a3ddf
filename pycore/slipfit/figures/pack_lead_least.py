"""Thinnest lead for the pack that stands this flight."""

from __future__ import annotations

from slipfit.constants import ZERO_CELSIUS_K
from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.flight.wiring import WIRE_LIMIT_K, thinnest_pack_lead
from slipfit.numerics import Array
from slipfit.units import COUNT


def _value(p: Performance) -> Array:
    return flight_of(p).answer(thinnest_pack_lead(p))


def _cause(p: Performance) -> str:
    return f"AWG; stays below {shown(WIRE_LIMIT_K - ZERO_CELSIUS_K)} °C over this flight"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Every gauge sold is followed through the flight; the thinnest that stays below "
            "the limit of its solder joints is named. A thicker one loses less voltage.",
            numbers=f"the frame has {p.build.frame.wire.pack_gauge} AWG",
            source="150 °C: memory",
        ),
    )


def _missing(p: Performance) -> str:
    flight = flight_of(p)
    hot = "even the thickest wire in the table gets too hot" if flight.able[0] else ""
    return flight.why_not() or hot


KIND = FigureKind(
    id="pack_lead_least",
    label="thinnest pack lead for this flight, AWG",
    display=COUNT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Wire tables, see Heat and the flight",
    missing=_missing,
)
