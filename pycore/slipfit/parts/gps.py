"""A GPS module: a box with a patch antenna that must see the sky."""

from __future__ import annotations

from dataclasses import dataclass

from slipfit.parts.key import key
from slipfit.parts.part import Part


@dataclass(frozen=True, kw_only=True)
class Gps(Part):
    """One GPS module."""

    length_m: float = key("length", "length", "mm", low=0.005, high=0.15)
    width_m: float = key("width", "length", "mm", low=0.005, high=0.15)
    height_m: float = key("height", "length", "mm", low=0.002, high=0.06)
    power_W: float = key("power", "power", "W", low=0.0, high=10.0, default=0.3)
