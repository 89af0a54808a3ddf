"""A pack: cells in series (and parallel), a box, a lead and a connector."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from slipfit.parts.key import key
from slipfit.parts.part import Part

CONNECTORS: Final = (
    "2.0 mm bullet pair",
    "3.5 mm bullet pair",
    "4.0 mm bullet pair",
    "5.5 mm bullet pair",
)
LEAD_SIDES: Final = ("end", "side")


@dataclass(frozen=True, kw_only=True)
class Pack(Part):
    """One pack. `length_m` is the longest side, along the cells; `height_m` across the stack of
    cells. The lead leaves at an `"end"` or from a long `"side"`."""

    mass_kg: float = key(
        "mass", "mass", "g", low=2e-3, high=20.0, spread=0.12,
        help="With its leads and connector.",
        estimate="3.7 V a cell at 150 Wh/kg, and 20 g for leads",
    )  # fmt: skip
    cell_count: int = key("cells in series", "count", low=1, high=14)
    parallel_count: int = key("cells in parallel", "count", low=1, high=8, default=1)
    capacity_C: float = key("capacity", "charge", "mAh", low=0.05 * 3600, high=60 * 3600)
    cell_resistance_ohm: float = key(
        "resistance of a cell", "resistance", "mohm", low=2e-4, high=0.5, spread=0.45,
        help="One cell (or one group in parallel), warm and charged.",
        estimate="3.3 mΩ·Ah over the capacity, as high-power cells have",
    )  # fmt: skip
    c_rating: float = key(
        "C rating", "number", low=0.5, high=250.0,
        help="A claim: largest current in ampere over capacity in ampere hours.",
    )  # fmt: skip
    full_cell_V: float = key(
        "full cell",
        "voltage",
        "V",
        low=3.5,
        high=4.5,
        default=4.2,
        help="4.35 V for some chemistries.",
    )
    length_m: float = key("length", "length", "mm", low=0.01, high=0.6)
    width_m: float = key("width", "length", "mm", low=0.004, high=0.3)
    height_m: float = key("height", "length", "mm", low=0.003, high=0.3)
    connector: str = key("connector", "choice", default="3.5 mm bullet pair", choices=CONNECTORS)
    lead_length_m: float = key(
        "lead length", "length", "mm", low=0.0, high=1.0, default=0.07,
        help="From the pack to the end of its connector.",
    )  # fmt: skip
    lead_gauge: int = key("lead gauge", "count", low=6, high=24, default=14, help="AWG number.")
    lead_side: str = key("lead leaves at", "choice", default="end", choices=LEAD_SIDES)
