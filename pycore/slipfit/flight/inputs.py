"""The uncertain numbers that flight estimates start from: nominal, or sampled over their spreads.

Every variable has a relative spread: the half-width of its 10-90 % range. A sample multiplies the
nominal value by exp(sigma z), z normal, so that a positive quantity stays positive.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np

from slipfit.build import Build
from slipfit.masses import mass_spread, mass_total
from slipfit.numerics import Array, Real, low_discrepancy, normal_quantile
from slipfit.parts.esc import Esc
from slipfit.parts.motor import Motor
from slipfit.parts.pack import Pack
from slipfit.parts.part import Part
from slipfit.parts.prop import Prop
from slipfit.physics.blade import Blade, blade_from_style, blade_from_table
from slipfit.physics.body import MODELS
from slipfit.physics.pack import (
    AGE_SPREAD,
    CYCLES_OF_A_FLIGHT,
    cycled_capacity,
    cycled_resistance,
)

SIGMAS_PER_HALF_WIDTH = 1.2816  # the 90 % point of the normal distribution
DECORRELATIONS = 2


@dataclass(frozen=True, kw_only=True)
class Inputs:
    """Uncertain inputs of one build: floats, or arrays of shape (samples, 1).

    Factors multiply what a model gives: drag, rotor thrust (and torque with it), rotor torque for
    its thrust, and the propeller's effective pitch; and every conductance that carries heat away.
    """

    mass_kg: Real
    drag_factor: Real
    thrust_factor: Real
    power_factor: Real
    pitch_factor: Real
    kv_rad_s_V: Real
    motor_resistance_ohm: Real
    no_load_current_A: Real
    cell_resistance_ohm: Real
    capacity_C: Real
    fet_resistance_ohm: Real
    cooling_factor: Real


@dataclass(frozen=True, kw_only=True)
class Variable:
    """One uncertain input: its field in `Inputs`, its name, its value and spread in a build."""

    field: str
    label: str
    value: Callable[[Build], float]
    spread: Callable[[Build], float]


def _part_spread(part: Part, key: str) -> float:
    origin = part.origins.get(key)
    return origin.spread if origin is not None else 0.0


def motor_of(build: Build) -> Motor:
    """The build's motor, as its own type."""
    part = build.parts["motor"]
    assert isinstance(part, Motor)
    return part


def prop_of(build: Build) -> Prop:
    """The build's propeller, as its own type."""
    part = build.parts["prop"]
    assert isinstance(part, Prop)
    return part


def pack_of(build: Build) -> Pack:
    """The build's pack, as its own type."""
    part = build.parts["pack"]
    assert isinstance(part, Pack)
    return part


def esc_of(build: Build) -> Esc:
    """The build's ESC, as its own type."""
    part = build.parts["esc"]
    assert isinstance(part, Esc)
    return part


def blade_of(prop: Prop) -> Blade:
    """The blade a propeller is computed with: its measured table, or its style's planform."""
    if prop.r_R:
        return blade_from_table(
            np.array(prop.r_R),
            np.array(prop.c_R),
            np.array(prop.beta_rad),
            prop.diameter_m,
            prop.blade_count,
            thickness_ratio=np.array(prop.t_c) if prop.t_c else None,
        )
    return blade_from_style(
        prop.diameter_m, prop.pitch_m, prop.blade_count, prop.style, prop.chord_scale
    )


# Spreads of the models. Those of the rotor hold three measured points in four of all published
# sets (tests/published/test_rotor_calibration.py), and widen where small propellers were not
# measured (`trim.unmeasured`).
LEAST_DRAG_SPREAD = 0.12  # whatever single bodies claim, they also disturb each other
THRUST_SPREAD = 0.14  # moves torque alike: over the sets the two errors go together
POWER_SPREAD = 0.08  # of torque at given thrust
# Makers print pitch by different rules, and thin blades twist; common practice, no source.
PRINTED_PITCH_SPREAD = 0.10
# A scan finds blade angles to about half a degree, 3 to 4 % of the pitch at common angles.
MEASURED_BLADE_SPREAD = 0.04
# Heat paths of small parts: correlations hold to 20 %, the inside of a motor to 50 %, and what air
# really reaches a board nobody has measured. Judgement.
COOLING_SPREAD = 0.40

REFERENCE_SPEED_M_S = 50.0  # at which the bodies' shares of the drag are compared


def drag_spread(build: Build) -> float:
    """Spread of the whole frame's drag: the body models' own spreads, taken as independent."""
    V = np.array([REFERENCE_SPEED_M_S])
    forces = []
    for entry in build.frame.bodies:
        model = MODELS[entry.model]
        loads = model.loads(entry.shape, V, 0.0 * V, build.air)
        force = entry.count * (1.0 - entry.sheltered) * float(np.sum([*loads.causes.values()]))
        forces.append((force, model.spread))
    total = sum(force for force, _ in forces)
    if total <= 0.0:
        return LEAST_DRAG_SPREAD
    own = np.sqrt(sum((force * spread) ** 2 for force, spread in forces)) / total
    return max(LEAST_DRAG_SPREAD, float(own))


def pack_age(build: Build) -> tuple[float, float]:
    """Capacity and resistance of the day's pack over those of the pack when new."""
    cycles = CYCLES_OF_A_FLIGHT * build.day.pack_flights
    return float(cycled_capacity(cycles)), float(cycled_resistance(cycles))


def _aged_spread(build: Build, key: str, ratio: float) -> float:
    """Spread of a number of the pack that is as new or, within `AGE_SPREAD`, as aged by a ratio."""
    return float(np.hypot(_part_spread(build.parts["pack"], key), AGE_SPREAD * abs(1 - 1 / ratio)))


VARIABLES: tuple[Variable, ...] = (
    Variable(field="mass_kg", label="mass of the build", value=mass_total, spread=mass_spread),
    Variable(
        field="drag_factor",
        label="drag of the airframe",
        value=lambda b: 1.0,
        spread=drag_spread,
    ),
    Variable(
        field="thrust_factor",
        label="thrust of the propeller model",
        value=lambda b: 1.0,
        spread=lambda b: THRUST_SPREAD,
    ),
    Variable(
        field="power_factor",
        label="torque of the propeller model for its thrust",
        value=lambda b: 1.0,
        spread=lambda b: POWER_SPREAD,
    ),
    Variable(
        field="pitch_factor",
        label="pitch of the propeller",
        value=lambda b: 1.0,
        spread=lambda b: MEASURED_BLADE_SPREAD if prop_of(b).r_R else PRINTED_PITCH_SPREAD,
    ),
    Variable(
        field="kv_rad_s_V",
        label="speed constant of the motor",
        value=lambda b: motor_of(b).kv_rad_s_V,
        spread=lambda b: _part_spread(b.parts["motor"], "kv_rad_s_V"),
    ),
    Variable(
        field="motor_resistance_ohm",
        label="winding resistance",
        value=lambda b: motor_of(b).resistance_ohm,
        spread=lambda b: _part_spread(b.parts["motor"], "resistance_ohm"),
    ),
    Variable(
        field="no_load_current_A",
        label="no-load current of the motor",
        value=lambda b: motor_of(b).no_load_current_A,
        spread=lambda b: _part_spread(b.parts["motor"], "no_load_current_A"),
    ),
    Variable(
        field="cell_resistance_ohm",
        label="resistance of the pack",
        value=lambda b: pack_of(b).cell_resistance_ohm * pack_age(b)[1],
        spread=lambda b: _aged_spread(b, "cell_resistance_ohm", pack_age(b)[1]),
    ),
    Variable(
        field="capacity_C",
        label="capacity of the pack",
        value=lambda b: pack_of(b).capacity_C * pack_age(b)[0],
        spread=lambda b: _aged_spread(b, "capacity_C", pack_age(b)[0]),
    ),
    Variable(
        field="fet_resistance_ohm",
        label="resistance of the ESC",
        value=lambda b: esc_of(b).fet_resistance_ohm,
        spread=lambda b: _part_spread(b.parts["esc"], "fet_resistance_ohm"),
    ),
    Variable(
        field="cooling_factor",
        label="cooling of motors, boards and pack",
        value=lambda b: 1.0,
        spread=lambda b: COOLING_SPREAD,
    ),
)
assert [v.field for v in VARIABLES] == [f.name for f in fields(Inputs)]


def nominal_inputs(build: Build) -> Inputs:
    """The inputs at their stated or estimated values."""
    return Inputs(**{v.field: v.value(build) for v in VARIABLES})


@lru_cache(maxsize=4)
def normal_scores(count: int, dimensions: int) -> Array:
    """Standard normal scores, shape (count, dimensions), the same at every call.

    Each column is the normal distribution's own even grid, in an order that takes every column's
    chance correlations with the others out: 64 samples then give a 10-90 % range within 3 %.
    """
    places = low_discrepancy(count, dimensions)
    for k in range(DECORRELATIONS + 1):
        ranks = places.argsort(axis=0).argsort(axis=0)
        scores = normal_quantile((ranks + 0.5) / count)
        if k == DECORRELATIONS or count < 2 * dimensions:
            break
        places = np.linalg.solve(np.linalg.cholesky(scores.T @ scores / count), scores.T).T
    return np.asarray(scores)


def sampled_inputs(build: Build, count: int) -> tuple[Inputs, Array]:
    """Inputs drawn over their spreads, arrays of shape (count, 1), and the normal scores behind
    them, shape (count, variables), from which the inputs that matter most are found."""
    scores = normal_scores(count, len(VARIABLES))
    drawn = {}
    for variable, z in zip(VARIABLES, scores.T, strict=True):
        sigma = variable.spread(build) / SIGMAS_PER_HALF_WIDTH
        drawn[variable.field] = (variable.value(build) * np.exp(sigma * z))[:, None]
    return Inputs(**drawn), scores
