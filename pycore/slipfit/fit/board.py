"""Boards on the stack seat: their size seen from above, and the height of the whole column."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

# Spacer under each board: soft grommets or nuts, room for solder on the back. Common practice, no
# source.
SPACER_M: Final = 2.0e-3
# Solder, a bent capacitor, a plug: a board wants this much air to its walls. Common practice, no
# source.
EDGE_ROOM_M: Final = 0.5e-3


@dataclass(frozen=True, kw_only=True)
class BoardFit:
    """Gap of a board on its seat, at the tighter of its `side`s, `length` or `width`."""

    gap_m: float
    side: str
    limit_m: float
    turned: bool


def board_fit(
    length_m: float, width_m: float, seat_length_m: float, seat_width_m: float
) -> BoardFit:
    """A board on a seat that takes a largest length and width: straight where it is clear so, else
    the way round that leaves it more."""
    straight = _gap(length_m, width_m, seat_length_m, seat_width_m, turned=False)
    turned = _gap(length_m, width_m, seat_width_m, seat_length_m, turned=True)
    clear = straight.gap_m >= EDGE_ROOM_M
    return straight if clear or straight.gap_m >= turned.gap_m else turned


def _gap(length_m: float, width_m: float, along: float, across: float, *, turned: bool) -> BoardFit:
    long_gap, wide_gap = along - length_m, across - width_m
    if long_gap <= wide_gap:
        return BoardFit(gap_m=long_gap, side="length", limit_m=along, turned=turned)
    return BoardFit(gap_m=wide_gap, side="width", limit_m=across, turned=turned)


def column_height(heights_m: Sequence[float]) -> float:
    """Height of boards one above the other, each on its spacers. [m]"""
    return sum(heights_m) + SPACER_M * len(heights_m)
