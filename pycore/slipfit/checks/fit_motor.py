"""Fit of a motor in its fairing: round the can, and out of the mouth."""

from __future__ import annotations

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, says, size, state_of
from slipfit.parts.motor import Motor

# A can that turns wants half a millimetre of air all round, for a worn bearing and a warm, printed
# bore; and the propeller as much again above the rim. Common practice, no source.
RUNNING_GAP_M = 1.0e-3
RIM_GAP_M = 1.0e-3


def judge_motor_bore(build: Build) -> Verdict | None:
    """The can's diameter in the fairing's bore."""
    motor = build.parts.get("motor")
    if not isinstance(motor, Motor):
        return None
    bore = build.frame.motor_seat.bore_m
    if bore <= 0.0:
        return None  # no fairing
    gap = _exact(bore - motor.can_diameter_m)
    state = state_of(gap, RUNNING_GAP_M)
    return fit_verdict(
        "motor_fairing", "motor", "Motor can", state, gap,
        lambda system: says("Motor can", state, gap, "in diameter", system),
        f"The frame file's fairing bore, {both(bore)}; {both(RUNNING_GAP_M)} of air in diameter is "
        f"clear (common practice).{_guessed(motor, 'can_diameter_m', 'can diameter')}",
        "" if state == "clear" else
        f"a motor whose can is up to {both(bore - RUNNING_GAP_M)} across would be clear",
    )  # fmt: skip


def judge_motor_depth(build: Build) -> Verdict | None:
    """The propeller's seat above the fairing's mouth"""
    motor = build.parts.get("motor")
    if not isinstance(motor, Motor):
        return None
    depth = build.frame.motor_seat.depth_m
    if depth <= 0.0:
        return None  # no fairing
    gap = _exact(motor.can_length_m - depth)
    state = state_of(gap, RIM_GAP_M)

    def sentence(system: str) -> str:
        if state == "clashes":
            return (
                f"Propeller clashes by {size(gap, system)}: the motor is so short that it turns "
                "inside its fairing's mouth"
            )
        return (
            f"Propeller is {state} of the fairing: its seat stands {size(gap, system)} "
            "proud of the mouth"
        )

    return fit_verdict(
        "motor_depth", "motor", "Propeller at the fairing", state, gap, sentence,
        f"The frame file's fairing depth, {both(depth)}; {both(RIM_GAP_M)} above the mouth is "
        f"clear (common practice).{_guessed(motor, 'can_length_m', 'can length')}",
        "" if state == "clear" else
        f"a motor at least {both(depth + RIM_GAP_M)} long would be clear, or a spacer of "
        f"{both(RIM_GAP_M - gap)} under this one",
    )  # fmt: skip


def _exact(gap_m: float) -> float:
    return 0.0 if abs(gap_m) < 1e-9 else gap_m


def _guessed(motor: Motor, field: str, label: str) -> str:
    return f" The motor's {label} is estimated: measure it." if field in motor.guessed else ""
