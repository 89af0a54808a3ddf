"""Inertia of what turns with one motor."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.structure import turning
from slipfit.units import INERTIA_SMALL


def _value(p: Performance) -> Array:
    return np.full(p.can_hover.shape, turning(p.build).total_kg_m2)


def _cause(p: Performance) -> str:
    found = turning(p.build)
    share = 100 * found.prop_kg_m2 / found.total_kg_m2
    return (
        f"{shown(share, 2)} % of it is the propeller; the more there is, the later thrust follows"
    )


def _explain(p: Performance) -> tuple[Step, ...]:
    found = turning(p.build)
    return (
        Step(
            words="The propeller's mass, spread as its blades' sections are.",
            formula="m k², k² = ∫ S r² dr / ∫ S dr",
            numbers=f"k = {shown(found.prop_gyration_m * 1e3)} mm, "
            f"{shown(found.prop_kg_m2 * 1e7)} g·cm²",
        ),
        Step(
            words="Half of the motor, can and magnets, turning near its rim.",
            numbers=f"{shown(found.motor_kg_m2 * 1e7)} g·cm²",
            source="half: common practice, no source",
        ),
        Step(
            words="Hardware that turns with it, where the frame file says so: spinners.",
            numbers=f"{shown(found.hardware_kg_m2 * 1e7)} g·cm²",
        ),
    )


KIND = FigureKind(
    id="rotor_inertia",
    label="inertia of what turns with one motor",
    display=INERTIA_SMALL,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Sum of masses at their radii, see Structure",
    spread=lambda p: 0.25,
)
