"""Hottest that the motors' leads get over the flight."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import Performance
from slipfit.flight.wiring import motor_lead_peak
from slipfit.numerics import Array
from slipfit.units import TEMPERATURE


def _value(p: Performance) -> Array:
    return flight_of(p).answer(motor_lead_peak(p))


def _cause(p: Performance) -> str:
    return f"{p.build.frame.wire.motor_gauge} AWG in still air of the body"


def _explain(p: Performance) -> tuple[Step, ...]:
    flight = flight_of(p)
    return (
        Step(
            words="Each of three leads carries the motor's current for two thirds of the time.",
            formula="c dT/dt = I² r(T) − h π D (T − T air)",
            numbers=f"{p.build.frame.wire.motor_gauge} AWG, up to "
            f"{shown(flight.peak(flight.steps.motor_peak_A))} A",
            source="h = 15 W/(m²·K): memory",
        ),
    )


def _missing(p: Performance) -> str:
    return flight_of(p).why_not()


KIND = FigureKind(
    id="motor_lead_peak",
    label="hottest motor lead of the flight",
    display=TEMPERATURE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Wire tables, see Heat and the flight",
    missing=_missing,
)
