"""Range at best-range speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.performance import USABLE_CHARGE, Performance
from slipfit.numerics import Array
from slipfit.units import RANGE


def _value(p: Performance) -> Array:
    charge = USABLE_CHARGE * np.asarray(p.inputs.capacity_C)
    return np.asarray(p.cruise_speed_m_s * charge / p.cruise.drive.pack_current_A)


def _cause(p: Performance) -> str:
    return f"in still air on {USABLE_CHARGE:.0%} of the capacity"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        *pack_age_steps(p),
        Step(
            words="Speed times the time that the flown charge lasts.",
            formula="V × 0.8 Q / I",
            numbers=f"{shown(p.cruise_speed_m_s)} m/s × 0.8 × "
            f"{shown(np.asarray(p.inputs.capacity_C) / 3600)} A·h / "
            f"{shown(p.cruise.drive.pack_current_A)} A",
        ),
    )


KIND = FigureKind(
    id="cruise_range",
    label="distance at the speed of best range",
    display=RANGE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
