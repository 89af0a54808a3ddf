"""Balance point to the right of the axis."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.balance import hover_shares
from slipfit.flight.performance import Performance
from slipfit.masses import balance
from slipfit.numerics import Array
from slipfit.units import LENGTH_MM


def _value(p: Performance) -> Array:
    return np.full_like(p.can_hover, balance(p.build).right_m, dtype=float)


def _cause(p: Performance) -> str:
    heavy = max(hover_shares(p.build)) - 1.0
    return f"the hardest working motor hovers at {shown(100 * heavy, 2)} % above the mean for it"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Masses times their distances to the right of the axis, over the mass in all.",
            formula="Σ m y / Σ m",
            numbers=f"{shown(balance(p.build).right_m * 1e3)} mm",
        ),
    )


KIND = FigureKind(
    id="balance_right",
    label="balance point, to the right of the axis",
    display=LENGTH_MM,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Sum of moments",
)
