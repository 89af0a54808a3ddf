"""Current per channel in fast level flight against the ESC's continuous rating."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.inputs import esc_of
from slipfit.flight.performance import Performance
from slipfit.units import CURRENT


def _asked(p: Performance) -> Asked | None:
    if not p.can_hover[0, 0]:
        return None
    return Asked(value=first(p.top.drive.motor_current_A), allowed=esc_of(p.build).continuous_A)


def _fix(p: Performance, asked: Asked) -> str:
    return f"an ESC of {asked.value / 0.9:.0f} A or more per channel, less pitch or fewer cells"


LIMIT = LimitKind(
    id="esc_current",
    kind="esc",
    subject="ESC current",
    when="flat out in level flight",
    display=CURRENT,
    asked=_asked,
    basis="the continuous rating per channel on the part, a claim of its maker",
    fix=_fix,
)
