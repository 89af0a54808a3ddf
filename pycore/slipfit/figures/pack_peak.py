"""Hottest that the pack gets over the flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import TEMPERATURE


def _value(p: Performance) -> Array:
    flight = flight_of(p)
    return flight.answer(flight.peak(flight.condition.pack_K))


def _cause(p: Performance) -> str:
    flight = flight_of(p)
    hottest = int(flight.when_greatest(flight.condition.pack_K))
    return f"in the leg '{flight.label(hottest)}', warmed by its own resistance"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    k = int(flight.when_greatest(flight.condition.pack_K))
    return (
        Step(
            words="Current squared times the cells' resistance warms the pack; its bay cools it "
            "little. Here the step at the peak.",
            formula="C dT/dt = I² R − G (T − T air)",
            numbers=f"{shown(flight.steps.pack_current_A[k])} A, "
            f"{shown(flight.steps.pack_resistance_ohm[k] * 1e3)} mΩ with leads",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="pack_peak",
    label="warmest pack of the flight",
    display=TEMPERATURE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Flight over time, see Heat and the flight",
    missing=_missing,
)
