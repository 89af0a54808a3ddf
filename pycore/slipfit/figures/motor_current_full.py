"""Current per motor at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.steps import motor_current_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.drive.motor_current_A, np.nan)


def _cause(p: Performance) -> str:
    return "at top speed in level flight"


def _explain(p: Performance) -> tuple[Step, ...]:
    return motor_current_steps(p, p.top.trim.rotor)


KIND = FigureKind(
    id="motor_current_full",
    label="current per motor, flat out",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
