"""The bays of a frame as hollows, and what a part asks of them beyond its own box."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

from slipfit.fit.boxes import ALL_TURNS, BoxFit, Hollow, Opening, Turn, box_fit, circle
from slipfit.frame.frame import Bay
from slipfit.numerics import Array
from slipfit.parts.pack import Pack

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


def box_of(part: Any) -> Array:
    """Length, width and height of a part that is a box, shape (3,)."""
    return np.array([part.length_m, part.width_m, part.height_m], dtype=float)


def lead_room_of(bay: Bay, part: Any) -> Array:
    """Room that a part's leads ask for beyond its length, width and height, shape (3,).

    Leads that leave at an end turn round beyond it, in the room that the frame names. Leads that
    leave at a side lie flat along it and ask for their own thickness. Other parts' leads leave at
    an end.
    """
    if isinstance(part, Pack) and part.lead_side == "side":
        return np.array([0.0, lead_outer_diameter(part.lead_gauge), 0.0])
    return np.array([bay.lead_room_m, 0.0, 0.0])


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


def one_fit(bay: Bay, part: Any, turns: tuple[Turn, ...]) -> BoxFit:
    """Fit of one part in a bay, arrays of shape (); kept, since pages ask for it repeatedly."""
    box, room = box_of(part), lead_room_of(bay, part)
    return _kept_fit(bay, tuple(box.tolist()), tuple(room.tolist()), turns)


@lru_cache(maxsize=512)
def _kept_fit(
    bay: Bay, box: tuple[float, ...], room: tuple[float, ...], turns: tuple[Turn, ...]
) -> BoxFit:
    return box_fit(
        hollow_of(bay), box, turns=turns, padding_m=bay.padding_m, tolerance_m=bay.tolerance_m,
        room_m=room,
    )  # fmt: skip
