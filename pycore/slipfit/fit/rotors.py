"""Clearances of what turns: propeller tips to each other and to the body, a motor in its fairing.

A rotor sweeps a disk with the thickness of its hub. Distances are signed: negative by the least
shift that would part the two.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import ArrayLike

from slipfit.errors import InputError
from slipfit.frame.frame import Outline, RotorMount
from slipfit.numerics import Array


@dataclass(frozen=True, kw_only=True)
class Nearest:
    """The least clearance of all, and which rotors (numbered from 0) it is between or at."""

    gap_m: float
    rotors: tuple[int, ...]


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


def body_radius(outline: Outline, station_m: ArrayLike) -> Array:
    """The body's half width at a station; 0 ahead of its nose and behind its tail."""
    at = np.asarray(station_m, dtype=float)
    return np.asarray(np.interp(at, outline.stations_m, outline.radii_m, left=0.0, right=0.0))


def body_gap(
    outline: Outline, axis_distance_m: float, station_m: float, diameter_m: float,
    thickness_m: float,
) -> float:  # fmt: skip
    """Distance of a propeller's tip from a body of revolution about the frame's axis.

    The tip nearest to the axis is a short line along the axis at `axis_distance_m` less the radius;
    the body is the polygon of its outline. Negative by how deep the tip is inside the body.
    """
    x = np.asarray(outline.stations_m, dtype=float)
    r = np.asarray(outline.radii_m, dtype=float)
    if len(x) < 2 or not (np.diff(x) >= 0).all():
        raise InputError("frame: outline must have two or more rising stations")
    tip = axis_distance_m - diameter_m / 2
    low, high = station_m - thickness_m / 2, station_m + thickness_m / 2
    within = x[(x >= low) & (x <= high)]
    at = np.clip(np.array([low, high, *within]), x[0], x[-1])
    beside = high >= x[0] and low <= x[-1]
    if beside:
        into = tip - float(np.interp(at, x, r).max())
        if into <= 0:
            return into
    elif tip <= 0:
        # The disk reaches over the axis ahead of the nose or behind the tail.
        return float(x[0] - high if high < x[0] else low - x[-1])
    # The least distance between the tip's line and the outline's pieces: at an end of either.
    ends = np.array([(low, tip), (high, tip)])
    a, b = np.stack([x[:-1], r[:-1]], axis=-1), np.stack([x[1:], r[1:]], axis=-1)
    edge = b - a
    length2 = np.maximum((edge**2).sum(axis=-1), 1e-18)
    t = np.clip(((ends[:, None] - a) * edge).sum(axis=-1) / length2, 0.0, 1.0)
    foot = a + t[..., None] * edge
    from_ends = np.hypot(*np.moveaxis(ends[:, None] - foot, -1, 0)).min()
    corners = np.hypot(x - np.clip(x, low, high), r - tip).min()
    return float(min(from_ends, corners))


def nearest_body(
    rotors: Sequence[RotorMount], outline: Outline, diameter_m: float, thickness_m: float
) -> Nearest | None:
    """The rotor whose tips come closest to the body; None where the frame draws no body."""
    if len(outline.stations_m) < 2 or not rotors:
        return None
    gaps = [
        body_gap(
            outline, float(np.hypot(r.right_m, r.front_m)), r.station_m, diameter_m, thickness_m
        )
        for r in rotors
    ]
    k = int(np.argmin(gaps))
    return Nearest(gap_m=gaps[k], rotors=(k,))


def largest_clear_diameter(
    room: Callable[[float], float], low_m: float, high_m: float, steps: int = 30
) -> float:
    """The largest diameter at which `room(diameter)`, which falls as it grows, is not negative; 0
    where even `low_m` is too large."""
    if room(low_m) < 0:
        return 0.0
    for _ in range(steps):
        middle = (low_m + high_m) / 2
        low_m, high_m = (middle, high_m) if room(middle) >= 0 else (low_m, middle)
    return low_m
