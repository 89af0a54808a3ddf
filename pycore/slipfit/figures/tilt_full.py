"""Tilt from upright at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ANGLE


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.trim.tilt_rad, np.nan)


def _cause(p: Performance) -> str:
    return "the body lies this far over at top speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="A right angle less the incidence at which the air carries the weight.",
            formula="90° − α",
            numbers=f"90° − {shown(np.degrees(p.top.trim.incidence_rad))}°",
        ),
    )


KIND = FigureKind(
    id="tilt_full",
    label="tilt from upright, flat out",
    display=ANGLE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
