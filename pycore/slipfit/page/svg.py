"""Pieces of SVG that charts and drawings share: paths with gaps, patterns of our own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from slipfit.markup import Tree, el


def number(value: float) -> str:
    """A coordinate with a tenth of a pixel, no trailing zero."""
    text = f"{value:.1f}"
    return text[:-2] if text.endswith(".0") else text


def line_path(points: Iterable[tuple[float, float] | None]) -> str:
    """Path data through points; a None lifts the pen."""
    pieces: list[str] = []
    down = False
    for point in points:
        if point is None:
            down = False
            continue
        pieces.append(f"{'L' if down else 'M'}{number(point[0])} {number(point[1])}")
        down = True
    return "".join(pieces)


def area_paths(
    x: Sequence[float], low: Sequence[float | None], high: Sequence[float | None]
) -> str:
    """Path data of the area between two lines, one closed piece between each pair of gaps."""
    pieces: list[str] = []
    run: list[int] = []
    for i in range(len(x) + 1):
        if i < len(x) and low[i] is not None and high[i] is not None:
            run.append(i)
            continue
        if len(run) > 1:
            there = [(x[k], high[k] or 0.0) for k in run]
            back = [(x[k], low[k] or 0.0) for k in reversed(run)]
            pieces.append(line_path([*there, *back]) + "Z")
        run = []
    return "".join(pieces)


_PATTERNS = (
    "M0 8L8 0M-2 2L2 -2M6 10L10 6",  # rising lines
    "M0 4H8",  # level lines
    "M0 0L8 8M-2 6L2 10M6 -2L10 2",  # falling lines
    "M4 0V8",  # upright lines
    "M0 8L8 0M0 0L8 8",  # crossed lines
    "M1 2h2M5 6h2",  # broken lines
)


def hatch(pattern_id: str, index: int, role: str = "") -> Tree:
    """A fill pattern of ink lines; six different ones, then wider again."""
    lines = _PATTERNS[index % len(_PATTERNS)]
    size = 8 if index < len(_PATTERNS) else 12
    return el(
        "pattern",
        el("path", d=lines, class_=f"sf-hatch-line {role}".strip()),
        id=pattern_id,
        width=8,
        height=8,
        patternUnits="userSpaceOnUse",
        patternTransform=None if size == 8 else f"scale({size / 8:g})",
    )


def text(x: float, y: float, content: str, class_: str = "", anchor: str | None = None) -> Tree:
    """A line of text; the style sheet sets face and size."""
    return el("text", content, x=number(x), y=number(y), class_=class_ or None, text_anchor=anchor)
