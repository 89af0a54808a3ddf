"""Steps that several explanations share."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import Step, shown
from slipfit.flight.climb import paths
from slipfit.flight.drivetrain import Drive
from slipfit.flight.flat_out import RUN_UP, flat_out
from slipfit.flight.inputs import pack_age
from slipfit.flight.performance import Performance
from slipfit.physics.pack import AGE_SPREAD
from slipfit.physics.rotor import RotorLoads
from slipfit.stability import stability


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


def slope_steps(p: Performance, path: int, slope: str) -> tuple[Step, ...]:
    """How the power on one of the paths at the speed of best range follows."""
    found = paths(p)
    return (
        Step(
            words=f"The force balance on a path {slope} the horizon, at the speed of best range.",
            formula="N + n H = W cos(α + γ), n T = W sin(α + γ) + A",
            numbers=f"n T = {shown(found.pull_N[0, path])} N, "
            f"throttle {shown(100 * found.duty[0, path])} %",
        ),
    )


def pack_age_steps(p: Performance) -> tuple[Step, ...]:
    """What the flights of a pack have done to it; nothing for a new one."""
    flights = p.build.day.pack_flights
    if not flights:
        return ()
    holds, resists = pack_age(p.build)
    return (
        Step(
            words="With its flights the pack has come to hold less and to resist more.",
            formula="Q = Q new (1 − k √N), R = R new (1 + r N)",
            numbers=f"after {flights} flights {holds:.0%} of the capacity and "
            f"{resists:.2f} times the resistance, to ± {AGE_SPREAD:.0%} of the change",
            source="law of cells in a laboratory; how much harder flights are: weak source, see "
            "Pack",
        ),
    )


def missing_flat_out(p: Performance) -> str:
    """Why there is no answer to what full throttle does in flight; empty where the reason is the
    whole build's."""
    if p.can_hover[0, 0] and not flat_out(p).known[0, 0]:
        return "full throttle in flight passes the rotor model's range"
    return ""


def run_up_steps(p: Performance) -> tuple[Step, ...]:
    """How the acceleration of a run-up comes about."""
    states = flat_out(p)
    middle = len(RUN_UP) // 2
    return (
        Step(
            words="At full throttle the frame tilts until the vertical forces balance.",
            formula="(n T − A) sin α + (N + n H) cos α = W",
            numbers=f"α = {shown(np.degrees(states.incidence_rad[0, 0]))}° at rest, "
            f"{shown(np.degrees(states.incidence_rad[0, middle]))}° at "
            f"{100 * RUN_UP[middle]:.0f} % of top speed",
        ),
        Step(
            words="What is left along the path speeds it up.",
            formula="a = [(n T − A) cos α − (N + n H) sin α] / m",
            numbers=f"{shown(states.acceleration_m_s2[0, 0])} m/s² at rest, "
            f"{shown(states.acceleration_m_s2[0, middle])} m/s² at "
            f"{100 * RUN_UP[middle]:.0f} %",
        ),
    )


def pressure_steps(p: Performance) -> tuple[Step, ...]:
    """How the centre of pressure comes about."""
    s = stability(p)
    f = s.forces
    return (
        Step(
            words="Each body's side force at its own place, and what the rotors push aside.",
            formula="N = N body + N fins + n H",
            numbers=f"{shown(f.body_N)} N + {shown(f.fins_N)} N + {shown(f.rotors_N)} N at "
            f"α = {shown(np.degrees(p.top.trim.incidence_rad))}°",
        ),
        Step(
            words="The station where all of it together would turn the frame as much.",
            formula="X = Σ (x N + M + y A) / Σ N",
            numbers=f"{shown(s.pressure_station_m * 1e3)} mm",
        ),
    )
