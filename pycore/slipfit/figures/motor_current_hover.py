"""Current per motor in hover."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.steps import motor_current_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.hover.drive.motor_current_A, np.nan)


def _cause(p: Performance) -> str:
    return "hanging still"


def _explain(p: Performance) -> tuple[Step, ...]:
    return motor_current_steps(p, p.hover.trim.rotor)


KIND = FigureKind(
    id="motor_current_hover",
    label="current per motor in hover",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
