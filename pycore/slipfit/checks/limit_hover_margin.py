"""Static thrust over weight against what control in gusts needs."""

from __future__ import annotations

from slipfit.checks.limit import Asked, LimitKind, first
from slipfit.flight.performance import Performance
from slipfit.units import RATIO

LEAST_THRUST_TO_WEIGHT = 2.0  # common practice, no source


def _asked(p: Performance) -> Asked | None:
    weight = p.build.rotor_count * first(p.hover.trim.rotor.thrust_N)
    thrust = p.build.rotor_count * first(p.standing.rotor.thrust_N)
    needed = LEAST_THRUST_TO_WEIGHT
    return Asked(value=thrust / weight, allowed=needed, floor=True)


def _fix(p: Performance, asked: Asked) -> str:
    return "a larger motor or propeller, more cells or less mass"


LIMIT = LimitKind(
    id="hover_margin",
    kind="motor",
    subject="thrust margin",
    when="standing still",
    display=RATIO,
    asked=_asked,
    basis="twice the weight at full throttle: common practice, no source",
    fix=_fix,
)
