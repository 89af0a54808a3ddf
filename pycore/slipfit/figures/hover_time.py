"""Hover time on one pack."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.performance import USABLE_CHARGE, Performance
from slipfit.numerics import Array
from slipfit.units import DURATION


def _value(p: Performance) -> Array:
    charge = USABLE_CHARGE * np.asarray(p.inputs.capacity_C)
    return np.where(p.can_hover, charge / p.hover_late.pack_current_A, np.nan)


def _cause(p: Performance) -> str:
    return f"{USABLE_CHARGE:.0%} of the capacity, the rest is reserve"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        *pack_age_steps(p),
        Step(
            words="The charge that is flown, over the current of a hover at half charge.",
            formula="t = 0.8 Q / I",
            numbers=f"0.8 × {shown(np.asarray(p.inputs.capacity_C) / 3600)} A·h / "
            f"{shown(p.hover_late.pack_current_A)} A",
            source="0.8: common practice, no source",
        ),
    )


KIND = FigureKind(
    id="hover_time",
    label="time in hover on one pack",
    display=DURATION,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Pack model, see Pack",
)
