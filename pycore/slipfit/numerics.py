"""Small vectorised numerical tools that every layer may use: roots, interpolation, sampling."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Real = float | Array


def as_real(value: ArrayLike) -> Real:
    """A plain float where a result has no axes, else the array: what a formula hands back."""
    array = np.asarray(value, dtype=float)
    return array if array.ndim else float(array)


def over_argument(function: Callable[[Array], Array], z: Array) -> Array:
    """function(z) / z for one that leaves zero with slope 1, such as expm1 or log1p; 1 there."""
    safe = np.where(np.abs(z) > 1e-9, z, 1.0)
    return np.asarray(np.where(np.abs(z) > 1e-9, function(safe) / safe, 1.0))


def bracketed_root(
    function: Callable[[Array], Array],
    low: ArrayLike,
    high: ArrayLike,
    steps: int = 40,
    settled: float = 0.0,
) -> Array:
    """Roots of a function that changes sign once on each [low, high], for all cases at once.

    The Anderson-Bjorck form of false position: it keeps the bracket and converges faster than
    linearly, with at most that many steps, fewer once every residual is within `settled`. Where
    both ends have one sign the end with the smaller residual is returned, so the caller must test
    the ends when that can happen.
    """
    a, b = (np.array(x, dtype=float) for x in np.broadcast_arrays(low, high))
    fa, fb = function(a), function(b)
    rootless = fa * fb > 0.0
    start = rootless & (np.abs(fa) <= np.abs(fb))  # the nearer end is the start of the bracket
    b, fb = np.where(start, a, b), np.where(start, fa, fb)
    a, fa = np.where(rootless, b, a), np.where(rootless, fb, fa)  # an empty bracket stays put
    for _ in range(steps):
        slope = fb - fa
        safe = np.where(slope == 0.0, 1.0, slope)
        c = np.where(slope == 0.0, 0.5 * (a + b), (a * fb - b * fa) / safe)
        fc = function(c)
        crossed = fc * fb < 0.0
        shrink = 1.0 - np.divide(fc, fb, out=np.zeros_like(fc), where=fb != 0.0)
        shrink = np.where(shrink > 0.0, shrink, 0.5)
        a, fa = np.where(crossed, b, a), np.where(crossed, fb, fa * shrink)
        b, fb = c, fc
        if np.all(np.abs(fc) <= settled):
            break
    return b


SETTLED = 1e-5


def newton_roots(
    residuals: Callable[[Array], Array],
    start: Array,
    low: Array,
    high: Array,
    *,
    steps: int = 6,
    nudge: float = 1e-6,
    reach: float = 0.3,
) -> Array:
    """Roots of k equations in k unknowns, for all cases at once; arrays of shape (k, ...).

    Newton's method with forward differences, at most so many steps: none follows one that moved no
    case by more than `SETTLED` of the way between its bounds, because the next would move it by a
    `nudge` of that. A step moves an unknown by at most `reach` of that way, and never past the
    bounds; a case whose slopes have no answer stays where it is, so the caller must look at what is
    left of the residuals.
    """
    x = np.clip(start, low, high)
    k = len(x)
    span = np.broadcast_to(high - low, x.shape)
    aside = nudge * span * np.where(x + nudge * span <= high, 1.0, -1.0)
    for _ in range(steps):
        points = np.repeat(x[:, None], k + 1, axis=1)
        for j in range(k):
            points[j, j + 1] += aside[j]
        values = residuals(points)
        slopes = (values[:, 1:] - values[:, :1]) / aside[None, :]
        matrix = np.moveaxis(slopes, (0, 1), (-2, -1))
        right = np.moveaxis(values[:, 0], 0, -1)
        finite = np.isfinite(matrix).all(axis=(-2, -1)) & np.isfinite(right).all(axis=-1)
        usable: Mask = np.asarray(finite)
        matrix = np.where(usable[..., None, None], matrix, np.eye(k))
        usable &= np.abs(np.linalg.det(matrix)) > 1e-300
        matrix = np.where(usable[..., None, None], matrix, np.eye(k))
        right = np.where(usable[..., None], right, 0.0)
        step = np.moveaxis(np.linalg.solve(matrix, right[..., None])[..., 0], -1, 0)
        x = np.clip(x - np.clip(step, -reach * span, reach * span), low, high)
        if (np.abs(step) <= SETTLED * span).all():
            break
    return np.asarray(x)


def grid_minimum(x: Array, y: Array) -> tuple[Array, Array]:
    """Place and value of the least y over the last axis, on the parabola through the best three of
    evenly spaced x; infinite values are no candidates."""
    best = np.argmin(y, axis=-1)
    k = np.clip(best, 1, y.shape[-1] - 2)
    y0, y1, y2 = (np.take_along_axis(y, (k + d)[..., None], -1)[..., 0] for d in (-1, 0, 1))
    inner = (k == best) & np.isfinite(y0) & np.isfinite(y1) & np.isfinite(y2)
    a, b = np.where(inner, y2, 0.0), np.where(inner, y0, 0.0)
    middle = np.where(inner, y1, 0.0)
    bend = a - 2.0 * middle + b
    turns = bend > 0.0
    shift = np.where(turns, 0.5 * (b - a) / np.where(turns, bend, 1.0), 0.0)
    value = np.where(inner, middle + 0.25 * (a - b) * shift, np.min(y, axis=-1))
    return np.asarray(x[best] + shift * (x[1] - x[0])), np.asarray(value)


def pchip_slopes(x: Array, y: Array) -> Array:
    """Slopes at the knots of a shape-preserving cubic (Fritsch and Carlson, 1980), last axis."""
    h = np.diff(x)
    d = np.diff(y, axis=-1) / h
    w1, w2 = 2 * h[1:] + h[:-1], h[1:] + 2 * h[:-1]
    same = d[..., 1:] * d[..., :-1] > 0
    safe_left = np.where(same, d[..., :-1], 1.0)
    safe_right = np.where(same, d[..., 1:], 1.0)
    inner = np.where(same, (w1 + w2) / (w1 / safe_left + w2 / safe_right), 0.0)
    return np.concatenate([d[..., :1], inner, d[..., -1:]], axis=-1)


def pchip(x: Array, y: Array, at: ArrayLike) -> Array:
    """Values of a smooth curve through (x, y) that never overshoots; x rising, `at` within it."""
    q = np.asarray(at, dtype=float)
    m = pchip_slopes(x, y)
    k = np.clip(np.searchsorted(x, q, side="right") - 1, 0, len(x) - 2)
    h = x[k + 1] - x[k]
    t = (q - x[k]) / h
    return np.asarray(
        (1 + 2 * t) * (1 - t) ** 2 * y[k]
        + t * (1 - t) ** 2 * h * m[k]
        + t**2 * (3 - 2 * t) * y[k + 1]
        + t**2 * (t - 1) * h * m[k + 1]
    )


def low_discrepancy(count: int, dimensions: int) -> Array:
    """Evenly spread points in the unit cube, shape (count, dimensions), the same at every call.

    Kronecker sequence on the powers of the root of x^(d+1) = x + 1, which generalises the golden
    ratio (a rank-1 lattice; no random numbers, so that figures never flicker).
    """
    root = 2.0
    for _ in range(60):
        root = (1.0 + root) ** (1.0 / (dimensions + 1))
    alpha = root ** -np.arange(1, dimensions + 1, dtype=float)
    return np.asarray((0.5 + np.arange(1, count + 1)[:, None] * alpha) % 1.0)


def normal_quantile(p: ArrayLike) -> Array:
    """Quantile of the standard normal distribution; 0 < p < 1.

    Abramowitz and Stegun 26.2.23, |error| < 4.5e-4, ample for spreads that are guesses.
    """
    q = np.asarray(p, dtype=float)
    tail = np.minimum(q, 1.0 - q)
    t = np.sqrt(-2.0 * np.log(tail))
    x = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (
        1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308))
    )
    return np.asarray(np.where(q < 0.5, -x, x))


def quantiles(values: Array, shares: tuple[float, ...]) -> Array:
    """Quantiles over the first axis of the values that are not NaN, linear between neighbours,
    shape (shares, ...); NaN where there are none."""
    rows = np.sort(values, axis=0)  # NaN last
    last = np.maximum((~np.isnan(rows)).sum(axis=0) - 1, 0)
    place = np.multiply.outer(np.array(shares), last)
    below = place.astype(np.intp)
    above = np.minimum(below + 1, last)
    low, high = (np.take_along_axis(rows, i, axis=0) for i in (below, above))
    return np.asarray(low + (place - below) * (high - low))


class CubicAxis:
    """Smooth interpolation on one uneven axis: every point is a weighted sum of four neighbours.

    Cubic Hermite pieces whose slope at a node is that of the parabola through it and its two
    neighbours: exact for parabolas, continuous with its first derivative.
    """

    def __init__(self, nodes: Array) -> None:
        self.nodes = nodes
        self._inner = nodes[1:-1].copy()
        n = len(nodes)
        slopes = np.zeros((n, n))
        for k in range(n):
            i = min(max(k - 1, 0), n - 3)
            x = nodes[i : i + 3]
            for j in range(3):
                p, q = (x[m] for m in range(3) if m != j)
                slopes[k, i + j] = (2 * nodes[k] - p - q) / ((x[j] - p) * (x[j] - q))
        h = np.diff(nodes)[:, None]
        self._over_length = 1.0 / np.diff(nodes)
        value = np.eye(n)
        y0, y1, m0, m1 = value[:-1], value[1:], slopes[:-1] * h, slopes[1:] * h
        full = np.stack([y0, m0, 3 * (y1 - y0) - 2 * m0 - m1, m0 + m1 - 2 * (y1 - y0)], axis=1)
        self.first = np.clip(np.arange(n - 1) - 1, 0, n - 4)
        # a table for each power, since reading one after the other is faster than all at once
        self._powers = np.stack([full[k, :, i : i + 4] for k, i in enumerate(self.first)], axis=1)

    def cubics(self) -> tuple[NDArray[np.intp], Array]:
        """For each piece between nodes: index of the first of its four nodes, shape (pieces,), and
        the cubic that each of them is multiplied by, (pieces, 4 rising powers, 4 nodes)."""
        return self.first, self._powers.transpose(1, 0, 2)

    def place(self, x: Array) -> tuple[NDArray[np.intp], Array]:
        """Piece in which each point lies, and how far along it, 0 to 1."""
        k = self._inner.searchsorted(x, side="right")
        return k, np.asarray((x - self.nodes[k]) * self._over_length[k])

    def weights(self, x: Array) -> tuple[NDArray[np.intp], Array]:
        """Index of the first of four neighbours, shape (n,), and their weights, (n, 4)."""
        k, along = self.place(x)
        t = along[:, None]
        w = self._powers[3].take(k, axis=0)
        for power in self._powers[2::-1]:
            w *= t
            w += power.take(k, axis=0)
        return self.first[k], w
