"""Helical tip Mach number against the onset of compressibility losses."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.performance import Performance
from slipfit.units import RATIO

# The rotor model ends at sonic tips. Published propeller tests show thin blades losing efficiency
# from a helical tip Mach number of about 0.85 on.
TIP_MACH_LIMIT = 1.0
TIP_MACH_LOSSES = 0.85


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
    basis="thin blades lose efficiency from helical tip Mach 0.85 on (NACA propeller tests); "
    "nothing measured on small propellers reaches that far",
    fix=_fix,
    near=TIP_MACH_LOSSES,
)
