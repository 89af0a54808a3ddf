"""How high in the picture the subject lies with the build's uptilt."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import (
    SOURCE,
    axis_step,
    degrees,
    first,
    from_shot,
    out_of_frame,
    the_shot,
)
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import ShotState
from slipfit.units import PERCENT


def _place(shot: ShotState) -> Array:
    return np.where(shot.in_frame == 1.0, (1.0 - shot.row) / 2.0, np.nan)


def _cause(p: Performance) -> str:
    shot = the_shot(p)
    below = first(shot.below_axis_rad)
    where = "below" if below > 0.0 else "above"
    return (
        f"from the lower edge, {degrees(abs(below))} {where} the axis; "
        f"{100 * shot.wanted.place:.0f} % is wanted"
    )


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    return (
        axis_step(p),
        Step(
            words="Seen from the axis the subject lies lower by the axis's elevation and its own "
            f"depression; the {shot.view.lens.label} lens draws that on the picture.",
            formula="β = θ + δ",
            numbers=f"{degrees(shot.axis_elevation_rad)} + "
            f"{degrees(shot.wanted.depression_rad)}, of {degrees(shot.view.half_angle_rad)} "
            "from the middle to the edge",
        ),
    )


KIND = FigureKind(
    id="shot_place",
    label="subject's height in the picture",
    display=PERCENT,
    value=from_shot(_place),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=out_of_frame,
)
