"""Current per channel at full throttle standing still against the ESC's burst rating."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.inputs import esc_of
from slipfit.flight.performance import Performance
from slipfit.units import CURRENT


def _asked(p: Performance) -> Asked | None:
    if not p.standing.valid[0, 0]:
        return None
    return Asked(value=first(p.standing.drive.motor_current_A), allowed=esc_of(p.build).burst_A)


def _fix(p: Performance, asked: Asked) -> str:
    return "short bursts only, an ESC with more margin, or less pitch"


LIMIT = LimitKind(
    id="esc_burst",
    kind="esc",
    subject="ESC burst current",
    when="full throttle standing still",
    display=CURRENT,
    asked=_asked,
    basis="the burst rating per channel on the part, seconds only, a claim of its maker",
    fix=_fix,
)
