"""Axial drag at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import FORCE


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.trim.axial_N, np.nan)


def _cause(p: Performance) -> str:
    causes = p.top.trim.drag_causes_N
    if not causes:
        return "the frame has no bodies in the air stream"
    worst = max(causes, key=lambda name: float(np.max(causes[name])))
    share = causes[worst] / p.top.trim.axial_N
    return f"{shown(100 * share, 2)} % of it is {worst}"


def _explain(p: Performance) -> tuple[Step, ...]:
    q = 0.5 * p.build.air.density_kg_m3 * p.top.trim.speed_m_s**2
    return (
        Step(
            words="The sum of every body's causes, each from its own shape.",
            formula="A = Σ causes",
            numbers="; ".join(
                f"{name} {shown(force, 2)} N" for name, force in p.top.trim.drag_causes_N.items()
            ),
        ),
        Step(
            words="As a drag area, to compare frames.",
            formula="A / (ρ V² / 2)",
            numbers=f"{shown(p.top.trim.axial_N / q * 1e4)} cm²",
        ),
    )


KIND = FigureKind(
    id="drag_full",
    label="drag of the airframe, flat out",
    display=FORCE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Drag build-up, see Body",
)
