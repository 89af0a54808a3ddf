"""The drawings of a build, one line each: `draw(build, balance station, pressure station)`, either
of them None where it is not known."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from slipfit.drawings.drawing import Drawing
from slipfit.drawings.section import draw_section
from slipfit.drawings.shot import draw_shot
from slipfit.drawings.side import draw_side
from slipfit.drawings.top import draw_top
from slipfit.flight.performance import Performance

DRAWINGS: Final[Mapping[str, Callable[..., Drawing]]] = {
    "side": draw_side,
    "section": draw_section,
    "top": draw_top,
}
# And those of a build in flight: `draw(performance)`.
FLOWN: Final[Mapping[str, Callable[[Performance], Drawing]]] = {"shot": draw_shot}
