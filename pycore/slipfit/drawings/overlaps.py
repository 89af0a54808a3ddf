"""By how much things overlap, as lines in the frame's coordinates that a view can dimension.

Each line is as long as its verdict says. What is held in its middle, such as a board or a camera,
is taken as pushed against one wall, so that the whole overlap shows at the other.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.drawings.drawing import Dimension
from slipfit.drawings.shapes import gap_dimension
from slipfit.fit.bays import held
from slipfit.fit.placing import Placed, all_placed
from slipfit.fit.rotors import section_reach
from slipfit.fit.solids import (
    FRONT,
    RIGHT,
    STATION,
    Place,
    beside_rotors,
    boards,
    free_of_parts,
    gap_between,
    on_seat,
    pairs_of,
    solids,
    stands,
)
from slipfit.frame.frame import PILED, Bay
from slipfit.parts.camera import Camera
from slipfit.parts.motor import Motor
from slipfit.parts.prop import Prop

SAME_M = 1e-6  # lines of other lengths than their verdict's are not drawn
_FAN_RAD = np.linspace(-0.9, 0.9, 61)  # directions that are tried for a propeller in the body
_SEEN = 0.99  # of a line's length that a view must show


class Overlap(NamedTuple):
    """A line from the edge that is overlapped to the edge that overlaps."""

    check: str
    start: Place
    end: Place


def overlaps(build: Build, verdicts: Sequence[Verdict]) -> Iterator[Overlap]:
    """Every clash among the verdicts that has a place in the drawings, but for those of bays."""
    amounts = {v.id: -v.amount for v in verdicts if v.severity == 2}
    for check, find in _FINDERS.items():
        if check in amounts:
            for start, end in find(build, amounts[check]):
                if abs(math.dist(start, end) - amounts[check]) < SAME_M:
                    yield Overlap(check, start, end)
                    break


def bay_overlaps(build: Build) -> Iterator[Overlap]:
    """Every part that clashes with the walls of its bay, but across its corners."""
    for bay in build.frame.bays:
        parts = held(build.frame, bay, build.parts)
        pile = ("station", "right", "front")[PILED.index(bay.piled)]
        for kind, place in all_placed(bay, parts).items() if parts else ():
            on_top = kind == list(parts)[-1] or place.side_axis != pile
            if place.state == "clashes" and on_top:
                for start, end in _in_bay(place):
                    yield Overlap(f"{kind}_bay", _back(bay, start), _back(bay, end))


def dimensions(
    found: Iterator[Overlap], seen: Callable[[Place], tuple[float, float]]
) -> Iterator[Dimension]:
    """Those that a view shows at their length; `seen` is where it shows a place."""
    for _, start, end in found:
        (x1, y1), (x2, y2) = seen(start), seen(end)
        length = math.dist(start, end)
        if math.hypot(x2 - x1, y2 - y1) >= _SEEN * length:
            yield gap_dimension(x1, y1, x2, y2, -length)


Lines = Iterator[tuple[Place, Place]]


def _in_bay(place: Placed) -> Lines:
    """As the bay's `upright` stands; see `placing` for what lies against what."""
    x, y, z = place.tight_station_m, place.right, place.front
    mid_y, mid_z = (y.low_m + y.high_m) / 2, (z.low_m + z.high_m) / 2
    if place.side_axis == "right":
        wall, edge = place.wall_right.high_m, y.high_m + place.leads_right_m
        yield (x, wall, mid_z), (x, edge, mid_z)
    elif place.side_axis == "front":
        wall, edge = place.wall_front.high_m, z.high_m + place.leads_front_m
        yield (x, mid_y, wall), (x, mid_y, edge)
    elif place.side_axis == "station":
        over = -place.clearance_m
        if place.leads and place.leads.low_m < place.station.low_m:
            wall, over = place.wall_station.low_m, -over
        else:
            wall = place.wall_station.high_m
        yield (wall, mid_y, mid_z), (wall + over, mid_y, mid_z)


def _back(bay: Bay, place: Place) -> Place:
    """A place of a bay's `upright`, in the frame."""
    x, y, z = place
    return (-z, y, -x) if bay.lies == "across" else place


def _line(middle: Sequence[float], axis: int, start: float, end: float) -> tuple[Place, Place]:
    """A line along an axis, elsewhere in the middle."""
    a, b = [*middle], [*middle]
    a[axis], b[axis] = start, end
    return (a[0], a[1], a[2]), (b[0], b[1], b[2])


def _board(kind: str) -> Callable[[Build, float], Lines]:
    def find(build: Build, amount: float) -> Lines:
        seat = build.frame.stack_seat
        room = on_seat(build.frame, 0.0, seat.max_height_m, seat.max_length_m, seat.max_width_m)
        for board in boards(build):
            if board.kind == kind:
                middle = [(a + b) / 2 for a, b in zip(board.low, board.high, strict=True)]
                for axis in range(3):
                    wide = room.high[axis] - room.low[axis]
                    yield _line(middle, axis, board.low[axis] + wide, board.high[axis])

    return find


def _stack_height(build: Build, amount: float) -> Lines:
    seat = build.frame.stack_seat
    room = on_seat(build.frame, 0.0, seat.max_height_m, seat.max_length_m, seat.max_width_m)
    middle = [(a + b) / 2 for a, b in zip(room.low, room.high, strict=True)]
    top = boards(build)[-1]
    if stands(build.frame):
        yield _line(middle, FRONT, room.high[FRONT], top.high[FRONT])
    else:
        yield _line(middle, STATION, room.low[STATION], top.low[STATION])


def _motor(build: Build) -> tuple[Motor, Place, float]:
    """The motor, the middle of the first one, and the way from it to its propeller."""
    motor, rotor, seat = build.parts["motor"], build.frame.rotors[0], build.frame.motor_seat
    assert isinstance(motor, Motor)
    aft = -1.0 if rotor.pusher else 1.0
    station = rotor.station_m + aft * abs(seat.behind_prop_m)
    return motor, (station, rotor.right_m, rotor.front_m), -aft


def _motor_fairing(build: Build, amount: float) -> Lines:
    motor, middle, _ = _motor(build)
    edge = middle[FRONT] + motor.can_diameter_m / 2
    yield _line(middle, FRONT, edge - amount, edge)


def _motor_depth(build: Build, amount: float) -> Lines:
    """From the motor's end to the mouth of the fairing that it does not reach."""
    motor, middle, ahead = _motor(build)
    end = middle[STATION] + ahead * motor.can_length_m / 2
    yield _line(middle, STATION, end, end + ahead * amount)


def _camera_cage(build: Build, amount: float) -> Lines:
    camera, seat = build.parts["camera"], build.frame.camera_seat
    assert isinstance(camera, Camera)
    edge = seat.right_m + camera.width_m / 2
    yield _line((seat.station_m, 0.0, seat.front_m), RIGHT, edge - amount, edge)


def _camera_room(build: Build, amount: float) -> Lines:
    """Along the lens or square to it, whichever is the tighter."""
    camera, seat = build.parts["camera"], build.frame.camera_seat
    assert isinstance(camera, Camera)
    c, s = math.cos(build.uptilt_rad), math.sin(build.uptilt_rad)
    deep = camera.depth_m - seat.max_depth_m > camera.height_m - seat.max_height_m
    half, (u, w) = (camera.depth_m / 2, (-s, c)) if deep else (camera.height_m / 2, (-c, -s))

    def at(way: float) -> Place:
        return (seat.station_m + u * way, seat.right_m, seat.front_m + w * way)

    yield at(half - amount), at(half)


def _prop_body(build: Build, amount: float) -> Lines:
    yield from _prop_in_boxes(build)
    yield from _prop_in_body(build)


def _prop_in_boxes(build: Build) -> Lines:
    """Along the axis through the disk's faces, and in its plane from the box to the rim."""
    prop = build.parts["prop"]
    assert isinstance(prop, Prop)
    thick, radius = prop.hub_thickness_m / 2, prop.diameter_m / 2
    for box in beside_rotors(build):
        for rotor in build.frame.rotors:
            middle = (rotor.station_m, rotor.right_m, rotor.front_m)
            near = [
                float(np.clip(m, a, b)) for m, a, b in zip(middle, box.low, box.high, strict=True)
            ]
            u, v = near[RIGHT] - rotor.right_m, near[FRONT] - rotor.front_m
            away = math.hypot(u, v)
            if away > radius or abs(near[STATION] - rotor.station_m) > thick:
                continue
            low, high = rotor.station_m - thick, rotor.station_m + thick
            yield _line(near, STATION, box.low[STATION], high)
            yield _line(near, STATION, box.high[STATION], low)
            if away > 0.0:
                share = radius / away
                rim = (rotor.right_m + share * u, rotor.front_m + share * v)
                yield (rotor.station_m, near[RIGHT], near[FRONT]), (rotor.station_m, *rim)


def _prop_in_body(build: Build) -> Lines:
    """In the disk's plane from its rim to the body's edge, in the direction of least overlap."""
    prop, outline = build.parts["prop"], build.frame.outline
    assert isinstance(prop, Prop)
    if len(outline.stations_m) < 2:
        return
    thick = prop.hub_thickness_m / 2
    for rotor in build.frame.rotors:
        towards = math.atan2(rotor.front_m, rotor.right_m)
        angles = np.concatenate([towards + _FAN_RAD, np.arange(4) * np.pi / 2])
        right, front = np.cos(angles), np.sin(angles)
        low, high = rotor.station_m - thick, rotor.station_m + thick
        inside = [x for x in outline.stations_m if low < x < high]
        reaches = section_reach(outline, right, front)
        widest = [np.interp([low, high, *inside], outline.stations_m, r).max() for r in reaches]
        tips = rotor.right_m * right + rotor.front_m * front - prop.diameter_m / 2
        k = int(np.argmax(tips - widest))

        def at(
            away: float, k: int = k, right: np.ndarray = right, front: np.ndarray = front,
            station: float = rotor.station_m,
        ) -> Place:  # fmt: skip
            return (station, float(away * right[k]), float(away * front[k]))

        yield at(float(widest[k])), at(float(tips[k]))


def _apart(build: Build, amount: float) -> Lines:
    for a, b in pairs_of(solids(build)):
        gap = gap_between(a, b)
        if gap.gap_m < 0.0 and abs(gap.gap_m + amount) < SAME_M:
            yield from _through(a.low, a.high, b.low, b.high, gap.axis)


def _keep_outs(build: Build, amount: float) -> Lines:
    for box in free_of_parts(build.frame):
        for part in solids(build):
            gap = gap_between(part, box)
            if gap.gap_m < 0.0 and abs(gap.gap_m + amount) < SAME_M:
                yield from _through(box.low, box.high, part.low, part.high, gap.axis)


def _through(low: Place, high: Place, other_low: Place, other_high: Place, axis: int) -> Lines:
    """Along an axis through what two boxes share."""
    middle = [
        (max(a, c) + min(b, d)) / 2
        for a, b, c, d in zip(low, high, other_low, other_high, strict=True)
    ]
    yield _line(middle, axis, high[axis], other_low[axis])
    yield _line(middle, axis, low[axis], other_high[axis])


_FINDERS: dict[str, Callable[[Build, float], Lines]] = {
    "esc_board": _board("esc"), "stack_board": _board("stack"), "stack_height": _stack_height,
    "motor_fairing": _motor_fairing, "motor_depth": _motor_depth, "prop_body": _prop_body,
    "camera_cage": _camera_cage, "camera_room": _camera_room, "parts_apart": _apart,
    "keep_outs": _keep_outs,
}  # fmt: skip
