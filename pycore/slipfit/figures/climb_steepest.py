"""Steepest climb that keeps up with the chase."""

from __future__ import annotations

import math

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out
from slipfit.flight.climb import FULL, paths, steepest_climb
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ANGLE, SPEED


def _speed(p: Performance) -> float:
    """The speed to be held: that of the chase, else of best range."""
    cruise = float(p.cruise_speed_m_s[0, 0])
    return p.build.chase or (cruise if math.isfinite(cruise) else 0.0)


def _value(p: Performance) -> Array:
    return steepest_climb(p, _speed(p))


def _cause(p: Performance) -> str:
    held = f"along the path at {SPEED.text(_speed(p), 'metric')}, {_name(p)}"
    if _value(p)[0, 0] < np.pi / 2:
        return held
    up = SPEED.text(float(paths(p).speed_m_s[0, FULL][-1]), "metric")
    return f"{held}: straight up there is more, {up}"


def _name(p: Performance) -> str:
    return "the chase speed" if p.build.chase else "the speed of best range"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="The slope at which full throttle holds just that speed.",
            formula="N + n H = W cos(α + γ), n T = W sin(α + γ) + A, duty = 1",
            numbers=f"γ = {shown(np.degrees(_value(p)))}° at {shown(_speed(p))} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    said = missing_flat_out(p)
    slow = bool(p.can_hover[0, 0]) and _speed(p) >= float(p.top_speed_m_s[0, 0])
    return said or (f"not even level flight reaches {_name(p)}" if slow else "")


KIND = FigureKind(
    id="climb_steepest",
    label="steepest climb at the chase speed",
    display=ANGLE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Force balance on a sloping path, see Level flight",
    missing=_missing,
)
