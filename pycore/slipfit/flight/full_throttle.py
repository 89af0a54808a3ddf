"""Level flight at full throttle while the speed changes: what a build does at any speed on any
supply, as a table, so that a run-up can be followed step by step.

The vertical balance is held at each speed: `(n T - A) sin alpha + (N + n H) cos alpha = W`. What is
left along the path accelerates: `m dV/dt = (n T - A) cos alpha - (N + n H) sin alpha`. Loads are
tabulated over speed and rotor speed; the supply (open-circuit voltage behind resistances) then
decides which rotor speed is full throttle.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.flight.airframe_map import airframe_map
from slipfit.flight.drivetrain import FASTEST_SHAFT_RAD_S
from slipfit.flight.inputs import motor_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array, CubicAxis, Mask
from slipfit.physics.motor import no_load_current

_SPEEDS = CubicAxis(np.linspace(0.0, 1.0, 9))  # shares of the table's fastest speed
_ROTATIONS = 7  # rotor speeds at each of them
_REACH = 1.1  # fastest speed of the table, over the top speed on a full pack
_MARGIN = 1.04  # warm magnets turn faster than the unloaded speed of the steady figures
_FOUR, _EYE = np.arange(4), np.eye(4)
_OTHERS = 1.0 - _EYE


@dataclass(frozen=True, kw_only=True)
class Supply:
    """What feeds the motors: arrays of shape (samples,)."""

    open_circuit_V: Array  # behind the resistance below, polarisation taken off
    pack_resistance_ohm: Array
    winding_and_switch_ohm: Array  # in series with each motor
    kv_rad_s_V: Array
    other_power_W: Array  # electronics and the ESC's fixed losses
    motors: int


@dataclass(frozen=True, kw_only=True)
class Thrusting:
    """Full throttle at a speed: arrays of shape (samples,)."""

    omega_rad_s: Array
    torque_Nm: Array
    acceleration_m_s2: Array
    through_m_s: Array  # speed of the air through the disk
    no_load_current_A: Array
    pack_current_A: Array
    at_model_end: Mask  # tips would turn supersonic, or the supply is too weak for the table


class FullThrottle:
    """Loads over speed and rotor speed of one build (or its samples), and the search in them."""

    def __init__(self, p: Performance) -> None:
        rotors, inputs, build = p.rotors, p.inputs, p.build
        body, motor = airframe_map(build.frame.bodies, build.air), motor_of(build)
        count, samples = build.rotor_count, len(p.top_speed_m_s)
        mass = np.broadcast_to(np.ravel(np.asarray(inputs.mass_kg, dtype=float)), samples)
        top = np.nan_to_num(p.top_speed_m_s[:, 0], nan=0.0)
        self._fastest = np.maximum(_REACH * top, 20.0)
        shape = (samples, len(_SPEEDS.nodes), _ROTATIONS)
        V = self._fastest[:, None] * _SPEEDS.nodes
        W = (mass * G0_M_S2)[:, None]

        # rotor speeds from where the blades screw through the air, or a quarter of the fastest, up
        # to what the pack could turn unloaded or to sonic tips
        steep = np.minimum(W / (count * p.standing.rotor.thrust_N), 0.8)
        sonic = 0.995 * rotors.fastest(V, V * steep)
        unloaded = _MARGIN * p.electric.open_circuit_V * p.electric.kv_rad_s_V
        high = np.minimum(np.minimum(sonic, unloaded), 0.999 * FASTEST_SHAFT_RAD_S)
        blade = rotors.map.blade
        rise = np.tan(np.interp(0.75, blade.r_R, blade.pitch_angle_rad)) * inputs.pitch_factor
        screwed = V / (0.75 * blade.radius_m * rise)
        low = np.minimum(np.hypot(0.24 * high, 0.82 * screwed), 0.8 * high)
        share = np.linspace(0.0, 1.0, _ROTATIONS)
        omega = (low[:, :, None] + (high - low)[:, :, None] * share).reshape(samples, -1)
        V = np.repeat(V, _ROTATIONS, axis=1)

        # incidence: a guess from the thrust at rest, then the balance with what it gives, the
        # body's normal force going with the sine
        pull = count * p.standing.rotor.thrust_N * (omega / p.standing.omega_rad_s) ** 2
        alpha = np.arcsin(np.clip(W / np.maximum(pull, 1e-6), 0.02, 0.9))
        for last in (False, False, True):
            axial, side = V * np.cos(alpha), V * np.sin(alpha)
            rotor = rotors.loads(omega, axial, side)
            wash = np.nan_to_num(rotor.induced_speed_m_s)
            drag, normal = body.forces(axial, side, wash, inputs.drag_factor)
            along = count * np.nan_to_num(rotor.thrust_N) - drag
            across = normal + count * np.nan_to_num(rotor.inplane_force_N)
            if last:
                break
            sine, cosine = np.sin(alpha), np.cos(alpha)
            slope = along * cosine + across * (cosine**2 - sine**2) / sine
            over = along * sine + across * cosine - W
            step = over / np.where(slope > 0.05 * W, slope, 0.05 * W)
            alpha = np.clip(alpha - np.clip(step, -0.4, 0.4), 0.01, 1.2)
        forward = along * np.cos(alpha) - across * np.sin(alpha)
        free = no_load_current(
            omega, inputs.no_load_current_A, motor.kv_rad_s_V * motor.no_load_voltage_V
        )
        table = [omega, rotor.torque_Nm, forward / mass[:, None], axial + wash, np.asarray(free)]
        # a node beyond the rotor's range has no loads; such a rotation is never reached in flight
        self._table = np.nan_to_num(np.stack(table)).reshape(5, *shape)
        self._rows = np.arange(samples)

    def at(self, speed_m_s: Array, supply: Supply, most_m_s2: float = np.inf) -> Thrusting:
        """Full throttle at a speed on a supply; or less, where that would accelerate by more than
        `most_m_s2`. Several speeds of each sample, shape (..., samples), are as good as one."""
        shape = speed_m_s.shape

        many = speed_m_s.size // len(self._fastest)

        def column(values: Any) -> Any:
            return (values if many == 1 else np.concatenate([values] * many))[:, None]

        k, weight = _SPEEDS.weights((speed_m_s / self._fastest).ravel())
        near = self._table[:, column(self._rows), k[:, None] + _FOUR, :]
        row = np.einsum("fsjk,sj->fsk", near, weight)  # (5, cases, rotor speeds)
        omega, torque, acceleration, _, no_load = row
        kv = column(supply.kv_rad_s_V)
        current = torque * kv + no_load
        bus = omega / kv + current * column(supply.winding_and_switch_ohm)
        drawn = supply.motors * current + column(supply.other_power_W) / bus
        spent = drawn * column(supply.pack_resistance_ohm)
        short = bus + spent - column(supply.open_circuit_V)
        rows = np.concatenate([row, drawn[None]])
        found, ends = _at_zero(short, rows)
        if (found[2] > most_m_s2).any():
            eased, _ = _at_zero(acceleration - most_m_s2, rows)
            easing = eased[0] < found[0]
            found, ends = np.where(easing, eased, found), ends & ~easing
        found, ends = found.reshape(-1, *shape), ends.reshape(shape)
        return Thrusting(
            omega_rad_s=found[0],
            torque_Nm=found[1],
            acceleration_m_s2=found[2],
            through_m_s=found[3],
            no_load_current_A=found[4],
            pack_current_A=found[5],
            at_model_end=ends,
        )


def _at_zero(g: Array, rows: Array) -> tuple[Array, Mask]:
    """Rows of values (fields, samples, nodes) where g (samples, nodes), rising, is zero: by the
    cubic through four nodes around it. True where that lies beyond the nodes; the end's values."""
    below = (g < 0.0).sum(axis=1)
    first = np.minimum(np.maximum(below - 2, 0), _ROTATIONS - 4)
    four = first[:, None] + _FOUR
    case = np.arange(len(g))[:, None]
    g = g[case, four]
    # Lagrange's weights at zero: products of g_j / (g_j - g_i) over the other nodes j
    apart = g[:, None, :] - g[:, :, None] + _EYE
    weight = ((g[:, None, :] * _OTHERS + _EYE) / apart).prod(axis=2)
    ends = (below == 0) | (below == _ROTATIONS)
    if ends.any():
        edge = np.where(below == 0, 0, 3)
        weight = np.where(ends[:, None], _FOUR == edge[:, None], weight)
    return np.einsum("fsk,sk->fs", rows[:, case, four], weight), ends
