"""The parts of a build as solids in the frame's coordinates, and the gap between two of them.

A solid is a box along the frame's axes or, for a camera that is tilted about the line to the right,
a prism: a convex outline in the plane of station and front, between two distances to the right. The
gap of two such solids is exact. Apart, it is the shortest way between them; where they overlap, it
is the shortest way by which one must move to be free, negative.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, Final, NamedTuple

from slipfit.build import Build
from slipfit.fit.bays import held
from slipfit.fit.board import SPACER_M, board_fit
from slipfit.fit.placing import Placed, all_placed
from slipfit.frame.frame import Access, BodyEntry, Frame, KeepOut
from slipfit.ondemand import kept_for_latest
from slipfit.parts.camera import Camera
from slipfit.parts.kinds import KINDS
from slipfit.physics.body.box import Box
from slipfit.physics.body.cylinder import Cylinder
from slipfit.physics.body.plate import Plate
from slipfit.physics.body.strut import Strut

Place = tuple[float, float, float]  # station, right, front
STATION, RIGHT, FRONT = range(3)
AXES: Final = ("along the axis", "from left to right", "from front to back")
# Where each side of the frame looks: axis and direction.
LOOKS: Final = {
    "nose": (STATION, -1), "tail": (STATION, 1), "right": (RIGHT, 1), "left": (RIGHT, -1),
    "front": (FRONT, 1), "back": (FRONT, -1),
}  # fmt: skip
EXACT_M: Final = 1e-9  # gaps smaller than this are arithmetic, not geometry
SEAT: Final = "stack seat"


@dataclass(frozen=True, kw_only=True)
class Solid:
    """A part of a kind, or something that parts must keep out of, between two corners.

    `outline` (station, front) is that of a prism that is not a box along the axes, else empty.
    Solids of one `group` are judged by what holds them and not against each other.
    """

    kind: str
    name: str
    group: str
    low: Place
    high: Place
    outline: tuple[tuple[float, float], ...] = ()

    @property
    def section(self) -> tuple[tuple[float, float], ...]:
        """Its outline in the plane of station and front."""
        if self.outline:
            return self.outline
        x, z, u, w = self.low[STATION], self.low[FRONT], self.high[STATION], self.high[FRONT]
        return ((x, z), (u, z), (u, w), (x, w))


class Gap(NamedTuple):
    """The gap between two solids, negative where they overlap, and the axis it lies along."""

    first: Solid
    second: Solid
    gap_m: float
    axis: int


@kept_for_latest
def solids(build: Build) -> tuple[Solid, ...]:
    """The boxed parts, boards and camera of a build, where the drawings show them."""
    return (*_in_bays(build), *_camera(build), *boards(build))


def _in_bays(build: Build) -> Iterator[Solid]:
    for bay in build.frame.bays:
        parts = held(build.frame, bay, build.parts)
        if parts:
            for kind, place in all_placed(bay, parts).items():
                low, high = corners(place, bay.lies)
                yield Solid(kind=kind, name=parts[kind].name, group=bay.id, low=low, high=high)


def corners(place: Placed, lies: str) -> tuple[Place, Place]:
    """The corners of a part that is placed in the `upright` of a bay that lies so."""
    x, y, z = place.station, place.right, place.front
    if lies == "across":
        return (-z.high_m, y.low_m, -x.high_m), (-z.low_m, y.high_m, -x.low_m)
    return (x.low_m, y.low_m, z.low_m), (x.high_m, y.high_m, z.high_m)


def beside_rotors(build: Build) -> tuple[Solid, ...]:
    """What a propeller may meet besides a streamlined body: plates, boxes and masts of the frame in
    their places, arms and leads below each disk, and, where nothing covers them, the parts.

    Motors and feet stand below the hubs and are left out, and so are rods that lie across
    somewhere else: the frame file does not say which way they point.
    """
    frame = build.frame
    found = [solid for entry in frame.bodies for solid in _body_solids(frame, entry)]
    if not stands(frame):
        labels = {kind.id: kind.label for kind in KINDS}
        found += [replace(s, name=labels.get(s.kind, s.name)) for s in solids(build)]
    return tuple(found)


def _body_solids(frame: Frame, entry: BodyEntry) -> Iterator[Solid]:
    shape = entry.shape
    own_place = bool(entry.right_m or entry.front_m)
    if entry.count == len(frame.rotors) and not own_place:
        thick = {Plate: "thickness_m", Strut: "chord_m", Cylinder: "diameter_m"}.get(type(shape))
        if thick and getattr(shape, "across", True):
            for rotor in frame.rotors:  # somewhere below the disk: only the station counts
                thin = (getattr(shape, thick), 0.0, 0.0)
                yield _around(entry, thin, rotor.right_m, rotor.front_m)
    elif entry.count == 1 or own_place:
        size = _size_of(shape)
        if size is not None:
            yield _around(entry, size, entry.right_m, entry.front_m)


def _size_of(shape: Any) -> Place | None:
    """Extent of a body along the axes; None where the file does not tell it."""
    if isinstance(shape, Box):
        return (shape.length_m, shape.width_m, shape.height_m)
    if isinstance(shape, Plate):
        return (shape.thickness_m, shape.width_m, shape.depth_m)
    if isinstance(shape, Cylinder) and not shape.across:
        return (shape.length_m, shape.diameter_m, shape.diameter_m)
    return None


def _around(entry: BodyEntry, size: Place, right_m: float, front_m: float) -> Solid:
    middle = (entry.station_m, right_m, front_m)
    low = tuple(m - s / 2 for m, s in zip(middle, size, strict=True))
    high = tuple(m + s / 2 for m, s in zip(middle, size, strict=True))
    return Solid(
        kind="", name=entry.name, group="",
        low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]),
    )  # fmt: skip


def stands(frame: Frame) -> bool:
    """True where the boards stand in a body, their faces to the front; in a flat frame they lie,
    their faces to the nose."""
    return bool(frame.outline.stations_m)


def on_seat(frame: Frame, low_m: float, high_m: float, length_m: float, width_m: float) -> Solid:
    """What lies from `low` to `high` above the face of the stack seat, in its middle."""
    seat = frame.stack_seat
    right = (seat.right_m - width_m / 2, seat.right_m + width_m / 2)
    if stands(frame):
        face = seat.front_m - seat.max_height_m / 2
        station = (seat.station_m - length_m / 2, seat.station_m + length_m / 2)
        front = (face + low_m, face + high_m)
    else:
        face = seat.station_m + seat.max_height_m / 2
        station = (face - high_m, face - low_m)
        front = (seat.front_m - length_m / 2, seat.front_m + length_m / 2)
    return Solid(
        kind="", name="room for ESC and flight controller", group=SEAT,
        low=(station[0], right[0], front[0]), high=(station[1], right[1], front[1]),
    )  # fmt: skip


def boards(build: Build) -> tuple[Solid, ...]:
    """ESC and flight controller, each on its spacers, the ESC below, turned as they fit best."""
    found, level, seat = [], 0.0, build.frame.stack_seat
    for kind in ("esc", "stack"):
        board: Any = build.parts.get(kind)
        if board is not None:
            low = level + SPACER_M
            level = low + board.height_m
            long, wide = board.length_m, board.width_m
            if board_fit(long, wide, seat.max_length_m, seat.max_width_m).turned:
                long, wide = wide, long
            room = on_seat(build.frame, low, level, long, wide)
            found.append(
                Solid(kind=kind, name=board.name, group=SEAT, low=room.low, high=room.high)
            )
    return tuple(found)


def _camera(build: Build) -> Iterator[Solid]:
    """The camera with its middle on the pivot, its lens along the uptilt."""
    camera, seat = build.parts.get("camera"), build.frame.camera_seat
    if not isinstance(camera, Camera):
        return
    c, s = math.cos(build.uptilt_rad), math.sin(build.uptilt_rad)
    # The lens looks along (-s, c) in station and front; its upper side to (-c, -s).
    outline = tuple(
        (
            seat.station_m - s * u * camera.depth_m / 2 - c * v * camera.height_m / 2,
            seat.front_m + c * u * camera.depth_m / 2 - s * v * camera.height_m / 2,
        )
        for u, v in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    stations, fronts = zip(*outline, strict=True)
    half = camera.width_m / 2
    yield Solid(
        kind="camera", name=camera.name, group="camera cage", outline=outline,
        low=(min(stations), seat.right_m - half, min(fronts)),
        high=(max(stations), seat.right_m + half, max(fronts)),
    )  # fmt: skip


def free_of_parts(frame: Frame) -> tuple[Solid, ...]:
    """What parts must keep out of."""
    return tuple(_keep_out(box) for box in frame.keep_outs)


def openings(frame: Frame) -> tuple[Solid, ...]:
    """The openings in the frame's walls, flat."""
    return tuple(_opening(access) for access in frame.accesses)


@lru_cache(maxsize=256)
def _opening(access: Access) -> Solid:
    across = [k for k in (STATION, RIGHT, FRONT) if k != LOOKS[access.side][0]]
    low = [access.station_m, access.right_m, access.front_m]
    high = [*low]
    for k, size in zip(across, (access.length_m, access.width_m), strict=True):
        low[k], high[k] = low[k] - size / 2, high[k] + size / 2
    return Solid(
        kind="", name=access.name, group=access.name,
        low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]),
    )  # fmt: skip


@lru_cache(maxsize=256)
def _keep_out(box: KeepOut) -> Solid:
    middle = (box.station_m, box.right_m, box.front_m)
    half = (box.length_m / 2, box.width_m / 2, box.height_m / 2)
    low, high = (tuple(m + sign * h for m, h in zip(middle, half, strict=True)) for sign in (-1, 1))
    return Solid(kind="", name=box.name, group=box.name, low=low, high=high)  # type: ignore[arg-type]


def box_gap(first: Solid, second: Solid) -> tuple[float, int]:
    """The gap of the boxes around two solids, and its axis."""
    ways = [max(second.low[k] - first.high[k], first.low[k] - second.high[k]) for k in range(3)]
    widest = max(ways)
    axis = ways.index(widest)
    if widest <= 0.0:
        return widest, axis
    return math.sqrt(sum(way * way for way in ways if way > 0.0)), axis


def gap_between(first: Solid, second: Solid) -> Gap:
    """The exact gap of two solids."""
    gap, axis = box_gap(first, second)
    if first.outline or second.outline:
        flat, normal = _outline_gap(first.section, second.section)
        beside = max(second.low[RIGHT] - first.high[RIGHT], first.low[RIGHT] - second.high[RIGHT])
        gap = max(flat, beside)
        if flat > 0.0 and beside > 0.0:
            gap = math.hypot(flat, beside)
        axis = RIGHT
        if flat >= beside:
            axis = STATION if abs(normal[0]) >= abs(normal[1]) else FRONT
    gap = 0.0 if abs(gap) < EXACT_M else gap
    return Gap(first=first, second=second, gap_m=gap, axis=axis)


def gaps(pairs: Iterable[tuple[Solid, Solid]], within_m: float) -> Iterator[Gap]:
    """The gaps of those pairs that are nearer than `within_m`, and that of the nearest pair."""
    measured = sorted(
        ((box_gap(a, b)[0], k, a, b) for k, (a, b) in enumerate(pairs)), key=lambda m: m[:2]
    )
    least = math.inf
    for around, _, a, b in measured:
        if around >= within_m and around >= least:
            return
        gap = gap_between(a, b)
        least = min(least, gap.gap_m)
        yield gap


def pairs_of(found: Iterable[Solid], kind: str | None = None) -> Iterator[tuple[Solid, Solid]]:
    """Every two solids of different groups, of which one is of a kind where one is named; the
    named one comes first."""
    there = list(found)
    for k, a in enumerate(there):
        for b in there[k + 1 :]:
            if a.group != b.group and kind in (None, a.kind, b.kind):
                yield (b, a) if kind == b.kind else (a, b)


@kept_for_latest
def overlapping(build: Build) -> frozenset[str]:
    """The kinds of part that overlap a part of another place, or what stays free."""
    there = solids(build)
    pairs = [*pairs_of(there)]
    pairs += [(part, box) for part in there for box in free_of_parts(build.frame)]
    found = (gap for gap in gaps(pairs, 0.0) if gap.gap_m < 0.0)
    kinds = {solid.kind for gap in found for solid in (gap.first, gap.second)}
    return frozenset(kinds - {""})


Flat = tuple[tuple[float, float], ...]


def _outline_gap(a: Flat, b: Flat) -> tuple[float, tuple[float, float]]:
    """The gap of two convex outlines and its direction: by separating lines where they overlap,
    else between corners and edges."""
    most, normal = -math.inf, (1.0, 0.0)
    for own, other in ((a, b), (b, a)):
        for (x1, y1), (x2, y2) in _edges(own):
            length = math.hypot(x2 - x1, y2 - y1)
            n = ((y2 - y1) / length, (x1 - x2) / length)
            inside = min(n[0] * x + n[1] * y for x, y in own)
            outside = max(n[0] * x + n[1] * y for x, y in own)
            if abs(n[0] * x1 + n[1] * y1 - outside) > abs(n[0] * x1 + n[1] * y1 - inside):
                n, outside = (-n[0], -n[1]), -inside
            gap = min(n[0] * x + n[1] * y for x, y in other) - outside
            if gap > most:
                most, normal = gap, n
    if most <= 0.0:
        return most, normal
    return min(
        (
            _to_edge(point, edge)
            for own, other in ((a, b), (b, a))
            for point in own
            for edge in _edges(other)
        ),
        key=lambda way: way[0],
    )


def _edges(outline: Flat) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    return zip(outline, (*outline[1:], outline[0]), strict=True)


def _to_edge(
    point: tuple[float, float], edge: tuple[tuple[float, float], tuple[float, float]]
) -> tuple[float, tuple[float, float]]:
    """Shortest way from a point to an edge, and its direction."""
    (x1, y1), (x2, y2) = edge
    dx, dy = x2 - x1, y2 - y1
    t = ((point[0] - x1) * dx + (point[1] - y1) * dy) / (dx * dx + dy * dy)
    t = min(max(t, 0.0), 1.0)
    way = (x1 + t * dx - point[0], y1 + t * dy - point[1])
    return math.hypot(*way), way
