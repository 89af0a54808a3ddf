"""How far the shell reaches into the picture."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, no_camera
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import shell_in_frame
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    return np.full_like(p.top_speed_m_s, shell_in_frame(p.build))


def _cause(p: Performance) -> str:
    if shell_in_frame(p.build) > 0.0:
        return "of a side of the picture, in from its nearest edge"
    return "the picture shows none of it"


def _missing(p: Performance) -> str:
    return no_camera(p) or "the frame's file does not say where the shell's window is"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="The shell's contour beside its window, as seen from the "
            "lens, and how deep in the picture its deepest point lies.",
            numbers=f"{shown(shell_in_frame(p.build))} of a side",
        ),
    )


KIND = FigureKind(
    id="shot_shell",
    label="shell in the picture",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=_missing,
)
