"""Time of a run-up to the chase speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out, run_up_steps
from slipfit.flight.dash import dash
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SECONDS, SPEED


def _value(p: Performance) -> Array:
    d = dash(p)
    if p.build.chase <= 0.0:
        return np.full(p.can_hover.shape, np.nan)
    return d.at_speed(d.time_s, p.build.chase)


def _cause(p: Performance) -> str:
    speed = SPEED.text(p.build.chase, "metric")
    return f"from rest to {speed}, the height held; tilting over comes on top"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = dash(p)
    return (
        *run_up_steps(p),
        Step(
            words="Read where the run-up passes the chase speed.",
            numbers=f"{shown(d.at_speed(d.time_s, p.build.chase))} s",
        ),
    )


def _missing(p: Performance) -> str:
    if p.build.chase <= 0.0:
        return "no chase speed is set"
    if missing_flat_out(p):
        return missing_flat_out(p)
    return "the chase speed is not reached in level flight"


KIND = FigureKind(
    id="chase_time",
    label="time of a run-up to the chase speed",
    display=SECONDS,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level run-up at full throttle, see Run-up",
    missing=_missing,
)
