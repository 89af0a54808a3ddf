"""Clearances of what turns: propeller tips to each other and to the body, a motor in its fairing.

A rotor sweeps a disk with the thickness of its hub. Distances are signed: negative by the least
shift that would part the two.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike

from slipfit.errors import InputError
from slipfit.frame.frame import Outline, RotorMount
from slipfit.numerics import Array


class Box(Protocol):
    """Something between two corners (station, right, front)."""

    @property
    def name(self) -> str: ...
    @property
    def low(self) -> tuple[float, float, float]: ...
    @property
    def high(self) -> tuple[float, float, float]: ...


@dataclass(frozen=True, kw_only=True)
class Nearest:
    """The least clearance of all, which rotors (numbered from 0) it is between or at, and what it
    is to."""

    gap_m: float
    rotors: tuple[int, ...]
    what: str = "body"


def _signed(across: Array, along: Array) -> Array:
    """Distance of two slabs by their gaps in the plane and along the axis (either may be < 0)."""
    outside = np.hypot(np.maximum(across, 0.0), np.maximum(along, 0.0))
    return np.asarray(outside + np.minimum(np.maximum(across, along), 0.0))


def tip_gaps(
    rotors: Sequence[RotorMount], diameter_m: ArrayLike, thickness_m: ArrayLike
) -> tuple[Array, list[tuple[int, int]]]:
    """Tip-to-tip distance of every pair of rotors, shape (..., pairs), and the pairs.

    Disks side by side are apart by the distance of their axes less a diameter; disks that overlap
    seen along the axis are apart by their stations less the thickness they sweep.
    """
    pairs = list(combinations(range(len(rotors)), 2))
    places = np.array([(r.station_m, r.right_m, r.front_m) for r in rotors], dtype=float)
    step = np.array([places[i] - places[j] for i, j in pairs]).reshape(-1, 3)
    apart = np.hypot(step[:, 1], step[:, 2])
    across = apart - np.asarray(diameter_m, dtype=float)[..., None]
    along = np.abs(step[:, 0]) - np.asarray(thickness_m, dtype=float)[..., None]
    return _signed(across, along), pairs


def nearest_tips(
    rotors: Sequence[RotorMount], diameter_m: float, thickness_m: float
) -> Nearest | None:
    """The closest pair of rotors; None where there is only one rotor."""
    gaps, pairs = tip_gaps(rotors, diameter_m, thickness_m)
    if not pairs:
        return None
    k = int(gaps.argmin())
    return Nearest(gap_m=float(gaps[k]), rotors=pairs[k])


def section_reach(outline: Outline, right: ArrayLike, front: ArrayLike) -> Array:
    """How far the body reaches in directions (right, front) of length 1, at each of its stations.

    Shape (directions, stations). Sections are ellipses; those with more area than an ellipse of
    their width and height are rectangles with corners rounded to that area.
    """
    a, b = np.asarray(outline.half_widths_m), np.asarray(outline.half_heights_m)
    x, y = np.abs(np.atleast_1d(right))[:, None], np.abs(np.atleast_1d(front))[:, None]
    ellipse = np.hypot(a * x, b * y)
    missing = 4 * a * b - np.pi * np.asarray(outline.radii_m) ** 2
    corner = np.minimum(np.sqrt(np.maximum(missing, 0.0) / (4 - np.pi)), np.minimum(a, b))
    boxy = missing < (4 - np.pi) * a * b * 0.98
    rounded = (a - corner) * x + (b - corner) * y + corner
    return np.asarray(np.where(boxy, rounded, ellipse))


def body_half_height(outline: Outline, station_m: float) -> float:
    """How far the body reaches to the front at a station; 0 ahead of its nose and behind it."""
    x = outline.stations_m
    if not x or not x[0] <= station_m <= x[-1]:
        return 0.0
    return float(np.interp(station_m, x, outline.half_heights_m))


def section_polygon(outline: Outline, station_m: float) -> tuple[tuple[float, float], ...]:
    """The body's section at a station as points (right, -front), as pages count downwards; empty
    where there is no body. Made from the same reach that clearances are measured to."""
    x = outline.stations_m
    if not x or not x[0] <= station_m <= x[-1]:
        return ()
    one = Outline(
        stations_m=(station_m,),
        radii_m=(float(np.interp(station_m, x, outline.radii_m)),),
        half_widths_m=(float(np.interp(station_m, x, outline.half_widths_m)),),
        half_heights_m=(float(np.interp(station_m, x, outline.half_heights_m)),),
    )
    # Corners of the polygon of tangents: where each meets the next.
    angles = np.linspace(0.0, 2 * np.pi, 96, endpoint=False)  # the flat sides of a box among them
    reach = section_reach(one, np.cos(angles), np.sin(angles))[:, 0]
    ahead = np.roll(reach, -1)
    step = 2 * np.pi / 96
    along = (ahead - reach * np.cos(step)) / np.sin(step)
    right = reach * np.cos(angles) - along * np.sin(angles)
    front = reach * np.sin(angles) + along * np.cos(angles)
    return tuple((float(r), float(-f)) for r, f in zip(right, front, strict=True))


# Directions, either way from the line between the axes, in which a parting plane is looked for.
_FAN_RAD = np.linspace(-0.9, 0.9, 61)
_FACES_RAD = np.arange(4) * np.pi / 2  # of the flat sides that a boxy section has


def body_gap(outline: Outline, rotor: RotorMount, diameter_m: float, thickness_m: float) -> float:
    """Distance of a propeller's disk from the body; negative by how deep it reaches in.

    Two convex things are apart by the widest gap of their shadows, over all directions in the
    plane; in each, the disk's edge is a short line along the axis and the body the polygon of its
    outline.
    """
    x, axes, reach = _shadows(outline, rotor.right_m, rotor.front_m)
    low, high = rotor.station_m - thickness_m / 2, rotor.station_m + thickness_m / 2
    return float(_shadow_gaps(x, reach, axes - diameter_m / 2, low, high).max())


@lru_cache(maxsize=64)
def _shadows(outline: Outline, right_m: float, front_m: float) -> tuple[Array, Array, Array]:
    """Stations of a body, and in every direction that is tried from it to a rotor, how far off the
    rotor's axis is and how far the body reaches at each station; kept for all propellers."""
    x = np.asarray(outline.stations_m, dtype=float)
    if len(x) < 2 or not (np.diff(x) >= 0).all():
        raise InputError("frame: outline must have two or more rising stations")
    angles = np.concatenate([np.arctan2(front_m, right_m) + _FAN_RAD, _FACES_RAD])
    right, front = np.cos(angles), np.sin(angles)
    return x, right_m * right + front_m * front, section_reach(outline, right, front)


def _shadow_gaps(x: Array, reach: Array, tips: Array, low: float, high: float) -> Array:
    """Signed distance of lines from (low, tip) to (high, tip) above polygons (x, reach), for every
    direction (first axis of `reach` and `tips`)."""
    if high < x[0] or low > x[-1]:  # ahead of the nose or behind the tail
        end = 0 if high < x[0] else -1
        along = x[0] - high if end == 0 else low - x[-1]
        beyond = np.maximum(tips - reach[:, end], 0.0)
        nearest_edge = np.hypot(along, beyond)
    else:
        nearest_edge = np.full_like(tips, np.inf)
    at = np.clip(np.concatenate([[low, high], x[(x >= low) & (x <= high)]]), x[0], x[-1])
    index = np.clip(np.searchsorted(x, at, side="right") - 1, 0, len(x) - 2)
    step = np.maximum(x[index + 1] - x[index], 1e-12)
    t = (at - x[index]) / step
    beside = reach[:, index] * (1 - t) + reach[:, index + 1] * t
    into = tips - beside.max(axis=-1)
    # The least distance between the line and the outline's pieces is at an end of either.
    edge_x, edge_r = np.diff(x), np.diff(reach, axis=-1)
    length2 = np.maximum(edge_x**2 + edge_r**2, 1e-18)
    least = nearest_edge
    for end_x in (low, high):
        from_x, from_r = end_x - x[:-1], tips[:, None] - reach[:, :-1]
        t = np.clip((from_x * edge_x + from_r * edge_r) / length2, 0.0, 1.0)
        gap = np.hypot(from_x - t * edge_x, from_r - t * edge_r).min(axis=-1)
        least = np.minimum(least, gap)
    corners = np.hypot(x - np.clip(x, low, high), reach - tips[:, None]).min(axis=-1)
    least = np.minimum(least, corners)
    if high < x[0] or low > x[-1]:
        return np.asarray(least)
    return np.asarray(np.where(into <= 0, into, least))


def nearest_body(
    rotors: Sequence[RotorMount], outline: Outline, diameter_m: float, thickness_m: float
) -> Nearest | None:
    """The rotor whose tips come closest to the body; None where the frame draws no body."""
    if len(outline.stations_m) < 2 or not rotors:
        return None
    # The outline is the same on both sides of both planes, so mirrored rotors count once.
    gaps: dict[tuple[float, float, float], float] = {}
    for rotor in rotors:
        mirrored = (rotor.station_m, abs(rotor.right_m), abs(rotor.front_m))
        if mirrored not in gaps:
            gaps[mirrored] = body_gap(outline, rotor, diameter_m, thickness_m)
    worst = min(gaps, key=lambda place: gaps[place])
    k = next(
        k
        for k, rotor in enumerate(rotors)
        if (rotor.station_m, abs(rotor.right_m), abs(rotor.front_m)) == worst
    )
    return Nearest(gap_m=gaps[worst], rotors=(k,))


def nearest_box(
    rotors: Sequence[RotorMount], boxes: Sequence[Box], diameter_m: float, thickness_m: float
) -> Nearest | None:
    """The rotor whose disk comes closest to a box along the frame's axes; None without boxes.

    Seen along the axis the disk is a circle and the box a rectangle; along it both are stretches.
    """
    if not boxes or not rotors:
        return None
    places = np.array([(r.station_m, r.right_m, r.front_m) for r in rotors])[:, None]
    low, high = np.array([b.low for b in boxes]), np.array([b.high for b in boxes])
    beside = np.maximum(low - places, places - high)  # of each axis, negative inside
    along = beside[..., 0] - thickness_m / 2
    outside = np.hypot(np.maximum(beside[..., 1], 0.0), np.maximum(beside[..., 2], 0.0))
    inside = np.minimum(np.maximum(beside[..., 1], beside[..., 2]), 0.0)
    gaps = _signed(outside + inside - diameter_m / 2, along)
    k, j = np.unravel_index(int(gaps.argmin()), gaps.shape)
    return Nearest(gap_m=float(gaps[k, j]), rotors=(int(k),), what=boxes[int(j)].name)


def largest_clear_diameter(
    room: Callable[[float], float], low_m: float, high_m: float, steps: int = 20
) -> float:
    """The largest diameter at which `room(diameter)`, which falls as it grows, is not negative; 0
    where even `low_m` is too large.

    False position (Illinois): room is nearly a straight line, so that few steps are taken.
    """
    high_room = room(high_m)
    if high_room >= 0:
        return high_m
    # A rim moves by half of what its diameter does: a first guess that is seldom far off.
    b, fb = high_m, high_room
    a = max(low_m, high_m + 2 * high_room)
    fa = room(a)
    if fa < 0:
        a, fa, b, fb = low_m, room(low_m), a, fa
    if fa < 0:
        return 0.0
    low_m = a
    for _ in range(steps):
        c = (a * fb - b * fa) / (fb - fa)
        fc = room(c)
        if fc >= 0:
            low_m, a, fa, fb = c, c, fc, fb / 2
        else:
            b, fb, fa = c, fc, fa / 2
        if abs(fc) < 1e-7 and fc >= 0:
            break
    return low_m
