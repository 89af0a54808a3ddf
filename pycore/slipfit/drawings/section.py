"""Cross-section through the pack's bay, where the pack is tightest in it, seen from the nose."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from slipfit.build import Build
from slipfit.drawings.drawing import Dimension, Drawing, Outline
from slipfit.drawings.shapes import bounded, gap_dimension, rectangle
from slipfit.fit.bays import held, hollow_of
from slipfit.fit.boxes import wall_gap
from slipfit.fit.placing import all_placed, upright
from slipfit.fit.rotors import section_polygon
from slipfit.fit.solids import FRONT, RIGHT, STATION, free_of_parts
from slipfit.frame.frame import Bay, Frame

_ARC = np.linspace(0.0, np.pi / 2, 9)


def draw_section(
    build: Build, balance_station_m: float | None = None, pressure_station_m: float | None = None
) -> Drawing:
    """The pack in its bay, right to the right: seen from the nose with the front upwards, or, where
    the bay lies across, seen from behind with the nose upwards."""
    frame = build.frame
    drawn = frame.bay_for("pack")
    bay = upright(drawn) if drawn else None
    lying = drawn is not None and drawn.lies == "across"
    pack = build.parts.get("pack")
    outlines: list[Outline] = []
    dimensions: list[Dimension] = []
    parts = held(frame, drawn, build.parts) if drawn else {}
    place = all_placed(drawn, parts)["pack"] if drawn and pack else None
    station = place.tight_station_m if place else bay.station_m if bay else 0.0
    shell = () if lying else section_polygon(frame.outline, station)
    if shell:
        outlines.append(Outline(role="shell", name="body", points=shell))
    if bay:
        hollow = hollow_of(bay)
        fraction = np.clip((station - bay.station_m) / bay.length_m + 0.5, 0.0, 1.0)
        width, height, corner = (float(v) for v in hollow.sizes(np.asarray(fraction)))
        label = bay.label or "pack bay"
        for lining, name in ((0.0, label), (bay.padding_m, f"{label}, inside its padding")):
            if lining or name == label:
                outlines.append(
                    Outline(
                        role="bay",
                        name=name,
                        points=_rounded(
                            bay.right_m, -bay.front_m, width - 2 * lining, height - 2 * lining,
                            max(corner - lining, 0.0),
                        ),
                    )
                )  # fmt: skip
    if bay and place and pack:
        right, front = place.right, place.front
        outlines.append(
            rectangle(
                "clash" if place.state == "clashes" else "part",
                right.low_m, right.high_m, -front.high_m, -front.low_m,
                f"{pack.name}: {place.state}",
            )
        )  # fmt: skip
        right_edge, front_edge = right.high_m, front.high_m
        if place.leads_right_m > 0 or place.leads_front_m > 0:
            right_edge, front_edge = (
                right_edge + place.leads_right_m,
                front_edge + place.leads_front_m,
            )
            x1 = right.high_m if place.leads_right_m else right.low_m
            y1 = front.high_m if place.leads_front_m else front.low_m
            outlines.append(
                rectangle("part", x1, right_edge, -front_edge, -y1, "leads along the pack's side")
            )
        if place.side == "corners":
            # From the corner to the wall, square to it: half of the whole gap.
            across, up = right_edge - right.low_m, front_edge - front.low_m
            gap = float(wall_gap(*(np.asarray(v) for v in (width, height, corner, across, up))))
            gap = _exact(gap / 2 - bay.padding_m)
            u, v = across / 2 - (width / 2 - corner), up / 2 - (height / 2 - corner)
            reach = max(float(np.hypot(u, v)), 1e-9)
            dimensions.append(
                gap_dimension(
                    right_edge, -front_edge,
                    right_edge + u / reach * gap, -front_edge - v / reach * gap, gap,
                )
            )  # fmt: skip
        else:
            middle, wall = -(front.low_m + front_edge) / 2, place.wall_right.high_m
            dimensions.append(
                gap_dimension(right_edge, middle, wall, middle, _exact(wall - right_edge))
            )
            middle, wall = (right.low_m + right_edge) / 2, place.wall_front.high_m
            dimensions.append(
                gap_dimension(middle, -front_edge, middle, -wall, _exact(wall - front_edge))
            )
    if bay:
        outlines += _free_beside(frame, bay, lying)
    if not outlines:
        outlines.append(Outline(role="axis", points=((0.0, -0.01), (0.0, 0.01)), closed=False))
    lies = "The pack lies against two walls, and the whole gap shows on the other sides."
    if place and not place.hollow.sharp:
        where = "at each corner" if place.side == "corners" else "on each side"
        lies = f"The pack lies in the middle, and the gap shown is that {where}."
    seen = "seen from behind, nose upwards" if lying else "seen from the nose, front upwards"
    return bounded(
        "section",
        f"{frame.name}: section through the pack bay",
        f"To scale, {seen}, cut where the pack is tightest. {lies}",
        outlines,
        (),
        dimensions,
    )


def _free_beside(frame: Frame, bay: Bay, lying: bool) -> Iterator[Outline]:
    """What stays free of parts somewhere along a bay that is turned `upright`."""
    for box in free_of_parts(frame):
        low, high, y1, y2 = box.low[STATION], box.high[STATION], -box.high[FRONT], -box.low[FRONT]
        if lying:
            low, high, y1, y2 = y1, y2, low, high
        if abs(low + high - 2 * bay.station_m) <= bay.length_m + high - low:
            name = f"stays free: {box.name}"
            yield rectangle("keep-out", box.low[RIGHT], box.high[RIGHT], y1, y2, name)


def _exact(gap_m: float) -> float:
    return 0.0 if abs(gap_m) < 1e-9 else gap_m


def _rounded(
    x: float, y: float, width: float, height: float, corner: float
) -> tuple[tuple[float, float], ...]:
    """A rectangle with rounded corners about (x, y)."""
    if corner <= 0:
        return rectangle("bay", x - width / 2, x + width / 2, y - height / 2, y + height / 2).points
    a, b = width / 2 - corner, height / 2 - corner
    points = []
    for quarter, (sx, sy) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        for angle in _ARC + quarter * np.pi / 2:
            points.append(
                (
                    float(x + sx * a + corner * np.cos(angle)),
                    float(y + sy * b + corner * np.sin(angle)),
                )
            )
    return tuple(points)
