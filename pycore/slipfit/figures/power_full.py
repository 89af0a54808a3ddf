"""Electric power at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import POWER


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.drive.pack_power_W, np.nan)


def _cause(p: Performance) -> str:
    return "drawn from the pack at top speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = p.top.drive
    return (
        Step(
            words="Pack voltage times pack current.",
            formula="P = V I",
            numbers=f"{shown(d.pack_voltage_V)} V × {shown(d.pack_current_A)} A",
        ),
    )


KIND = FigureKind(
    id="power_full",
    label="electric power, flat out",
    display=POWER,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Pack model, see Pack",
)
