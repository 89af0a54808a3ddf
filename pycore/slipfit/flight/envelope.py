"""What else the curve of level flight and full throttle say: the speed that lasts longest, the
slowest level flight, the climb straight up, and the wind's part."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.flight.flat_out import CLIMB, along_nodes, flat_out
from slipfit.flight.performance import USABLE_CHARGE, Performance
from slipfit.numerics import Array, Mask, grid_minimum

FINE = np.linspace(0.0, 1.0, 201)


@dataclass(frozen=True, kw_only=True, eq=False)
class Envelope:
    """Arrays (samples, 1), NaN where there is no answer."""

    endurance_speed_m_s: Array
    endurance_s: Array
    slowest_m_s: Array
    climb_rate_m_s: Array
    upwind_speed_m_s: Array  # through the air, of best range over the ground against the wind
    upwind_range_m: Array


@lru_cache(maxsize=8)
def envelope(p: Performance) -> Envelope:
    """The envelope of a performance; kept for the eight used last."""
    speeds, state = p.speeds_m_s, p.curve
    flyable = state.flyable
    current = np.where(flyable, state.drive.pack_current_A, np.inf)
    slow, least = grid_minimum(speeds, current)
    charge = USABLE_CHARGE * np.asarray(p.inputs.capacity_C)
    first = np.argmax(flyable, axis=1)
    ever = flyable.any(axis=1, keepdims=True)

    against = speeds - p.build.day.wind_m_s
    over_ground = np.where(against > 0.0, against, np.nan)
    per_metre = np.where(against > 0.0, current / np.where(against > 0.0, over_ground, 1.0), np.inf)
    upwind, cost = grid_minimum(speeds, per_metre)
    beats = np.isfinite(cost)
    return Envelope(
        endurance_speed_m_s=_where(p.can_hover, slow),
        endurance_s=np.where(p.can_hover, charge / least[:, None], np.nan),
        slowest_m_s=np.where(ever, speeds[first][:, None], np.nan),
        climb_rate_m_s=_climb(p),
        upwind_speed_m_s=_where(p.can_hover & beats[:, None], upwind),
        upwind_range_m=np.where(
            p.can_hover & beats[:, None], charge / np.where(beats, cost, 1.0)[:, None], np.nan
        ),
    )


def _where(mask: Mask, values: Array) -> Array:
    return np.where(mask, values[:, None], np.nan)


def _climb(p: Performance) -> Array:
    """Speed straight up at which nothing is left of the thrust: its last fall through zero."""
    states = flat_out(p)
    excess = along_nodes(CLIMB, states.excess_N, FINE)
    above = excess > 0.0
    k = np.clip(len(FINE) - 1 - np.argmax(above[:, ::-1], axis=1), 0, len(FINE) - 2)[:, None]
    here = np.take_along_axis(excess, k, axis=1)
    there = np.take_along_axis(excess, k + 1, axis=1)
    crossed = states.known & (here > 0.0) & (there <= 0.0)
    share = FINE[k] + FINE[1] * here / np.where(crossed, here - there, 1.0)
    return np.where(crossed, share * p.top_speed_m_s, np.nan)
