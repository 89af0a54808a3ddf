"""Full throttle in flight: the states of a run-up in level flight and of a climb straight up.

In a run-up the throttle is fully open and the frame tilts so that the vertical balance holds; what
is left along the path speeds it up. With the rotor axis at the incidence alpha above the path:

    vertical    (n T - A) sin(alpha) + (N + n H) cos(alpha) = W
    along       (n T - A) cos(alpha) - (N + n H) sin(alpha) = m dV/dt

In a climb straight up the axis is the path, and what is left is n T - W - A. The attitude is taken
as following at once. Both are solved together, at a few speeds between rest and top speed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.flight.airframe_map import airframe_map
from slipfit.flight.performance import Performance, spare
from slipfit.numerics import Array, CubicAxis, Mask, newton_roots

# Shares of top speed. What is left of the thrust falls to nothing there, as 1 - share^2 would: it
# is followed over that, so that the last node need not stand at the end.
RUN_UP = np.array([0.0, 0.15, 0.3, 0.45, 0.6, 0.74, 0.86, 0.94])
CLIMB = np.array([0.0, 0.2, 0.4, 0.6, 0.8, 1.0])
STEPS = 4
BALANCED = 2e-3  # of the weight, and of full throttle


@dataclass(frozen=True, kw_only=True, eq=False)
class FlatOut:
    """Full throttle at shares of top speed; arrays (samples, nodes) or (samples, 1)."""

    acceleration_m_s2: Array  # of the run-up, at `RUN_UP`
    incidence_rad: Array
    power_W: Array
    excess_N: Array  # of the climb, at `CLIMB`: thrust less weight and drag
    known: Mask  # (samples, 1): every node was solved within the models' range


@lru_cache(maxsize=8)
def flat_out(p: Performance) -> FlatOut:
    """The states at full throttle of a performance; kept for the eight used last."""
    build, rotors, electric = p.build, p.rotors, p.electric
    count = build.rotor_count
    body = airframe_map(build.frame.bodies, build.air)
    drag_factor = p.inputs.drag_factor
    weight = np.asarray(p.inputs.mass_kg) * G0_M_S2
    top = np.where(np.isfinite(p.top_speed_m_s), p.top_speed_m_s, 1.0)
    shares = np.concatenate([RUN_UP, CLIMB])
    run = len(RUN_UP)
    V = top * shares
    climbing = np.broadcast_to(np.arange(len(shares)) >= run, V.shape)

    # from the states that are known: standing still and top speed
    alpha_top = np.clip(p.top.trim.incidence_rad, 0.0, np.pi / 2)
    strong = np.maximum(count * p.standing.rotor.thrust_N, weight)
    strong = np.where(np.isfinite(strong), strong, weight)
    alpha = np.arcsin(weight / strong) * (1.0 - shares**2) + alpha_top * shares**2
    slow, fast = p.standing.omega_rad_s, p.top.trim.omega_rad_s
    omega = slow + (fast - slow) * shares**1.5
    start = np.stack([np.where(climbing, 0.0, alpha), np.broadcast_to(omega, V.shape)])

    def forces(alpha: Array, omega: Array) -> tuple[Array, Array, Array, Array, Mask]:
        axial, side = V * np.cos(alpha), V * np.sin(alpha)
        rotor = rotors.loads(omega, axial, side)
        wash = np.where(np.isfinite(rotor.induced_speed_m_s), rotor.induced_speed_m_s, 0.0)
        drag, normal = body.forces(axial, side, wash, drag_factor)
        drive = electric.drive(omega, rotor.torque_Nm)
        pull = count * rotor.thrust_N - drag
        lift = normal + count * rotor.inplane_force_N
        return pull, lift, spare(drive), drive.pack_power_W, rotor.valid

    def residuals(x: Array) -> Array:
        pull, lift, left, *_ = forces(x[0], x[1])
        vertical = (pull * np.sin(x[0]) + lift * np.cos(x[0])) / weight - 1.0
        return np.stack([np.where(climbing, x[0], vertical), -left])

    low = np.zeros_like(start)
    high = np.stack([np.full(V.shape, np.pi / 2), 1.6 * np.maximum(start[1], 1.0)])
    low[1] = 0.3 * start[1]
    alpha, omega = newton_roots(residuals, start, low, high, steps=STEPS)
    pull, lift, left, power, valid = forces(alpha, omega)
    vertical = (pull * np.sin(alpha) + lift * np.cos(alpha)) / weight - 1.0
    solved = valid & (np.abs(left) < BALANCED) & (climbing | (np.abs(vertical) < BALANCED))
    along = pull * np.cos(alpha) - lift * np.sin(alpha)
    known = p.can_hover & p.top_ends_by_throttle & np.isfinite(p.top_speed_m_s)
    return FlatOut(
        acceleration_m_s2=along[:, :run] / (weight / G0_M_S2),
        incidence_rad=alpha[:, :run],
        power_W=power[:, :run],
        excess_N=pull[:, run:] - weight,
        known=known & solved.all(axis=1, keepdims=True),
    )


def along_nodes(nodes: Array, values: Array, shares: Array) -> Array:
    """Values (samples, nodes) at shares between the nodes or a little beyond, (samples, shares)."""
    return np.asarray(values @ _weights(nodes.tobytes(), shares.tobytes()))


@lru_cache(maxsize=32)
def _weights(nodes: bytes, shares: bytes) -> Array:
    """Weight of each node in each share, (nodes, shares); few pairs are ever asked for."""
    axis, at = CubicAxis(np.frombuffer(nodes)), np.frombuffer(shares)
    first, weight = axis.weights(at)
    spread = np.zeros((len(at), len(axis.nodes)))
    np.put_along_axis(spread, first[:, None] + np.arange(4), weight, axis=1)
    return spread.T
