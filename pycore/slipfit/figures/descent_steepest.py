"""Steepest descent at the speed of best range."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.climb import STEEPEST, flies_along_axis, paths
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ANGLE, CLIMB


def _value(p: Performance) -> Array:
    return -paths(p).slope_rad[:, STEEPEST : STEEPEST + 1]


def _cause(p: Performance) -> str:
    sink = -float(paths(p).rise_m_s[0, STEEPEST])
    ends = (
        "steeper, the propellers brake instead of pulling"
        if flies_along_axis(p)[0, 0]
        else "steeper, the air comes from below the disks"
    )
    return f"sinking {CLIMB.text(sink, 'metric')}; {ends}"


def _explain(p: Performance) -> tuple[Step, ...]:
    along = bool(flies_along_axis(p)[0, 0])
    return (
        Step(
            words="The path down on which the propellers just no longer pull."
            if along
            else "The path down on which the air comes onto the disks just from the side.",
            formula="n T = 0" if along else "α = 90°",
            numbers=f"γ = −{shown(np.degrees(_value(p)))}° at {shown(p.cruise_speed_m_s)} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return "no path down reaches that end within the models" if p.can_hover[0, 0] else ""


KIND = FigureKind(
    id="descent_steepest",
    label="steepest descent at the speed of best range",
    display=ANGLE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Force balance on a sloping path, see Level flight",
    missing=_missing,
)
