"""Hole patterns, which two trades write alike and mean differently.

`16x16` on a motor is the distance between *opposite* holes (a 16 mm hole circle); `20x20` on a
stack is the *side* of the square of holes (a 28.28 mm circle). So the convention is in the type.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

from slipfit.errors import InputError

CONVENTIONS: Final = ("motor", "stack")
_TEXT = re.compile(r"\s*(\d{1,3}(?:[.,]\d{1,3})?)\s*[x×]\s*(\d{1,3}(?:[.,]\d{1,3})?)\s*(?:mm)?\s*")


@dataclass(frozen=True, kw_only=True)
class HolePattern:
    """Four holes: opposite pairs `a_m` and `b_m` apart (motor), or a rectangle `a_m` by `b_m`
    (stack)."""

    convention: str
    a_m: float
    b_m: float

    def text(self) -> str:
        """As the trade writes it, in millimetres: `16x19`, `30.5x30.5`."""
        return f"{self.a_m * 1e3:.4g}x{self.b_m * 1e3:.4g}"

    def holes_m(self) -> tuple[tuple[float, float], ...]:
        """Centres of the four holes about the pattern's centre."""
        a, b = self.a_m / 2, self.b_m / 2
        if self.convention == "motor":
            return ((a, 0.0), (0.0, b), (-a, 0.0), (0.0, -b))
        return ((a, b), (-a, b), (-a, -b), (a, -b))

    @property
    def circle_m(self) -> float:
        """Diameter of the circle through the outermost holes."""
        return 2 * max(math.hypot(x, y) for x, y in self.holes_m())


def pattern_from_text(who: str, name: str, text: str, convention: str) -> HolePattern:
    """A hole pattern from text such as `16x19` or `30.5 x 30.5 mm`."""
    match = _TEXT.fullmatch(text) if len(text) <= 40 else None
    if match is None:
        raise InputError(
            f"{who}: {name} must be two distances in millimetres such as '16x19' or '30.5x30.5', "
            f"got '{text[:40]}'",
            field=name,
        )
    a, b = (float(side.replace(",", ".")) for side in match.groups())
    for side in (a, b):
        if not 4.0 <= side <= 120.0:
            raise InputError(
                f"{who}: {name} must have holes 4 to 120 mm apart, got {side:g} mm", field=name
            )
    return HolePattern(convention=convention, a_m=a / 1e3, b_m=b / 1e3)
