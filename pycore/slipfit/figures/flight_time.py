"""How long the flight lasts."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.flight import ENDS, flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import DURATION


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.ends_s)


def _cause(p: Performance) -> str:
    return f"over when {ENDS[flight_of(p).ended_by[0]]}"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    seconds: dict[str, float] = {}
    for k, dt in enumerate(flight.steps.duration_s[:, 0] * flight.flown[:, 0]):
        seconds[flight.label(k)] = seconds.get(flight.label(k), 0.0) + float(dt)
    return (
        *pack_age_steps(p),
        Step(
            words="The legs that are flown, one after the other. It is over when "
            f"{ENDS[flight.ended_by[0]]}.",
            formula="t = Σ t leg",
            numbers=", ".join(f"{leg} {shown(t)} s" for leg, t in seconds.items()),
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="flight_time",
    label="time in the air on the legs of this flight",
    display=DURATION,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
