"""Steps that several explanations share."""

from __future__ import annotations

from slipfit.figures.figure import Step, shown
from slipfit.flight.drivetrain import Drive
from slipfit.flight.performance import Performance
from slipfit.physics.rotor import RotorLoads


def motor_current_steps(p: Performance, rotor: RotorLoads) -> tuple[Step, ...]:
    """How a motor's current follows from the torque of its rotor."""
    return (
        Step(
            words="Torque over the torque constant, and what the motor takes to turn unloaded.",
            formula="i = Q Kv + i0",
            numbers=f"{shown(rotor.torque_Nm)} N·m × {shown(p.electric.kv_rad_s_V)} rad/(s·V)"
            f" + {shown(p.electric.no_load_current_A)} A",
        ),
    )


def pack_current_steps(drive: Drive) -> tuple[Step, ...]:
    """How the pack's current follows from the power it gives."""
    return (
        Step(
            words="Power of all motors, ESC losses and electronics, over the pack's voltage.",
            formula="I = (n (v i + P ESC) + P electronics) / V pack",
            numbers=f"{shown(drive.pack_power_W)} W / {shown(drive.pack_voltage_V)} V",
        ),
    )
