"""Hottest that the pack's leads get over the flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.flight.wiring import pack_lead_gauge, pack_lead_peak
from slipfit.numerics import Array
from slipfit.units import TEMPERATURE


def _value(p: Performance) -> Array:
    return flight_of(p).answer(pack_lead_peak(p))


def _cause(p: Performance) -> str:
    return f"{pack_lead_gauge(p)} AWG in still air of the body"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    return (
        Step(
            words="The current of the flight warms copper and insulation, the air around takes it "
            "away.",
            formula="c dT/dt = I² r(T) − h π D (T − T air)",
            numbers=f"{pack_lead_gauge(p)} AWG, up to "
            f"{shown(flight.peak(flight.steps.pack_peak_A))} A",
            source="h = 15 W/(m²·K): memory",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="pack_lead_peak",
    label="hottest pack lead of the flight",
    display=TEMPERATURE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Wire tables, see Heat and the flight",
    missing=_missing,
)
