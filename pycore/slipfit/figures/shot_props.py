"""How far the propellers reach into the picture."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, no_camera
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import props_in_frame
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    return np.full_like(p.top_speed_m_s, props_in_frame(p.build))


def _cause(p: Performance) -> str:
    if props_in_frame(p.build) > 0.0:
        return "of a side of the picture, in from its nearest edge"
    return "the picture shows none of them"


def _missing(p: Performance) -> str:
    return no_camera(p) or "there is no propeller in the build"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Each rim as seen from the lens, and how deep in the picture its deepest point "
            "lies.",
            numbers=f"{p.build.rotor_count} rims, {shown(props_in_frame(p.build))} of a side",
        ),
    )


KIND = FigureKind(
    id="shot_props",
    label="propellers in the picture",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=_missing,
)
