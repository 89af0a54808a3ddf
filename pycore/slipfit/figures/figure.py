"""The records that a figure is made of: one named estimate with its range, cause and origin."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import Display


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step of "how this came about": a formula with this build's numbers."""

    words: str
    formula: str = ""
    numbers: str = ""
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class Driver:
    """An uncertain input and how far a figure moves when it runs over its 10-90 % range."""

    label: str
    swing_si: float


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One estimate of one build. `value`, `low` and `high` are SI; None where there is no answer,
    and then `missing` says why. It is `exact` where nothing that is uncertain moves it."""

    id: str
    label: str
    display: Display
    value: float | None
    low: float | None = None
    high: float | None = None
    exact: bool = False
    cause: str = ""
    missing: str = ""
    steps: tuple[Step, ...] = ()
    drivers: tuple[Driver, ...] = ()
    source: str = ""

    def text(self, system: str) -> str:
        """The value with its unit, or what stands in its place."""
        return self.display.text(self.value, system) if self.value is not None else "no value"

    def range_text(self, system: str) -> str:
        """The 10-90 % range, such as `271–298 km/h`; empty where none is known."""
        if self.low is None or self.high is None:
            return ""
        low = self.display.number(self.low, system)
        between = " to " if low.startswith("−") else "–"
        return f"{low}{between}{self.display.text(self.high, system)}"


@dataclass(frozen=True, kw_only=True)
class FigureKind:
    """A line of the registry: how one figure is computed, said and explained.

    `value` gives SI values of shape (samples, 1), NaN where there is no answer. `missing` says why
    in words where that is not for the whole build's sake; `spread` is the relative half-width of
    the range of a figure that follows from none of the sampled inputs.
    """

    id: str
    label: str
    display: Display
    value: Callable[[Performance], Array]
    cause: Callable[[Performance], str]
    explain: Callable[[Performance], tuple[Step, ...]]
    source: str
    missing: Callable[[Performance], str] | None = None
    spread: Callable[[Performance], float] | None = None


def shown(value: object, digits: int = 3) -> str:
    """A number of the first sample to a few significant digits, for the steps of an explanation."""
    number = float(np.ravel(np.asarray(value, dtype=float))[0])
    text = f"{number:.{digits}g}"
    if "e" in text:
        decimals = max(0, digits - 1 - math.floor(math.log10(abs(number))))
        text = f"{number:.{decimals}f}"
    return text.replace("-", "−")
