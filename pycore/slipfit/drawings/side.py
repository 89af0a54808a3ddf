"""Side elevation: the frame seen from its right, nose to the left, front upwards, to scale."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from slipfit.build import Build
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.checks.verdict import Verdict
from slipfit.drawings.drawing import Dimension, Drawing, Outline, Point
from slipfit.drawings.overlaps import dimensions as overlap_dimensions
from slipfit.drawings.overlaps import overlaps
from slipfit.drawings.shapes import (
    BESIDE,
    BOARD_CHECKS,
    bounded,
    gap_dimension,
    rectangle,
    turned_rectangle,
)
from slipfit.fit.bays import held
from slipfit.fit.placing import Placed, all_placed, upright
from slipfit.fit.rotors import body_half_height
from slipfit.fit.solids import (
    FRONT,
    STATION,
    Solid,
    boards,
    free_of_parts,
    on_seat,
    openings,
    overlapping,
)
from slipfit.frame.frame import PILED, Bay, BodyEntry, Frame, RotorMount
from slipfit.parts.camera import Camera
from slipfit.parts.motor import Motor
from slipfit.parts.prop import Prop
from slipfit.physics.body.box import Box
from slipfit.physics.body.cylinder import Cylinder
from slipfit.physics.body.fins import Fin
from slipfit.physics.body.plate import Plate
from slipfit.physics.body.streamlined import Streamlined
from slipfit.physics.body.strut import Strut

# Phones show a long elevation turned, which its caption must not deny.
_LYING = "nose to the left and front upwards, or, on a narrow screen, nose upwards and front right"


def draw_side(
    build: Build, balance_station_m: float | None = None, pressure_station_m: float | None = None
) -> Drawing:
    """The side elevation of a build with its parts in their places, the balance point, and the
    centre of pressure where it lies within the drawing."""
    frame = build.frame
    verdicts = fit_verdicts(build)
    outlines = [*_bodies(frame), *_rotors(build, verdicts), *_boards(build, verdicts)]
    outlines += _camera(build, verdicts)
    outlines += [_seen("keep-out", box, f"stays free: {box.name}") for box in free_of_parts(frame)]
    outlines += [_seen("opening", box, box.name) for box in openings(frame)]
    dimensions: list[Dimension] = []
    for bay in frame.bays:
        pieces, gaps = _bay(build, bay)
        outlines += [_turned(piece) for piece in pieces] if bay.lies == "across" else pieces
        dimensions += [_turned_gap(gap) for gap in gaps] if bay.lies == "across" else gaps
    dimensions += overlap_dimensions(
        overlaps(build, verdicts), lambda place: (place[STATION], -place[FRONT])
    )
    low = min(x for outline in outlines for x, _ in outline.points)
    far = max(x for outline in outlines for x, _ in outline.points)
    outlines.insert(0, Outline(role="axis", points=((low, 0.0), (far, 0.0)), closed=False))
    points = []
    if balance_station_m is not None:
        points.append(Point(role="balance", x=balance_station_m, y=0.0, label="balance point"))
    if pressure_station_m is not None and low <= pressure_station_m <= far:
        points.append(
            Point(
                role="pressure",
                x=pressure_station_m,
                y=0.0,
                label="centre of pressure, flat out",
            )
        )
    wide = [y for outline in outlines for _, y in outline.points]
    nose_up = max(wide) - min(wide) > far - low  # a flat frame
    where = "nose upwards, front to the right" if nose_up else _LYING
    drawing = bounded(
        "side",
        f"{frame.name} from its right side",
        f"To scale, {where}. A part lies against one wall of its bay, so "
        "that the whole gap shows on the other side; what clashes is hatched, with the overlap.",
        outlines, points, dimensions,
    )  # fmt: skip
    return replace(drawing, nose_up=nose_up)


def draw_frame(build: Build) -> tuple[Outline, ...]:
    """Body, arms, fins and propellers alone, without what lies inside."""
    return (*_bodies(build.frame), *_rotors(build, ()))


def _bay(build: Build, drawn: Bay) -> tuple[list[Outline], list[Dimension]]:
    """A bay with its part, as it stands upright."""
    bay = upright(drawn)
    corners = ((bay.width_m, bay.height_m), (bay.end_width_m, bay.end_height_m))
    high = bay.diameter_m if bay.shape == "tube" else corners[0][1]
    end_high = corners[1][1] if bay.shape == "tapered" else high
    low, far = bay.station_m - bay.length_m / 2, bay.station_m + bay.length_m / 2
    y = -bay.front_m
    outlines = [
        Outline(
            role="bay",
            name=bay.label or f"{bay.kind} bay",
            points=(
                (low, y - high / 2), (far, y - end_high / 2),
                (far, y + end_high / 2), (low, y + high / 2),
            ),
        )
    ]  # fmt: skip
    parts = held(build.frame, drawn, build.parts)
    pile = ("station", "right", "front")[PILED.index(bay.piled)]
    gaps: list[Dimension] = []
    over = overlapping(build)
    for kind, place in all_placed(drawn, parts).items():
        outlines.append(
            rectangle(
                "clash" if place.state == "clashes" or kind in over else "part",
                place.station.low_m, place.station.high_m,
                -place.front.high_m, -place.front.low_m,
                f"{parts[kind].name}: {_said(place)}" + BESIDE * (kind in over),
            )
        )  # fmt: skip
        if place.leads:
            outlines.append(
                rectangle(
                    "bay", place.leads.low_m, place.leads.high_m, -place.front.high_m,
                    -place.front.low_m, "room for leads and connector",
                )
            )  # fmt: skip
        on_top = kind == list(parts)[-1] or place.side_axis != pile
        if on_top and (kind == "pack" or place.state != "clear"):
            gaps += _gap(place)
    return outlines, gaps


def _seen(role: str, box: Solid, name: str) -> Outline:
    """A box as this view shows it."""
    return rectangle(
        role, box.low[STATION], box.high[STATION], -box.high[FRONT], -box.low[FRONT], name
    )


def _turned(piece: Outline) -> Outline:
    """A piece of a bay that lies across the axis, turned back from upright."""
    return replace(piece, points=tuple((y, x) for x, y in piece.points))


def _turned_gap(gap: Dimension) -> Dimension:
    return replace(gap, x1=gap.y1, y1=gap.x1, x2=gap.y2, y2=gap.x2)


def _said(place: Placed) -> str:
    if place.state == "clashes":
        where = "across its corners" if place.side == "corners" else f"in {place.side}"
        return f"clashes {where}"
    return place.state


def _gap(place: Placed) -> Iterator[Dimension]:
    """The gap along the bay or to the front, where the tightest side shows in this view."""
    wall = place.wall_station
    if place.side_axis == "station":
        # From the end of the part, or of its leads, to the wall beyond.
        y = -(place.front.low_m + place.front.high_m) / 2
        if place.leads and place.leads.low_m < place.station.low_m:
            yield gap_dimension(wall.low_m + place.clearance_m, y, wall.low_m, y, place.clearance_m)
        else:
            yield gap_dimension(
                wall.high_m - place.clearance_m, y, wall.high_m, y, place.clearance_m
            )
    elif place.side_axis == "front":
        x = place.tight_station_m
        edge, front = place.front.high_m + place.leads_front_m, place.wall_front.high_m
        yield gap_dimension(x, -edge, x, -front, front - edge)


def _state(verdicts: tuple[Verdict, ...], *ids: str) -> str:
    """`clash` or `part`, the role of a piece that certain checks are about."""
    return "clash" if any(v.id in ids and v.severity == 2 for v in verdicts) else "part"


def _bodies(frame: Frame) -> Iterator[Outline]:
    contour = frame.outline
    if contour.stations_m:
        upper = list(zip(contour.stations_m, contour.half_heights_m, strict=True))
        yield Outline(
            role="shell",
            name="body",
            points=(*((x, -r) for x, r in upper), *((x, r) for x, r in reversed(upper))),
        )
    for body in frame.bodies:
        yield from _body(frame, body)


def _body(frame: Frame, body: BodyEntry) -> Iterator[Outline]:
    """The other bodies by their shape. What stands several times without a place of its own is one
    for each rotor, or spread evenly around the axis."""
    shape, x = body.shape, body.station_m
    at_rotors = body.count == len(frame.rotors) and not (body.right_m or body.front_m)
    fronts = sorted({r.front_m for r in frame.rotors}) if at_rotors else [body.front_m]
    if isinstance(shape, Fin):
        chord = shape.area_m2 / shape.span_m
        root = body_half_height(frame.outline, x)
        for k in range(body.count):
            angle = math.tau * (k + 0.5) / body.count
            if body.count == 1 or body.right_m or body.front_m:
                angle = math.atan2(body.right_m, body.front_m)
            inner, outer = root * math.cos(angle), (root + shape.span_m) * math.cos(angle)
            yield rectangle("fin", x - chord / 2, x + chord / 2, -inner, -outer, body.name)
    elif isinstance(shape, Strut):
        for front in fronts:
            root = math.copysign(min(body_half_height(frame.outline, x), abs(front)), front)
            inner = root if at_rotors else front - shape.span_m / 2
            outer = front if at_rotors else front + shape.span_m / 2
            yield rectangle(
                "arm", x - shape.chord_m / 2, x + shape.chord_m / 2, -inner, -outer, body.name
            )
    elif isinstance(shape, Streamlined):
        if body.right_m == body.front_m == 0.0 and body.count == 1:
            return  # the main body, drawn by its outline
        for front in fronts:
            yield _pod(shape, x, -front, body.name)
    elif isinstance(shape, (Box, Cylinder, Plate)):
        if isinstance(shape, Box):
            length, high = shape.length_m, shape.height_m
        elif isinstance(shape, Plate):
            length, high = shape.thickness_m, shape.depth_m
        else:
            length, high = shape.length_m, shape.diameter_m
            if shape.across:
                length, high = high, length
        for front in fronts:
            yield rectangle(
                "arm", x - length / 2, x + length / 2, -front - high / 2, -front + high / 2,
                body.name,
            )  # fmt: skip


def _pod(shape: Streamlined, x: float, y: float, name: str) -> Outline:
    """A small streamlined body: half an ellipse, a straight piece, and the taper to its base."""
    start, half = x - shape.length_m / 2, shape.height_m / 2
    tip = min(shape.flat_nose_diameter_m / shape.height_m, 1.0)
    turns = [k * math.pi / 16 for k in range(9)]
    upper = [
        (
            start + shape.nose_length_m * (1 - math.cos(t)),
            half * (tip + (1 - tip) * math.sin(t)),
        )
        for t in turns
    ]
    upper.append((start + shape.length_m - shape.boat_tail_length_m, half))
    upper.append((start + shape.length_m, half * shape.base_ratio))
    return Outline(
        role="shell",
        name=name,
        points=(*((u, y - r) for u, r in upper), *((u, y + r) for u, r in reversed(upper))),
    )


def _rotors(build: Build, verdicts: tuple[Verdict, ...]) -> Iterator[Outline]:
    """Propeller disks edge-on and motors, once where two lie behind each other."""
    prop, motor = build.parts.get("prop"), build.parts.get("motor")
    seen: set[tuple[float, float]] = set()
    for rotor in build.frame.rotors:
        place = (round(rotor.station_m, 6), round(rotor.front_m, 6))
        if place in seen:
            continue
        seen.add(place)
        x, y = rotor.station_m, -rotor.front_m
        where = _front_or_back(rotor)
        if isinstance(prop, Prop):
            clash = _state(verdicts, "prop_tips", "prop_body") == "clash"
            thick = prop.hub_thickness_m / 2
            yield rectangle(
                "clash" if clash else "disk", x - thick, x + thick,
                y - prop.diameter_m / 2, y + prop.diameter_m / 2,
                f"{prop.name}, {where}" + (": clashes" if clash else ""),
            )  # fmt: skip
        if isinstance(motor, Motor):
            aft = -1.0 if rotor.pusher else 1.0
            middle = x + aft * abs(build.frame.motor_seat.behind_prop_m)
            yield rectangle(
                _state(verdicts, "motor_fairing", "motor_depth"),
                middle - motor.can_length_m / 2, middle + motor.can_length_m / 2,
                y - motor.can_diameter_m / 2, y + motor.can_diameter_m / 2,
                f"{motor.name}, {where}",
            )  # fmt: skip


def _front_or_back(rotor: RotorMount) -> str:
    if abs(rotor.front_m) < 1e-6:
        return "on the axis"
    return "in front" if rotor.front_m > 0 else "behind"


def _boards(build: Build, verdicts: tuple[Verdict, ...]) -> Iterator[Outline]:
    """ESC and flight controller on their seat."""
    seat = build.frame.stack_seat
    room = on_seat(build.frame, 0.0, seat.max_height_m, seat.max_length_m, seat.max_width_m)
    yield _seen("bay", room, room.name)
    for board in boards(build):
        role = _state(verdicts, *BOARD_CHECKS[board.kind])
        yield _seen("clash" if board.kind in overlapping(build) else role, board, board.name)


def _camera(build: Build, verdicts: tuple[Verdict, ...]) -> Iterator[Outline]:
    """The camera, its lens along the uptilt: 0 looks to the front, 90 degrees along the nose."""
    camera, seat = build.parts.get("camera"), build.frame.camera_seat
    if isinstance(camera, Camera):
        yield turned_rectangle(
            "clash" if "camera" in overlapping(build) else
            _state(verdicts, "camera_cage", "camera_room", "camera_uptilt"),
            seat.station_m, -seat.front_m, camera.depth_m, camera.height_m,
            math.atan2(-math.cos(build.uptilt_rad), -math.sin(build.uptilt_rad)),
            camera.name,
        )  # fmt: skip
