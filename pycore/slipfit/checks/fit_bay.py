"""Fit of a boxed part in its bay: pack, GPS module, video unit, receiver."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import ADJECTIVES, both, box_size, fit_verdict, says
from slipfit.fit.bays import box_of, fits_in, held, lead_room_of
from slipfit.fit.boxes import SIDES, STATES, BoxFit
from slipfit.frame.frame import Bay
from slipfit.parts.kinds import kind_of

# A size is offered as a mend only where the part keeps at least this share of its own.
_WORTH_NAMING = 0.6
_THINNEST_M = 0.3e-3  # of padding that is worth calling so


def bay_judge(id: str, kind: str, subject: str) -> Callable[[Build], Verdict | None]:
    """The judge of a part of a kind in the first bay that the frame has for it."""

    def judge(build: Build) -> Verdict | None:
        bay = build.frame.bay_for(kind)
        if bay is None or kind not in build.parts:
            return None
        parts = held(build.frame, bay, build.parts)
        fit = fits_in(bay, parts)[list(parts).index(kind)]
        return _verdict(id, kind, subject, bay, parts, fit)

    return judge


def _verdict(
    id: str, kind: str, subject: str, bay: Bay, parts: Mapping[str, Any], fit: BoxFit
) -> Verdict:
    part, state = parts[kind], STATES[int(fit.state)]
    side = int(fit.side)
    gap = float(fit.clearance_m)
    turn = fit.turns[int(fit.turn)].words
    where = "across its corners" if SIDES[side] == "corners" else f"in {SIDES[side]}"
    others = _listed([f"the {kind_of(other).label}" for other in parts if other != kind])
    beside = f", together with {others}" if others else ""

    def sentence(system: str) -> str:
        return f"{says(subject, state, gap, where, system)}, {turn}{beside}"

    name = subject if subject.startswith("GPS") else subject.lower()
    fix = "" if state == "clear" else _fix(name, bay, part, fit)
    basis = _basis(bay, part, fit, others)
    return fit_verdict(id, kind, subject, state, gap, sentence, basis, fix)


def _basis(bay: Bay, part: Any, fit: BoxFit, others: str) -> str:
    if bay.shape == "tube":
        room = f"a tube {both(bay.length_m)} long and {both(bay.diameter_m)} across"
    else:
        room = f"{box_size((bay.length_m, bay.width_m, bay.height_m))} inside"
        if bay.shape == "tapered":
            room += f", {both(bay.end_width_m)} by {both(bay.end_height_m)} at its aft end"
        if bay.corner_m:
            room += f", corners rounded by {both(bay.corner_m)}"
    asked = [f"{both(bay.padding_m)} of padding on every side stays"] if bay.padding_m else []
    asked.append(f"a gap of {both(fit.needed_m)}, the bay's tolerance, is clear")
    if others:
        apart = f", {both(bay.pile_gap_m)} apart" if bay.pile_gap_m else ""
        verb = "lie" if " and " in others else "lies"
        asked.append(f"{others} {verb} in it too, piled along its {bay.piled}{apart}")
    leads = lead_room_of(bay, part)
    if leads[0] > 0:
        asked.append(f"{both(leads[0])} beyond its end stay free for leads and connector")
    if leads[1] > 0:
        asked.append(f"its leads lie along its side and take {both(leads[1])} there")
    return f"The frame file's bay: {room}; " + "; ".join(asked) + "."


def _fix(name: str, bay: Bay, part: Any, fit: BoxFit) -> str:
    """What size would be clear: one side alone where that is enough, else all of them."""
    own, mended = np.array(box_of(part)), fit.mended_m
    largest = fit.largest_m
    alone = [
        f"up to {both(float(largest[k]))} {ADJECTIVES[k]}"
        for k in range(3)
        if _WORTH_NAMING * own[k] <= largest[k] < own[k]
    ]
    thinner = ""
    spare = bay.padding_m + float(fit.clearance_m) / 2
    if fit.clearance_m < 0 and spare >= _THINNEST_M:
        thinner = f", or this one on padding of {both(spare)}"
    if alone:
        return f"a {name} {', or '.join(alone)} would be clear{thinner}"
    if (mended > 0).all():
        cut = np.flatnonzero(mended < own - 1e-9)
        sizes = [f"{both(float(mended[k]))} {ADJECTIVES[k]}" for k in cut]
        return f"a {name} up to {_listed(sizes)} would be clear{thinner}"
    return f"no {name} of this shape would be clear"


def _listed(words: list[str]) -> str:
    """`one`, `one and two`, `one, two and three`; nothing of nothing."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)
