"""Fit of a plug or a card, and the hand that holds it, through the openings of the frame."""

from __future__ import annotations

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, says
from slipfit.fit.access import ROOM_M, Reach, card_reach, usb_reach
from slipfit.parts.kinds import kind_of


def judge_usb(build: Build) -> Verdict | None:
    """The flight controller's USB socket, without taking the frame apart."""
    under = build.frame.stack_seat.under
    return _verdict("usb_access", "stack", "USB plug", "board", usb_reach(build), under)


def judge_card(build: Build) -> Verdict | None:
    """The video unit's card slot, without taking the frame apart."""
    bay = build.frame.bay_for("video")
    reach = card_reach(build)
    return _verdict("card_access", "video", "Card", "part", reach, bay.under if bay else "")


def _verdict(
    id: str, kind: str, subject: str, thing: str, reach: Reach | None, under: str
) -> Verdict | None:
    if reach is None:
        return None
    state, name = reach.state, reach.access.name
    how = f", {reach.way.words}" if reach.way.words and state != "clashes" else ""
    if reach.turned:
        how += f", with the {thing} turned by {reach.turned}"
    where = {
        "edge": f"in the {name}",
        "depth": f"in reach behind the {name}",
        "none": f"to the {name}, which looks to another side",
    }.get(reach.limit, "")
    if not where:
        other = "ESC" if reach.limit == "esc" else kind_of(reach.limit).label
        where = f"with the {other} on its way to the {name}"
    return fit_verdict(
        id, kind, subject, state, reach.gap_m,
        lambda system: says(subject, state, reach.gap_m, where, system) + how,
        f"The frame file's openings; straight out of the socket, {both(reach.way.broad_m)} by "
        f"{both(reach.way.thin_m)} of room and at most {both(reach.way.reach_m)} deep behind the "
        f"wall; {both(ROOM_M)} more is clear (common practice).",
        _fix(state, reach, thing, under),
    )  # fmt: skip


def _fix(state: str, reach: Reach, thing: str, under: str) -> str:
    if state == "clear":
        return ""
    if state == "clashes":
        return f"to reach it {under or 'what lies above it'} must come off"
    if reach.turned:
        return f"turn the {thing} by {reach.turned}, and tell it so in its settings"
    if not reach.way.good:
        return "tweezers that do not conduct reach it"
    return "try it with the plug that you have before you close the frame"
