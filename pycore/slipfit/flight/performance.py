"""What a build does: hover, full throttle standing still, the level-flight curve, top speed,
best range, each with its trim and its electric state, for one build or for samples of it.

Arrays have shape (samples, speeds); a single build has one sample.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from slipfit.build import Build
from slipfit.errors import InputError
from slipfit.flight.drivetrain import Drive, Drivetrain, drivetrain
from slipfit.flight.inputs import Inputs, blade_of, nominal_inputs, prop_of
from slipfit.flight.trim import Rotors, Trim, trim
from slipfit.numerics import Array, Mask, bracketed_root
from slipfit.parts.prop import Prop
from slipfit.physics.rotor import RotorLoads
from slipfit.physics.rotor_map import rotor_map

CURVE_POINTS = 33
SEARCH_POINTS = 17
USABLE_CHARGE = 0.8  # share of the capacity that is flown; common practice, no source
SEARCH_ROUNDS = 2
FULL_THROTTLE_STEPS = 14

FASTEST_M_S = 150.0  # the airframe's coefficients are low-subsonic, and slipstream comes on top

T = TypeVar("T")

NEEDED_PARTS = ("motor", "prop", "pack", "esc")


@dataclass(frozen=True, kw_only=True)
class State:
    """Steady flight states with their drive, and what follows from both."""

    trim: Trim
    drive: Drive

    def at(self, columns: slice) -> State:
        """Some of the speeds."""
        shape = self.trim.speed_m_s.shape
        cut: State = _cut(
            self, lambda values: values[:, columns] if values.shape == shape else values
        )
        return cut

    @property
    def flyable(self) -> Mask:
        """Where the rotors stay in the model's range and the throttle is enough."""
        return np.asarray(self.trim.valid & self.drive.feasible)

    def advance_ratio(self, diameter_m: float) -> Array:
        """Axial advance ratio V cos(alpha) / (n D), as the propeller sees it."""
        t = self.trim
        axial = t.speed_m_s * np.cos(t.incidence_rad)
        turns = np.maximum(t.omega_rad_s / (2 * np.pi), 1e-9)
        return np.asarray(axial / (turns * diameter_m))

    @property
    def propulsive_efficiency(self) -> Array:
        """Thrust power over shaft power, T V cos(alpha) / (Q omega)."""
        t = self.trim
        shaft = np.maximum(t.rotor.torque_Nm * t.omega_rad_s, 1e-9)
        return np.asarray(t.thrust_N * t.speed_m_s * np.cos(t.incidence_rad) / shaft)


def _cut(value: Any, take: Callable[[Array], Array]) -> Any:
    """A record (of records) with every array in it cut by `take`."""
    if isinstance(value, np.ndarray):
        return take(value)
    if isinstance(value, Mapping):
        return {key: _cut(item, take) for key, item in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        cut = {f.name: _cut(getattr(value, f.name), take) for f in fields(value) if f.init}
        return replace(value, **cut)
    return value


@dataclass(frozen=True, kw_only=True)
class FullThrottle:
    """Rotors at full throttle in given air: what they pull and draw, whatever the airframe does."""

    omega_rad_s: Array
    rotor: RotorLoads
    drive: Drive

    @property
    def valid(self) -> Mask:
        """Where the duty really is 1, or the pack really gives its most."""
        return np.asarray(self.rotor.valid & (np.abs(spare(self.drive)) < 1e-3))


@dataclass(frozen=True, kw_only=True, eq=False)
class Performance:
    """Everything that figures about flight read from. Compared by identity, so that what follows
    from it (a flight, a dash) can be kept beside it by `functools.lru_cache`."""

    build: Build
    inputs: Inputs
    rotors: Rotors
    electric: Drivetrain
    hover: State
    hover_late: Drive  # hover at half charge, for how long it lasts
    standing: FullThrottle
    curve: State  # over `speeds_m_s`
    speeds_m_s: Array
    can_hover: Mask  # (samples, 1)
    top_speed_m_s: Array  # (samples, 1); NaN where the build cannot fly
    top: State
    top_ends_by_throttle: Mask  # or by the pack; otherwise the rotor model's range ends it
    cruise_speed_m_s: Array
    cruise: State


def spare(drive: Drive) -> Array:
    """What is left until full throttle: of the duty, or of the pack's power where that ends first.
    Negative beyond."""
    return np.asarray(np.minimum(1.0 - drive.duty, drive.pack_headroom))


def full_throttle(
    rotors: Rotors, electric: Drivetrain, axial_m_s: Array, inplane_m_s: Array
) -> FullThrottle:
    """Rotor speed at which the duty is 1, or at which a faded pack gives its most; not valid where
    the rotor model ends before that."""

    def left(omega: Array) -> Array:
        loads = rotors.loads(omega, axial_m_s, inplane_m_s)
        return spare(electric.drive(omega, loads.torque_Nm))

    unloaded = np.asarray(electric.open_circuit_V * electric.kv_rad_s_V)
    highest = np.minimum(unloaded, rotors.fastest(axial_m_s, inplane_m_s))
    low = 0.05 * highest
    low, highest, _ = np.broadcast_arrays(low, highest, axial_m_s)
    omega = bracketed_root(left, low, highest, FULL_THROTTLE_STEPS, settled=1e-8)
    loads = rotors.loads(omega, axial_m_s, inplane_m_s)
    return FullThrottle(
        omega_rad_s=omega, rotor=loads, drive=electric.drive(omega, loads.torque_Nm)
    )


def _state(
    build: Build,
    rotors: Rotors,
    electric: Drivetrain,
    speed_m_s: Array,
    near: State | None = None,
) -> State:
    """States at some speeds, begun from those of a row of evenly spaced ones where it is given."""
    start = _start(near.trim, speed_m_s) if near else None
    steady = trim(build.frame, rotors, build.air, speed_m_s, start=start)
    return State(trim=steady, drive=electric.drive(steady.omega_rad_s, steady.rotor.torque_Nm))


def _start(known: Trim, speed_m_s: Array) -> tuple[Array, Array]:
    """Incidence and rotor speed between those of a row of evenly spaced speeds; from a state that
    is none, those of the last good one before it."""
    row = known.speed_m_s
    last = row.shape[1] - 1
    step = np.maximum(row[:, 1:2] - row[:, :1], 1e-9)
    place = np.clip((speed_m_s - row[:, :1]) / step, 0.0, last)
    i = np.minimum(place.astype(np.intp), last - 1)
    good = np.maximum.accumulate(np.where(known.valid, np.arange(last + 1), 0), axis=1)
    below, above = _index(good, i), _index(good, i + 1)
    t = place - i

    def between(values: Array) -> Array:
        return np.asarray((1.0 - t) * _taken(values, below) + t * _taken(values, above))

    return between(known.incidence_rad), between(known.omega_rad_s)


def _index(values: NDArray[np.intp], index: NDArray[np.intp]) -> NDArray[np.intp]:
    return np.take_along_axis(values, index, axis=1)


def _speed_bound(build: Build, electric: Drivetrain) -> float:
    """A speed no build passes: the blade's pitch travelled at the unloaded motor speed, or the end
    of the airframe models' range."""
    prop = prop_of(build)
    turns = float(np.max(np.asarray(electric.open_circuit_V * electric.kv_rad_s_V))) / (2 * np.pi)
    return min(turns * prop.pitch_m * 1.15, FASTEST_M_S)


def performance(
    build: Build, inputs: Inputs | None = None, speeds_m_s: Array | None = None
) -> Performance:
    """Performance of a build; with sampled inputs, of every sample at once.

    The curve runs from hover to top speed, unless its speeds are given (so that samples share the
    nominal build's axis).
    """
    _require_parts(build)
    given = nominal_inputs(build) if inputs is None else inputs
    electric = drivetrain(build, given)
    return _performance(build, given, electric, drivetrain(build, given, charge=0.5), speeds_m_s)


def performances(builds: Sequence[Build]) -> list[Performance]:
    """Performance of many builds of one frame on one day, propeller by propeller at once.

    Their curves share an axis of speeds, up to the top speed of the fastest.
    """
    found: list[Performance | None] = [None] * len(builds)
    groups: dict[Prop, list[int]] = {}
    for k, build in enumerate(builds):
        _require_parts(build)
        groups.setdefault(prop_of(build), []).append(k)
    for indices in groups.values():
        given = [nominal_inputs(builds[k]) for k in indices]
        electric = [drivetrain(builds[k], i) for k, i in zip(indices, given, strict=True)]
        late = [drivetrain(builds[k], i, 0.5) for k, i in zip(indices, given, strict=True)]
        whole = _performance(
            builds[indices[0]], _stacked(given), _stacked(electric), _stacked(late), None
        )
        for row, k in enumerate(indices):
            found[k] = replace(_cut(whole, _row_of(row, len(indices))), build=builds[k])
    return [p for p in found if p is not None]


def _row_of(row: int, rows: int) -> Callable[[Array], Array]:
    def take(values: Array) -> Array:
        return values[row : row + 1] if values.ndim == 2 and len(values) == rows else values

    return take


def _stacked(records: list[T]) -> T:
    """One record of columns, shape (records, 1), from many records of numbers."""
    first = records[0]
    assert is_dataclass(first) and not isinstance(first, type)
    columns = {
        f.name: np.array([getattr(r, f.name) for r in records], dtype=float)[:, None]
        for f in fields(first)
    }
    return replace(first, **columns)


def _require_parts(build: Build) -> None:
    for kind in NEEDED_PARTS:
        if kind not in build.parts:
            raise InputError(
                f"performance: a build must have a {kind} before it can be flown, got none",
                field=kind,
            )


def _performance(
    build: Build,
    given: Inputs,
    electric: Drivetrain,
    late: Drivetrain,
    speeds_m_s: Array | None,
) -> Performance:
    rotors = Rotors(map=rotor_map(blade_of(prop_of(build)), build.air), inputs=given)
    still = np.zeros_like(np.asarray(given.mass_kg, dtype=float)).reshape(-1, 1)
    top_speed, throttle_ends, rough = _top_speed(build, rotors, electric, still)
    hover = rough.at(slice(0, 1))
    can_hover = hover.flyable
    standing = full_throttle(rotors, electric, still, still)

    if speeds_m_s is None:
        end = float(np.max(top_speed)) or _speed_bound(build, electric)
        speeds_m_s = np.linspace(0.0, end, CURVE_POINTS)
    curve = _state(build, rotors, electric, speeds_m_s + still, rough)
    power = np.where(curve.flyable, curve.drive.pack_power_W, np.inf)
    cruise_speed = _best_range(speeds_m_s, power)
    ends = np.concatenate([top_speed, cruise_speed], axis=1)
    both = _state(build, rotors, electric, ends, curve)
    top, cruise = both.at(slice(0, 1)), both.at(slice(1, 2))
    return Performance(
        build=build,
        inputs=given,
        rotors=rotors,
        electric=electric,
        hover=hover,
        hover_late=late.drive(hover.trim.omega_rad_s, hover.trim.rotor.torque_Nm),
        standing=standing,
        curve=curve,
        speeds_m_s=speeds_m_s,
        can_hover=can_hover,
        top_speed_m_s=np.where(can_hover, top_speed, np.nan),
        top=top,
        top_ends_by_throttle=throttle_ends,
        cruise_speed_m_s=np.where(can_hover, cruise_speed, np.nan),
        cruise=cruise,
    )


def _top_speed(
    build: Build, rotors: Rotors, electric: Drivetrain, still: Array
) -> tuple[Array, Mask, State]:
    """Last speed of the unbroken flyable stretch from hover, and whether the throttle ends it
    there rather than the rotor model's range, both (samples, 1); and the states of the first row
    of speeds, from hover to where no build comes.

    The stretch's end is closed in on by ever finer rows of speeds, and then, where the throttle
    ends it, found on the parabola of what is spare through the last three, half a m/s apart.
    """
    low, high = still, still + _speed_bound(build, electric)
    rough = None
    for _ in range(SEARCH_ROUNDS):
        speeds = low + (high - low) * np.linspace(0.0, 1.0, SEARCH_POINTS)
        state = _state(build, rotors, electric, speeds, rough)
        rough = rough or state
        stretch = np.cumprod(state.flyable, axis=1).sum(axis=1)
        last = np.clip(stretch - 1, 0, SEARCH_POINTS - 2)[:, None]
        low, high = _taken(speeds, last), _taken(speeds, last + 1)
        left = spare(state.drive)
        before, inside, beyond = (_taken(left, np.maximum(last + k, 0)) for k in (-1, 0, 1))
    assert rough is not None
    throttle_ends = (inside >= 0.0) & (beyond < 0.0)
    before = np.where(last > 0, before, 2.0 * inside - beyond)  # else the line
    # where nothing crosses, a line that does so at 0
    three = np.where(throttle_ends, [before, inside, beyond], [[[1.0]], [[0.0]], [[-1.0]]])
    share = _crossing(*three)
    return low + share * (high - low), throttle_ends, rough


def _crossing(before: Array, inside: Array, beyond: Array) -> Array:
    """Where the parabola through values at -1, 0 and 1 falls through zero between 0 and 1, with
    the last value below zero and the others not."""
    fall = 0.5 * (before - beyond)
    bend = fall - inside + beyond
    return np.asarray(2.0 * inside / (fall + np.sqrt(fall * fall - 4.0 * bend * inside)))


def _taken(values: Array, index: NDArray[np.intp]) -> Array:
    return np.take_along_axis(values, index, axis=1)


def _best_range(speeds: Array, power: Array) -> Array:
    """Speed of least energy per metre, refined by a parabola through the best three points."""
    per_metre = np.where(np.isfinite(power[:, 1:]), power[:, 1:] / speeds[1:], np.inf)
    best = np.argmin(per_metre, axis=1)
    k = np.clip(best, 1, per_metre.shape[1] - 2)
    rows: Any = np.arange(len(k))
    y0, y1, y2 = (per_metre[rows, k + d] for d in (-1, 0, 1))
    with np.errstate(invalid="ignore"):
        bend = y0 - 2 * y1 + y2
        shift = 0.5 * (y0 - y2) / np.where(bend > 0, bend, np.inf)
    shift = np.where(np.isfinite(shift) & (k == best), np.clip(shift, -0.5, 0.5), 0.0)
    step = speeds[1] - speeds[0]
    return np.asarray(np.where(k == best, speeds[1:][k] + shift * step, speeds[1:][best]))[:, None]
