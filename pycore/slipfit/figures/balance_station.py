"""Station of the balance point."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.masses import balance
from slipfit.numerics import Array
from slipfit.units import LENGTH_MM


def _value(p: Performance) -> Array:
    return np.full_like(p.can_hover, balance(p.build).station_m, dtype=float)


def _cause(p: Performance) -> str:
    return "measured along the frame's axis"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Masses times their stations, over the mass in all.",
            formula="Σ m x / Σ m",
            numbers=f"{shown(balance(p.build).station_m * 1e3, 4)} mm",
        ),
    )


KIND = FigureKind(
    id="balance_station",
    label="balance point, behind the nose",
    display=LENGTH_MM,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Sum of moments",
)
