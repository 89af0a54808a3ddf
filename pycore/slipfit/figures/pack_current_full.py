"""Pack current at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.steps import pack_current_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.drive.pack_current_A, np.nan)


def _cause(p: Performance) -> str:
    return "at top speed, all motors and the electronics together"


def _explain(p: Performance) -> tuple[Step, ...]:
    return pack_current_steps(p.top.drive)


KIND = FigureKind(
    id="pack_current_full",
    label="pack current, flat out",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Pack model, see Pack",
)
