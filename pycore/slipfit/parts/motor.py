"""A motor: an outrunner described by its stator, its speed constant and its holes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from slipfit.parts.key import key
from slipfit.parts.part import Part
from slipfit.parts.pattern import HolePattern

SCREWS: Final = ("M1.6", "M2", "M2.5", "M3", "M4", "M5")
_RPM = 0.10471975511965977


@dataclass(frozen=True, kw_only=True)
class Motor(Part):
    """One motor. Resistance is winding to winding (as read between two leads) at 20 °C."""

    mass_kg: float = key(
        "mass", "mass", "g", low=5e-4, high=3.0, spread=0.12,
        help="With its leads.", estimate="from the stator's size",
    )  # fmt: skip
    stator_diameter_m: float = key(
        "stator diameter", "length", "mm", low=0.006, high=0.12,
        help="The first figure of the size: 28 of 28 × 8.",
    )  # fmt: skip
    stator_height_m: float = key(
        "stator height", "length", "mm", low=0.002, high=0.06,
        help="The second figure of the size: 8 of 28 × 8.",
    )  # fmt: skip
    kv_rad_s_V: float = key(
        "speed constant", "kv", "rpm/V", low=50 * _RPM, high=12_000 * _RPM,
        help="Turns per minute for each volt, without load.",
    )  # fmt: skip
    resistance_ohm: float = key(
        "resistance", "resistance", "mohm", low=1e-3, high=5.0, spread=0.25,
        help="Between two of the three leads, cold.",
        estimate="from the stator's size and the speed constant",
    )  # fmt: skip
    no_load_current_A: float = key(
        "no-load current", "current", "A", low=0.02, high=20.0, spread=0.35,
        help="Running free, at the no-load voltage.",
        estimate="from the stator's size and the speed constant",
    )  # fmt: skip
    no_load_voltage_V: float = key(
        "no-load voltage", "voltage", "V", low=1.0, high=80.0, default=10.0,
        help="The voltage at which the no-load current was read.",
    )  # fmt: skip
    pole_count: int = key(
        "magnet poles", "count", low=2, high=80, default=14, help="Magnets in the can."
    )
    can_diameter_m: float = key(
        "can diameter", "length", "mm", low=0.008, high=0.15, spread=0.04,
        help="Across the turning can: it must pass into the fairing.",
        estimate="1.13 stator diameters and 2.4 mm",
    )  # fmt: skip
    can_length_m: float = key(
        "can length", "length", "mm", low=0.006, high=0.12, spread=0.10,
        help="From the mounting face to the propeller's seat.",
        estimate="stator height, 0.45 stator diameters and 2.5 mm",
    )  # fmt: skip
    mount_pattern: HolePattern = key(
        "mounting holes", "pattern", convention="motor",
        help="Distance between opposite holes, such as 16x16 or 16x19.",
    )  # fmt: skip
    mount_screw: str = key("mounting screw", "choice", default="M3", choices=SCREWS)
    mount_depth_m: float = key(
        "thread depth", "length", "mm", low=0.001, high=0.025, spread=0.25,
        help="How far a screw may reach into the base before it meets the winding.",
        estimate="1.3 screw diameters",
    )  # fmt: skip
    shaft_diameter_m: float = key(
        "shaft diameter", "length", "mm", low=0.001, high=0.015, default=0.005,
        help="What the propeller's bore must fit.",
    )  # fmt: skip
    max_current_A: float = key(
        "largest current", "current", "A", low=1.0, high=400.0, spread=0.30,
        help="A claim of the data sheet, good for seconds.",
        estimate="the current whose heat in the winding is 0.14 W for each mm² of the stator's rim",
    )  # fmt: skip
    max_winding_temperature_K: float = key(
        "largest winding temperature", "temperature", "C", low=350.0, high=550.0, default=453.15,
        help="Class H enamel, 180 °C, unless stated.",
    )  # fmt: skip
