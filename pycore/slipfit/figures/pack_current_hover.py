"""Pack current in hover."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.steps import pack_current_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.hover.drive.pack_current_A, np.nan)


def _cause(p: Performance) -> str:
    return "hanging still, all motors and the electronics together"


def _explain(p: Performance) -> tuple[Step, ...]:
    return pack_current_steps(p.hover.drive)


KIND = FigureKind(
    id="pack_current_hover",
    label="pack current in hover",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Pack model, see Pack",
)
