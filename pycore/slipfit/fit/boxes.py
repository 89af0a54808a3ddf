"""Boxes in bays: does a part go in, which way round, which side is tightest, what would fit.

A bay is the straight-sided hollow between two openings: rectangles with rounded corners, of which
a plain rectangle (corner radius 0) and a circle (corner radius half the width) are the ends of the
range. Both openings alike make a box or a tube; different ones make a tapered bay. The part's
sides stay parallel to the bay's; a part set askew along a diagonal is not tried.

Two facts make the answers exact:

- every cross-section is convex and the same seen from both sides of its middle, so a box that fits
  anywhere in it also fits in the middle;
- the hollow is convex, so a box lies inside when both of its end faces do.

Clearances count the whole gap, both sides together, measured across the bay or along it. All
functions take one box or a whole shelf of them; axes of a box are (length, width, height), axes of
a bay (along, across, up).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from slipfit.errors import InputError
from slipfit.numerics import Array

ROUNDING_M: Final = 1e-9  # gaps smaller than this are arithmetic, not geometry
SIDES: Final = ("length", "width", "height", "corners")
STATES: Final = ("clear", "snug", "clashes")
_GOLDEN: Final = (5**0.5 - 1) / 2


@dataclass(frozen=True, kw_only=True)
class Turn:
    """One way to put a box in a bay: which of its dimensions lie along, across and up."""

    words: str
    axes: tuple[int, int, int]


FLAT_ALONG: Final = Turn(words="lying flat along the bay", axes=(0, 1, 2))
EDGE_ALONG: Final = Turn(words="on its side along the bay", axes=(0, 2, 1))
FLAT_ACROSS: Final = Turn(words="lying flat across the bay", axes=(1, 0, 2))
EDGE_ACROSS: Final = Turn(words="on its side across the bay", axes=(2, 0, 1))
UPRIGHT: Final = Turn(words="standing on its end across the bay", axes=(2, 1, 0))
UPRIGHT_TURNED: Final = Turn(words="standing on its end along the bay", axes=(1, 2, 0))

ALONG: Final = (FLAT_ALONG, EDGE_ALONG)
FLAT: Final = (FLAT_ALONG, FLAT_ACROSS)
ALL_TURNS: Final = (FLAT_ALONG, EDGE_ALONG, FLAT_ACROSS, EDGE_ACROSS, UPRIGHT, UPRIGHT_TURNED)


@dataclass(frozen=True, kw_only=True)
class Opening:
    """A cross-section of a bay: a rectangle with rounded corners."""

    width_m: float
    height_m: float
    corner_m: float = 0.0

    def __post_init__(self) -> None:
        if not (self.width_m > 0 and self.height_m > 0):
            raise InputError(
                "bay: width_m and height_m must be > 0, "
                f"got {self.width_m:g} and {self.height_m:g}",
                field="width_m",
            )
        most = min(self.width_m, self.height_m) / 2
        if not 0 <= self.corner_m <= most:
            raise InputError(
                f"bay: corner_m must be 0 to {most:g} (half of the shorter side), "
                f"got {self.corner_m:g}",
                field="corner_m",
            )

    @property
    def round(self) -> bool:
        """True of a circle, which has no flat sides to clash with, only its wall."""
        return self.width_m == self.height_m == 2 * self.corner_m


def circle(diameter_m: float) -> Opening:
    """The opening of a tube."""
    return Opening(width_m=diameter_m, height_m=diameter_m, corner_m=diameter_m / 2)


@dataclass(frozen=True, kw_only=True)
class Hollow:
    """The inside of a bay: straight between its opening nearest the nose and the other one."""

    length_m: float
    nose: Opening
    tail: Opening

    def __post_init__(self) -> None:
        if not self.length_m > 0:
            raise InputError(f"bay: length_m must be > 0, got {self.length_m:g}", field="length_m")

    def sizes(self, t: Array) -> tuple[Array, Array, Array]:
        """Width, height and corner radius at the fraction `t` of the way from nose to tail."""
        a, b = self.nose, self.tail
        return (
            a.width_m + t * (b.width_m - a.width_m),
            a.height_m + t * (b.height_m - a.height_m),
            a.corner_m + t * (b.corner_m - a.corner_m),
        )

    @property
    def straight(self) -> bool:
        """True when both openings are the same."""
        return self.nose == self.tail

    @property
    def round(self) -> bool:
        """True of tubes and cones."""
        return self.nose.round and self.tail.round

    @property
    def sharp(self) -> bool:
        """True when no corner is rounded."""
        return self.nose.corner_m == 0 == self.tail.corner_m


def straight_hollow(length_m: float, opening: Opening) -> Hollow:
    """A bay with one cross-section all along."""
    return Hollow(length_m=length_m, nose=opening, tail=opening)


def wall_gap(
    width_m: Array, height_m: Array, corner_m: Array, part_width_m: Array, part_height_m: Array
) -> Array:
    """Twice the least distance from a centred rectangle's corner to the wall of an opening.

    Negative by the depth to which the corner pokes through. For a tube this is the diameter less
    the part's diagonal.
    """
    u = part_width_m / 2 - (width_m / 2 - corner_m)
    v = part_height_m / 2 - (height_m / 2 - corner_m)
    outside = np.hypot(np.maximum(u, 0.0), np.maximum(v, 0.0))
    return np.asarray(2 * (corner_m - outside - np.minimum(np.maximum(u, v), 0.0)))


def widest(width_m: Array, height_m: Array, corner_m: Array, part_height_m: Array) -> Array:
    """Width of the widest rectangle of a given height in an opening; negative where none fits."""
    v = np.maximum(part_height_m / 2 - (height_m / 2 - corner_m), 0.0)
    lost = corner_m - np.sqrt(np.maximum(corner_m**2 - v**2, 0.0))
    too_high = part_height_m > height_m + ROUNDING_M
    return np.asarray(np.where(too_high, -1.0, width_m - 2 * lost))


def _holds(outer: Opening, inner: Opening) -> bool:
    """True when one opening, centred on the other, lies inside it (support functions compared)."""
    x = (inner.width_m - outer.width_m) / 2 - (inner.corner_m - outer.corner_m)
    y = (inner.height_m - outer.height_m) / 2 - (inner.corner_m - outer.corner_m)
    flat = inner.width_m <= outer.width_m and inner.height_m <= outer.height_m
    return flat and (min(x, y) <= 0 or np.hypot(x, y) <= outer.corner_m - inner.corner_m)


def _larger_end(hollow: Hollow) -> float | None:
    """0 where the opening at the nose holds the other, 1 the other way round, None for neither."""
    if _holds(hollow.nose, hollow.tail):
        return 0.0
    return 1.0 if _holds(hollow.tail, hollow.nose) else None


def _best_start(
    hollow: Hollow, length_fraction: Array, room: Callable[[Array], Array], steps: int = 60
) -> Array:
    """Where (fraction from the nose) a box that long should start for the most room at both ends.

    `room(t)` is concave along a convex hollow, so that a golden-section search finds the top.
    """
    most = 1.0 - length_fraction
    end = _larger_end(hollow)
    if end is not None:
        return np.asarray(most * end)
    low, high = np.zeros_like(most), most.copy()

    def both(s: Array) -> Array:
        return np.minimum(room(s), room(s + length_fraction))

    for _ in range(steps):
        step = _GOLDEN * (high - low)
        left, right = high - step, low + step
        up = both(left) < both(right)
        low, high = np.where(up, left, low), np.where(up, high, right)
    return np.asarray((low + high) / 2)


def _longest(hollow: Hollow, gap: Callable[[Array], Array], like: Array) -> Array:
    """Fraction of the bay over which `gap(t)` (concave) is not negative."""
    zero = np.zeros_like(like)
    if hollow.straight:
        return np.where(gap(zero) >= -ROUNDING_M, 1.0, 0.0)
    top = _best_start(hollow, zero, gap)
    reach = zero
    for end in (0.0, 1.0):
        if end == _larger_end(hollow):
            continue  # the search starts from there
        inside, outside = top, np.full_like(top, end)
        through = gap(outside) >= -ROUNDING_M
        for _ in range(34):  # 2^-34 of a bay is far below ROUNDING_M
            middle = (inside + outside) / 2
            holds = gap(middle) >= 0.0
            inside = np.where(holds, middle, inside)
            outside = np.where(holds, outside, middle)
        reach = reach + np.abs(np.where(through, end, inside) - top)
    return np.where(gap(top) >= -ROUNDING_M, reach, 0.0)


@dataclass(frozen=True, kw_only=True)
class _InBay:
    """Parts in their best turns along the bay's axes: their sizes, the room their leads ask for,
    the room kept on all sides together, and which of their own axes lie along, across and up."""

    hollow: Hollow
    along: Array
    across: Array
    up: Array
    spare: Array
    kept_m: float
    axes: NDArray[np.intp]

    def in_part_axes(self, sizes: Array) -> Array:
        """Sizes (..., 3) along, across and up as lengths, widths and heights of the parts."""
        turned = np.empty_like(sizes)
        np.put_along_axis(turned, self.axes, sizes, axis=-1)
        return turned


@dataclass(frozen=True, kw_only=True)
class BoxFit:
    """How boxes fit a bay, each in its best turn. Arrays have the boxes' leading shape.

    `turn` is the index in `turns`, `state` in `STATES`, `side` (the tightest one) in `SIDES`, and
    `clearance_m` the gap there. `gaps_m` (..., 4) are the gaps of the part's own sides in the order
    of `SIDES`, infinite where a side cannot touch; `needed_m` is the room asked for on each.
    `start_m` is where the part begins, from the bay's nose end.
    """

    turns: tuple[Turn, ...]
    turn: NDArray[np.intp]
    state: NDArray[np.intp]
    side: NDArray[np.intp]
    clearance_m: Array
    gaps_m: Array
    needed_m: float
    start_m: Array
    in_bay: _InBay

    @cached_property
    def largest_m(self) -> Array:
        """How long, wide or high each part could be, its other two sizes kept, and still be clear;
        shape (..., 3), 0 where no size would do."""
        return self.in_bay.in_part_axes(_largest(self.in_bay))

    @cached_property
    def mended_m(self) -> Array:
        """Each part's sizes cut back just enough to be clear; shape (..., 3), 0 where none are."""
        return self.in_bay.in_part_axes(_mended(self.in_bay))


def box_fit(
    hollow: Hollow,
    boxes_m: ArrayLike,
    *,
    turns: tuple[Turn, ...] = ALL_TURNS,
    padding_m: float = 0.0,
    tolerance_m: float = 0.0,
    room_m: ArrayLike = 0.0,
) -> BoxFit:
    """Fit of boxes, shape (..., 3), in a bay: the best of the allowed turns for each.

    `padding_m` lines every side and the part does not get it: gaps are what is left inside. A gap
    of `tolerance_m`, by which a made bay may be smaller, is clear; anything from nothing up to that
    is snug, and less than nothing clashes. `room_m`, shape (..., 3), is kept free beyond one end of
    each of the part's own dimensions, for leads and plugs.
    """
    boxes = np.asarray(boxes_m, dtype=float)
    if boxes.shape[-1:] != (3,) or not (boxes > 0).all():
        raise InputError(
            f"box_fit: boxes_m must be lengths, widths and heights > 0, got {boxes.tolist()}"
        )
    room = np.broadcast_to(np.asarray(room_m, dtype=float), boxes.shape)
    axes = np.array([turn.axes for turn in turns])
    box, spare = boxes[..., axes], room[..., axes]  # (..., turns, 3) in the bay's axes
    along, across, up = box[..., 0], box[..., 1] + spare[..., 1], box[..., 2] + spare[..., 2]
    lining, needed = 2 * padding_m, tolerance_m

    # The gaps, at the tighter of the part's two end faces.
    length_gap = hollow.length_m - along - spare[..., 0]
    if hollow.straight:
        start = np.zeros_like(along)
        faces = [hollow.sizes(start)]
    else:
        fraction = np.minimum(along / hollow.length_m, 1.0)
        start = _best_start(hollow, fraction, lambda t: wall_gap(*hollow.sizes(t), across, up))
        faces = [hollow.sizes(start), hollow.sizes(start + fraction)]
    width_gap = np.minimum.reduce([w - across for w, _, _ in faces])
    height_gap = np.minimum.reduce([h - up for _, h, _ in faces])
    corner_gap = np.minimum.reduce([wall_gap(*face, across, up) for face in faces])
    if hollow.round:
        width_gap = height_gap = np.full_like(along, np.inf)
    elif hollow.sharp:
        corner_gap = np.full_like(along, np.inf)
    gaps = np.stack([length_gap, width_gap, height_gap, corner_gap], axis=-1) - lining
    gaps = np.where(np.abs(gaps) < ROUNDING_M, 0.0, gaps)

    # The first turn that is clear; where none is, the one with the most room on its tightest side.
    least = gaps.min(axis=-1)
    states = np.where(least < 0, 2, np.where(least < needed - ROUNDING_M, 1, 0))
    best = np.where(states == 0, np.inf, least).argmax(axis=-1)

    def pick(values: Array) -> Array:
        index = best[..., None] if values.ndim == best.ndim + 1 else best[..., None, None]
        return np.asarray(np.take_along_axis(values, index, axis=best.ndim).squeeze(axis=best.ndim))

    axes_best = axes[best]
    bay_gaps = pick(gaps)
    part_gaps = np.empty_like(bay_gaps)
    np.put_along_axis(part_gaps, axes_best, bay_gaps[..., :3], axis=-1)
    part_gaps[..., 3] = bay_gaps[..., 3]
    # A flat side that clashes is named before the corners, which then clash with it.
    flat_clash = (part_gaps[..., :3] < 0).any(axis=-1)
    corners = np.where(flat_clash, np.inf, part_gaps[..., 3])
    side = np.concatenate([part_gaps[..., :3], corners[..., None]], axis=-1).argmin(axis=-1)

    return BoxFit(
        turns=turns,
        turn=best,
        state=np.take_along_axis(states, best[..., None], axis=-1)[..., 0],
        side=side,
        clearance_m=np.take_along_axis(part_gaps, side[..., None], axis=-1)[..., 0],
        gaps_m=part_gaps,
        needed_m=needed,
        start_m=pick(start) * hollow.length_m,
        in_bay=_InBay(
            hollow=hollow,
            along=pick(along),
            across=pick(across),
            up=pick(up),
            spare=pick(spare),
            kept_m=lining + needed,
            axes=axes_best,
        ),
    )


def _largest(part: _InBay) -> Array:
    """How far along, across and up a part could reach and be clear, the other two sizes kept."""
    hollow, needed, spare = part.hollow, part.kept_m, part.spare
    along, across, up = part.along, part.across, part.up
    fraction = np.minimum(along / hollow.length_m, 1.0)

    def shrunk(t: Array) -> tuple[Array, Array, Array]:
        w, h, r = hollow.sizes(t)
        return w - needed, h - needed, np.maximum(r - needed / 2, 0.0)

    def highest(t: Array) -> Array:
        w, h, r = shrunk(t)
        return widest(h, w, r, across)

    def limit(reach: Callable[[Array], Array]) -> Array:
        start = _best_start(hollow, fraction, reach)
        return np.minimum(reach(start), reach(start + fraction))

    width = limit(lambda t: widest(*shrunk(t), up))
    height = limit(highest)
    reach = _longest(hollow, lambda t: wall_gap(*hollow.sizes(t), across, up) - needed, along)
    length = np.minimum(reach * hollow.length_m, hollow.length_m - needed - spare[..., 0])
    length = np.where(reach > 0, length, 0.0)
    # A size is only worth naming when the other two leave it any room at all.
    length_ok = along + spare[..., 0] <= hollow.length_m - needed + ROUNDING_M
    width = np.where(length_ok, width - spare[..., 1], 0.0)
    height = np.where(length_ok, height - spare[..., 2], 0.0)
    return np.asarray(np.maximum(np.stack([length, width, height], axis=-1), 0.0))


def _mended(part: _InBay) -> Array:
    """Sizes along, across and up cut back until clear: the length first, then each flat side, then
    width and height by one ratio where the corners still touch; 0 where nothing would be clear."""
    hollow, needed, spare = part.hollow, part.kept_m, part.spare
    across, up = part.across, part.up
    along = np.minimum(part.along, hollow.length_m - needed - spare[..., 0])
    fraction = np.clip(along / hollow.length_m, 0.0, 1.0)
    start = _best_start(hollow, fraction, lambda t: wall_gap(*hollow.sizes(t), across, up))
    faces = [hollow.sizes(start), hollow.sizes(start + fraction)]
    across = np.minimum.reduce([across, *(w - needed for w, _, _ in faces)])
    up = np.minimum.reduce([up, *(h - needed for _, h, _ in faces)])
    ratio = np.minimum.reduce([_corner_ratio(*face, across, up, needed) for face in faces])
    sizes = np.stack([along, across * ratio - spare[..., 1], up * ratio - spare[..., 2]], axis=-1)
    return np.asarray(np.where((sizes > 0).all(axis=-1, keepdims=True), sizes, 0.0))


def _corner_ratio(
    width_m: Array, height_m: Array, corner_m: Array, across: Array, up: Array, needed: float
) -> Array:
    """The ratio, at most 1, by which a rectangle must shrink for its corners to keep `needed`.

    Its corner moves on a ray from the middle and meets the circle of radius c = corner - needed/2
    about (x, y): the larger root of k^2 (a^2 + b^2) - 2 k (a x + b y) + x^2 + y^2 - c^2 = 0.
    """
    a, b = across / 2, up / 2
    x, y = width_m / 2 - corner_m, height_m / 2 - corner_m
    c = corner_m - needed / 2
    touches = (c > 0) & (a > x) & (b > y)
    square = np.maximum(a * a + b * b, ROUNDING_M**2)
    along_ray = a * x + b * y
    root = np.sqrt(np.maximum(along_ray**2 - square * (x * x + y * y - c * c), 0.0))
    return np.where(touches, np.clip((along_ray + root) / square, 0.0, 1.0), 1.0)
