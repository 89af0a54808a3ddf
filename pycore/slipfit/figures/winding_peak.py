"""Hottest that the windings get over the flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import TEMPERATURE


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.peak(flight.condition.winding_K))


def _cause(p: Performance) -> str:
    flight = flight_of(p)
    hottest = int(flight.when_greatest(flight.condition.winding_K))
    return f"in the leg '{flight.label(hottest)}', from the day's cold"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    k = int(flight.when_greatest(flight.condition.winding_K))
    return (
        Step(
            words="Heat in copper and iron, stored in the winding, led to the case and from there "
            "to the air; here the step at the peak.",
            formula="C dT/dt = i² R(T) + P iron − G (T − T case)",
            numbers=f"{shown(flight.steps.copper_W[k])} W in copper, "
            f"{shown(flight.steps.iron_W[k])} W in iron, "
            f"{shown(flight.circuit.cooling.winding_W_K)} W/K to the case",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="winding_peak",
    label="hottest winding of the flight",
    display=TEMPERATURE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
