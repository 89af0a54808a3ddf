"""The run-up: how long and how far full throttle takes from rest to near top speed, and what it
costs. The last hundredth of top speed is never quite reached, so figures stop short of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.flight.flat_out import RUN_UP, along_nodes, flat_out
from slipfit.flight.performance import Performance
from slipfit.numerics import Array

NEARLY = 0.95  # of top speed, where a run-up counts as done
ENDS = 0.99
POINTS = 199


@dataclass(frozen=True, kw_only=True, eq=False)
class Dash:
    """A run-up from rest in level flight; arrays (samples, points) over `share` of top speed, NaN
    where there is no answer."""

    share: Array  # (points,)
    speed_m_s: Array
    time_s: Array
    distance_m: Array
    energy_J: Array

    def at(self, values: Array, share: float) -> Array:
        """Values where the speed is a share of top speed, (samples, 1)."""
        k = min(int(np.searchsorted(self.share, share)), len(self.share) - 1)
        k = max(k, 1)
        t = (share - self.share[k - 1]) / (self.share[k] - self.share[k - 1])
        return np.asarray((1.0 - t) * values[:, k - 1 : k] + t * values[:, k : k + 1])

    def at_speed(self, values: Array, speed_m_s: float) -> Array:
        """Values where a speed is reached, (samples, 1); NaN where it is not."""
        reached = [
            np.interp(speed_m_s, speeds, row, right=np.nan) if np.isfinite(speeds[-1]) else np.nan
            for speeds, row in zip(self.speed_m_s, values, strict=True)
        ]
        return np.array(reached)[:, None]


@lru_cache(maxsize=8)
def dash(p: Performance) -> Dash:
    """The run-up of a performance. dV/dt is followed as c (1 - share^2), with c smooth."""
    states = flat_out(p)
    share = np.linspace(0.0, ENDS, POINTS)
    easing = states.acceleration_m_s2 / (1.0 - RUN_UP**2)
    c = along_nodes(RUN_UP, easing, share)
    speeding = states.known & (c.min(axis=1, keepdims=True) > 0.0)
    a = np.where(speeding, c, 1.0) * (1.0 - share**2)
    V = np.where(speeding, p.top_speed_m_s, np.nan) * share
    power = along_nodes(RUN_UP, states.power_W, share)
    time = _summed(1.0 / a, V)
    return Dash(
        share=share,
        speed_m_s=V,
        time_s=time,
        distance_m=_summed(V / a, V),
        energy_J=_summed(power / a, V),
    )


def _summed(rate: Array, over: Array) -> Array:
    """Running integral by trapezoids, from 0."""
    pieces = 0.5 * (rate[:, 1:] + rate[:, :-1]) * np.diff(over, axis=1)
    return np.concatenate([0.0 * over[:, :1], np.cumsum(pieces, axis=1)], axis=1)
