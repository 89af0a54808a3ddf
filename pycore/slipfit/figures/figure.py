"""The records that a figure is made of: one named estimate with its range, cause and origin."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from slipfit.units import Display


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step of "how this came about": a formula in words and symbols, with this build's numbers."""

    words: str
    formula: str = ""
    numbers: str = ""
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class Driver:
    """An uncertain input and how far the figure moves when the input runs over its range."""

    label: str
    swing_si: float


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One estimate of one build. `value`, `low` and `high` are SI; None where there is no answer."""

    id: str
    label: str
    display: Display
    value: float | None
    low: float | None = None
    high: float | None = None
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
        return f"{low}–{self.display.text(self.high, system)}"


@dataclass(frozen=True, kw_only=True)
class FigureSet:
    """The figures of one build by id, in the order of the registry."""

    by_id: Mapping[str, Figure] = field(default_factory=dict)
