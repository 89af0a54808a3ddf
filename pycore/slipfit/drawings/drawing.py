"""The record of a drawing: plain geometry in metres with a role for each piece, to scale."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Outline:
    """A closed or open line through points (x, y) in m; x along the frame's axis, y across.

    `role`: `"shell"`, `"bay"`, `"part"`, `"clash"`, `"disk"` (swept by a propeller), `"axis"`,
    `"fin"`, `"arm"`. `name` is what a reader hears when the piece is hovered or focused.
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
class Drawing:
    """A drawing of one build; `left, top, right, bottom` bound it in m. One that is `nose_up` is
    shown turned, its x downwards."""

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
