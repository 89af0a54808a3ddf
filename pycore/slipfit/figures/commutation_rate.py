"""How often the ESC commutates at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.inputs import motor_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.physics.esc import commutation_frequency
from slipfit.units import KILOHERTZ


def _value(p: Performance) -> Array:
    rate = np.asarray(commutation_frequency(p.top.trim.omega_rad_s, motor_of(p.build).pole_count))
    return np.where(p.can_hover, rate, np.nan)


def _cause(p: Performance) -> str:
    return f"{motor_of(p.build).pole_count} magnet poles, at top speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    turns = np.asarray(p.top.trim.omega_rad_s) / (2 * np.pi)
    return (
        Step(
            words="Six commutations for each pair of poles and turn. A board states the most it "
            "can follow; its maker may write it as electrical speed, a sixth of this.",
            formula="f = 6 p/2 n",
            numbers=f"6 × {motor_of(p.build).pole_count // 2} × {shown(turns)} 1/s",
        ),
    )


KIND = FigureKind(
    id="commutation_rate",
    label="commutations a second at top speed",
    display=KILOHERTZ,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Definition, see Motor and ESC",
)
