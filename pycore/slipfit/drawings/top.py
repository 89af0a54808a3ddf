"""View along the rotor axis from the nose, front upwards, to scale: for a flat frame the view from
above."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import chain

import numpy as np

from slipfit.build import Build
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.checks.verdict import Verdict
from slipfit.drawings.drawing import Dimension, Drawing, Outline, Point
from slipfit.drawings.overlaps import bay_overlaps, overlaps
from slipfit.drawings.overlaps import dimensions as overlap_dimensions
from slipfit.drawings.shapes import (
    BESIDE,
    BOARD_CHECKS,
    bounded,
    gap_dimension,
    rectangle,
    turned_rectangle,
)
from slipfit.fit.bays import held
from slipfit.fit.placing import all_placed, upright
from slipfit.fit.rotors import body_half_height, section_polygon
from slipfit.fit.solids import (
    FRONT,
    RIGHT,
    Solid,
    boards,
    free_of_parts,
    on_seat,
    openings,
    overlapping,
)
from slipfit.frame.frame import Bay, BodyEntry, Frame, RotorMount
from slipfit.masses import balance
from slipfit.parts.camera import Camera
from slipfit.parts.motor import Motor
from slipfit.parts.prop import Prop
from slipfit.physics.body.box import Box
from slipfit.physics.body.cylinder import Cylinder
from slipfit.physics.body.fins import Fin
from slipfit.physics.body.plate import Plate
from slipfit.physics.body.streamlined import Streamlined
from slipfit.physics.body.strut import Strut

_ROOT = 0.9  # of an arm's way to the axis, drawn where plates hide its end
_ROUND = tuple(math.tau * k / 48 for k in range(48))


def draw_top(
    build: Build, balance_station_m: float | None = None, pressure_station_m: float | None = None
) -> Drawing:
    """Disks, arms, body and parts of a build in the plane of the rotors, with the gap between the
    propellers that are nearest to each other."""
    frame = build.frame
    verdicts = fit_verdicts(build)
    outlines = [*_bodies(frame), *_rotors(build, verdicts), *_boards(build, verdicts)]
    for bay in frame.bays:
        outlines += _bay(build, bay)
    outlines += _camera(build, verdicts)
    outlines += [_seen("keep-out", box, f"stays free: {box.name}") for box in free_of_parts(frame)]
    outlines += [_seen("opening", box, box.name) for box in openings(frame)]
    low = min(y for outline in outlines for _, y in outline.points)
    far = max(y for outline in outlines for _, y in outline.points)
    outlines.insert(0, Outline(role="axis", points=((0.0, low), (0.0, far)), closed=False))
    points = []
    if balance_station_m is not None:
        place = balance(build)
        points.append(
            Point(role="balance", x=place.right_m, y=-place.front_m, label="balance point")
        )
    found = chain(overlaps(build, verdicts), bay_overlaps(build))
    over = overlap_dimensions(found, lambda place: (place[RIGHT], -place[FRONT]))
    seen = "from its nose" if frame.outline.stations_m else "from above"
    return bounded(
        "top",
        f"{frame.name} {seen}",
        f"To scale, seen {seen.replace('its', 'the')} along the rotor axis, front upwards. What "
        "clashes is hatched, with the overlap; the gap is that between the propellers nearest to "
        "each other.",
        outlines, points, (*_tip_gap(build), *over),
    )  # fmt: skip


def _circle(role: str, x: float, y: float, diameter: float, name: str) -> Outline:
    r = diameter / 2
    return Outline(
        role=role,
        name=name,
        points=tuple((x + r * math.cos(t), y + r * math.sin(t)) for t in _ROUND),
    )


def _state(verdicts: tuple[Verdict, ...], *ids: str) -> str:
    return "clash" if any(v.id in ids and v.severity == 2 for v in verdicts) else "part"


def _bodies(frame: Frame) -> Iterator[Outline]:
    contour = frame.outline
    if contour.stations_m:
        widest = contour.stations_m[int(np.argmax(contour.half_widths_m))]
        yield Outline(
            role="shell", name="body, where it is widest", points=section_polygon(contour, widest)
        )
    at_rotors = len(frame.rotors)
    for body in sorted(frame.bodies, key=lambda body: body.count != at_rotors):  # arms below
        yield from _body(frame, body)


def _body(frame: Frame, body: BodyEntry) -> Iterator[Outline]:
    """A body by its shape: one for each rotor, spread around the axis, or in its own place."""
    shape = body.shape
    own_place = bool(body.right_m or body.front_m)
    at_rotors = body.count == len(frame.rotors) and not own_place
    spots = [(r.right_m, -r.front_m) for r in frame.rotors] if at_rotors else []
    if not at_rotors and (body.count == 1 or own_place):
        spots = [(body.right_m, -body.front_m)]
    if isinstance(shape, Fin):
        root = body_half_height(frame.outline, body.station_m)
        for k in range(body.count):
            angle = math.tau * (k + 0.5) / body.count
            middle = root + shape.span_m / 2
            yield turned_rectangle(
                "fin", middle * math.sin(angle), -middle * math.cos(angle), shape.span_m,
                shape.thickness_m, math.atan2(-math.cos(angle), math.sin(angle)), body.name,
            )  # fmt: skip
    elif isinstance(shape, Streamlined):
        if at_rotors or own_place:
            for x, y in spots:
                yield _circle("shell", x, y, shape.width_m, body.name)
    elif isinstance(shape, (Strut, Plate)) and at_rotors:
        # An arm: from the rotor's axis towards the frame's.
        long, broad = (
            (shape.span_m, shape.thickness_m)
            if isinstance(shape, Strut)
            else (shape.width_m, shape.depth_m)
        )
        for x, y in spots:
            away = math.hypot(x, y)
            if away > 0.0:
                # The arms of a flat frame reach on between its plates.
                reach = long if frame.outline.stations_m else max(long, _ROOT * away)
                middle = (away - reach / 2) / away
                yield turned_rectangle(
                    "arm", x * middle, y * middle, reach, broad, math.atan2(y, x), body.name
                )
    elif isinstance(shape, Box):
        for x, y in spots:
            yield turned_rectangle("arm", x, y, shape.width_m, shape.height_m, 0.0, body.name)
    elif isinstance(shape, Plate):
        for x, y in spots:
            yield turned_rectangle("arm", x, y, shape.width_m, shape.depth_m, 0.0, body.name)
    elif isinstance(shape, Cylinder) and not shape.across:
        for x, y in spots:
            yield _circle("arm", x, y, shape.diameter_m, body.name)


def _rotors(build: Build, verdicts: tuple[Verdict, ...]) -> Iterator[Outline]:
    prop, motor = build.parts.get("prop"), build.parts.get("motor")
    clash = _state(verdicts, "prop_tips", "prop_body") == "clash"
    for rotor in build.frame.rotors:
        x, y, where = rotor.right_m, -rotor.front_m, _where(rotor)
        if isinstance(prop, Prop):
            said = f"{prop.name}, {where}" + (": clashes" if clash else "")
            yield _circle("clash" if clash else "disk", x, y, prop.diameter_m, said)
        if isinstance(motor, Motor):
            yield _circle(
                _state(verdicts, "motor_fairing", "motor_holes"), x, y, motor.can_diameter_m,
                f"{motor.name}, {where}",
            )  # fmt: skip


def _where(rotor: RotorMount) -> str:
    ahead = "in front" if rotor.front_m > 1e-6 else "behind" if rotor.front_m < -1e-6 else ""
    beside = "right" if rotor.right_m > 1e-6 else "left" if rotor.right_m < -1e-6 else ""
    return " ".join(word for word in (ahead, beside) if word) or "on the axis"


def _tip_gap(build: Build) -> list[Dimension]:
    """Between the two disks that are nearest in this plane."""
    prop, rotors = build.parts.get("prop"), build.frame.rotors
    if not isinstance(prop, Prop) or len(rotors) < 2:
        return []
    pairs = [(a, b) for k, a in enumerate(rotors) for b in rotors[k + 1 :]]
    a, b = min(
        pairs, key=lambda p: math.hypot(p[0].right_m - p[1].right_m, p[0].front_m - p[1].front_m)
    )
    dx, dy = b.right_m - a.right_m, a.front_m - b.front_m
    away, radius = math.hypot(dx, dy), prop.diameter_m / 2
    if away <= 0.0:
        return []  # one above the other
    u, v = dx / away * radius, dy / away * radius
    return [
        gap_dimension(
            a.right_m + u, -a.front_m + v, b.right_m - u, -b.front_m - v, away - 2 * radius
        )
    ]


def _boards(build: Build, verdicts: tuple[Verdict, ...]) -> Iterator[Outline]:
    """In a flat frame the boards lie in this plane; in a body they stand on edge."""
    if build.frame.outline.stations_m:
        return
    seat = build.frame.stack_seat
    room = on_seat(build.frame, 0.0, seat.max_height_m, seat.max_length_m, seat.max_width_m)
    yield _seen("bay", room, room.name)
    for board in boards(build):
        role = _state(verdicts, *BOARD_CHECKS[board.kind])
        yield _seen("clash" if board.kind in overlapping(build) else role, board, board.name)


def _bay(build: Build, bay: Bay) -> Iterator[Outline]:
    """The room of a bay in this plane, and its part."""
    room = upright(bay)
    across = bay.lies == "across"
    deep = room.diameter_m if room.shape == "tube" else room.height_m
    wide = room.diameter_m if room.shape == "tube" else room.width_m
    middle, long = (room.station_m, room.length_m) if across else (-room.front_m, deep)
    yield turned_rectangle(
        "bay", room.right_m, middle, wide, long, 0.0, bay.label or f"{bay.kind} bay"
    )
    parts = held(build.frame, bay, build.parts)
    over = overlapping(build)
    for kind, place in all_placed(bay, parts).items():
        span = place.station if across else place.front
        sign = 1.0 if across else -1.0
        yield rectangle(
            "clash" if place.state == "clashes" or kind in over else "part",
            place.right.low_m, place.right.high_m, sign * span.low_m, sign * span.high_m,
            f"{parts[kind].name}: {place.state}" + BESIDE * (kind in over),
        )  # fmt: skip


def _seen(role: str, box: Solid, name: str) -> Outline:
    """A box as this view shows it."""
    return rectangle(role, box.low[RIGHT], box.high[RIGHT], -box.high[FRONT], -box.low[FRONT], name)


def _camera(build: Build, verdicts: tuple[Verdict, ...]) -> Iterator[Outline]:
    """The camera as it looks to the front, shortened by its uptilt."""
    camera, seat = build.parts.get("camera"), build.frame.camera_seat
    if isinstance(camera, Camera):
        tilt = build.uptilt_rad
        seen = abs(camera.depth_m * math.cos(tilt)) + abs(camera.height_m * math.sin(tilt))
        yield turned_rectangle(
            "clash" if "camera" in overlapping(build) else
            _state(verdicts, "camera_cage", "camera_room", "camera_uptilt"),
            seat.right_m, -seat.front_m, camera.width_m, seen, 0.0, camera.name,
        )  # fmt: skip
