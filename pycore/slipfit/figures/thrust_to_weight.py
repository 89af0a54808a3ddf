"""Static thrust at full throttle over weight."""

from __future__ import annotations

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import RATIO


def _value(p: Performance) -> Array:
    weight = np.asarray(p.inputs.mass_kg) * G0_M_S2
    ratio = p.build.rotor_count * p.standing.rotor.thrust_N / weight
    return np.where(p.standing.valid, ratio, np.nan)


def _cause(p: Performance) -> str:
    return f"{shown(p.build.rotor_count * p.standing.rotor.thrust_N)} N of thrust at full throttle"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="All rotors at full throttle in still air, over the weight.",
            formula="n T / (m g)",
            numbers=f"{p.build.rotor_count} × {shown(p.standing.rotor.thrust_N)} N / "
            f"({shown(p.inputs.mass_kg)} kg × 9.807 m/s²)",
        ),
    )


KIND = FigureKind(
    id="thrust_to_weight",
    label="thrust over weight, standing still",
    display=RATIO,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Blade-element momentum rotor, see Rotor",
)
