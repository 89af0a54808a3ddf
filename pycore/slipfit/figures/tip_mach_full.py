"""Helical tip Mach number at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.inputs import prop_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import RATIO


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.trim.rotor.tip_mach, np.nan)


def _cause(p: Performance) -> str:
    return "rotation and flight speed together, in the day's cold or warm air"


def _explain(p: Performance) -> tuple[Step, ...]:
    t = p.top.trim
    radius = prop_of(p.build).diameter_m / 2
    return (
        Step(
            words="Helical tip speed over the speed of sound.",
            formula="√((ω R)² + V²) / a",
            numbers=f"√({shown(t.omega_rad_s * radius)}² + {shown(t.speed_m_s)}²) m/s / "
            f"{shown(p.build.air.sound_speed_m_s)} m/s",
        ),
    )


KIND = FigureKind(
    id="tip_mach_full",
    label="Mach number of the blade tips, flat out",
    display=RATIO,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Blade-element momentum rotor, see Rotor",
)
