"""Least voltage per cell under load over the flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.flight import Flight, flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import VOLTAGE


def _cells(flight: Flight) -> Array:
    return flight.steps.pack_least_V / flight.circuit.cells


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.least(_cells(flight)))


def _cause(p: Performance) -> str:
    flight = flight_of(p)
    return f"in the leg '{flight.label(flight.when_greatest(-_cells(flight)))}'"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    k, steps = flight.when_greatest(-_cells(flight)), flight.steps
    return (
        *pack_age_steps(p),
        Step(
            words="What is left of the open-circuit voltage behind cells, leads and the slow "
            "element of the pack, at the worst moment.",
            formula="V cell = (U(charge) − I R − v slow) / cells",
            numbers=f"{shown(100 * flight.condition.charge[k])} % charge, "
            f"{shown(steps.pack_peak_A[k])} A × {shown(steps.pack_resistance_ohm[k] * 1e3)} mΩ, "
            f"{shown(steps.polarisation_V[k])} V slow",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="cell_voltage_least",
    label="least voltage per cell of the flight",
    display=VOLTAGE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
