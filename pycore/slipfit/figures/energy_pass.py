"""Energy that one pass takes from the pack."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ENERGY


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.first_pass().energy_J)


def _cause(p: Performance) -> str:
    first = flight_of(p).first_pass()
    return f"{shown(first.seconds)} s, run-up included, without the turn"


def _explain(p: Performance) -> tuple[Step, ...]:
    first = flight_of(p).first_pass()
    return (
        Step(
            words="Power of the pack over the time of the pass, the first of its kind. It has the "
            "run-up in it, and so the energy of motion.",
            formula="E = Σ V pack I t",
            numbers=f"{shown(np.asarray(first.energy_J) / first.seconds)} W × "
            f"{shown(first.seconds)} s",
        ),
    )


def _missing(p: Performance) -> str:
    flight = flight_of(p)
    return flight.why_not() or ("" if flight.plan.round else "no leg of this flight is a pass")


KIND = FigureKind(
    id="energy_pass",
    label="energy of one pass",
    display=ENERGY,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
