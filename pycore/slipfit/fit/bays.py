"""The bays of a frame as hollows, and what a part asks of them beyond its own box.

A bay may hold several parts in a pile. Such a bay is a box, and so every part sees the bay less
what the others and the gaps between them take along the pile: the fit of one part in a pile is
that of one part in a shorter bay.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from functools import lru_cache
from typing import Any, Final

import numpy as np

from slipfit.fit.boxes import (
    ALL_TURNS,
    FLAT,
    ROUNDING_M,
    BoxFit,
    Hollow,
    Opening,
    Turn,
    box_fit,
    circle,
)
from slipfit.frame.frame import PILED, Bay, Frame
from slipfit.parts.pack import Pack

# Ways that a boxed part may be turned in its bay; a GPS module's antenna must face out.
TURNS: Final[Mapping[str, tuple[Turn, ...]]] = {
    "pack": ALL_TURNS, "gps": FLAT, "video": ALL_TURNS, "receiver": ALL_TURNS,
}  # fmt: skip
Sizes = tuple[float, ...]  # length, width, height

_AWG_36_M = 0.127e-3  # bare diameter of gauge 36, ASTM B258; each gauge step is 92^(1/39)
# Outer over bare diameter of soft stranded lead with silicone insulation; common practice, no
# source, remembered from gauges 10 to 16.
LEAD_OUTER_RATIO = 2.1


def hollow_of(bay: Bay) -> Hollow:
    """The inside of a bay as its author drew it, padding not taken off."""
    if bay.shape == "tube":
        fore = aft = circle(bay.diameter_m)
    else:
        fore = aft = Opening(width_m=bay.width_m, height_m=bay.height_m, corner_m=bay.corner_m)
        if bay.shape == "tapered":
            aft = Opening(width_m=bay.end_width_m, height_m=bay.end_height_m, corner_m=bay.corner_m)
    return Hollow(length_m=bay.length_m, nose=fore, tail=aft)


def lead_outer_diameter(gauge: int) -> float:
    """Outside diameter of a pack lead of an AWG number. [m]"""
    return float(LEAD_OUTER_RATIO * _AWG_36_M * 92 ** ((36 - gauge) / 39))


def box_of(part: Any) -> Sizes:
    """Length, width and height of a part that is a box. [m]"""
    return (float(part.length_m), float(part.width_m), float(part.height_m))


def lead_room_of(bay: Bay, part: Any) -> Sizes:
    """Room that a part's leads ask for beyond its length, width and height.

    Leads that leave at an end turn round beyond it, in the room that the frame names. Leads that
    leave at a side lie flat along it and ask for their own thickness. Other parts' leads leave at
    an end.
    """
    if isinstance(part, Pack) and part.lead_side == "side":
        return (0.0, lead_outer_diameter(part.lead_gauge), 0.0)
    return (bay.lead_room_m, 0.0, 0.0)


def bay_fit(bay: Bay, parts: list[Any], turns: tuple[Turn, ...] = ALL_TURNS) -> BoxFit:
    """Fit of a whole shelf of parts in a bay at once; arrays of shape (parts,)."""
    return box_fit(
        hollow_of(bay),
        np.stack([box_of(part) for part in parts]),
        turns=turns,
        padding_m=bay.padding_m,
        tolerance_m=bay.tolerance_m,
        room_m=np.stack([lead_room_of(bay, part) for part in parts]),
    )


def held(frame: Frame, bay: Bay, parts: Mapping[str, Any]) -> dict[str, Any]:
    """The boxed parts of a build that lie in a bay by kind, the lowest of a pile first."""
    return {
        kind: parts[kind]
        for kind in bay.kinds
        if kind in TURNS and kind in parts and frame.bay_for(kind) is bay
    }


def fits_in(bay: Bay, parts: Mapping[str, Any]) -> tuple[BoxFit, ...]:
    """Fits, arrays of shape (), of the parts that lie in a bay together (`held`), each beside the
    others; kept, since pages ask for them repeatedly."""
    boxes, rooms = asked(bay, parts)
    return kept_fits(bay, boxes, rooms, tuple(TURNS[kind] for kind in parts))


def asked(bay: Bay, parts: Mapping[str, Any]) -> tuple[tuple[Sizes, ...], tuple[Sizes, ...]]:
    """Boxes of parts, and the room that their leads ask for in a bay."""
    there = parts.values()
    return tuple(map(box_of, there)), tuple(lead_room_of(bay, part) for part in there)


def one_fit(bay: Bay, part: Any, turns: tuple[Turn, ...]) -> BoxFit:
    """Fit of one part alone in a bay."""
    return kept_fits(bay, (box_of(part),), (lead_room_of(bay, part),), (turns,))[0]


@lru_cache(maxsize=512)
def kept_fits(
    bay: Bay,
    boxes: tuple[Sizes, ...],
    rooms: tuple[Sizes, ...],
    turns: tuple[tuple[Turn, ...], ...],
) -> tuple[BoxFit, ...]:
    """Fits of boxes that lie in a bay together, by what they and their leads ask for."""
    if len(boxes) > 1:
        chosen = _pile_turns(bay, boxes, rooms, turns)
        rooms = _pile_rooms(bay, boxes, rooms, chosen)
        turns = tuple((turn,) for turn in chosen)
    hollow = hollow_of(bay)
    return tuple(
        box_fit(
            hollow, box, turns=ways, padding_m=bay.padding_m, tolerance_m=bay.tolerance_m,
            room_m=room,
        )
        for box, room, ways in zip(boxes, rooms, turns, strict=True)
    )  # fmt: skip


def _pile_rooms(
    bay: Bay, boxes: tuple[Sizes, ...], rooms: tuple[Sizes, ...], turns: tuple[Turn, ...]
) -> tuple[Sizes, ...]:
    """Each part's lead room, and along the pile what the others and the gaps take besides."""
    along = [turn.axes[PILED.index(bay.piled)] for turn in turns]
    takes = [box[k] + room[k] for box, room, k in zip(boxes, rooms, along, strict=True)]
    whole = sum(takes) + bay.pile_gap_m * (len(boxes) - 1)
    return tuple(
        tuple(room[axis] + (whole - take if axis == k else 0.0) for axis in range(3))
        for room, take, k in zip(rooms, takes, along, strict=True)
    )


def _pile_turns(
    bay: Bay,
    boxes: tuple[Sizes, ...],
    rooms: tuple[Sizes, ...],
    turns: tuple[tuple[Turn, ...], ...],
) -> tuple[Turn, ...]:
    """How to turn each part of a pile: the first ways in which all are clear, else those with the
    most room on the tightest side of any."""
    sides = [size - 2 * bay.padding_m for size in (bay.length_m, bay.width_m, bay.height_m)]
    pile = PILED.index(bay.piled)
    gaps = bay.pile_gap_m * (len(boxes) - 1)
    sizes = [  # of each part in each of its turns, in the bay's axes
        [[box[k] + room[k] for k in turn.axes] for turn in ways]
        for box, room, ways in zip(boxes, rooms, turns, strict=True)
    ]
    best, most = (0,) * len(boxes), -np.inf
    for choice in itertools.product(*(range(len(ways)) for ways in turns)):
        taken = [part[k] for part, k in zip(sizes, choice, strict=True)]
        least = min(
            side - (sum(t[axis] for t in taken) + gaps if axis == pile else
                    max(t[axis] for t in taken))
            for axis, side in enumerate(sides)
        )  # fmt: skip
        if least > most + ROUNDING_M:
            best, most = choice, least
        if most >= bay.tolerance_m - ROUNDING_M:
            break
    return tuple(ways[k] for ways, k in zip(turns, best, strict=True))
