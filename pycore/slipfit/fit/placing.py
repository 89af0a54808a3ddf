"""Where a part lies in its bay: the geometry that verdicts judge, as drawings need it.

A part lies against the bay's back and left walls (inside the padding), so that the whole gap, or
the whole overlap, shows on the other side and can be dimensioned. In a bay with rounded corners,
or a tube, it lies in the middle. Along the bay it lies at the wider end, or at the nose end, its
leads at the other. Of a pile the first lies there, and each other one a gap beyond the last.

A bay that lies across the rotor axis is placed as if it lay along it: its front end first, its
floor at the back. `upright` turns it so, and a drawing turns the pieces back.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from slipfit.fit.bays import TURNS, Sizes, asked, box_of, hollow_of, kept_fits, lead_room_of
from slipfit.fit.boxes import ALL_TURNS, SIDES, STATES, BoxFit, Hollow, Turn
from slipfit.frame.frame import PILED, Bay


@dataclass(frozen=True, kw_only=True)
class Span:
    """A stretch along one of the frame's axes."""

    low_m: float
    high_m: float


@dataclass(frozen=True, kw_only=True)
class Placed:
    """A part in its bay, in the frame's coordinates.

    `wall_right` and `wall_front` are the bay's inside, padding off, where it is tightest on the
    part, at `tight_station_m`; `wall_station` is the room along it. `leads` is the room along the
    bay that the leads ask for, None where they ask for none; `leads_right_m` and `leads_front_m`
    the thickness of leads that lie along the part's right or front side. `state`, `side` and
    `clearance_m` are the verdict's.
    """

    station: Span
    right: Span
    front: Span
    wall_station: Span
    wall_right: Span
    wall_front: Span
    leads: Span | None
    leads_right_m: float
    leads_front_m: float
    tight_station_m: float
    hollow: Hollow
    state: str
    side: str
    side_axis: str
    clearance_m: float


def upright(bay: Bay) -> Bay:
    """The bay as it would stand with its length along the rotor axis: what lies to the front
    turned to the nose, what lies to the nose to the front."""
    if bay.lies == "along":
        return bay
    return dataclasses.replace(bay, lies="along", station_m=-bay.front_m, front_m=-bay.station_m)


def all_placed(bay: Bay, parts: Mapping[str, Any]) -> dict[str, Placed]:
    """The parts that lie in a bay (`bays.held`) by kind, in the places of the bay's `upright`."""
    boxes, rooms = asked(bay, parts)
    places = _all_placed(bay, boxes, rooms, tuple(TURNS[kind] for kind in parts))
    return dict(zip(parts, places, strict=True))


@lru_cache(maxsize=512)
def _all_placed(
    bay: Bay,
    boxes: tuple[Sizes, ...],
    rooms: tuple[Sizes, ...],
    turns: tuple[tuple[Turn, ...], ...],
) -> tuple[Placed, ...]:
    pile, below, found = PILED.index(bay.piled), 0.0, []
    fits, bay = kept_fits(bay, boxes, rooms, turns), upright(bay)
    for box, room, fit in zip(boxes, rooms, fits, strict=True):
        found.append(_placed(bay, box, room, fit, below))
        own = fit.turns[int(fit.turn)].axes[pile]
        below += box[own] + room[own] + bay.pile_gap_m
    return tuple(found)


def placed(bay: Bay, part: Any, turns: tuple[Turn, ...] = ALL_TURNS) -> Placed:
    """A part alone in a bay, turned as its verdict says, in the places of the bay's `upright`."""
    return _all_placed(bay, (box_of(part),), (lead_room_of(bay, part),), (turns,))[0]


def _placed(bay: Bay, box: Sizes, room: Sizes, fit: BoxFit, below_m: float) -> Placed:
    """A part in an upright bay that lies `below_m` beyond the first place of the bay's pile."""
    hollow = hollow_of(bay)
    axes = list(fit.turns[int(fit.turn)].axes)
    along, across, up = (box[k] for k in axes)
    spare = [room[k] for k in axes]
    bay_start = bay.station_m - bay.length_m / 2
    slack = bay.length_m - along
    start = float(fit.start_m)
    # Inside the padding, at the end that suits the part; leads leave at the other.
    aft = not hollow.straight and start > slack / 2
    start = start - bay.padding_m if aft else bay.padding_m
    fractions = np.clip(np.array([start, start + along]) / bay.length_m, 0.0, 1.0)
    widths, heights, _ = hollow.sizes(fractions)
    tight = int(np.argmin(np.minimum(widths - across, heights - up)))
    wide = float(widths[tight]) - 2 * bay.padding_m
    high = float(heights[tight]) - 2 * bay.padding_m
    right_low = bay.right_m - wide / 2
    front_low = bay.front_m - high / 2
    if not hollow.sharp:
        right_low = bay.right_m - (across + spare[1]) / 2
        front_low = bay.front_m - (up + spare[2]) / 2
    side = SIDES[int(fit.side)]
    in_bay = {"length": 0, "width": 1, "height": 2}
    first = bay_start + start + (below_m if bay.piled == "length" else 0.0)
    right_low += below_m if bay.piled == "width" else 0.0
    front_low += below_m if bay.piled == "height" else 0.0
    leads = None
    if spare[0] > 0:
        end = first - spare[0] if aft else first + along
        leads = Span(low_m=end, high_m=end + spare[0])
    return Placed(
        station=Span(low_m=first, high_m=first + along),
        right=Span(low_m=right_low, high_m=right_low + across),
        front=Span(low_m=front_low, high_m=front_low + up),
        wall_station=Span(
            low_m=bay_start + bay.padding_m, high_m=bay_start + bay.length_m - bay.padding_m
        ),
        wall_right=Span(low_m=bay.right_m - wide / 2, high_m=bay.right_m + wide / 2),
        wall_front=Span(low_m=bay.front_m - high / 2, high_m=bay.front_m + high / 2),
        leads=leads,
        leads_right_m=spare[1],
        leads_front_m=spare[2],
        tight_station_m=first + along * tight,
        hollow=hollow,
        state=STATES[int(fit.state)],
        side=side,
        side_axis="corners"
        if side == "corners"
        else ("station", "right", "front")[axes.index(in_bay[side])],
        clearance_m=float(fit.clearance_m),
    )
