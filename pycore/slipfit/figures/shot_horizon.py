"""How high in the picture the horizon lies."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import SOURCE, axis_step, from_shot, no_horizon
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import ShotState
from slipfit.units import PERCENT


def _place(shot: ShotState) -> Array:
    row = shot.horizon_row
    return np.where(np.abs(row) <= 1.0, (1.0 - row) / 2.0, np.nan)


def _cause(p: Performance) -> str:
    return "from the lower edge: the horizon is in the picture"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (axis_step(p),)


KIND = FigureKind(
    id="shot_horizon",
    label="horizon's height in the picture",
    display=PERCENT,
    value=from_shot(_place),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_horizon,
)
