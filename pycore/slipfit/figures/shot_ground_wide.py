"""Width of the ground in the picture where the subject is."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, from_shot, out_of_frame, the_shot
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import ShotState, ground_width
from slipfit.units import DISTANCE_FINE


def _wide(shot: ShotState) -> Array:
    row = np.where(shot.in_frame == 1.0, shot.row, np.nan)
    return np.asarray(ground_width(shot.view, shot.above_m, shot.axis_elevation_rad, row))


def _cause(p: Performance) -> str:
    return "from the left edge to the right, on the subject's row"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Where the two ends of the subject's row in the picture meet level ground, "
            f"through the {the_shot(p).view.lens.label} lens.",
            numbers=f"{shown(_wide(the_shot(p)))} m from {shown(the_shot(p).above_m)} m up",
        ),
    )


def _missing(p: Performance) -> str:
    return out_of_frame(p) or "the ends of the subject's row look over the horizon"


KIND = FigureKind(
    id="shot_ground_wide",
    label="ground across the picture at the subject",
    display=DISTANCE_FINE,
    value=from_shot(_wide),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=_missing,
)
