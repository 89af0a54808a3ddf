"""A receiver: the radio of the sticks, and its antenna."""

from __future__ import annotations

from dataclasses import dataclass

from slipfit.parts.key import key
from slipfit.parts.part import Part


@dataclass(frozen=True, kw_only=True)
class Receiver(Part):
    """One receiver. `antenna_length_m` is the active part of the antenna, tip to tip."""

    length_m: float = key("length", "length", "mm", low=0.005, high=0.15)
    width_m: float = key("width", "length", "mm", low=0.004, high=0.15)
    height_m: float = key("height", "length", "mm", low=0.001, high=0.06)
    power_W: float = key("power", "power", "W", low=0.0, high=10.0, default=0.4)
    band_Hz: float = key("band", "frequency", "MHz", low=30e6, high=8e9)
    antenna_length_m: float = key(
        "antenna length", "length", "mm", low=0.005, high=2.0, spread=0.10,
        estimate="half a wavelength, shortened by 5 %",
    )  # fmt: skip
