"""ESC loss per channel at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import POWER


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.drive.esc_loss_W, np.nan)


def _cause(p: Performance) -> str:
    return "conduction and switching at top speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Conduction, switching, dead time and gate losses of one channel.",
            formula="2 i² R + switching + dead time + gate",
            numbers=f"{shown(p.top.drive.esc_loss_W)} W at {shown(p.top.drive.motor_current_A)} A",
        ),
    )


KIND = FigureKind(
    id="esc_loss_full",
    label="heat in each ESC channel, flat out",
    display=POWER,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
