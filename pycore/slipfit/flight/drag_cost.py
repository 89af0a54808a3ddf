"""What each cause of drag costs at top speed: the speed that the same build would reach without it.

Level flight flat out is solved anew for each cause, all of them at once: incidence, rotor speed and
flight speed together, at full throttle. How a cause's force changes away from top speed is taken
from its slopes there, in speed and in incidence.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.flight.airframe_map import airframe_map
from slipfit.flight.performance import Performance, spare
from slipfit.numerics import Array, newton_roots

STEPS = 4
MOST = 10  # causes that are looked at, the largest first
ASIDE_SPEED, ASIDE_RAD = 0.03, 0.01  # for the slopes
BALANCED = 2e-3


def largest_causes(p: Performance, most: int = MOST) -> tuple[str, ...]:
    """The causes of drag at top speed, the largest first."""
    causes = {name: float(np.mean(f)) for name, f in p.top.trim.drag_causes_N.items()}
    return tuple(sorted((n for n in causes if causes[n] > 0.0), key=lambda n: -causes[n])[:most])


@lru_cache(maxsize=16)
def speed_without(p: Performance, causes: tuple[str, ...]) -> Array:
    """Top speed without each of some causes, (samples, causes); NaN where there is no answer."""
    if not causes:
        return np.empty((len(p.can_hover), 0))
    build, rotors, electric = p.build, p.rotors, p.electric
    count, drag_factor = build.rotor_count, p.inputs.drag_factor
    body = airframe_map(build.frame.bodies, build.air)
    weight = np.asarray(p.inputs.mass_kg) * G0_M_S2
    top = p.top.trim
    V0 = np.where(np.isfinite(p.top_speed_m_s), p.top_speed_m_s, 1.0)
    a0, w0 = top.incidence_rad, top.omega_rad_s
    wash = np.where(np.isfinite(top.rotor.induced_speed_m_s), top.rotor.induced_speed_m_s, 0.0)

    # each cause over V^2 at top speed, and its slopes in ln V and in incidence
    speeds = np.stack([V0, V0 * (1.0 + ASIDE_SPEED), V0])
    turned = np.stack([a0, a0, a0 + ASIDE_RAD])
    found = body.loads(
        speeds * np.cos(turned), speeds * np.sin(turned), np.broadcast_to(wash, speeds.shape),
        drag_factor,
    )  # fmt: skip
    over = np.stack([found.causes[name] / speeds**2 for name in causes], axis=-1)[:, :, 0, :]
    here, faster, steeper = over
    by_speed, by_angle = (faster - here) / np.log1p(ASIDE_SPEED), (steeper - here) / ASIDE_RAD

    shape = here.shape
    V0, a0, w0 = (np.broadcast_to(x, shape) for x in (V0, a0, w0))

    def left(x: Array) -> tuple[Array, Array, Array]:
        alpha, omega, V = x
        axial, side = V * np.cos(alpha), V * np.sin(alpha)
        rotor = rotors.loads(omega, axial, side)
        induced = np.where(np.isfinite(rotor.induced_speed_m_s), rotor.induced_speed_m_s, 0.0)
        drag, normal = body.forces(axial, side, induced, drag_factor)
        gone = V**2 * (here + by_speed * np.log(V / V0) + by_angle * (alpha - a0))
        full = spare(electric.drive(omega, rotor.torque_Nm))
        across = normal + count * rotor.inplane_force_N - weight * np.cos(alpha)
        along = count * rotor.thrust_N - weight * np.sin(alpha) - (drag - gone)
        return across / weight, along / weight, -full

    start = np.stack([a0, w0, V0 * 1.02])
    low = np.stack([np.zeros(shape), 0.5 * w0, 0.8 * V0])
    high = np.stack([np.full(shape, np.pi / 2), 1.5 * w0 + 1.0, 1.8 * V0])
    x = newton_roots(lambda x: np.stack(left(x)), start, low, high, steps=STEPS)
    residual = np.abs(np.stack(left(x))).max(axis=0)
    known = p.can_hover & p.top_ends_by_throttle & (residual < BALANCED)
    return np.asarray(np.where(known, x[2], np.nan))


def speed_cost(p: Performance, causes: tuple[str, ...]) -> Array:
    """Top speed that each of some causes costs, (samples, causes). [m/s]"""
    return np.asarray(speed_without(p, causes) - p.top_speed_m_s)
