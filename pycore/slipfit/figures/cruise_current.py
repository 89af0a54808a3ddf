"""Current per motor at best-range speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.steps import motor_current_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.cruise.drive.motor_current_A, np.nan)


def _cause(p: Performance) -> str:
    return "at the speed of best range"


def _explain(p: Performance) -> tuple[Step, ...]:
    return motor_current_steps(p, p.cruise.trim.rotor)


KIND = FigureKind(
    id="cruise_current",
    label="current per motor in cruise",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
