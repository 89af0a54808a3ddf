"""What a change would do: the same build with more cells, more pitch, another pack, a colder day,
or with an option of its frame put on or left off, each computed as a build of its own."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from slipfit.build import Build
from slipfit.checks.limit import judge
from slipfit.checks.limits import LIMITS
from slipfit.checks.verdict import Verdict
from slipfit.figures import (
    flight_time,
    hover_time,
    mass_total,
    motor_current_full,
    rotor_inertia,
    top_speed,
    winding_first_pass,
    winding_peak,
)
from slipfit.figures.figure import FigureKind
from slipfit.flight.inputs import pack_of, prop_of
from slipfit.flight.performance import Performance, performance, performances
from slipfit.frame.options import frame_with
from slipfit.parts.key import keys_of

SHOWN: tuple[FigureKind, ...] = (
    top_speed.KIND,
    motor_current_full.KIND,
    winding_first_pass.KIND,
    flight_time.KIND,
    winding_peak.KIND,
)
WORTH: tuple[FigureKind, ...] = (
    top_speed.KIND,
    hover_time.KIND,
    rotor_inertia.KIND,
    mass_total.KIND,
)
STEP_C = 0.3 * 3600.0
STEP_PITCH_M = 0.0254
STEP_K = 20.0
STEP_CELLS = 2
FLIGHTS = 150


@dataclass(frozen=True, kw_only=True)
class Effect:
    """One line: what is changed, the figures after it (SI, None where there is no answer), and
    the worst that the limits then say (None where all are kept)."""

    label: str
    values: dict[str, float | None]
    worst: Verdict | None


def effects(build: Build) -> tuple[Effect, ...]:
    """The build as it is, and then each change that a real part or day could bring."""
    changed = [(label, make(build)) for label, make in CHANGES]
    builds = [(label, made) for label, made in changed if made is not None]
    # what keeps the day's air is computed at once, each propeller with its own
    same = [k for k, (_, made) in enumerate(builds) if made.air == build.air]
    found: dict[int, Performance] = dict(
        zip(same, performances([builds[k][1] for k in same]), strict=True)
    )
    return tuple(
        _effect(label, found[k] if k in found else performance(made))
        for k, (label, made) in enumerate(builds)
    )


def _effect(label: str, p: Performance) -> Effect:
    values = {kind.id: _number(kind, p) for kind in SHOWN}
    judged = (judge(limit, p) for limit in LIMITS)
    said = [v for v in judged if v is not None and v.severity]
    worst = max(said, key=lambda v: (v.severity, v.amount), default=None)
    return Effect(label=label, values=values, worst=worst)


def option_effects(build: Build) -> tuple[Effect, ...]:
    """The build as it is, and then the other setting of each option of its frame."""
    on = set(build.frame.on)
    builds = [("as it is", build)]
    for option in build.frame.options:
        word = "without" if option.id in on else "with"
        other = replace(build, frame=frame_with(build.frame, on ^ {option.id}))
        builds.append((f"{word} {option.label}", other))
    found = [(label, performance(made)) for label, made in builds]
    return tuple(
        Effect(label=label, values={kind.id: _number(kind, p) for kind in WORTH}, worst=None)
        for label, p in found
    )


def _number(kind: FigureKind, p: Performance) -> float | None:
    value = float(np.ravel(kind.value(p))[0])
    return value if math.isfinite(value) else None


def _more_cells(build: Build) -> Build | None:
    """More cells of the same kind: the pack's mass grows with them."""
    pack = pack_of(build)
    cells = pack.cell_count + STEP_CELLS
    if cells > _highest(pack, "cell_count"):
        return None
    return _with(build, "pack", cell_count=cells, mass_kg=pack.mass_kg * cells / pack.cell_count)


def _more_pitch(build: Build) -> Build | None:
    """More pitch at every radius of the same blade."""
    prop = prop_of(build)
    pitch = prop.pitch_m + STEP_PITCH_M
    if pitch > _highest(prop, "pitch"):
        return None
    radii = [0.5 * prop.diameter_m * r for r in prop.r_R]
    angles = tuple(
        math.atan(math.tan(beta) + STEP_PITCH_M / (2.0 * math.pi * r))
        for beta, r in zip(prop.beta_rad, radii, strict=True)
    )
    return _with(build, "prop", pitch_m=pitch, beta_rad=angles)


def _other_pack(step_C: float) -> Callable[[Build], Build | None]:
    def make(build: Build) -> Build | None:
        """Cells of the same make: mass grows with capacity, resistance falls with it."""
        pack = pack_of(build)
        capacity = pack.capacity_C + step_C
        if not 0.25 * pack.capacity_C < capacity <= _highest(pack, "capacity"):
            return None
        ratio = capacity / pack.capacity_C
        return _with(
            build,
            "pack",
            capacity_C=capacity,
            mass_kg=pack.mass_kg * ratio,
            cell_resistance_ohm=pack.cell_resistance_ohm / ratio,
        )

    return make


def _colder(build: Build) -> Build | None:
    """Air and pack both colder."""
    air, pack = build.day.air_temperature_K - STEP_K, build.day.pack_temperature_K - STEP_K
    if air < _lowest(build.day, "air_temperature") or pack < COLDEST_PACK_K:
        return None
    return replace(build, day=replace(build.day, air_temperature_K=air, pack_temperature_K=pack))


def _older(build: Build) -> Build | None:
    """The pack when it has flown that often."""
    if build.day.pack_flights >= FLIGHTS:
        return None
    return replace(build, day=replace(build.day, pack_flights=FLIGHTS))


COLDEST_PACK_K = 248.15  # the pack model's range
CHANGES: Sequence[tuple[str, Callable[[Build], Build | None]]] = (
    ("as it is", lambda build: build),
    ("two more cells", _more_cells),
    ("an inch more pitch", _more_pitch),
    ("300 mAh more", _other_pack(STEP_C)),
    ("300 mAh less", _other_pack(-STEP_C)),
    (f"the pack after {FLIGHTS} flights", _older),
    ("a day 20 K colder, pack and all", _colder),
)


def _with(build: Build, kind: str, **values: object) -> Build:
    part = replace(build.parts[kind], **values)  # type: ignore[arg-type]
    return replace(build, parts={**build.parts, kind: part})


def _highest(record: object, name: str) -> float:
    bound = keys_of(type(record))[name].high
    return math.inf if bound is None else bound


def _lowest(record: object, name: str) -> float:
    bound = keys_of(type(record))[name].low
    return -math.inf if bound is None else bound
