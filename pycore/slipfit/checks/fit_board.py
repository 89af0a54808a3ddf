"""Fit of boards on the stack seat: each seen from above, and the height of the column."""

from __future__ import annotations

from collections.abc import Callable

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, says, state_of
from slipfit.fit.board import EDGE_ROOM_M, SPACER_M, board_fit, column_height
from slipfit.parts.esc import Esc
from slipfit.parts.stack import Stack

TOP_ROOM_M = 1.0e-3  # over the column of boards; common practice, no source


def board_judge(id: str, kind: str, subject: str) -> Callable[[Build], Verdict | None]:
    """The judge of a board's length and width on the stack seat."""

    def judge(build: Build) -> Verdict | None:
        board = build.parts.get(kind)
        if not isinstance(board, (Esc, Stack)):
            return None
        seat = build.frame.stack_seat
        fit = board_fit(board.length_m, board.width_m, seat.max_length_m, seat.max_width_m)
        gap = 0.0 if abs(fit.gap_m) < 1e-9 else fit.gap_m
        state = state_of(gap, EDGE_ROOM_M)
        turned = ", turned by a quarter" if fit.turned else ""
        adjective = {"length": "long", "width": "wide"}[fit.side]
        return fit_verdict(
            id, kind, subject, state, gap,
            lambda system: says(subject, state, gap, f"in {fit.side}", system) + turned,
            f"The frame file's stack seat takes {both(seat.max_length_m)} by "
            f"{both(seat.max_width_m)}; {both(EDGE_ROOM_M)} less is clear (common practice).",
            "" if state == "clear" else
            f"a board up to {both(fit.limit_m - EDGE_ROOM_M)} {adjective} would be clear",
        )  # fmt: skip

    return judge


def judge_stack_height(build: Build) -> Verdict | None:
    """ESC and flight controller, one above the other, under the roof; about the higher of them."""
    esc, stack = build.parts.get("esc"), build.parts.get("stack")
    if not isinstance(esc, Esc) or not isinstance(stack, Stack):
        return None
    room = build.frame.stack_seat.max_height_m
    height = column_height([esc.height_m, stack.height_m])
    gap = 0.0 if abs(room - height) < 1e-9 else room - height
    state = state_of(gap, TOP_ROOM_M)
    boards = room - TOP_ROOM_M - 2 * SPACER_M
    return fit_verdict(
        "stack_height", "esc" if esc.height_m > stack.height_m else "stack", "Stack", state, gap,
        lambda system: says("Stack", state, gap, "in height", system) + ", ESC included",
        f"The frame file's room above the seat, {both(room)}; boards {both(esc.height_m)} and "
        f"{both(stack.height_m)} on spacers of {both(SPACER_M)} each; {both(TOP_ROOM_M)} over the "
        "top is clear (common practice).",
        "" if state == "clear" else
        f"ESC and flight controller of {both(boards)} together would be clear",
    )  # fmt: skip
