"""Share of the picture's width that the subject takes."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import SOURCE, from_shot, out_of_frame, the_shot
from slipfit.flight.performance import Performance
from slipfit.units import PERCENT_FINE


def _cause(p: Performance) -> str:
    return "of the picture's width, at the distance and height of the shot"


def _explain(p: Performance) -> tuple[Step, ...]:
    shot = the_shot(p)
    return (
        Step(
            words=f"Half the subject's length through the {shot.view.lens.label} lens, over half "
            "the picture's width; both in focal lengths.",
            formula="x(L / 2, R, β) / x(FOV / 2)",
            numbers=f"{shown(shot.share * shot.view.half_width)} / {shown(shot.view.half_width)}",
        ),
    )


KIND = FigureKind(
    id="shot_size",
    label="subject's size in the picture",
    display=PERCENT_FINE,
    value=from_shot(lambda s: s.share),
    cause=_cause,
    explain=_explain,
    source=SOURCE,
    missing=out_of_frame,
)
