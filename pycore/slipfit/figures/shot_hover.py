"""Where the picture begins in hover and on landing."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step
from slipfit.figures.framing import SOURCE, degrees, no_camera
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import camera_of, hover_bottom, view_of
from slipfit.units import ANGLE


def _value(p: Performance) -> Array:
    return np.full_like(p.top_speed_m_s, hover_bottom(p.build))


def _cause(p: Performance) -> str:
    if hover_bottom(p.build) > 0.0:
        return "hovering and landing, the picture shows nothing but sky"
    return "below the horizon, so that hovering and landing the picture shows ground too"


def _explain(p: Performance) -> tuple[Step, ...]:
    camera = camera_of(p.build)
    assert camera is not None
    return (
        Step(
            words="Upright, the axis stands at the uptilt, and the lower edge half a field lower.",
            formula="ε − FOV / 2",
            numbers=f"{degrees(p.build.uptilt_rad)} − {degrees(view_of(camera).half_angle_rad)}",
        ),
    )


KIND = FigureKind(
    id="shot_hover",
    label="lower edge of the picture above the horizon, in hover",
    display=ANGLE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=no_camera,
)
