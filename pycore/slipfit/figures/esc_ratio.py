"""ESC current over rating at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.inputs import esc_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import RATIO


def _value(p: Performance) -> Array:
    rating = esc_of(p.build).continuous_A
    return np.where(p.can_hover, p.top.drive.motor_current_A / rating, np.nan)


def _cause(p: Performance) -> str:
    return f"against {shown(esc_of(p.build).continuous_A)} A per channel, a claim of its maker"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Motor current over the continuous rating of one channel.",
            formula="i / i rated",
            numbers=f"{shown(p.top.drive.motor_current_A)} A / "
            f"{shown(esc_of(p.build).continuous_A)} A",
        ),
    )


KIND = FigureKind(
    id="esc_ratio",
    label="current over the ESC's continuous rating, flat out",
    display=RATIO,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
