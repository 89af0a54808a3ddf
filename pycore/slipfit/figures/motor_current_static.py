"""Current per motor at full throttle standing still."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.steps import motor_current_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return np.where(p.standing.valid, p.standing.drive.motor_current_A, np.nan)


def _cause(p: Performance) -> str:
    return "standing still at full throttle, the hardest case for a held frame"


def _explain(p: Performance) -> tuple[Step, ...]:
    return motor_current_steps(p, p.standing.rotor)


KIND = FigureKind(
    id="motor_current_static",
    label="current per motor, full throttle standing still",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
