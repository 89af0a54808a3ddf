"""Pack current in hover."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.hover.drive.pack_current_A, np.nan)


def _cause(p: Performance) -> str:
    return "hanging still, all motors and the electronics together"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = p.hover.drive
    return (
        Step(
            words="Power of all motors, ESC losses and electronics, over the pack's voltage.",
            formula="I = (n (v i + P ESC) + P electronics) / V pack",
            numbers=f"{shown(d.pack_power_W)} W / {shown(d.pack_voltage_V)} V",
        ),
    )


KIND = FigureKind(
    id="pack_current_hover",
    label="pack current in hover",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Pack model, see Pack",
)
