"""Access: does a plug, and the hand that holds it, reach a socket through an opening of the frame.

The way from a socket to an opening is straight, along an axis of the frame. It is clear where the
opening looks to the socket's side, the section of plug or card lies inside it, nothing else stands
on the way, and the socket is not deeper than the hand reaches: a plug held from outside by its end,
or by fingers where the opening takes them. A board may be turned on its seat by quarters, and a
part in a bay put in either way round.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final, NamedTuple

from slipfit.build import Build
from slipfit.fit.bays import fits_in, held
from slipfit.fit.solids import (
    FRONT,
    LOOKS,
    RIGHT,
    STATION,
    Place,
    Solid,
    box_gap,
    gap_between,
    solids,
    stands,
)
from slipfit.frame.frame import Access
from slipfit.parts.stack import Stack
from slipfit.parts.video import Video

# The sides of a board, clockwise as its face is seen with its arrow up, and the frame's sides that
# they look to: of a board that stands in a body, its face to the front and its arrow to the nose,
# and of one that lies in a flat frame, its face to the nose and its arrow to the front.
ROUND: Final = ("front", "right", "back", "left")
STANDING: Final = ("nose", "left", "tail", "right")
TURNS: Final = ("", "a quarter clockwise", "a half", "a quarter anticlockwise")


class Way(NamedTuple):
    """A way of bringing a plug or card in: its section, how far behind the wall it reaches, and
    the opening that it asks for, long side first."""

    words: str
    broad_m: float
    thin_m: float
    reach_m: float
    opening_m: tuple[float, float] = (0.0, 0.0)
    good: bool = True


# A small reversible plug's moulding is 12.4 x 6.5 mm and some 25 mm long, of which 8 mm are to be
# held; a small card is 11 x 1 mm. Two finger tips ask for 22 x 18 mm and reach in by 30 mm. All
# from memory; common practice, no source.
PLUG_WAYS: Final = (
    Way("", 12.5e-3, 7.0e-3, 17.0e-3),
    Way("by fingers", 12.5e-3, 7.0e-3, 47.0e-3, (22.0e-3, 18.0e-3)),
)
CARD_WAYS: Final = (
    Way("by fingers", 11.5e-3, 2.0e-3, 30.0e-3, (22.0e-3, 18.0e-3)),
    Way("with tweezers", 11.5e-3, 4.0e-3, 60.0e-3, good=False),
)
ROOM_M: Final = 1.0e-3  # round a plug on its way, to be clear; common practice, no source


class Reach(NamedTuple):
    """The best way to a socket: the opening, how the part is turned for it and the least of what
    is left: beside the opening's `edge`, of the reach in `depth`, or to a part in the way, which
    is then named. Where no opening looks to the socket, `limit` is `none` and the gap the distance
    to the nearest, negative."""

    access: Access
    way: Way
    turned: str
    limit: str
    gap_m: float
    state: str


class _Socket(NamedTuple):
    """The middle of a socket's mouth, the side of the frame that it looks to, the axis across its
    thin side, and how the part is turned for it."""

    place: Place
    side: str
    thin: int
    turned: str


def usb_reach(build: Build) -> Reach | None:
    """The best way to the flight controller's socket; None without one or without openings."""
    found = solids(build)
    own = next((solid for solid in found if solid.kind == "stack"), None)
    board = build.parts.get("stack")
    if own is None or not isinstance(board, Stack) or not build.frame.accesses:
        return None
    return _best(build, own, found, _usb(build, own, board), PLUG_WAYS)


def card_reach(build: Build) -> Reach | None:
    """The best way to the video unit's card; None without a slot or without openings."""
    video, bay = build.parts.get("video"), build.frame.bay_for("video")
    if not isinstance(video, Video) or bay is None or video.card_side == "none":
        return None
    if not build.frame.accesses:
        return None
    found = solids(build)
    own = next(solid for solid in found if solid.kind == "video")
    parts = held(build.frame, bay, build.parts)
    fit = fits_in(bay, parts)[list(parts).index("video")]
    along = (STATION, RIGHT, FRONT) if bay.lies == "along" else (FRONT, RIGHT, STATION)
    # The frame's axes along the part's length, width and height.
    axes = [along[fit.turns[int(fit.turn)].axes.index(k)] for k in range(3)]
    out, thin = {"end": (0, 2), "side": (1, 2), "face": (2, 1)}[video.card_side]
    return _best(build, own, found, _card(own, axes[out], axes[thin]), CARD_WAYS)


def _usb(build: Build, own: Solid, board: Stack) -> Iterator[_Socket]:
    seat, standing = build.frame.stack_seat, stands(build.frame)
    sides = STANDING if standing else ROUND
    first = ROUND.index(board.usb_side)
    out = (board.length_m if first % 2 == 0 else board.width_m) / 2
    straight = board.length_m <= seat.max_length_m and board.width_m <= seat.max_width_m
    quarter = board.width_m <= seat.max_length_m and board.length_m <= seat.max_width_m
    ways = (straight or not quarter, quarter)  # straight too where it fits neither way
    for quarters, turned in enumerate(TURNS):
        if not ways[quarters % 2]:
            continue
        side = sides[(first + quarters) % 4]
        axis, sign = LOOKS[side]
        place = [(low + high) / 2 for low, high in zip(own.low, own.high, strict=True)]
        place[axis] += sign * out
        beside, way = LOOKS[sides[(first + quarters + 1) % 4]]
        place[beside] += way * board.usb_offset_m
        yield _Socket(
            place=(place[0], place[1], place[2]), side=side,
            thin=FRONT if standing else STATION, turned=turned,
        )  # fmt: skip


def _card(own: Solid, axis: int, thin: int) -> Iterator[_Socket]:
    for side, (out, sign) in LOOKS.items():
        if out == axis:
            place = [(low + high) / 2 for low, high in zip(own.low, own.high, strict=True)]
            place[axis] = own.high[axis] if sign > 0 else own.low[axis]
            yield _Socket(place=(place[0], place[1], place[2]), side=side, thin=thin, turned="")


def _best(
    build: Build, own: Solid, found: tuple[Solid, ...], sockets: Iterator[_Socket],
    ways: tuple[Way, ...],
) -> Reach:  # fmt: skip
    others = [solid for solid in found if solid is not own]
    asked = list(sockets)
    reaches = [
        reach
        for socket in asked
        for access in build.frame.accesses
        if access.side == socket.side
        for way in ways
        if (reach := _through(access, socket, way, others)) is not None
    ]
    if reaches:
        severity = {"clear": 0, "snug": 1, "clashes": 2}
        return min(
            reaches, key=lambda r: (severity[r.state], TURNS.index(r.turned) % 4 > 0, -r.gap_m)
        )
    place = asked[0].place
    away, access = min(
        ((math.dist(place, _middle(access)), access) for access in build.frame.accesses),
        key=lambda pair: pair[0],
    )
    return Reach(access=access, way=ways[0], turned="", limit="none", gap_m=-away, state="clashes")


def _middle(access: Access) -> Place:
    return (access.station_m, access.right_m, access.front_m)


def _through(access: Access, socket: _Socket, way: Way, others: list[Solid]) -> Reach | None:
    """A plug's way through an opening; None where the opening does not take the hand."""
    long, short = max(access.length_m, access.width_m), min(access.length_m, access.width_m)
    if long < way.opening_m[0] or short < way.opening_m[1]:
        return None
    axis, sign = LOOKS[access.side]
    wall = _middle(access)
    depth = max(sign * (wall[axis] - socket.place[axis]), 0.0)
    left = {"depth": way.reach_m - depth, "edge": math.inf}
    low, high = list(socket.place), list(socket.place)
    low[axis], high[axis] = sorted((socket.place[axis], socket.place[axis] + sign * depth))
    across = [k for k in (STATION, RIGHT, FRONT) if k != axis]
    for k, size in zip(across, (access.length_m, access.width_m), strict=True):
        half = (way.thin_m if k == socket.thin else way.broad_m) / 2
        left["edge"] = min(left["edge"], size / 2 - abs(socket.place[k] - wall[k]) - half)
        low[k], high[k] = low[k] - half, high[k] + half
    passage = Solid(
        kind="", name="", group="", low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2])
    )
    if depth > 0.0:
        for other in others:
            if box_gap(passage, other)[0] < 0.0:
                gap = gap_between(passage, other).gap_m
                if gap < 0.0:
                    left[other.kind] = gap
    limit = min(left, key=lambda name: left[name])
    gap = 0.0 if abs(left[limit]) < 1e-9 else left[limit]
    state = "clashes" if gap < 0 else "snug" if gap < ROOM_M - 1e-9 else "clear"
    if state == "clear" and (socket.turned or not way.good):
        state = "snug"
    return Reach(access=access, way=way, turned=socket.turned, limit=limit, gap_m=gap, state=state)
