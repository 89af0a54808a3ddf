"""Current per motor at full throttle standing still."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT


def _value(p: Performance) -> Array:
    return p.standing.drive.motor_current_A


def _cause(p: Performance) -> str:
    return "standing still at full throttle, the hardest case for a held frame"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Torque over the torque constant, and what the motor takes to turn unloaded.",
            formula="i = Q Kv + i0",
            numbers=f"{shown(p.standing.rotor.torque_Nm)} N·m × {shown(p.electric.kv_rad_s_V)} rad/(s·V) + "
            f"{shown(p.electric.no_load_current_A)} A",
        ),
    )


KIND = FigureKind(
    id="motor_current_static",
    label="current per motor, full throttle standing still",
    display=CURRENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="First-order motor model, see Motor and ESC",
)
