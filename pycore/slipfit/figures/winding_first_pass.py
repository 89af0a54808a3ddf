"""How hot the windings are after the first pass."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import TEMPERATURE


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.at_end(flight.first_run(), flight.condition.winding_K))


def _cause(p: Performance) -> str:
    return "the same length of flight for every build, however many passes its pack gives"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    inside = flight.stretch_of == flight.first_run()
    current = flight.steps.motor_current_A[inside, 0]
    return (
        Step(
            words="Heat in copper and iron over the legs up to the end of the first pass.",
            formula="C dT/dt = i² R(T) + P iron − G (T − T case)",
            numbers=f"from {shown(current.max(initial=0.0))} A down to "
            f"{shown(current.min(initial=1e3))} A in the pass",
        ),
    )


def _missing(p: Performance) -> str:
    flight = flight_of(p)
    return flight.why_not() or ("" if flight.plan.round else "no leg of this flight is a pass")


KIND = FigureKind(
    id="winding_first_pass",
    label="winding after the first pass",
    display=TEMPERATURE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
