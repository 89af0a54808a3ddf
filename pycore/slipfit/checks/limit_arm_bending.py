"""How near the turning of the propellers comes to a frequency at which an arm bends."""

from __future__ import annotations

import numpy as np

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.performance import Performance
from slipfit.structure import arm_distance
from slipfit.units import PERCENT

# A lightly damped beam answers three times as strongly as at rest at 18 % from its frequency, and
# the frequency itself is known to a tenth or so. Our choice.
LEAST_DISTANCE = 0.15


def _asked(p: Performance) -> Asked | None:
    distance = first(arm_distance(p))
    if not np.isfinite(distance):
        return None
    return Asked(value=max(distance, 1e-3), allowed=LEAST_DISTANCE, floor=True)


def _fix(p: Performance, asked: Asked) -> str:
    return (
        "a propeller or pack that turns the motors faster or slower, a lighter motor, or a stiffer "
        "arm; propellers balanced with care make it matter less"
    )


LIMIT = LimitKind(
    id="arm_bending",
    kind="prop",
    subject="distance from the arms' bending",
    when="of one turn in hover, at cruise and flat out",
    display=PERCENT,
    asked=_asked,
    basis="a beam with a mass at its end, its root giving as the frame file says; a lightly damped "
    "one answers three times as strongly within about 18 %; 15 % is our choice",
    fix=_fix,
)
