"""Hole patterns: do a part's four holes meet those of its seat.

Two conventions write the same digits for different holes. A motor's 16x16 means that *opposite*
holes are 16 mm apart, so neighbours are 11.314 mm apart on a 16 mm circle. A stack's 30.5x30.5
means the *side of the square*, so the circle is 43.134 mm. Holes are compared as they lie, by
position, never by their digits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from slipfit.errors import InputError
from slipfit.parts.pattern import HolePattern

# How far a hole may be off before a screw no longer passes: half the difference of a medium
# clearance hole and its screw (2.4 and 2 mm, 3.4 and 3 mm; ISO 273, remembered).
SCREW_SLACK_M: Final = 0.2e-3


@dataclass(frozen=True, kw_only=True)
class PatternMatch:
    """The pattern of a seat that comes nearest to a part's, and how far its worst hole is off."""

    seat: HolePattern
    miss_m: float


def adjacent_m(pattern: HolePattern) -> tuple[float, float]:
    """Distances between neighbouring holes, the shorter first."""
    (x0, y0), (x1, y1), (x2, y2), _ = pattern.holes_m()
    first, second = math.hypot(x1 - x0, y1 - y0), math.hypot(x2 - x1, y2 - y1)
    return min(first, second), max(first, second)


def hole_miss(part: HolePattern, seat: HolePattern) -> float:
    """Distance between a part's holes and a seat's, the worst pair, with the part turned for best.

    A pattern is two pairs of opposite holes: circles of two diameters and the angle between them.
    The part is turned until both pairs are off by the same angle, which is the best there is where
    both pairs have the same diameters, and within the slack of it for all patterns of the trade.
    """
    own, angle = _pairs(part)
    other, other_angle = _pairs(seat)
    straight = _pair_miss(own, other, (angle - other_angle) / 2)
    crossed = _pair_miss(own, other[::-1], (angle - (math.pi - other_angle)) / 2)
    return min(straight, crossed)


def _pairs(pattern: HolePattern) -> tuple[tuple[float, float], float]:
    """Radii of the two pairs of opposite holes, and the angle from one to the other."""
    (x0, y0), (x1, y1), *_ = pattern.holes_m()
    angle = math.atan2(x0 * y1 - y0 * x1, x0 * x1 + y0 * y1)
    return (math.hypot(x0, y0), math.hypot(x1, y1)), angle


def _pair_miss(own: tuple[float, ...], other: tuple[float, ...], turn: float) -> float:
    return max(
        math.sqrt(max(r * r + s * s - 2 * r * s * math.cos(turn), 0.0))
        for r, s in zip(own, other, strict=True)
    )


def best_match(part: HolePattern, seats: Sequence[HolePattern]) -> PatternMatch:
    """The seat's pattern that a part's holes come nearest to."""
    if not seats:
        raise InputError("seat: patterns must name at least one hole pattern, got none")
    best = min(seats, key=lambda seat: hole_miss(part, seat))
    miss = hole_miss(part, best)
    return PatternMatch(seat=best, miss_m=miss if miss > 1e-9 else 0.0)


def why_not_the_same(part: HolePattern, seat: HolePattern) -> str:
    """Why two patterns of the same digits are different holes; empty where they are not that."""
    if part.convention == seat.convention or part.text() != seat.text():
        return ""
    motor, stack = (part, seat) if part.convention == "motor" else (seat, part)
    return (
        f"{motor.text()} of a motor is the distance between opposite holes "
        f"(neighbours {adjacent_m(motor)[0] * 1e3:.3f} mm apart); {stack.text()} of a stack is the "
        f"side of the square (opposite holes {stack.circle_m * 1e3:.3f} mm apart)"
    )


def screw_diameter(screw: str) -> float:
    """Nominal diameter of a screw such as `M3`. [m]"""
    return float(screw.removeprefix("M")) / 1e3
