"""Advance ratio at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.inputs import prop_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import RATIO


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.advance_ratio(prop_of(p.build).diameter_m), np.nan)


def _cause(p: Performance) -> str:
    return "axial flight per turn, in propeller diameters"


def _explain(p: Performance) -> tuple[Step, ...]:
    t = p.top.trim
    return (
        Step(
            words="Distance flown along the axis per turn, over the diameter.",
            formula="J = V cos α / (n D)",
            numbers=f"{shown(t.speed_m_s * np.cos(t.incidence_rad))} m/s / "
            f"({shown(t.omega_rad_s / (2 * np.pi))} 1/s × {shown(prop_of(p.build).diameter_m)} m)",
        ),
    )


KIND = FigureKind(
    id="advance_ratio_full",
    label="advance ratio, flat out",
    display=RATIO,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Blade-element momentum rotor, see Rotor",
)
