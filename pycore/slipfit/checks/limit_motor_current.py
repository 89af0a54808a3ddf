"""Motor current in fast level flight against the motor's largest current."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.inputs import motor_of
from slipfit.flight.performance import Performance
from slipfit.units import CURRENT


def _asked(p: Performance) -> Asked | None:
    if not p.can_hover[0, 0]:
        return None
    return Asked(value=first(p.top.drive.motor_current_A), allowed=motor_of(p.build).max_current_A)


def _fix(p: Performance, asked: Asked) -> str:
    return "a larger stator, less pitch or fewer cells"


LIMIT = LimitKind(
    id="motor_current",
    kind="motor",
    subject="motor current",
    when="flat out in level flight",
    display=CURRENT,
    asked=_asked,
    basis="the largest current on the part, a claim of its maker or estimated from the stator",
    fix=_fix,
)
