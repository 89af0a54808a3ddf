"""Top speed: the last speed of level flight that the throttle can hold."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import SPEED


def _value(p: Performance) -> Array:
    return p.top_speed_m_s


def _cause(p: Performance) -> str:
    if not p.top_ends_by_throttle.all():
        return f"the rotor model ends here, at tip Mach {shown(p.top.trim.rotor.tip_mach, 2)}"
    volts = shown(p.top.drive.pack_voltage_V)
    if float(p.top.drive.duty[0, 0]) < 0.99:
        return f"the pack gives its most power here, at {volts} V"
    return f"the throttle is fully open, with the pack down to {volts} V"


def _explain(p: Performance) -> tuple[Step, ...]:
    t, d = p.top.trim, p.top.drive
    thrust, count = shown(t.thrust_N), p.build.rotor_count
    return (
        *pack_age_steps(p),
        Step(
            words="Across the rotor axis, the air must carry the weight at a small incidence.",
            formula="N(α, V) + n H = W cos α",
            numbers=f"N = {shown(t.normal_N)} N at α = {shown(np.degrees(t.incidence_rad))}°",
        ),
        Step(
            words="Along the axis, the rotors must pull what drag and weight ask for.",
            formula="n T = W sin α + A(α, V)",
            numbers=f"{count} × {thrust} N against {shown(t.axial_N)} N of drag",
        ),
        Step(
            words="The motors reach that thrust at a speed for which the voltage just suffices.",
            formula="v = ω / Kv + i R = V pack",
            numbers=f"{shown(d.motor_voltage_V)} V of {shown(d.pack_voltage_V)} V at "
            f"{shown(t.omega_rad_s * 60 / (2 * np.pi), 5)} rpm",
        ),
    )


KIND = FigureKind(
    id="top_speed",
    label="top speed in level flight",
    display=SPEED,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level-flight force balance, see Level flight",
)
