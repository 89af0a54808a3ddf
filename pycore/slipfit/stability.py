"""Where the air's side force acts, and what that means: centre of pressure over incidence, static
margin, fin area, the pack's place.

Every body gives its normal force and the moment of it in the air that reaches it; the rotors give
their force in the disk plane and the moment that raises their upstream edge. What stands off the
axis to the front also turns the frame by its drag. All of it is taken about the nose plane:

    x = sum(x_i N_i + M_i + y_i A_i) / sum(N_i)

with the station x_i and the distance to the front y_i of each body's middle.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from slipfit.build import Build
from slipfit.flight.airframe import FULL_SLIPSTREAM
from slipfit.flight.performance import Performance
from slipfit.flight.trim import Trim
from slipfit.frame.frame import Frame
from slipfit.masses import balance, mass_total
from slipfit.numerics import Array, Mask
from slipfit.physics.body import MODELS
from slipfit.physics.body.fins import Fin
from slipfit.physics.body.loads import TOP_SPEED_M_S

SMALL_N = 1e-6  # a side force below this has no place to speak of


@dataclass(frozen=True, kw_only=True, eq=False)
class SideForce:
    """Side forces of a build by where they come from, and their moments about the nose plane,
    positive where they act aft. Arrays of the trim's shape. [N, N m]"""

    body_N: Array
    body_Nm: Array
    fins_N: Array
    fins_Nm: Array
    rotors_N: Array
    rotors_Nm: Array

    @property
    def station_m(self) -> Array:
        """Centre of pressure with everything; NaN where there is no side force."""
        return _station(
            self.body_N + self.fins_N + self.rotors_N, self.body_Nm + self.fins_Nm + self.rotors_Nm
        )

    @property
    def still_station_m(self) -> Array:
        """Centre of pressure of the airframe alone, in the air that the rotors give it."""
        return _station(self.body_N + self.fins_N, self.body_Nm + self.fins_Nm)


def _station(force: Array, moment: Array) -> Array:
    there = np.isfinite(force) & (np.abs(force) > SMALL_N)
    return np.asarray(np.where(there, moment / np.where(there, force, 1.0), np.nan))


def side_force(build: Build, steady: Trim, drag_factor: Array | float = 1.0) -> SideForce:
    """Side forces in steady states, by every body's own model; NaN where the air is faster than
    the models reach."""
    alpha, V = steady.incidence_rad, steady.speed_m_s
    induced = steady.rotor.induced_speed_m_s
    wash = np.where(np.isfinite(induced), induced, 0.0)
    axial, side = V * np.cos(alpha), V * np.sin(alpha)
    fastest = np.hypot(np.abs(axial) + FULL_SLIPSTREAM * np.abs(wash), side)
    known = fastest <= TOP_SPEED_M_S
    axial, side, wash = (np.where(known, x, 0.0) for x in (axial, side, wash))
    body, turned, fins, fins_turned = np.zeros((4, *V.shape))
    for entry in build.frame.bodies:
        model = MODELS[entry.model]
        local = axial + entry.washed * FULL_SLIPSTREAM * wash
        loads = model.loads(entry.shape, local, side, build.air)
        normal = entry.count * loads.normal_N
        drag = entry.count * (1.0 - entry.sheltered) * loads.axial_N
        own = entry.count * model.moment(entry.shape, local, side, build.air)
        moment = entry.station_m * normal + own + entry.front_m * drag
        if isinstance(entry.shape, Fin):
            fins, fins_turned = fins + normal, fins_turned + moment
        else:
            body, turned = body + normal, turned + moment
    body = np.where(known, body, np.nan)
    rotors = build.frame.rotors
    H, raising = steady.rotor.inplane_force_N, steady.rotor.pitch_moment_Nm
    return SideForce(
        body_N=body * drag_factor,
        body_Nm=turned * drag_factor,
        fins_N=fins * drag_factor,
        fins_Nm=fins_turned * drag_factor,
        rotors_N=len(rotors) * H,
        rotors_Nm=sum(rotor.station_m for rotor in rotors) * H - len(rotors) * raising,
    )


def fin_area(frame: Frame) -> float:
    """Area of all the frame's fins together, one side. [m2]"""
    return float(sum(b.count * b.shape.area_m2 for b in frame.bodies if isinstance(b.shape, Fin)))


def body_diameter(frame: Frame) -> float | None:
    """Largest diameter of the main body, that margins are counted in; None for a frame without."""
    return 2.0 * max(frame.outline.radii_m) if frame.outline.radii_m else None


@dataclass(frozen=True, kw_only=True, eq=False)
class Stability:
    """Stability flat out; arrays (samples, 1), NaN where there is no answer."""

    forces: SideForce
    balance_station_m: float
    pressure_station_m: Array
    lever_m: Array  # of the centre of pressure behind the balance point
    static_margin: Array
    fin_area_m2: Array  # of all fins together, for the margin that the frame asks for
    pack_move_m: Array  # towards the nose, for the same
    margin_per_pack_m: Array  # margin won for each metre that the pack moves to the nose
    front_share: Array  # thrust of the hardest working row of motors over the mean, holding it


@lru_cache(maxsize=8)
def stability(p: Performance) -> Stability:
    """Stability of a performance at top speed; kept for the eight used last."""
    build, steady = p.build, p.top.trim
    forces = side_force(build, steady, p.inputs.drag_factor)
    centre = balance(build)
    flies = p.can_hover & np.isfinite(p.top_speed_m_s)
    station = np.where(flies, forces.station_m, np.nan)
    total = forces.body_N + forces.fins_N + forces.rotors_N
    lever = np.where(flies, _lever(build, steady, forces.station_m, total), np.nan)

    diameter = body_diameter(build.frame)
    blank = np.full(lever.shape, np.nan)
    margin = lever / diameter if diameter else blank
    wanted = build.frame.static_margin * (diameter or 0.0)
    pack = build.parts.get("pack")
    share = pack.mass_kg / mass_total(build) if pack else 0.0
    return Stability(
        forces=forces,
        balance_station_m=centre.station_m,
        pressure_station_m=station,
        lever_m=lever,
        static_margin=margin,
        fin_area_m2=_fin_area(build, forces, centre.station_m + wanted, flies) + 0.0 * margin,
        pack_move_m=(wanted - lever) / share if diameter and share > 0.0 else blank,
        margin_per_pack_m=blank + 0.0 if not diameter else share / diameter + 0.0 * lever,
        front_share=_front_share(build, steady, total * lever),
    )


def _lever(build: Build, steady: Trim, station_m: Array, force_N: Array) -> Array:
    """How far side forces act behind the balance point. Thrust and drag pass by a balance point
    that lies off the axis, and turn the frame as well. [m]"""
    centre = balance(build)
    passing = centre.front_m * (steady.axial_N - build.rotor_count * steady.thrust_N)
    some = np.where(np.abs(force_N) > SMALL_N, force_N, 1.0)
    return np.asarray(station_m - centre.station_m - passing / some)


def _fin_area(build: Build, forces: SideForce, wanted_m: float, flies: Mask) -> Array:
    """Area of all fins for a centre of pressure at a station, at the place and in the proportions
    of the frame's own; 0 where it needs none, NaN where it has none to scale or none would do."""
    area = fin_area(build.frame)
    if area == 0.0:
        return np.full(forces.fins_N.shape, np.nan)
    rest_N, rest_Nm = forces.body_N + forces.rotors_N, forces.body_Nm + forces.rotors_Nm
    lever = forces.fins_Nm - wanted_m * forces.fins_N
    helps = lever > 0.0
    scale = (wanted_m * rest_N - rest_Nm) / np.where(helps, lever, 1.0)
    return np.asarray(np.where(helps & flies, np.maximum(scale, 0.0) * area, np.nan))


def _front_share(build: Build, steady: Trim, moment_Nm: Array) -> Array:
    """Largest thrust over the mean, where front and back rotors differ to hold the moment."""
    front: Array = np.array([rotor.front_m for rotor in build.frame.rotors])
    away = front - front.mean()
    square = float(np.sum(away**2))
    if square == 0.0:
        return np.full(moment_Nm.shape, np.nan)
    extra = np.abs(moment_Nm) * float(np.max(np.abs(away))) / square
    return np.asarray(1.0 + extra / np.maximum(steady.thrust_N, 1e-9))


def pressure_lever(p: Performance, columns: slice) -> tuple[Array, Array]:
    """How far the centre of pressure lies behind the balance point at some speeds of the curve:
    with everything, and of the airframe without its rotors' own force. (samples, speeds) [m]"""
    steady = p.curve.at(columns).trim
    forces = side_force(p.build, steady, p.inputs.drag_factor)
    frame = forces.body_N + forces.fins_N
    whole = frame + forces.rotors_N
    return (
        _lever(p.build, steady, forces.station_m, whole),
        forces.still_station_m - balance(p.build).station_m,
    )
