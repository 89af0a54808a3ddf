"""A stack: the flight controller board that sits on the ESC."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from slipfit.parts.key import key
from slipfit.parts.motor import SCREWS
from slipfit.parts.part import Part
from slipfit.parts.pattern import HolePattern

SIDES: Final = ("front", "back", "left", "right")


@dataclass(frozen=True, kw_only=True)
class Stack(Part):
    """One flight controller board."""

    pattern: HolePattern = key(
        "holes",
        "pattern",
        convention="stack",
        help="Side of the square of holes, such as 30.5x30.5.",
    )
    screw: str = key("screw", "choice", default="M3", choices=SCREWS)
    length_m: float = key("length", "length", "mm", low=0.01, high=0.2)
    width_m: float = key("width", "length", "mm", low=0.01, high=0.2)
    height_m: float = key("height", "length", "mm", low=0.002, high=0.05)
    power_W: float = key("power", "power", "W", low=0.0, high=50.0, default=1.5)
    usb_side: str = key(
        "USB socket at", "choice", default="left", choices=SIDES,
        help="Seen from above, with the board's arrow to the front.",
    )  # fmt: skip
    usb_offset_m: float = key(
        "USB socket off the middle", "length", "mm", low=-0.1, high=0.1, default=0.0,
        help="Of its side, clockwise; negative the other way.",
    )  # fmt: skip
