"""How far ahead the ground comes into the picture."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, degrees, first, from_shot, no_ground, the_shot
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import ShotState, ground_ahead
from slipfit.units import DISTANCE_FINE


def _near(shot: ShotState) -> Array:
    down = shot.view.half_angle_rad - shot.axis_elevation_rad
    return np.asarray(ground_ahead(shot.above_m, down))


def _cause(p: Performance) -> str:
    shot = the_shot(p)
    far = first(ground_ahead(shot.above_m, -shot.view.half_angle_rad - shot.axis_elevation_rad))
    if far > 0.0:
        return "ahead, at the lower edge; the upper edge ends on the ground too"
    return "ahead, at the lower edge; the upper edge looks over the horizon"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    down = shot.view.half_angle_rad - shot.axis_elevation_rad
    return (
        Step(
            words="Where the line of sight of the lower edge meets the ground.",
            formula="h / tan(FOV / 2 − θ)",
            numbers=f"{shown(shot.above_m)} m / tan {degrees(down)}",
        ),
    )


KIND = FigureKind(
    id="shot_ground_near",
    label="nearest ground in the picture",
    display=DISTANCE_FINE,
    value=from_shot(_near),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_ground,
)
