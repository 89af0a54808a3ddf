"""Drawings to scale: outlines by role, clashes hatched, clearances dimensioned, points marked."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from slipfit.drawings.drawing import Dimension, Drawing, Outline, Point, Turning
from slipfit.markup import Tree, el
from slipfit.page.axes import text_width
from slipfit.page.svg import hatch, number, text

WIDE, NARROW = 680, 340
SIZE = 12.0
_EDGE = 26.0  # px kept free around the drawing for dimensions
_FLAT = 0.5  # height over width below which the names of points stand above and below the drawing
_BELOW = 34.0  # px for the scale bar
_STEP = SIZE + 3.0  # px by which a label moves up or down, where another stands in its place
_STEPS = (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8, -8)
_Box = tuple[float, float, float, float]  # left, top, right, bottom
_ROLES = (  # from back to front
    "field", "ground", "sight", "axis", "disk", "arm", "fin", "shell", "bay", "keep-out", "opening",
    "part", "clash",
)  # fmt: skip


@dataclass(frozen=True)
class _Paper:
    """Where the drawing lies on the picture; `upright` turns it a quarter clockwise, so that what
    was on the left is at the top and what was at the top is on the right."""

    drawing: Drawing
    width: float
    upright: bool

    @property
    def scale(self) -> float:
        """Pixels per metre."""
        d = self.drawing
        across = (d.bottom - d.top) if self.upright else (d.right - d.left)
        return (self.width - 2 * _EDGE) / max(across, 1e-6)

    @property
    def height(self) -> float:
        """Height of the picture in px, with room for the scale bar."""
        d = self.drawing
        along = (d.right - d.left) if self.upright else (d.bottom - d.top)
        return along * self.scale + 2 * _EDGE + _BELOW

    def at(self, x: float, y: float) -> tuple[float, float]:
        """The pixel of a point in metres."""
        d = self.drawing
        if self.upright:
            return _EDGE + (d.bottom - y) * self.scale, _EDGE + (x - d.left) * self.scale
        return _EDGE + (x - d.left) * self.scale, _EDGE + (y - d.top) * self.scale


def drawing_figure(drawing: Drawing, system: str) -> Tree:
    """The whole figure: a wide picture and one for phones, on which a long side elevation stands
    upright. A scene keeps its ground below, and what is seen along the axis its front above."""
    long = (drawing.right - drawing.left) > 1.1 * (drawing.bottom - drawing.top)
    long = long and drawing.id == "side"
    return el(
        "figure",
        el("p", drawing.title, class_="sf-figure-title"),
        el("div", _picture(drawing, system, WIDE, drawing.nose_up), class_="sf-only-wide"),
        el(
            "div",
            _picture(drawing, system, NARROW, long or drawing.nose_up),
            class_="sf-only-narrow",
        ),
        *_stages(drawing, system),
        el("output", class_="sf-piece-name sf-scripted", aria_live="off"),
        el("figcaption", drawing.caption),
        class_="sf-drawing",
        data_drawing=drawing.id,
    )


def _picture(drawing: Drawing, system: str, width: int, upright: bool) -> Tree:
    paper = _Paper(drawing, float(width), upright)
    hatches = {
        role: f"sf-{role}-{drawing.id}-{width}".replace("_", "-") for role in ("clash", "keep-out")
    }
    defs = [hatch(hatches["clash"], 4, "sf-hatch-clash")]
    if any(outline.role == "keep-out" for outline in drawing.outlines):
        defs.append(hatch(hatches["keep-out"], 5, "sf-hatch-keep-out"))
    ordered = sorted(
        drawing.outlines, key=lambda o: _ROLES.index(o.role) if o.role in _ROLES else 0
    )
    taken = [_label_box(*_point_label(point, paper), point.label) for point in drawing.points]
    return el(
        "svg",
        el("title", drawing.title),
        el("desc", drawing.caption),
        el("defs", *defs),
        *_turning(drawing, paper),
        *(_outline(outline, paper, hatches) for outline in ordered),
        *(_dimension(dimension, paper, system, taken) for dimension in drawing.dimensions),
        *(_point(point, paper, k) for k, point in enumerate(drawing.points)),
        *_scale_bar(paper, system),
        class_="sf-picture",
        viewBox=f"0 0 {width} {number(paper.height)}",
        role="group",
        aria_label=drawing.title,
    )


def _turning(drawing: Drawing, paper: _Paper) -> Iterator[Tree]:
    """What turns, as in the first stage, cut off at the picture's edge."""
    if not drawing.stages:
        return
    degrees = math.degrees(drawing.stages[drawing.stage].turn_rad)
    for turning in drawing.turning:
        _, top = paper.at(turning.x, turning.top)
        _, bottom = paper.at(turning.x, turning.bottom)
        yield el(
            "svg",
            _turned(turning, degrees, paper),
            y=number(top),
            width=number(paper.width),
            height=number(bottom - top),
            viewBox=f"0 {number(top)} {number(paper.width)} {number(bottom - top)}",
            aria_hidden="true",
        )


def _turned(turning: Turning, degrees: float, paper: _Paper) -> Tree:
    about = " ".join(number(place) for place in paper.at(turning.x, turning.y))
    pieces = []
    for outline in turning.outlines:
        places = (paper.at(turning.x + x, turning.y + y) for x, y in outline.points)
        points = " ".join(f"{x:.2f},{y:.2f}" for x, y in places)
        shape = el("polygon" if outline.closed else "polyline", points=points)
        pieces.append(el("g", shape, class_=f"sf-piece sf-role-{outline.role}"))
    return el("g", *pieces, transform=f"rotate({degrees:.2f} {about})", data_turns=about)


def _stages(drawing: Drawing, system: str) -> Iterator[Tree]:
    """The words of the first stage, and a handle that a script gives life to."""
    if not drawing.stages:
        return
    yield el("p", drawing.stages[drawing.stage].words(system), class_="sf-stage-words")
    if len(drawing.stages) < 2:
        return
    name = f"sf-stage-{drawing.id}".replace("_", "-")
    yield el(
        "div",
        el("label", "Speed", for_=name),
        el(
            "input",
            type="range",
            id=name,
            min=0,
            max=len(drawing.stages) - 1,
            step=1,
            value=drawing.stage,
            data_stage=drawing.id,
        ),
        class_="sf-cursor-reader sf-scripted",
    )
    yield el(
        "ol",
        *(
            el("li", stage.words(system), data_turn=f"{math.degrees(stage.turn_rad):.2f}")
            for stage in drawing.stages
        ),
        hidden=True,
        class_="sf-stages",
    )


def _outline(outline: Outline, paper: _Paper, hatches: Mapping[str, str]) -> Tree:
    points = " ".join(f"{number(x)},{number(y)}" for x, y in (paper.at(*p) for p in outline.points))
    shape = el(
        "polygon" if outline.closed else "polyline",
        points=points,
    )
    # On the group, from which the style sheet lets a hatched piece inherit it.
    fill = f"url(#{hatches[outline.role]})" if outline.role in hatches else None
    if not outline.name:
        return el(
            "g", shape, class_=f"sf-piece sf-role-{outline.role}", fill=fill, aria_hidden="true"
        )
    return el(
        "g",
        el("title", outline.name),
        shape,
        class_=f"sf-piece sf-role-{outline.role}",
        fill=fill,
        role="img",
        tabindex=0,
        aria_label=outline.name,
    )


def _label_box(x: float, y: float, words: str, anchor: str | None = "middle") -> _Box:
    """What a label covers."""
    room = text_width(words, SIZE)
    left = {"middle": x - room / 2, "end": x - room}.get(anchor or "", x)
    return left, y - SIZE, left + room, y + 3.0


def _free_level(
    x: float, y: float, words: str, anchor: str | None, paper: _Paper, taken: list[_Box]
) -> float:
    """The level nearest to `y` at which a label covers no other, which it then takes."""
    for step in _STEPS:
        left, top, right, bottom = box = _label_box(x, y - step * _STEP, words, anchor)
        inside = top >= 0.0 and bottom <= paper.height - _BELOW / 2
        if inside and all(
            left >= r or right <= a or top >= b or bottom <= t for a, t, r, b in taken
        ):
            taken.append(box)
            return y - step * _STEP
    return y


def _dimension(dimension: Dimension, paper: _Paper, system: str, taken: list[_Box]) -> Tree:
    x1, y1 = paper.at(dimension.x1, dimension.y1)
    x2, y2 = paper.at(dimension.x2, dimension.y2)
    words = dimension.text_metric if system == "metric" else dimension.text_imperial
    length = max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, 1e-6)
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    tick = "".join(
        f"M{number(x - 4 * (ux + uy))} {number(y - 4 * (uy - ux))}"
        f"L{number(x + 4 * (ux + uy))} {number(y + 4 * (uy - ux))}"
        for x, y in ((x1, y1), (x2, y2))
    )
    room = text_width(words, SIZE)
    anchor: str | None = "middle"
    level = abs(ux) >= abs(uy)
    if level:
        x = min(max((x1 + x2) / 2, room / 2 + 2), paper.width - room / 2 - 2)
        y = min(y1, y2) - 6
    else:
        right = max(x1, x2) + 7 + room < paper.width
        x = max(x1, x2) + 7 if right else min(x1, x2) - 7
        y, anchor = (y1 + y2) / 2 + 4, None if right else "end"
    free = _free_level(x, y, words, anchor, paper, taken)
    line = f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}"
    lead = None
    if free != y:  # from the middle of the line to the label's near edge
        edge = free + 3.0 if free < y else free - SIZE
        middle = f"M{number((x1 + x2) / 2)} {number((y1 + y2) / 2)}"
        lead = el("path", d=f"{middle}L{number(x)} {number(edge)}", class_="sf-dim-lead")
    return el(
        "g",
        lead,
        el("path", d=line + tick, class_="sf-dim-line"),
        text(x, free, words, "sf-dim-text", anchor),
        class_="sf-dim sf-dim-clash" if dimension.clash else "sf-dim",
    )


def _is_flat(paper: _Paper) -> bool:
    """True where the names of points stand above and below the drawing."""
    return paper.height - 2 * _EDGE - _BELOW < _FLAT * paper.width


def _point_label(point: Point, paper: _Paper) -> tuple[float, float]:
    """Where the name of a point stands: its middle and its base line."""
    x, y = paper.at(point.x, point.y)
    room = text_width(point.label, SIZE)
    place = min(max(x, room / 2 + 2), paper.width - room / 2 - 2)
    below = point.role == "balance"
    if _is_flat(paper):
        return place, paper.height - _EDGE - _BELOW + 16.0 if below else _EDGE - 10.0
    return place, y + (24.0 if below else -28.0)


def _point(point: Point, paper: _Paper, k: int) -> Tree:
    """Balance: a beam on a wedge. Centre of pressure: a feathered arrow onto a dot."""
    x, y = paper.at(point.x, point.y)
    if point.role == "balance":
        mark = el("path", d=f"M{number(x - 11)} {number(y)}h22M{number(x)} {number(y)}l-6 11h12z")
    else:
        mark = el(
            "path",
            d=f"M{number(x)} {number(y - 22)}v18m-4 -5l4 6l4 -6m-8 -13l4 4l4 -4"
            f"M{number(x - 3)} {number(y)}a3 3 0 1 0 6 0a3 3 0 1 0 -6 0",
        )
    place, level = _point_label(point, paper)
    lead = None
    if _is_flat(paper):
        below = point.role == "balance"
        start, end = (y + 11.0, level - 12.0) if below else (level + 3.0, y - 22.0)
        if end > start:
            lead = el("path", d=f"M{number(x)} {number(start)}V{number(end)}", class_="sf-dim-line")
    return el(
        "g",
        el("title", point.label),
        mark,
        lead,
        text(place, level, point.label, "sf-dim-text", "middle"),
        class_=f"sf-point sf-point-{point.role}",
        role="img",
        tabindex=0,
        aria_label=point.label,
    )


def _scale_bar(paper: _Paper, system: str) -> list[Tree]:
    bars = _BARS[system]
    length_m, words = next(
        (bar for bar in reversed(bars) if bar[0] * paper.scale <= 0.3 * paper.width), bars[0]
    )
    px = length_m * paper.scale
    y = paper.height - 14
    return [
        el(
            "path",
            d=f"M2 {number(y - 4)}v8M2 {number(y)}h{number(px)}m0 -4v8",
            class_="sf-scale-bar",
        ),
        text(px + 10, y + 4, words, "sf-tick"),
    ]


_BARS: Final[Mapping[str, tuple[tuple[float, str], ...]]] = {
    "metric": (
        *((n * 1e-3, f"{n} mm") for n in (10, 20, 50, 100, 200)),
        *((float(n), f"{n} m") for n in (1, 2, 5, 10, 20, 50, 100, 200, 500)),
    ),
    "imperial": (
        *((n * 0.0254, f"{n:g} in") for n in (0.5, 1, 2, 4, 8)),
        *((n * 0.3048, f"{n} ft") for n in (2, 5, 10, 20, 50, 100, 200, 500, 1000)),
    ),
}
