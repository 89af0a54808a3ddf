"""The legs of a flight made ready to be flown: how fast, how long, at which rotor state.

A flight has opening legs, a round that is flown as often as the pack lasts (its last pass with the
turn behind it), and closing legs. Passes before the last are written out, each with its turn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from slipfit.build import Build
from slipfit.constants import G0_M_S2
from slipfit.flight.drivetrain import FASTEST_SHAFT_RAD_S
from slipfit.flight.inputs import motor_of
from slipfit.flight.performance import Performance
from slipfit.flight.trim import Rotors, Trim, trim
from slipfit.frame.leg import USUAL_RESERVE, Leg
from slipfit.numerics import Array, Mask
from slipfit.physics.motor import no_load_current


@dataclass(frozen=True, kw_only=True)
class Steady:
    """A steady state of one rotor, arrays of shape (samples,)."""

    speed_m_s: Array
    omega_rad_s: Array
    torque_Nm: Array
    no_load_current_A: Array
    through_m_s: Array  # speed of the air through the disk
    valid: Mask


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """One leg as it is flown. A pass has a length, with a run-up to the speed of `steady` (None:
    full throttle throughout); every other leg has a duration at `steady`."""

    leg: Leg
    steady: Steady | None
    duration_s: Array | None
    length_m: float | None


@dataclass(frozen=True, kw_only=True)
class Plan:
    """A flight in three parts, and what must stay in the pack."""

    opening: tuple[Stretch, ...]
    round: tuple[Stretch, ...]
    closing: tuple[Stretch, ...]
    passes_before: int  # in the opening
    rounds_wanted: int | None  # None: as many as the pack gives
    reserve: float  # share of the capacity


def legs_of(build: Build) -> tuple[Leg, ...]:
    """The legs a build flies: the reader's, or the frame's own."""
    return build.frame.legs if build.legs is None else build.legs


def plan_of(p: Performance, legs: Sequence[Leg]) -> Plan:
    """The flight of a build (of every sample at once)."""
    reserve = USUAL_RESERVE
    if legs and legs[-1].kind == "reserve":
        reserve = float(legs[-1].charge or 0.0)
        legs = legs[:-1]
    stretches = _stretches(p, legs)
    last = max((k for k, leg in enumerate(legs) if leg.kind == "pass"), default=None)
    opening: list[Stretch] = []
    passes = 0
    k = 0
    end = len(legs) if last is None else last
    while k < end:
        group = [stretches[k]]
        if legs[k].kind == "pass" and k + 1 < end and legs[k + 1].kind == "turn":
            group.append(stretches[k + 1])
        times = (legs[k].count or 1) if legs[k].kind == "pass" else 1
        opening += group * times
        passes += times if legs[k].kind == "pass" else 0
        k += len(group)
    if last is None:
        return Plan(
            opening=tuple(opening), round=(), closing=(), passes_before=0, rounds_wanted=0,
            reserve=reserve,
        )  # fmt: skip
    turned = last + 1 < len(legs) and legs[last + 1].kind == "turn"
    after = last + 2 if turned else last + 1
    return Plan(
        opening=tuple(opening),
        round=tuple(stretches[last:after]),
        closing=tuple(stretches[after:]),
        passes_before=passes,
        rounds_wanted=legs[last].count,
        reserve=reserve,
    )


def _stretches(p: Performance, legs: Sequence[Leg]) -> list[Stretch]:
    """Every leg once. Hover and best range are known already; the other states, each once, come
    from one call of the trim: (speed or None for best range, load factor)."""
    samples = len(p.top_speed_m_s)
    keys = [_state_key(leg) for leg in legs]
    states = {(0.0, 0.0): _steady(p, p.hover.trim), (None, 0.0): _steady(p, p.cruise.trim)}
    rest = sorted({key for key in keys if key is not None} - states.keys(), key=repr)
    if rest:
        best = p.cruise.trim.speed_m_s
        speeds = np.concatenate(
            [best if speed is None else np.full_like(best, speed) for speed, _ in rest], axis=1
        )
        rates = np.array([rate for _, rate in rest])
        heavy = np.asarray(p.inputs.mass_kg) * np.hypot(1.0, speeds * rates / G0_M_S2)
        rotors = Rotors(map=p.rotors.map, inputs=replace(p.inputs, mass_kg=heavy))
        found = trim(p.build.frame, rotors, p.build.air, speeds)
        states |= {key: _steady(p, found, k) for k, key in enumerate(rest)}
    stretches = []
    for leg, key in zip(legs, keys, strict=True):
        steady = None if key is None else states[key]
        duration = None
        if leg.time_s is not None:
            duration = np.full(samples, leg.time_s)
        elif leg.kind != "pass":
            assert steady is not None and leg.length_m is not None
            duration = leg.length_m / np.maximum(steady.speed_m_s, 1e-3)
        length = leg.length_m if leg.kind == "pass" else None
        stretches.append(Stretch(leg=leg, steady=steady, duration_s=duration, length_m=length))
    return stretches


def _state_key(leg: Leg) -> tuple[float | None, float] | None:
    """Speed (None: best range) and rate of turn of a leg; None for full throttle."""
    if leg.kind == "pass" and leg.speed_m_s is None:
        return None
    if leg.kind in ("hover", "land"):
        return 0.0, 0.0
    rate = leg.angle_rad / leg.time_s if leg.kind == "turn" and leg.time_s else 0.0
    return leg.speed_m_s, rate


def _steady(p: Performance, found: Trim, column: int = 0) -> Steady:
    """One column of a trim."""
    rotor = found.rotor
    known = found.valid & (found.omega_rad_s <= FASTEST_SHAFT_RAD_S) & np.isfinite(rotor.torque_Nm)
    known = known[:, column]
    omega = np.where(known, found.omega_rad_s[:, column], 0.0)
    speed = found.speed_m_s[:, column]
    motor = motor_of(p.build)
    free_at = motor.kv_rad_s_V * motor.no_load_voltage_V
    axial = speed * np.cos(found.incidence_rad[:, column])
    return Steady(
        speed_m_s=speed,
        omega_rad_s=omega,
        torque_Nm=np.where(known, rotor.torque_Nm[:, column], 0.0),
        no_load_current_A=np.asarray(
            no_load_current(omega, np.ravel(p.inputs.no_load_current_A), free_at)
        ),
        through_m_s=axial + np.where(known, rotor.induced_speed_m_s[:, column], 0.0),
        valid=known,
    )
