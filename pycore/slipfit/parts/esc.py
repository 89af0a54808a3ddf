"""An ESC: one board with the electronic speed control of all four motors."""

from __future__ import annotations

from dataclasses import dataclass

from slipfit.parts.key import key
from slipfit.parts.motor import SCREWS
from slipfit.parts.part import Part
from slipfit.parts.pattern import HolePattern


@dataclass(frozen=True, kw_only=True)
class Esc(Part):
    """One ESC board. Currents are for each channel."""

    channel_count: int = key("channels", "count", low=1, high=8, default=4)
    continuous_A: float = key(
        "continuous current", "current", "A", low=1.0, high=400.0, help="A claim, for each channel."
    )
    burst_A: float = key(
        "burst current", "current", "A", low=1.0, high=600.0, spread=0.10,
        help="A claim, for some seconds, for each channel.",
        estimate="1.15 times the continuous current",
    )  # fmt: skip
    fet_resistance_ohm: float = key(
        "transistor resistance", "resistance", "mohm", low=1e-4, high=0.05, spread=0.40,
        help="Of one switch, at 25 °C.", estimate="from the continuous current",
    )  # fmt: skip
    pwm_frequency_Hz: float = key(
        "switching frequency", "frequency", "kHz", low=8e3, high=200e3, default=48e3
    )
    min_cells: int = key("fewest cells", "count", low=1, high=14, default=3)
    max_cells: int = key("most cells", "count", low=1, high=16)
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
