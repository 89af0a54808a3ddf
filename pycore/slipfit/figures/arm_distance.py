"""How far the propellers' turning stays from the arms' bending."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.structure import arm_distance, arm_modes, lowest_mode
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    return arm_distance(p)


def _cause(p: Performance) -> str:
    return "the least distance in hover, at cruise and flat out, as a share of the frequency"


def _explain(p: Performance) -> tuple[Step, ...]:
    modes = arm_modes(p.build)
    turning = ", ".join(
        f"{name} {shown(state.trim.omega_rad_s / (2 * np.pi))} Hz"
        for name, state in (("hover", p.hover), ("cruise", p.cruise), ("flat out", p.top))
    )
    return (
        Step(
            words="An imbalance shakes the arm once a turn.",
            formula="|f turn / f arm − 1|",
            numbers=f"{turning}; arms "
            + ", ".join(f"{mode.direction} {shown(mode.frequency_Hz)} Hz" for mode in modes),
        ),
    )


def _missing(p: Performance) -> str:
    return "" if lowest_mode(p.build) else "the frame file describes no arm as a beam"


KIND = FigureKind(
    id="arm_distance",
    label="turning away from the arms' bending",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Cantilever with an end mass, see Structure",
    missing=_missing,
)
