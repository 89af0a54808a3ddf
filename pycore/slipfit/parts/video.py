"""A video unit: the transmitter that sends the camera's picture."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from slipfit.parts.key import key
from slipfit.parts.part import Part
from slipfit.parts.pattern import HolePattern

CARD_SIDES: Final = ("none", "end", "side", "face")


@dataclass(frozen=True, kw_only=True)
class Video(Part):
    """One video unit; a pattern only where it is held by screws."""

    length_m: float = key("length", "length", "mm", low=0.005, high=0.2)
    width_m: float = key("width", "length", "mm", low=0.005, high=0.2)
    height_m: float = key("height", "length", "mm", low=0.002, high=0.1)
    power_W: float = key("power", "power", "W", low=0.0, high=80.0, default=6.0)
    pattern: HolePattern | None = key("holes", "pattern", convention="stack", default=None)
    card_side: str = key(
        "card slot in", "choice", default="none", choices=CARD_SIDES,
        help="The middle of an `end` (of its length), a `side` (of its width) or a `face`.",
    )  # fmt: skip
