"""Current of the flight as the connector feels it."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.inputs import pack_of
from slipfit.flight.performance import Performance
from slipfit.flight.wiring import CONNECTOR_TIME_S, lasting_current
from slipfit.numerics import Array
from slipfit.physics.connector import connector_named
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.peak(lasting_current(flight, CONNECTOR_TIME_S)))


def _cause(p: Performance) -> str:
    connector = connector_named(pack_of(p.build).connector)
    return f"the {connector.name} bears {shown(connector.continuous_A)} A for long"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    return (
        Step(
            words="A connector warms with the square of the current, over about a minute, so short "
            "peaks count less than their height.",
            formula="d(I²)/dt = (I² now − I²) / 60 s",
            numbers=f"{shown(flight.peak(flight.steps.pack_peak_A))} A at the highest",
            source="60 s and all ratings of connectors: memory",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="connector_current",
    label="lasting current through the connector",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Common practice, see Heat and the flight",
    missing=_missing,
)
