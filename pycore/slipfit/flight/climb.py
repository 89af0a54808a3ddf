"""Climb and descent: full throttle on paths of any slope, the steepest of them at a speed, and what
a gentle slope takes at the speed of best range.

With the path at gamma above the horizon and the rotor axis at the incidence alpha to it:

    across   N + n H = W cos(alpha + gamma)
    along    n T = W sin(alpha + gamma) + A

The unknowns are alpha, the rotor speed, the speed and the slope, so that two more things can be
asked. Most paths ask for a slope and full throttle (the duty is 1, or the pack gives its most), a
gentle one for a slope and a speed, the steepest one down for a speed and its end: that the
propellers no longer pull, or that the air no longer comes onto them from ahead. All are solved at
once.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.flight.airframe_map import airframe_map
from slipfit.flight.envelope import envelope
from slipfit.flight.performance import Performance, spare
from slipfit.numerics import Array, Mask, newton_roots

ANGLES_RAD: Final = np.deg2rad([0.0, 7.5, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0])
STATED: Final = 3  # of them: the climb of the figures
CLIMB_RAD: Final = float(ANGLES_RAD[STATED])
DESCENT_RAD: Final = float(np.deg2rad(10.0))  # down: what we call gentle
STEPS: Final = 4
BALANCED: Final = 2e-3  # of the weight, of full throttle, of what else is asked for
FULL: Final = slice(0, len(ANGLES_RAD))  # columns of `Paths`: at full throttle, at `ANGLES_RAD`;
CLIMB, DESCENT, STEEPEST = range(len(ANGLES_RAD), len(ANGLES_RAD) + 3)  # at best range's speed


@dataclass(frozen=True, kw_only=True, eq=False)
class Paths:
    """Steady states on straight paths; arrays (samples, paths), NaN where the models have no
    answer."""

    speed_m_s: Array
    slope_rad: Array  # above the horizon
    incidence_rad: Array
    omega_rad_s: Array
    pull_N: Array  # of all rotors
    duty: Array
    power_W: Array  # from the pack

    @property
    def forward_m_s(self) -> Array:
        """Speed over the ground in still air."""
        return np.asarray(self.speed_m_s * np.cos(self.slope_rad))

    @property
    def rise_m_s(self) -> Array:
        """Rate of climb."""
        return np.asarray(self.speed_m_s * np.sin(self.slope_rad))


@dataclass(frozen=True, kw_only=True, eq=False)
class _Left:
    """What is left of the balances, in shares of the weight, and what goes with it."""

    across: Array
    along: Array
    pull: Array
    spare: Array
    drive: Any
    valid: Mask


def _left(p: Performance, alpha: Array, omega: Array, V: Array, gamma: Array) -> _Left:
    build, count = p.build, p.build.rotor_count
    weight = np.asarray(p.inputs.mass_kg) * G0_M_S2
    axial, side = V * np.cos(alpha), V * np.sin(alpha)
    rotor = p.rotors.loads(omega, axial, side)
    wash = np.where(np.isfinite(rotor.induced_speed_m_s), rotor.induced_speed_m_s, 0.0)
    body = airframe_map(build.frame.bodies, build.air)
    drag, normal = body.forces(axial, side, wash, p.inputs.drag_factor)
    drive = p.electric.drive(omega, rotor.torque_Nm)
    pull = count * rotor.thrust_N / weight
    return _Left(
        across=(normal + count * rotor.inplane_force_N) / weight - np.cos(alpha + gamma),
        along=pull - np.sin(alpha + gamma) - drag / weight,
        pull=pull,
        spare=spare(drive),
        drive=drive,
        valid=np.asarray(rotor.valid),
    )


@lru_cache(maxsize=8)
def paths(p: Performance) -> Paths:
    """The paths of a performance; kept for the eight used last."""
    level, ones = p.cruise.trim, np.ones(p.top_speed_m_s.shape)
    top = np.where(np.isfinite(p.top_speed_m_s), p.top_speed_m_s, 1.0)
    up = envelope(p).climb_rate_m_s
    up = np.where(np.isfinite(up), up, top)
    cruise = np.where(np.isfinite(p.cruise_speed_m_s), p.cruise_speed_m_s, 1.0)
    along_axis = flies_along_axis(p)

    def joined(full: Array, climb: Array, descent: Array, steepest: Array) -> Array:
        return np.concatenate([full + 0.0 * ones, climb, descent, steepest], axis=1)

    # from what is known: level flight, and the climb straight up
    fast = top + (up - top) * np.sin(ANGLES_RAD)
    tilted = level.incidence_rad
    asked = joined(
        ANGLES_RAD + 0.0 * top, CLIMB_RAD * ones, -DESCENT_RAD * ones,
        np.where(along_axis, -0.4, tilted - np.pi / 2),
    )  # fmt: skip
    alpha = joined(
        p.top.trim.incidence_rad * np.cos(ANGLES_RAD), tilted, tilted,
        np.where(along_axis, tilted, np.pi / 2),
    )  # fmt: skip
    omega = joined(
        _turning(p, fast), level.omega_rad_s, level.omega_rad_s,
        level.omega_rad_s * np.where(along_axis, 0.8, 0.75),
    )  # fmt: skip
    V = joined(fast, cruise, cruise, cruise)
    column = np.arange(V.shape[1])
    full, last = column <= FULL.stop - 1, column == STEEPEST

    def residuals(x: Array, found: _Left | None = None) -> Array:
        found = found or _left(p, *x)
        end = np.where(along_axis, found.pull, x[0] - np.pi / 2)
        return np.stack(
            [
                found.across,
                found.along,
                np.where(full, -found.spare, x[2] / V - 1.0),
                np.where(last, end, x[3] - asked),
            ]
        )

    start = np.stack([alpha, omega, V, asked])
    right = np.full(V.shape, np.pi / 2)
    low = np.stack([0.0 * right, 0.2 * omega, 0.3 * V, -right])
    high = np.stack([1.5 * right, 2.0 * omega, 1.3 * V, right])
    x = newton_roots(residuals, start, low, high, steps=STEPS)
    found = _left(p, *x)
    balanced = np.abs(residuals(x, found)).max(axis=0) < BALANCED
    weight = np.asarray(p.inputs.mass_kg) * G0_M_S2
    known = balanced & found.valid & p.can_hover & (~full | _ends_by_throttle(p))

    def where_known(values: Array) -> Array:
        return np.where(known, values, np.nan)

    return Paths(
        speed_m_s=where_known(x[2]),
        slope_rad=where_known(x[3]),
        incidence_rad=where_known(x[0]),
        omega_rad_s=where_known(x[1]),
        pull_N=where_known(found.pull * weight),
        duty=where_known(np.where(found.spare > -BALANCED, found.drive.duty, np.nan)),
        power_W=where_known(np.where(found.spare > -BALANCED, found.drive.pack_power_W, np.nan)),
    )


def _ends_by_throttle(p: Performance) -> Mask:
    return np.asarray(p.top_ends_by_throttle & np.isfinite(p.top_speed_m_s))


def _turning(p: Performance, speed_m_s: Array) -> Array:
    """Rotor speed at full throttle to start from, between standing still and top speed."""
    slow, fast = p.standing.omega_rad_s, p.top.trim.omega_rad_s
    top = np.where(np.isfinite(p.top_speed_m_s), p.top_speed_m_s, speed_m_s)
    return np.asarray(slow + (fast - slow) * (speed_m_s / top) ** 1.5)


def flies_along_axis(p: Performance) -> Mask:
    """Whether the rotor axis lies nearer to the path than across it, at the speed of best range.
    Where it does, a descent ends as the propellers no longer pull; else, as the air comes onto
    them from the side."""
    return np.asarray(p.cruise.trim.incidence_rad < np.pi / 4)


@lru_cache(maxsize=8)
def steepest_climb(p: Performance, speed_m_s: float) -> Array:
    """Steepest path on which full throttle holds a speed, (samples, 1): straight up where the
    build is faster than that even there, NaN where it is not as fast in level flight. [rad]"""
    V = paths(p).speed_m_s[:, FULL]
    ordered = np.isfinite(V).all(axis=1, keepdims=True)
    upright = ordered & (speed_m_s <= V[:, -1:])
    between = ordered & ~upright & (speed_m_s < V[:, :1])
    if not between.any():
        return np.where(upright, np.pi / 2, np.nan)
    rows = np.where(ordered, V, -ANGLES_RAD)
    gamma = np.stack([np.interp(-speed_m_s, -row, ANGLES_RAD) for row in rows])[:, None]
    alpha = p.top.trim.incidence_rad * np.cos(gamma)
    held = np.full(gamma.shape, speed_m_s)
    omega = _turning(p, held)

    def residuals(x: Array) -> Array:
        found = _left(p, x[0], x[1], held + 0.0 * x[0], x[2])
        return np.stack([found.across, found.along, -found.spare])

    start, right = np.stack([alpha, omega, gamma]), np.full(gamma.shape, np.pi / 2)
    low = np.stack([0.0 * right, 0.4 * omega, 0.0 * right])
    x = newton_roots(residuals, start, low, np.stack([right, 1.5 * omega, right]), steps=STEPS)
    balanced = np.abs(residuals(x)).max(axis=0) < BALANCED
    return np.where(upright, np.pi / 2, np.where(between & balanced, x[2], np.nan))
