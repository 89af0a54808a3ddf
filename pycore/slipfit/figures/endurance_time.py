"""Longest flight on one pack."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.envelope import envelope
from slipfit.flight.performance import USABLE_CHARGE, Performance
from slipfit.numerics import Array
from slipfit.units import DURATION


def _value(p: Performance) -> Array:
    return envelope(p).endurance_s


def _cause(p: Performance) -> str:
    return f"at the speed of least current, on {USABLE_CHARGE:.0%} of the capacity"


def _explain(p: Performance) -> tuple[Step, ...]:
    e = envelope(p)
    return (
        *pack_age_steps(p),
        Step(
            words="The charge that is flown, over the least current of level flight, with the pack "
            "as it is at take-off.",
            formula="t = 0.8 Q / min I(V)",
            numbers=f"0.8 × {shown(np.asarray(p.inputs.capacity_C) / 3600)} A·h, at "
            f"{shown(e.endurance_speed_m_s)} m/s",
            source="0.8: common practice, no source",
        ),
    )


KIND = FigureKind(
    id="endurance_time",
    label="longest flight on one pack",
    display=DURATION,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
