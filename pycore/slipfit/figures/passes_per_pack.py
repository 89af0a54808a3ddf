"""How many passes one pack gives."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.flight import ENDS, flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import TIMES


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.passes)


def _cause(p: Performance) -> str:
    return f"there is no next one when {ENDS[flight_of(p).passes_by]}"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    plan, used = flight.plan, flight.charge_by_part()
    return (
        *pack_age_steps(p),
        Step(
            words="The legs before the last kind of pass take their share of the capacity.",
            formula="Q before",
            numbers=f"{shown(100 * used.opening)} %, {plan.passes_before} passes among them",
        ),
        Step(
            words="The way home and the reserve stay.",
            formula="Q home + Q reserve",
            numbers=f"{shown(100 * used.closing)} % + {shown(100 * plan.reserve)} %",
        ),
        Step(
            words="What is left goes to passes, each with its turn, followed one by one as the "
            "pack sags and warms.",
            formula="(Q at take-off − Q before − Q home − Q reserve) / Q pass",
            numbers=f"about {shown(100 * used.round)} % a pass",
        ),
    )


def _missing(p: Performance) -> str:
    flight = flight_of(p)
    return flight.why_not() or ("" if flight.plan.round else "no leg of this flight is a pass")


KIND = FigureKind(
    id="passes_per_pack",
    label="passes on one pack",
    display=TIMES,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
