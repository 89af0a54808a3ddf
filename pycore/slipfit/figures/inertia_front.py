"""Moment of inertia about the line to the front."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.balance import inertia
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import INERTIA


def _value(p: Performance) -> Array:
    return np.full_like(p.can_hover, inertia(p.build).front_kg_m2, dtype=float)


def _cause(p: Performance) -> str:
    return "resists rolling"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Every mass by its distance from that line through the balance point, and its "
            "own extent where the frame file or the part gives one.",
            formula="Σ m (r² + k²)",
            numbers=f"{shown(inertia(p.build).front_kg_m2 * 1e4)} kg·cm²",
        ),
    )


KIND = FigureKind(
    id="inertia_front",
    label="inertia about the line to the front",
    display=INERTIA,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Sum over parts and hardware",
    spread=lambda p: 0.1,
)
