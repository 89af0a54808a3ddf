"""Scales and ticks for charts and drawings, in the reader's units."""

from __future__ import annotations

import math
from dataclasses import dataclass

from slipfit.units import THIN


@dataclass(frozen=True)
class Scale:
    """A straight map from values low..high to pixels first..last."""

    low: float
    high: float
    first: float
    last: float

    def __call__(self, value: float) -> float:
        """The pixel of a value."""
        return self.first + (value - self.low) / (self.high - self.low) * (self.last - self.first)


def nice_step(span: float, about: int) -> float:
    """A round step (1, 2 or 5 times a power of ten) that cuts `span` into about `about` pieces."""
    if span <= 0 or not math.isfinite(span):
        return 1.0
    raw = span / max(1, about)
    power = 10.0 ** math.floor(math.log10(raw))
    for factor in (1.0, 2.0, 5.0):
        if raw <= factor * power * (1 + 1e-9):
            return factor * power
    return 10.0 * power


def ticks(low: float, high: float, about: int) -> list[float]:
    """Round values from low to high, both ends allowed."""
    step = nice_step(high - low, about)
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [k * step for k in range(first, last + 1)]


def span_of(values: list[float], from_zero: bool = True) -> tuple[float, float]:
    """Axis ends around values, rounded outwards to the ticks; never an empty span."""
    low, high = min(values, default=0.0), max(values, default=1.0)
    if from_zero:
        low, high = min(low, 0.0), max(high, 0.0)
    if high - low < 1e-12:
        high = low + 1.0
    step = nice_step(high - low, 8)
    return math.floor(low / step + 1e-9) * step, math.ceil(high / step - 1e-9) * step


def tick_text(value: float, step: float) -> str:
    """A tick's number with just the decimals that its step needs."""
    decimals = max(0, -math.floor(math.log10(step) + 1e-9)) if step > 0 else 0
    text = f"{value:,.{decimals}f}".replace(",", THIN)
    return text.replace("-", "−") if text.strip("-0." + THIN) else text.lstrip("-")


def text_width(text: str, size: float) -> float:
    """About how wide a text is in the page's sans face; used only to keep labels apart."""
    return 0.56 * size * len(text)


def apart(places: list[float], least: float, low: float, high: float) -> list[float]:
    """The places moved as little as a simple sweep can so that neighbours are `least` apart and
    all lie in low..high; the order is kept."""
    if not places:
        return []
    order = sorted(range(len(places)), key=lambda i: places[i])
    moved = [places[i] for i in order]
    moved[0] = max(moved[0], low)
    for i in range(1, len(moved)):
        moved[i] = max(moved[i], moved[i - 1] + least)
    ceiling = high
    for i in range(len(moved) - 1, -1, -1):
        moved[i] = min(moved[i], ceiling)
        ceiling = moved[i] - least
    placed = [0.0] * len(places)
    for i, place in zip(order, moved, strict=True):
        placed[i] = place
    return placed
