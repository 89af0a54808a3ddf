"""Thrust of the hardest working motor in hover."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.balance import hover_shares, rotor_place
from slipfit.flight.performance import Performance
from slipfit.masses import balance
from slipfit.numerics import Array
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    return np.full_like(p.can_hover, np.max(hover_shares(p.build)), dtype=float)


def _cause(p: Performance) -> str:
    shares = hover_shares(p.build)
    if np.ptp(shares) < 1e-3:
        return "the balance point lies on the axis, and all carry alike"
    hardest = rotor_place(p.build, int(np.argmax(shares)))
    return f"the {hardest} motor; the balance point is off the axis"


def _explain(p: Performance) -> tuple[Step, ...]:
    centre = balance(p.build)
    return (
        Step(
            words="Thrusts that hold the weight at the balance point, as alike as they can be.",
            formula="Σ T = W, Σ T (x − x balance) = 0, Σ T² least",
            numbers=f"balance {shown(centre.right_m * 1e3)} mm to the right, "
            f"{shown(centre.front_m * 1e3)} mm to the front: "
            + ", ".join(f"{100 * share:.0f} %" for share in hover_shares(p.build)),
        ),
    )


KIND = FigureKind(
    id="hover_share",
    label="hardest motor in hover, of the mean",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Sum of moments",
)
