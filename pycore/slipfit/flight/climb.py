"""Climb and descent: full throttle on paths of any slope, the steepest of them at a speed, and what
a gentle slope takes at the speed of best range.

With the path at gamma above the horizon and the rotor axis at the incidence alpha to it:

    across   N + n H = W cos(alpha + gamma)
    along    n T = W sin(alpha + gamma) + A

At full throttle a third balance joins: the duty is 1, or the pack gives its most. The unknowns are
alpha, the rotor speed, and either the speed or the slope. The same equations say how steeply a
build can come down: until the propellers no longer pull, or the air no longer comes onto them from
ahead.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.flight.airframe_map import airframe_map
from slipfit.flight.envelope import envelope
from slipfit.flight.performance import Performance, State, spare
from slipfit.flight.trim import trim
from slipfit.numerics import Array, Mask, newton_roots

ANGLES_RAD: Final = np.deg2rad([0.0, 7.5, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0])
STATED: Final = 3  # of them: the climb of the figures
CLIMB_RAD: Final = float(ANGLES_RAD[STATED])
DESCENT_RAD: Final = float(np.deg2rad(10.0))  # down: what we call gentle
STEPS: Final = 4
BALANCED: Final = 2e-3  # of the weight, and of full throttle


@dataclass(frozen=True, kw_only=True, eq=False)
class Paths:
    """Full throttle on straight paths at `ANGLES_RAD`; arrays (samples, angles), NaN where the
    models have no answer."""

    speed_m_s: Array
    power_W: Array

    @property
    def forward_m_s(self) -> Array:
        """Speed over the ground in still air."""
        return np.asarray(self.speed_m_s * np.cos(ANGLES_RAD))

    @property
    def rise_m_s(self) -> Array:
        """Rate of climb."""
        return np.asarray(self.speed_m_s * np.sin(ANGLES_RAD))


class _Balances:
    """What is left of the balances of a build, on a path, in shares of the weight."""

    def __init__(self, p: Performance) -> None:
        self.p = p
        self.body = airframe_map(p.build.frame.bodies, p.build.air)
        self.weight = np.asarray(p.inputs.mass_kg) * G0_M_S2

    def __call__(self, alpha: Array, omega: Array, V: Array, gamma: Array) -> tuple[Array, ...]:
        """Across, along, pull of all rotors, what is spare, the pack's power, where it is valid."""
        p, count = self.p, self.p.build.rotor_count
        axial, side = V * np.cos(alpha), V * np.sin(alpha)
        rotor = p.rotors.loads(omega, axial, side)
        wash = np.where(np.isfinite(rotor.induced_speed_m_s), rotor.induced_speed_m_s, 0.0)
        drag, normal = self.body.forces(axial, side, wash, p.inputs.drag_factor)
        drive = p.electric.drive(omega, rotor.torque_Nm)
        across = (normal + count * rotor.inplane_force_N) / self.weight - np.cos(alpha + gamma)
        pull = count * rotor.thrust_N / self.weight
        along = pull - np.sin(alpha + gamma) - drag / self.weight
        return across, along, pull, spare(drive), drive.pack_power_W, rotor.valid


@lru_cache(maxsize=8)
def full_throttle_paths(p: Performance) -> Paths:
    """Full throttle at each of `ANGLES_RAD`, from level to straight up."""
    left = _Balances(p)
    top, straight_up = p.top_speed_m_s, envelope(p).climb_rate_m_s
    top = np.where(np.isfinite(top), top, 1.0)
    straight_up = np.where(np.isfinite(straight_up), straight_up, top)
    gamma = np.broadcast_to(ANGLES_RAD, (*top.shape[:-1], len(ANGLES_RAD)))
    V = top + (straight_up - top) * np.sin(gamma)
    alpha = p.top.trim.incidence_rad * np.cos(gamma)
    omega = _turning(p, V)

    def residuals(x: Array) -> Array:
        across, along, _, over, *_ = left(x[0], x[1], x[2], gamma)
        return np.stack([across, along, -over])

    start = np.stack([alpha, omega, V])
    low = np.stack([np.zeros_like(V), 0.4 * omega, 0.3 * V])
    high = np.stack([np.pi / 2 - gamma + 1e-9, 1.5 * omega, 1.3 * V])
    alpha, omega, V = newton_roots(residuals, start, low, high, steps=STEPS)
    across, along, _, over, power, valid = left(alpha, omega, V, gamma)
    known = _known(p) & valid & _small(across, along, over)
    return Paths(
        speed_m_s=np.where(known, V, np.nan),
        power_W=np.where(known, power, np.nan),
    )


def _known(p: Performance) -> Mask:
    return np.asarray(p.can_hover & p.top_ends_by_throttle & np.isfinite(p.top_speed_m_s))


def _small(*left: Array) -> Mask:
    return np.asarray(np.abs(np.stack(left)).max(axis=0) < BALANCED)


@lru_cache(maxsize=8)
def steepest_climb(p: Performance, speed_m_s: float) -> Array:
    """Steepest path on which full throttle holds a speed, (samples, 1): straight up where the
    build is faster than that even there, NaN where it is not as fast in level flight. [rad]"""
    left, V = _Balances(p), full_throttle_paths(p).speed_m_s
    ordered = np.isfinite(V).all(axis=1, keepdims=True)
    upright = ordered & (speed_m_s <= V[:, -1:])
    between = ordered & ~upright & (speed_m_s < V[:, :1])
    if not between.any():
        return np.where(upright, np.pi / 2, np.nan)
    rows = np.where(ordered, V, -ANGLES_RAD)
    gamma = np.stack([np.interp(-speed_m_s, -row, ANGLES_RAD) for row in rows])[:, None]
    alpha = p.top.trim.incidence_rad * np.cos(gamma)
    omega, held = _turning(p, np.full_like(gamma, speed_m_s)), np.full_like(gamma, speed_m_s)

    def residuals(x: Array) -> Array:
        across, along, _, over, *_ = left(x[0], x[1], held + 0.0 * x[0], x[2])
        return np.stack([across, along, -over])

    start = np.stack([alpha, omega, gamma])
    low = np.stack([np.zeros_like(gamma), 0.4 * omega, np.zeros_like(gamma)])
    high = np.stack([np.full_like(gamma, np.pi / 2), 1.5 * omega, np.full_like(gamma, np.pi / 2)])
    alpha, omega, gamma = newton_roots(residuals, start, low, high, steps=STEPS)
    across, along, _, over, _, valid = left(alpha, omega, held, gamma)
    found = between & valid & _small(across, along, over)
    return np.where(upright, np.pi / 2, np.where(found, gamma, np.nan))


def _turning(p: Performance, speed_m_s: Array) -> Array:
    """Rotor speed at full throttle to start from, between standing still and top speed."""
    slow, fast = p.standing.omega_rad_s, p.top.trim.omega_rad_s
    top = np.where(np.isfinite(p.top_speed_m_s), p.top_speed_m_s, speed_m_s)
    return np.asarray(slow + (fast - slow) * (speed_m_s / top) ** 1.5)


@lru_cache(maxsize=8)
def gentle_paths(p: Performance) -> State:
    """Steady climb at `CLIMB_RAD` and descent at `DESCENT_RAD`, at the speed of best range."""
    slopes = np.array([CLIMB_RAD, -DESCENT_RAD])
    V = np.where(np.isfinite(p.cruise_speed_m_s), p.cruise_speed_m_s, 1.0) + 0.0 * slopes
    level = p.cruise.trim
    start = tuple(np.broadcast_to(x, V.shape) for x in (level.incidence_rad, level.omega_rad_s))
    found = trim(p.build.frame, p.rotors, p.build.air, V, slopes, start=(start[0], start[1]))
    return State(trim=found, drive=p.electric.drive(found.omega_rad_s, found.rotor.torque_Nm))


@lru_cache(maxsize=8)
def steepest_descent(p: Performance) -> Array:
    """Slope of the steepest path down at the speed of best range, as a positive angle (samples,
    1). For a frame that flies along its rotor axis it is where the propellers no longer pull; for
    one that flies upright, where the air no longer comes onto them from above. [rad]"""
    left, V, level = _Balances(p), p.cruise_speed_m_s, p.cruise.trim
    V = np.where(np.isfinite(V), V, 1.0)
    along_axis = flies_along_axis(p)
    alpha = np.where(along_axis, level.incidence_rad, np.pi / 2)
    gamma = np.where(along_axis, -0.4, level.incidence_rad - np.pi / 2)
    omega = level.omega_rad_s * np.where(along_axis, 0.8, 0.75)

    def residuals(x: Array) -> Array:
        across, along, pull, *_ = left(x[0], x[1], V, x[2])
        return np.stack([across, along, np.where(along_axis, pull, x[0] - np.pi / 2)])

    start = np.stack([alpha, omega, gamma])
    low = np.stack([np.zeros_like(V), 0.2 * omega, np.full_like(V, -np.pi / 2)])
    high = np.stack([np.full_like(V, 0.75 * np.pi), 2.0 * omega, np.zeros_like(V)])
    alpha, omega, gamma = newton_roots(residuals, start, low, high, steps=STEPS)
    across, along, pull, _, _, valid = left(alpha, omega, V, gamma)
    last = np.where(along_axis, pull, alpha - np.pi / 2)
    return np.where(p.can_hover & valid & _small(across, along, last), -gamma, np.nan)


def flies_along_axis(p: Performance) -> Mask:
    """Whether the rotor axis lies nearer to the path than across it, at the speed of best range."""
    return np.asarray(p.cruise.trim.incidence_rad < np.pi / 4)
