"""Pieces that drawings share: rectangles, dimensions of gaps, and the bounds of it all."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from slipfit.drawings.drawing import Dimension, Drawing, Outline, Point
from slipfit.units import LENGTH_MM

# The checks that make a board of the stack a clash.
BOARD_CHECKS: Final = {
    "esc": ("esc_board", "esc_holes"),
    "stack": ("stack_board", "stack_holes", "stack_height"),
}
BESIDE: Final = ", but clashes with what lies beside it"
_MARGIN = 0.04  # of the larger side, kept free around a drawing


def rectangle(role: str, x1: float, x2: float, y1: float, y2: float, name: str = "") -> Outline:
    """A rectangle with its sides along the page."""
    return Outline(role=role, name=name, points=((x1, y1), (x2, y1), (x2, y2), (x1, y2)))


def turned_rectangle(
    role: str, x: float, y: float, length: float, width: float, angle_rad: float, name: str = ""
) -> Outline:
    """A rectangle about (x, y), its length turned by an angle from the page's x towards its y."""
    c, s = math.cos(angle_rad), math.sin(angle_rad)
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return Outline(
        role=role,
        name=name,
        points=tuple(
            (x + c * u * length / 2 - s * v * width / 2, y + s * u * length / 2 + c * v * width / 2)
            for u, v in corners
        ),
    )


def gap_dimension(x1: float, y1: float, x2: float, y2: float, gap_m: float) -> Dimension:
    """A dimensioned gap (or overlap, where negative) between two points."""
    over = " over" if gap_m < 0 else ""
    metric, imperial = (
        LENGTH_MM.text(abs(gap_m), system) + over for system in ("metric", "imperial")
    )
    return Dimension(
        x1=x1, y1=y1, x2=x2, y2=y2, text_metric=metric, text_imperial=imperial, clash=gap_m < 0
    )


def bounded(
    id: str, title: str, caption: str, outlines: Sequence[Outline], points: Sequence[Point] = (),
    dimensions: Sequence[Dimension] = (),
) -> Drawing:  # fmt: skip
    """A drawing of pieces with the bounds that hold them all and a margin."""
    xs, ys = [], []
    for x, y in _all_points(outlines, points, dimensions):
        xs.append(x)
        ys.append(y)
    margin = _MARGIN * max(max(xs) - min(xs), max(ys) - min(ys))
    return Drawing(
        id=id,
        title=title,
        caption=caption,
        left=min(xs) - margin,
        top=min(ys) - margin,
        right=max(xs) + margin,
        bottom=max(ys) + margin,
        outlines=tuple(outlines),
        points=tuple(points),
        dimensions=tuple(dimensions),
    )


def _all_points(
    outlines: Iterable[Outline], points: Iterable[Point], dimensions: Iterable[Dimension]
) -> Iterable[tuple[float, float]]:
    for outline in outlines:
        yield from outline.points
    for point in points:
        yield point.x, point.y
    for d in dimensions:
        yield d.x1, d.y1
        yield d.x2, d.y2
