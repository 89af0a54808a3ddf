"""The record of a drawing: plain geometry in metres with a role for each piece, to scale."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Outline:
    """A closed or open line through points (x, y) in m; x along the frame's axis, y across.

    `role`: `"shell"`, `"bay"`, `"part"`, `"clash"`, `"disk"` (swept by a propeller), `"axis"`,
    `"fin"`, `"arm"`, `"keep-out"` (free of parts), `"opening"` (for a plug or a hand); of the shot
    `"ground"`, `"subject"`, `"sight"`, `"field"`. `name` is what a reader hears when the piece is
    hovered or focused.
    """

    role: str
    points: tuple[tuple[float, float], ...]
    name: str = ""
    closed: bool = True


@dataclass(frozen=True, kw_only=True)
class Point:
    """A marked point: `"balance"` or `"pressure"` (centre of pressure), with its label."""

    role: str
    x: float
    y: float
    label: str


@dataclass(frozen=True, kw_only=True)
class Dimension:
    """A dimensioned distance between two points, with its text per unit system."""

    x1: float
    y1: float
    x2: float
    y2: float
    text_metric: str
    text_imperial: str
    clash: bool = False


@dataclass(frozen=True, kw_only=True)
class Turning:
    """Pieces that turn about (x, y) over a drawing's stages; their points are counted from there,
    as they stand at no turn. What falls outside `top` to `bottom` is not shown."""

    x: float
    y: float
    top: float
    bottom: float
    outlines: tuple[Outline, ...]


@dataclass(frozen=True, kw_only=True)
class Stage:
    """One state of what turns in a drawing, clockwise positive, and what is to be said of it."""

    turn_rad: float
    words_metric: str
    words_imperial: str

    def words(self, system: str) -> str:
        """The words in a unit system."""
        return self.words_metric if system == "metric" else self.words_imperial


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """A drawing of one build; `left, top, right, bottom` bound it in m. One that is `nose_up` is
    shown turned, its x downwards. One with stages shows what turns as it is in the stage `stage`,
    until a reader chooses another."""

    id: str
    title: str
    caption: str
    left: float
    top: float
    right: float
    bottom: float
    outlines: tuple[Outline, ...] = ()
    points: tuple[Point, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    nose_up: bool = False
    turning: tuple[Turning, ...] = ()
    stages: tuple[Stage, ...] = ()
    stage: int = 0
