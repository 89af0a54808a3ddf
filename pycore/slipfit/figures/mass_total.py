"""Mass of the build."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.masses import mass_items
from slipfit.numerics import Array
from slipfit.units import MASS


def _value(p: Performance) -> Array:
    return np.asarray(p.inputs.mass_kg, dtype=float).reshape(-1, 1)


def _cause(p: Performance) -> str:
    heavy = max(mass_items(p.build), key=lambda item: item.mass_kg)
    return f"heaviest single piece: {heavy.name}, {shown(heavy.mass_kg * 1e3)} g"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Every part where the frame seats it, and the author's list of hardware.",
            formula="Σ m",
            numbers=" + ".join(f"{shown(item.mass_kg * 1e3)}" for item in mass_items(p.build))
            + " g",
        ),
    )


KIND = FigureKind(
    id="mass_total",
    label="mass ready to fly",
    display=MASS,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Sum of masses",
)
