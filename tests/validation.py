"""Rotors that were measured, beside what flight estimates say of them and their 10-90 % range.

The tests of accuracy and the page of plots (site_src/accuracy.py) both read from here, so that they
show the same points and the same model.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace
from functools import lru_cache
from typing import Any

import numpy as np

from rotors import (
    INCH,
    LAB_AIR,
    SEA_AIR,
    naca_640_blade,
    naca_640_rotation,
    numbers,
    prop_coefficients,
    university_blade,
    untwisted_blade,
)
from slipfit.flight.inputs import (
    MEASURED_BLADE_SPREAD,
    POWER_SPREAD,
    SIGMAS_PER_HALF_WIDTH,
    THRUST_SPREAD,
    Inputs,
    normal_scores,
)
from slipfit.flight.trim import Rotors
from slipfit.physics.blade import Blade
from slipfit.physics.rotor import RotorLoads, rotor_loads
from tables import rows

Array = np.ndarray[Any, np.dtype[np.float64]]
SAMPLES = 64


@dataclass(frozen=True, kw_only=True)
class Run:
    """One rotor at the cases where it was measured; coefficients on rho n^2 D^4 and rho n^3 D^5.

    `x` is what the source plots over; `cp` may be NaN where only thrust was measured. `read` is
    the efficiency where a source plots that too: better than the quotient of two read plots.
    """

    label: str
    blade: Blade
    air: Any
    x: Array
    n_rev_s: Array
    speed_m_s: Array
    ct: Array
    cp: Array
    read: Array | None = None

    @property
    def diameter_m(self) -> float:
        """Across the tips."""
        return 2.0 * self.blade.radius_m

    def only(self, which: Any) -> Run:
        """Some of the points."""
        return replace(
            self,
            x=self.x[which],
            n_rev_s=self.n_rev_s[which],
            speed_m_s=self.speed_m_s[which],
            ct=self.ct[which],
            cp=self.cp[which],
            read=None if self.read is None else self.read[which],
        )

    def at(self, x: Array, n_rev_s: Array, speed_m_s: Array) -> Run:
        """The same rotor at other cases, of which nothing was measured."""
        none = np.full_like(x, np.nan)
        return replace(self, x=x, n_rev_s=n_rev_s, speed_m_s=speed_m_s, ct=none, cp=none, read=None)


@dataclass(frozen=True, kw_only=True)
class MeasuredSet:
    """Runs of one source; what was asked of the model's mean error of thrust and of power."""

    id: str
    title: str
    runs: Callable[[], list[Run]]
    asked_thrust: float | None
    asked_power: float | None


class _Direct:
    """In place of a rotor map: every case solved."""

    def __init__(self, blade: Blade, air: Any) -> None:
        self.blade, self.air = blade, air

    def loads(self, omega: Array, axial: Array, inplane: Array) -> RotorLoads:
        omega, axial, inplane = np.broadcast_arrays(omega, axial, inplane)
        return rotor_loads(self.blade, omega, axial, inplane, self.air)


def coefficients(run: Run, inputs: Inputs | None = None) -> tuple[Array, Array]:
    """CT and CP as flight estimates compute them; one row a sample where inputs are sampled."""
    rotors = Rotors(map=_Direct(run.blade, run.air), inputs=inputs or _inputs(1.0, 1.0, 1.0))  # type: ignore[arg-type]
    omega = 2 * np.pi * run.n_rev_s
    loads = rotors.loads(omega, run.speed_m_s, np.zeros_like(omega))
    return prop_coefficients(loads, run.n_rev_s, run.diameter_m, run.air.density_kg_m3)


def efficiency(run: Run, ct: Array, cp: Array) -> Array:
    """Thrust power over shaft power, CT J / CP, at the cases of a run; NaN where none goes in."""
    advance = run.speed_m_s / (run.n_rev_s * run.diameter_m)
    return np.asarray(np.where(cp > 0.0, ct * advance / np.where(cp > 0.0, cp, 1.0), np.nan))


def _inputs(thrust: Any, power: Any, pitch: Any) -> Inputs:
    drawn = {field.name: 1.0 for field in fields(Inputs)}
    return Inputs(
        **{**drawn, "thrust_factor": thrust, "power_factor": power, "pitch_factor": pitch}
    )


@lru_cache(maxsize=1)
def sampled_inputs() -> Inputs:
    """Thrust, torque and pitch drawn with the spreads of flight estimates; all else is 1."""
    spreads = (THRUST_SPREAD, POWER_SPREAD, MEASURED_BLADE_SPREAD)
    scores = normal_scores(SAMPLES, len(spreads))
    return _inputs(
        *(
            np.exp(spread / SIGMAS_PER_HALF_WIDTH * scores[:, k, None])
            for k, spread in enumerate(spreads)
        )
    )


def university(kind: str, size: str) -> list[Run]:
    """Small propellers of `kind` "static" or "advance", `size` "5" or "9" inches."""
    rpm_column = "rpm" if kind == "static" else "nominal_rpm"
    groups = defaultdict(list)
    for row in rows(f"propeller_uiuc_{kind}.csv", D_in=size):
        groups[row["prop"], row["D_in"], row["variant"], row["blades"]].append(row)
    return list(_university_runs(groups, kind, rpm_column))


def _university_runs(groups: Any, kind: str, rpm_column: str) -> Iterator[Run]:
    for (prop, size, variant, blades), table in groups.items():
        rpm, ct, cp = numbers(table, rpm_column, "CT", "CP")
        n = rpm / 60
        advance = numbers(table, "J")[0] if kind == "advance" else np.zeros_like(n)
        section = "SDA1075" if prop == "da4002" else "Clark Y"
        pitch = f"set at {variant[:-3]}°" if variant.endswith("deg") else f"pitch {variant} in"
        yield Run(
            label=f"{size} in, {section}, {pitch}, {blades} blades",
            blade=university_blade(prop, size, variant, blades),
            air=LAB_AIR,
            x=rpm * (2 * np.pi / 60) if kind == "static" else advance,
            n_rev_s=n,
            speed_m_s=advance * n * float(size) * INCH,
            ct=ct,
            cp=cp,
        )


def naca_640() -> list[Run]:
    """Four blades at 15 to 45 degrees."""
    found = []
    for angle in (15, 25, 35, 45):
        table = rows("propeller_naca640_4blade.csv", blade_angle_deg=str(angle))
        columns = ("J", "CT", "CP(J axis rescaled by 1.2357)", "eta_digitised")
        J, ct, cp, read = numbers(table, *columns)
        n = naca_640_rotation(J)
        blade = naca_640_blade(angle)
        found.append(
            Run(
                label=f"four blades at {angle}°",
                blade=blade,
                air=SEA_AIR,
                x=J,
                n_rev_s=n,
                speed_m_s=J * n * 2 * blade.radius_m,
                ct=ct,
                cp=cp,
                read=read,
            )
        )
    return found


def naca_626() -> list[Run]:
    """Hover of two and three blades, a run for each pitch angle from 6 to 10 degrees."""
    found = []
    for row in rows("rotor_naca_tn626_hover.csv"):
        angle, blades = float(row["theta_deg"]), int(row["blades"])
        if 6.0 <= angle <= 10.0:
            blade = untwisted_blade("naca-0015", 30 * INCH, 2 * INCH, blades, 0.165, angle)
            found.append(
                _hovering(
                    f"{blades} blades at {angle:g}°",
                    blade,
                    np.array([np.deg2rad(angle)]),
                    np.array([960 / 60]),
                    np.array([float(row["CT_modern"])]),
                    np.array([float(row["CQ_modern"])]),
                )
            )
    return found


def nasa_81232() -> list[Run]:
    """Hover of two short blades over tip Mach number; only thrust. One misprint is left out."""
    found = []
    for angle in ("5", "8", "12"):
        table = [r for r in rows("rotor_nasa_tm81232_hover.csv", theta_c_deg=angle)]
        mach, ct = numbers([r for r in table if not r["note"]], "Mtip", "CT")
        blade = untwisted_blade("naca-0012", 1.143, 0.1905, 2, 0.17, float(angle))
        n = mach * SEA_AIR.sound_speed_m_s / (2 * np.pi * blade.radius_m)
        found.append(
            _hovering(f"two blades at {angle}°", blade, mach, n, ct, np.full_like(ct, np.nan))
        )
    return found


def _hovering(label: str, blade: Blade, x: Array, n: Array, ct: Array, cq: Array) -> Run:
    """Rotor coefficients on rho A (Omega R)^2 as a propeller's: pi^3 / 4 and pi^4 / 4 of them."""
    return Run(
        label=label,
        blade=blade,
        air=SEA_AIR,
        x=x,
        n_rev_s=n,
        speed_m_s=np.zeros_like(n),
        ct=np.pi**3 / 4 * ct,
        cp=np.pi**4 / 4 * cq,
    )


SETS = (
    MeasuredSet(
        id="static-9",
        title="nine-inch propellers at rest, university tests",
        runs=lambda: university("static", "9"),
        asked_thrust=0.06,
        asked_power=0.08,
    ),
    MeasuredSet(
        id="advance-9",
        title="nine-inch propellers in flight",
        runs=lambda: university("advance", "9"),
        asked_thrust=0.06,
        asked_power=0.08,
    ),
    MeasuredSet(
        id="static-5",
        title="five-inch propellers at rest",
        runs=lambda: university("static", "5"),
        asked_thrust=0.12,
        asked_power=0.14,
    ),
    MeasuredSet(
        id="advance-5",
        title="five-inch propellers in flight",
        runs=lambda: university("advance", "5"),
        asked_thrust=0.12,
        asked_power=0.14,
    ),
    MeasuredSet(
        id="naca-640",
        title="four-blade propeller of ten feet, NACA TR 640",
        runs=naca_640,
        asked_thrust=None,
        asked_power=0.10,
    ),
    MeasuredSet(
        id="naca-626",
        title="rotors hovering, NACA TN 626, 6 to 10°",
        runs=naca_626,
        asked_thrust=0.06,
        asked_power=0.08,
    ),
    MeasuredSet(
        id="nasa-81232",
        title="short two-blade rotor hovering, NASA TM-81232 (kept aside)",
        runs=nasa_81232,
        asked_thrust=None,
        asked_power=None,
    ),
)


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """Errors of one coefficient over a set, relative to each run's greatest measured value."""

    points: int
    mean: float
    bias: float


def compared(runs: list[Run]) -> tuple[Comparison | None, Comparison | None]:
    """Errors of thrust and of power; None where it was not measured."""
    errors: tuple[list[Array], list[Array]] = ([], [])
    for run in runs:
        for kept, ours, measured in zip(errors, coefficients(run), (run.ct, run.cp), strict=True):
            if np.isfinite(measured).all():
                kept.append((ours - measured) / measured.max())
    found = []
    for kept in errors:
        every = np.concatenate(kept) if kept else np.empty(0)
        found.append(
            Comparison(
                points=len(every), mean=float(np.abs(every).mean()), bias=float(every.mean())
            )
            if len(every)
            else None
        )
    return found[0], found[1]


def held(runs: list[Run]) -> tuple[Array, Array, Array]:
    """Which measured points lie inside the 10-90 % range: of thrust, of power, and of merit.

    Merit is efficiency, and at rest CT^1.5 / CP; where thrust is above a tenth of its greatest.
    """
    inside: tuple[list[Array], list[Array], list[Array]] = ([], [], [])
    for run in runs:
        ct, cp = coefficients(run, sampled_inputs())
        inside[0].append(_inside(ct, run.ct))
        if np.isfinite(run.cp).all():
            inside[1].append(_inside(cp, run.cp))
            pulls = run.ct > 0.1 * run.ct.max()
            measured = merit(run, run.ct, run.cp) if run.read is None else run.read
            inside[2].append(_inside(merit(run, ct, cp), measured)[pulls])
    of_thrust, of_power, of_merit = (
        np.concatenate(part) if part else np.empty(0, dtype=bool) for part in inside
    )
    return of_thrust, of_power, of_merit


def _inside(samples: Array, measured: Array) -> Array:
    low, high = np.quantile(samples, (0.1, 0.9), axis=0)
    return np.asarray((low <= measured) & (measured <= high))


def merit(run: Run, ct: Array, cp: Array) -> Array:
    if run.speed_m_s.any():
        return np.nan_to_num(efficiency(run, ct, cp))
    return np.asarray(np.maximum(ct, 0.0) ** 1.5 / cp)
