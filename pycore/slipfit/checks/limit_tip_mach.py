"""Helical tip Mach number against the onset of compressibility losses."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.performance import Performance
from slipfit.units import RATIO

# Onset of loss in propeller tests at high tip speed; also the knee of a published modelling
# convention for helical tip Mach number.
TIP_MACH_LIMIT = 0.85


def _asked(p: Performance) -> Asked | None:
    if not p.can_hover[0, 0]:
        return None
    return Asked(value=first(p.top.trim.rotor.tip_mach), allowed=TIP_MACH_LIMIT)


def _fix(p: Performance, asked: Asked) -> str:
    return "a smaller propeller with more pitch, fewer cells or a lower speed constant"


LIMIT = LimitKind(
    id="tip_mach",
    kind="prop",
    subject="tip Mach",
    when="flat out in level flight",
    display=RATIO,
    asked=_asked,
    basis="losses of thin blades grow beyond helical tip Mach 0.85 (NACA propeller tests)",
    fix=_fix,
)
