"""Charge left when the flight is over."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.flight import ENDS, flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.condition.charge[-1])


def _cause(p: Performance) -> str:
    flight = flight_of(p)
    return f"{shown(100 * flight.plan.reserve)} % is the reserve; {ENDS[flight.ended_by[0]]}"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    drawn = (flight.steps.pack_current_A * flight.steps.duration_s * flight.flown)[:, 0].sum()
    return (
        *pack_age_steps(p),
        Step(
            words="Charge at take-off, less what all legs that are flown draw. Passes are flown "
            "whole, so that more than the reserve is left.",
            formula="s = s at take-off − Σ I t / Q",
            numbers=f"{shown(100 * flight.circuit.start.charge)} % − {shown(drawn / 3600)} A·h / "
            f"{shown(flight.circuit.capacity / 3600)} A·h",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="charge_at_landing",
    label="charge left at landing",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
