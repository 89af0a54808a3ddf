"""Pack current in fast level flight against the pack's claimed C rating."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.inputs import pack_of
from slipfit.flight.performance import Performance
from slipfit.units import CURRENT


def _asked(p: Performance) -> Asked | None:
    if not p.can_hover[0, 0]:
        return None
    pack = pack_of(p.build)
    return Asked(
        value=first(p.top.drive.pack_current_A), allowed=pack.c_rating * pack.capacity_C / 3600
    )


def _fix(p: Performance, asked: Asked) -> str:
    return "a pack of more capacity or a higher claim, less pitch or fewer cells"


LIMIT = LimitKind(
    id="pack_current",
    kind="pack",
    subject="pack current",
    when="flat out in level flight",
    display=CURRENT,
    asked=_asked,
    basis="C rating times capacity, a claim of the pack's maker",
    fix=_fix,
)
