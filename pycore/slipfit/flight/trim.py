"""Steady flight: the incidence and rotor speed at which a build holds a speed on a straight path.

Perpendicular to the rotor axis, with incidence alpha between the oncoming air and the axis and
climb angle gamma: `N(alpha, V) + n H = W cos(alpha + gamma)`. The left side rises with alpha and
the right side falls, so there is one answer; it is found first, for the body alone. Along the axis:
`n T = W sin(alpha + gamma) + A(alpha, V)`. The rotors' in-plane force H and the wash over the
bodies depend on incidence and rotor speed, so Newton's method closes both equations together.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from slipfit.constants import G0_M_S2
from slipfit.flight.airframe_map import airframe_map
from slipfit.flight.inputs import Inputs
from slipfit.frame.frame import Frame
from slipfit.numerics import Array, Mask, Real, bracketed_root
from slipfit.physics.air import Air
from slipfit.physics.rotor import RotorLoads
from slipfit.physics.rotor_map import RotorMap

PASSES = 5
ROOT_STEPS = 8
NUDGE = 1e-5  # for the slopes of Newton's steps
MIDDLING_CT_PROP = 0.12  # thrust over rho n^2 D^4, only to start a search from
MEASURED_TIP_MACH = 0.3  # no published test of a small propeller goes beyond, to our knowledge
SETTLED = 1e-5  # and from this the next step, which is taken, leaves next to nothing
BALANCED = 1e-3  # forces out of balance by more than this share of the weight are no trim


def unmeasured(tip_mach: Array) -> Array:
    """How much wider the rotor's spread is than where small propellers were measured: 1 up to
    the tip Mach number of the measurements, 1.5 from twice that on. Large rotors were measured up
    to 0.88, and the model follows their trend within 5 %, so not more."""
    return np.minimum(np.maximum(0.5 + 0.5 * tip_mach / MEASURED_TIP_MACH, 1.0), 1.5)


@dataclass(frozen=True, kw_only=True)
class Rotors:
    """A rotor map with the uncertain factors of one build laid over it."""

    map: RotorMap
    inputs: Inputs

    def loads(self, omega_rad_s: Array, axial_m_s: Array, inplane_m_s: Array) -> RotorLoads:
        """Loads of one rotor. A pitch factor f stretches the advance ratio: the blade meets
        V / f as the nominal blade meets V, at the same efficiency, so torque rises by f. Where the
        model misses thrust it misses torque alike, so the thrust factor stands on both."""
        i = self.inputs
        base = self.map.loads(omega_rad_s, axial_m_s / i.pitch_factor, inplane_m_s)
        factors = (i.thrust_factor, i.power_factor, i.pitch_factor)
        if all(np.ndim(factor) == 0 and factor == 1.0 for factor in factors):
            return base  # the nominal build
        wide = unmeasured(base.tip_mach)
        thrust_factor = i.thrust_factor**wide
        return replace(
            base,
            thrust_N=thrust_factor * base.thrust_N,
            torque_Nm=thrust_factor * i.power_factor**wide * i.pitch_factor * base.torque_Nm,
            inplane_force_N=thrust_factor * base.inplane_force_N,
        )

    def fastest(self, axial_m_s: Array, inplane_m_s: Array) -> Array:
        """Rotor speed just within the model's range, with sonic tips. [rad/s]"""
        a = 0.999 * self.map.air.sound_speed_m_s
        rim = np.sqrt(np.maximum(a**2 - axial_m_s**2, 0.0)) - np.abs(inplane_m_s)
        return np.asarray(np.maximum(rim, 0.0) / self.map.blade.radius_m)

    def rough_omega(self, thrust_N: Array, axial_m_s: Array, air: Air) -> Array:
        """Rotor speed to start a search from: what screws through the air at the blade's pitch,
        and what gives the thrust at rest with a middling thrust coefficient. [rad/s]"""
        blade = self.map.blade
        pitch_m = 0.75 * blade.radius_m * np.tan(np.interp(0.75, blade.r_R, blade.pitch_angle_rad))
        area = air.density_kg_m3 * (2 * blade.radius_m) ** 4
        at_rest = 2 * np.pi * np.sqrt(np.maximum(thrust_N, 0.0) / (MIDDLING_CT_PROP * area))
        return np.asarray(np.maximum(axial_m_s, 0.0) / pitch_m + 0.7 * at_rest + 10.0)


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
    start: tuple[Array, Array] | None = None,
) -> Trim:
    """Steady flight at each speed, broadcast against the inputs' samples; V = 0 is hover.

    `start` gives incidence and rotor speed to begin from, of the result's shape, where states
    nearby are known already.
    """
    inputs = rotors.inputs
    count = len(frame.rotors)
    body = airframe_map(frame.bodies, air)
    weight = np.asarray(inputs.mass_kg) * G0_M_S2
    factors = (inputs.drag_factor, inputs.thrust_factor, inputs.power_factor, inputs.pitch_factor)
    V, gamma, weight, *_ = (
        np.array(x, dtype=float)
        for x in np.broadcast_arrays(speed_m_s, climb_angle_rad, weight, *factors)
    )
    top = np.pi / 2 - gamma
    still = np.zeros_like(V)

    def balances(alpha: Array, omega: Array) -> tuple[Array, Array]:
        """What is left across and along the axis, with the wash that the rotors then make."""
        axial, side = V * np.cos(alpha), V * np.sin(alpha)
        rotor = rotors.loads(omega, axial, side)
        wash = np.where(np.isfinite(rotor.induced_speed_m_s), rotor.induced_speed_m_s, 0.0)
        drag, normal = body.forces(axial, side, wash, inputs.drag_factor)
        across = normal + count * rotor.inplane_force_N - weight * np.cos(alpha + gamma)
        along = count * rotor.thrust_N - weight * np.sin(alpha + gamma) - drag
        return across, along

    def body_across(alpha: Array) -> Array:
        axial, side = V * np.cos(alpha), V * np.sin(alpha)
        normal = body.forces(axial, side, still, inputs.drag_factor)[1]
        return np.asarray(normal - weight * np.cos(alpha + gamma))

    if start is None:
        # the body alone carries the weight across, the rotors pull what that leaves
        alpha = bracketed_root(body_across, np.zeros_like(V), top, ROOT_STEPS)
        axial, side = V * np.cos(alpha), V * np.sin(alpha)
        drag, _ = body.forces(axial, side, still, inputs.drag_factor)
        wanted = (weight * np.sin(alpha + gamma) + drag) / count
        omega = rotors.rough_omega(wanted, axial, air)
    else:
        alpha, omega = np.clip(start[0], 0.0, top), start[1]

    for _ in range(PASSES):
        turned, sped = alpha + NUDGE, omega * (1.0 + NUDGE) + NUDGE
        across, along = balances(np.stack([alpha, turned, alpha]), np.stack([omega, omega, sped]))
        (f, f_a, f_w), (g, g_a, g_w) = across, along
        settled = np.all(np.hypot(f, g) <= SETTLED * weight)
        f_a, g_a = (f_a - f) / NUDGE, (g_a - g) / NUDGE
        f_w, g_w = (f_w - f) / (sped - omega), (g_w - g) / (sped - omega)
        determinant = f_a * g_w - f_w * g_a
        usable = np.isfinite(determinant) & (determinant != 0.0)
        scale = np.divide(1.0, determinant, out=np.zeros_like(V), where=usable)
        d_alpha = np.where(usable, (f * g_w - g * f_w) * scale, 0.0)
        d_omega = np.where(usable, (g * f_a - f * g_a) * scale, 0.0)
        alpha = np.clip(alpha - np.clip(d_alpha, -0.3, 0.3), 0.0, top)
        omega = omega - np.clip(d_omega, -0.3 * omega, 0.3 * omega)
        if settled:
            break

    axial, side = V * np.cos(alpha), V * np.sin(alpha)
    rotor = rotors.loads(omega, axial, side)
    wash = np.where(np.isfinite(rotor.induced_speed_m_s), rotor.induced_speed_m_s, 0.0)
    loads = body.loads(axial, side, wash, inputs.drag_factor)
    thrust = rotor.thrust_N
    across = loads.normal_N + count * rotor.inplane_force_N - weight * np.cos(alpha + gamma)
    along = count * thrust - weight * np.sin(alpha + gamma) - loads.axial_N
    residual = np.hypot(across, along)
    balanced = residual <= BALANCED * weight
    return Trim(
        speed_m_s=V,
        climb_angle_rad=gamma,
        incidence_rad=alpha,
        thrust_N=thrust,
        omega_rad_s=omega,
        rotor=rotor,
        drag_causes_N=loads.causes,
        axial_N=loads.axial_N,
        normal_N=loads.normal_N,
        residual_N=residual,
        valid=rotor.valid & loads.valid & balanced,
    )
