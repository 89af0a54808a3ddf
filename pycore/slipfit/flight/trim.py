"""Steady flight: the incidence and rotor speed at which a build holds a speed on a straight path.

Perpendicular to the rotor axis, with incidence alpha between the oncoming air and the axis and
climb angle gamma: `N(alpha, V) + n H = W cos(alpha + gamma)`. The left side rises with alpha and
the right side falls, so there is one answer; it is found first. Along the axis:
`n T = W sin(alpha + gamma) + A(alpha, V)`. The rotors' in-plane force H and the wash over the
bodies depend on the thrust, so the two equations are gone through a few times.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.flight.airframe import airframe_loads
from slipfit.flight.inputs import Inputs
from slipfit.frame.frame import Frame
from slipfit.numerics import Array, Mask, Real, bracketed_root
from slipfit.physics.air import Air
from slipfit.physics.rotor import RotorLoads
from slipfit.physics.rotor_map import RotorMap

OUTER_PASSES = 5
ROOT_STEPS = 14


@dataclass(frozen=True, kw_only=True)
class Rotors:
    """A rotor map with the uncertain factors of one build laid over it."""

    map: RotorMap
    inputs: Inputs

    def loads(self, omega_rad_s: Array, axial_m_s: Array, inplane_m_s: Array) -> RotorLoads:
        """Loads of one rotor. A pitch factor f stretches the advance ratio: the blade meets
        V / f as the nominal blade meets V, at the same efficiency, so torque rises by f."""
        i = self.inputs
        base = self.map.loads(omega_rad_s, axial_m_s / i.pitch_factor, inplane_m_s)
        return replace(
            base,
            thrust_N=i.thrust_factor * base.thrust_N,
            torque_Nm=i.power_factor * i.pitch_factor * base.torque_Nm,
            inplane_force_N=i.thrust_factor * base.inplane_force_N,
        )

    def omega_for_thrust(self, thrust_N: Array, axial_m_s: Array, inplane_m_s: Array) -> Array:
        """Rotor speed that gives a thrust. [rad/s]"""
        i = self.inputs
        return self.map.omega_for_thrust(
            thrust_N / i.thrust_factor, axial_m_s / i.pitch_factor, inplane_m_s
        )


@dataclass(frozen=True, kw_only=True)
class Trim:
    """Steady states, one per case; forces of the whole frame unless marked per rotor."""

    speed_m_s: Array
    climb_angle_rad: Array
    incidence_rad: Array
    thrust_N: Array  # per rotor
    omega_rad_s: Array
    rotor: RotorLoads  # one rotor
    drag_causes_N: Mapping[str, Array]
    axial_N: Array
    normal_N: Array
    residual_N: Array  # what is left of the two force balances, as a length
    valid: Mask

    @property
    def tilt_rad(self) -> Array:
        """Angle of the rotor axis from upright."""
        return np.asarray(np.pi / 2 - self.incidence_rad - self.climb_angle_rad)


def trim(
    frame: Frame,
    rotors: Rotors,
    air: Air,
    speed_m_s: Array,
    climb_angle_rad: Real = 0.0,
) -> Trim:
    """Steady flight at each speed, broadcast against the inputs' samples; V = 0 is hover."""
    inputs = rotors.inputs
    count = len(frame.rotors)
    weight = np.asarray(inputs.mass_kg) * G0_M_S2
    V, gamma, weight = (
        np.array(x, dtype=float) for x in np.broadcast_arrays(speed_m_s, climb_angle_rad, weight)
    )
    induced = np.zeros_like(V)
    inplane_total = np.zeros_like(V)
    alpha_top = np.pi / 2 - gamma

    def unbalanced(alpha: Array) -> Array:
        loads = airframe_loads(
            frame, V * np.cos(alpha), V * np.sin(alpha), induced, air, inputs.drag_factor
        )
        return np.asarray(loads.normal_N + inplane_total - weight * np.cos(alpha + gamma))

    for _ in range(OUTER_PASSES):
        alpha = bracketed_root(unbalanced, np.zeros_like(V), alpha_top, ROOT_STEPS)
        axial, side = V * np.cos(alpha), V * np.sin(alpha)
        body = airframe_loads(frame, axial, side, induced, air, inputs.drag_factor)
        thrust = (weight * np.sin(alpha + gamma) + body.axial_N) / count
        omega = rotors.omega_for_thrust(thrust, axial, side)
        rotor = rotors.loads(omega, axial, side)
        induced = np.where(rotor.valid, rotor.induced_speed_m_s, 0.0)
        inplane_total = np.where(rotor.valid, count * rotor.inplane_force_N, 0.0)
    body = airframe_loads(frame, axial, side, induced, air, inputs.drag_factor)
    across = body.normal_N + inplane_total - weight * np.cos(alpha + gamma)
    along = count * rotor.thrust_N - weight * np.sin(alpha + gamma) - body.axial_N
    return Trim(
        speed_m_s=V,
        climb_angle_rad=gamma,
        incidence_rad=alpha,
        thrust_N=thrust,
        omega_rad_s=omega,
        rotor=rotor,
        drag_causes_N=body.causes,
        axial_N=body.axial_N,
        normal_N=body.normal_N,
        residual_N=np.hypot(across, along),
        valid=np.asarray(rotor.valid),
    )
