"""Propulsive efficiency at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.propulsive_efficiency, np.nan)


def _cause(p: Performance) -> str:
    return "thrust power over shaft power at top speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    t = p.top.trim
    return (
        Step(
            words="Thrust times speed along the axis, over torque times rotor speed.",
            formula="η = T V cos α / (Q ω)",
            numbers=f"{shown(t.thrust_N)} N × {shown(t.speed_m_s * np.cos(t.incidence_rad))} m/s / "
            f"({shown(t.rotor.torque_Nm)} N·m × {shown(t.omega_rad_s, 4)} rad/s)",
        ),
    )


KIND = FigureKind(
    id="prop_efficiency_full",
    label="efficiency of the propellers, flat out",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Blade-element momentum rotor, see Rotor",
)
