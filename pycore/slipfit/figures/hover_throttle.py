"""Hover throttle: the duty at which the build hangs still."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.hover.drive.duty, np.nan)


def _cause(p: Performance) -> str:
    return "share of full voltage that holds the weight in still air"


def _explain(p: Performance) -> tuple[Step, ...]:
    t, d = p.hover.trim, p.hover.drive
    return (
        Step(
            words="Each rotor carries its share of the weight and of the download on the body.",
            formula="n T = W + A",
            numbers=f"T = {shown(t.thrust_N)} N per rotor",
        ),
        Step(
            words="The voltage that turns the motor against that torque, over the pack's voltage.",
            formula="duty = (ω / Kv + i R) / V pack",
            numbers=f"{shown(d.motor_voltage_V)} V / {shown(d.pack_voltage_V)} V",
        ),
    )


KIND = FigureKind(
    id="hover_throttle",
    label="throttle in hover",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
