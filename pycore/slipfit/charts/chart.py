"""The record of a chart: series over one axis, gaps as None, limits where they bite."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from slipfit.numerics import Array, quantiles
from slipfit.units import Display


@dataclass(frozen=True, kw_only=True)
class Series:
    """One curve or one bar group, SI values; None is a gap, never a flat line. `points` are
    measured places (x, value) that a curve is compared with."""

    id: str
    label: str
    display: Display
    values: tuple[float | None, ...]
    low: tuple[float | None, ...] = ()
    high: tuple[float | None, ...] = ()
    points: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Mark:
    """A place on the x axis with a name, such as where a limit bites (SI)."""

    label: str
    x: float


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """A stretch of the x axis with a name, such as a leg of a flight (SI); `short` is said where
    the name has no room."""

    label: str
    low: float
    high: float
    short: str = ""


@dataclass(frozen=True, kw_only=True)
class Chart:
    """A chart of one build. `shape` is `"curves"` (each series in a panel of its own unit, stacked
    one above the other over a common x axis; with `one_panel` all of them in one), `"layers"`
    (series stacked on each other over x) or `"bars"` (one bar per entry of `names`)."""

    id: str
    title: str
    caption: str
    shape: str
    series: tuple[Series, ...]
    x_label: str = ""
    x_display: Display | None = None
    x: tuple[float, ...] = ()
    names: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()
    stretches: tuple[Stretch, ...] = ()
    one_panel: bool = False


def gaps(values: Array, where: NDArray[np.bool_]) -> tuple[float | None, ...]:
    """Values as a series: None wherever `where` is false."""
    return tuple(float(v) if ok else None for v, ok in zip(values, where, strict=True))


def band(
    values: Array, where: NDArray[np.bool_]
) -> tuple[tuple[float | None, ...], tuple[float | None, ...]]:
    """10-90 % band over samples (first axis), drawn where at least nine samples in ten exist."""
    kept = np.where(where, values, np.nan)
    enough = where.mean(axis=0) >= 0.9
    filled = np.where(enough, kept, 0.0)
    low, high = quantiles(filled, (0.1, 0.9))
    return gaps(low, enough), gaps(high, enough)
