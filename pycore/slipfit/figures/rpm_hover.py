"""Rotor speed in hover, the first thing a first flight can be compared with."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ROTATION


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.hover.trim.omega_rad_s, np.nan)


def _cause(p: Performance) -> str:
    return "of each rotor, hanging still"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Where the blades' thrust carries each rotor's share of the weight.",
            formula="T(ω, 0) = (W + A) / n",
            numbers=f"T = {shown(p.hover.trim.thrust_N)} N at "
            f"{shown(p.hover.trim.omega_rad_s, 4)} rad/s",
        ),
    )


KIND = FigureKind(
    id="rpm_hover",
    label="rotor speed in hover",
    display=ROTATION,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Blade-element momentum rotor, see Rotor",
)
