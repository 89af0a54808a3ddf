"""Fit of hole patterns: motors on their seats, ESC and flight controller on the stack seat."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, size
from slipfit.fit.patterns import (
    SCREW_SLACK_M,
    best_match,
    screw_diameter,
    why_not_the_same,
)
from slipfit.parts.esc import Esc
from slipfit.parts.motor import Motor
from slipfit.parts.pattern import HolePattern
from slipfit.parts.stack import Stack

MOTOR_RULE = "Motor patterns give the distance between opposite holes"
STACK_RULE = "Stack patterns give the side of the square of holes"


def judge_motor_holes(build: Build) -> Verdict | None:
    """Motor holes against the motor seat."""
    motor = build.parts.get("motor")
    if not isinstance(motor, Motor):
        return None
    seat = build.frame.motor_seat
    return _verdict(
        "motor_holes", "motor", "Motor holes", motor.mount_pattern, seat.patterns,
        own_screw=motor.mount_screw, seat_screw=seat.screw, part_is_threaded=True, rule=MOTOR_RULE,
    )  # fmt: skip


def board_judge(id: str, kind: str, subject: str) -> Callable[[Build], Verdict | None]:
    """The judge of a board's holes against the stack seat."""

    def judge(build: Build) -> Verdict | None:
        board = build.parts.get(kind)
        if not isinstance(board, (Esc, Stack)):
            return None
        seat = build.frame.stack_seat
        return _verdict(
            id, kind, subject, board.pattern, seat.patterns,
            own_screw=board.screw, seat_screw=seat.screw, part_is_threaded=False, rule=STACK_RULE,
        )  # fmt: skip

    return judge


def _verdict(
    id: str, kind: str, subject: str, pattern: HolePattern, seats: Sequence[HolePattern], *,
    own_screw: str, seat_screw: str, part_is_threaded: bool, rule: str,
) -> Verdict:  # fmt: skip
    match = best_match(pattern, seats)
    listed = " or ".join(_named(seat) for seat in seats)
    basis = f"{rule}; the frame file's seat has {listed} for {seat_screw} screws."
    why = why_not_the_same(pattern, match.seat)
    if why:
        basis += f" The digits are alike and the holes are not: {why}."
    slack = SCREW_SLACK_M - match.miss_m
    if slack < 0:
        return fit_verdict(
            id, kind, subject, "clashes", -match.miss_m,
            lambda system: (
                f"{subject} miss the seat's by {size(match.miss_m, system)}: "
                f"they are {_named(pattern)}, the seat has {listed}"
            ),
            basis, f"{listed} would meet the seat's holes",
        )  # fmt: skip
    # The screw must pass the holes of whichever side is not threaded.
    own, other = screw_diameter(own_screw), screw_diameter(seat_screw)
    spare = other - own if part_is_threaded else own - other
    if spare < 0:
        narrow = "seat" if part_is_threaded else "part"
        return fit_verdict(
            id, kind, subject, "clashes", spare,
            lambda system: (
                f"{subject} meet the seat's, but the screws are {size(spare, system)} too thick "
                f"for the {narrow}'s holes: {own_screw} on an {seat_screw} seat"
            ),
            basis, f"a part for {seat_screw} screws would be clear",
        )  # fmt: skip
    if spare > 0:
        filler = "washers" if part_is_threaded else "sleeves or soft grommets"
        return fit_verdict(
            id, kind, subject, "clear" if match.miss_m == 0 else "snug", slack,
            lambda system: (
                f"{subject} meet the seat's with {size(spare, system)} of play to fill: "
                f"{own_screw} on an {seat_screw} seat"
            ),
            basis, f"{filler} {both(spare)} smaller inside than outside take up the play",
        )  # fmt: skip
    state = "clear" if match.miss_m == 0 else "snug"
    return fit_verdict(
        id, kind, subject, state, slack,
        lambda system: (
            f"{subject} are {state}: {_named(pattern)} on the seat's {_named(match.seat)}, "
            f"{size(slack, system)} of play left"
        ),
        basis, "" if state == "clear" else f"{_named(match.seat)} would be clear",
    )  # fmt: skip


def _named(pattern: HolePattern) -> str:
    """`16 × 19 mm`, as the trade writes it."""
    return f"{pattern.a_m * 1e3:.4g} × {pattern.b_m * 1e3:.4g} mm"
