"""Arms that bend and blades that pull: the arms' first frequencies against the turning of the
propellers, the tension in a blade, and the inertia of what turns.

An arm is a beam held at its root with motor, propeller and what else stands at its end as a mass
there. It bends along the rotor axis and in the disk plane. A propeller shakes it once a turn, by
what is left of its imbalance, and once for each blade that passes over it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.build import Build
from slipfit.flight.inputs import blade_of, motor_of, prop_of
from slipfit.flight.performance import Performance
from slipfit.frame.frame import Arm
from slipfit.numerics import Array
from slipfit.physics.beam import cantilever_frequency, second_moment_rectangle
from slipfit.physics.blade_stress import blade_gyration, blade_stress
from slipfit.physics.material import MATERIALS

ROOT_SPREAD = 0.12  # of a frequency, by how stiff a root really is; our judgement
# Can, magnets and shaft turn, and are about half of such a motor; common practice, no source.
TURNING_SHARE = 0.5
TURNING_RADIUS = 0.42  # of a can's diameter, at which they do; our judgement


@dataclass(frozen=True, kw_only=True)
class ArmMode:
    """One way in which an arm bends, and what it follows from."""

    arm: str
    direction: str
    frequency_Hz: float
    rigid_Hz: float  # with a root that does not give
    modulus_Pa: float
    second_moment_m4: float
    arm_mass_kg: float
    end_mass_kg: float
    length_m: float
    root_give: float

    @property
    def name(self) -> str:
        """The arm and the direction."""
        return f"{self.arm}, {self.direction}"


def arm_modes(build: Build) -> tuple[ArmMode, ...]:
    """The first bending of every kind of arm in both directions, the lowest first; none where the
    frame describes no arm or a part at its end is missing."""
    if not {"motor", "prop"} <= build.parts.keys():
        return ()
    carried = motor_of(build).mass_kg + prop_of(build).mass_kg
    modes = [mode for arm in build.frame.arms for mode in _modes(arm, carried)]
    return tuple(sorted(modes, key=lambda mode: mode.frequency_Hz))


@lru_cache(maxsize=32)
def _modes(arm: Arm, carried_kg: float) -> tuple[ArmMode, ArmMode]:
    material = MATERIALS[arm.material]
    E = material.modulus_at(arm.fibre_angle_rad)
    b, h, wall = arm.width_m, arm.thickness_m, arm.wall_m
    area, end = b * h, carried_kg + arm.end_mass_kg
    inner = (b - 2 * wall, h - 2 * wall) if wall > 0.0 else (0.0, 0.0)
    mass = material.density_kg_m3 * arm.length_m * (area - inner[0] * inner[1])

    def mode(direction: str, across: float, along: float, hole: tuple[float, float]) -> ArmMode:
        inertia = float(second_moment_rectangle(across, along)) - float(
            second_moment_rectangle(*hole)
        )
        rigid = float(cantilever_frequency(arm.length_m, E, inertia, end, mass))
        return ArmMode(
            arm=arm.name,
            direction=direction,
            frequency_Hz=rigid * (1.0 - arm.root_give),
            rigid_Hz=rigid,
            modulus_Pa=E,
            second_moment_m4=inertia,
            arm_mass_kg=mass,
            end_mass_kg=end,
            length_m=arm.length_m,
            root_give=arm.root_give,
        )

    return (
        mode("along the axis", b, h, inner),
        mode("in the disk plane", h, b, (inner[1], inner[0])),
    )


def lowest_mode(build: Build) -> ArmMode | None:
    """The arm's bending with the lowest frequency."""
    modes = arm_modes(build)
    return modes[0] if modes else None


def arm_distance(p: Performance) -> Array:
    """How far the turning of the propellers stays from any arm's bending, as a share of that
    frequency: the least over hover, cruise and full throttle. (samples, 1)"""
    modes = arm_modes(p.build)
    if not modes:
        return np.full(p.can_hover.shape, np.nan)
    turning = np.concatenate(
        [state.trim.omega_rad_s for state in (p.hover, p.cruise, p.top)], axis=1
    ) / (2.0 * np.pi)
    frequencies = np.array([mode.frequency_Hz for mode in modes])
    apart = np.abs(turning[..., None] / frequencies - 1.0)
    least = np.min(apart, axis=(1, 2))[:, None]
    return np.where(p.can_hover, least, np.nan)


def blade_tension(p: Performance) -> Array:
    """Largest tension in a blade by its own weight at top speed, (samples, 1). [Pa]"""
    prop = prop_of(p.build)
    blade = blade_of(prop)
    sections = blade.chord_m**2 * blade.thickness_ratio  # of one family, so alike but for size
    density = MATERIALS[prop.material].density_kg_m3
    omega = p.top.trim.omega_rad_s
    stress = blade_stress(blade.r_R * blade.radius_m, sections, omega, density)
    return np.where(p.can_hover, stress.max(axis=-1), np.nan)


@dataclass(frozen=True, kw_only=True)
class Turning:
    """What turns with one motor, by its inertia about the shaft."""

    prop_kg_m2: float
    motor_kg_m2: float
    hardware_kg_m2: float  # spinners and the like, of one rotor
    prop_gyration_m: float

    @property
    def total_kg_m2(self) -> float:
        """All of it."""
        return self.prop_kg_m2 + self.motor_kg_m2 + self.hardware_kg_m2


def turning(build: Build) -> Turning:
    """Propeller, the turning half of the motor, and hardware that turns with them."""
    prop, motor = prop_of(build), motor_of(build)
    blade = blade_of(prop)
    k = blade_gyration(blade.r_R * blade.radius_m, blade.chord_m**2 * blade.thickness_ratio)
    hardware = sum(i.count * i.mass_kg * i.turning_ring_m**2 for i in build.frame.hardware)
    return Turning(
        prop_kg_m2=prop.mass_kg * k**2,
        motor_kg_m2=TURNING_SHARE * motor.mass_kg * (TURNING_RADIUS * motor.can_diameter_m) ** 2,
        hardware_kg_m2=hardware / build.rotor_count,
        prop_gyration_m=k,
    )
