"""Rotor speed at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ROTATION


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.trim.omega_rad_s, np.nan)


def _cause(p: Performance) -> str:
    return "at top speed in level flight"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Where the blades' thrust meets what level flight asks for.",
            formula="T(ω, V) = (W sin α + A) / n",
            numbers=f"T = {shown(p.top.trim.thrust_N)} N at "
            f"{shown(p.top.trim.omega_rad_s, 4)} rad/s",
        ),
    )


KIND = FigureKind(
    id="rpm_full",
    label="rotor speed, flat out",
    display=ROTATION,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Blade-element momentum rotor, see Rotor",
)
