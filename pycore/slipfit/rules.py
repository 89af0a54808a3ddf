"""Published limits of law, and how a build at speed stands against them.

The limits are rows of tables `data/rules*.csv`: another country, or a change of law, is a row or a
table and no code. An estimate below a number is not a permission.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Final

import numpy as np

from slipfit.errors import InputError, nearest
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import chase_speed, shot_of
from slipfit.units import quantity_from_text

MEASURES: Final = ("speed", "height", "mass", "energy")
DIMENSIONS: Final[Mapping[str, str]] = {
    "speed": "speed", "height": "length", "mass": "mass", "energy": "energy",
}  # fmt: skip
BOUNDS: Final = ("at most", "under")
COLUMNS: Final = (
    "id", "place", "measure", "value", "unit", "bound", "says", "beyond", "rule", "read", "flag",
)  # fmt: skip
NEAR: Final = 0.9  # from here to the limit it says "near"; our choice


@dataclass(frozen=True, kw_only=True)
class Rule:
    """One published limit. `measure` is one of `MEASURES`, or `"none"` for a rule without a number;
    `limit` is SI; `says` what is limited; `beyond` what it means to be past it; `rule` where it
    is written; `read` when (year and month); `flag` what of it was seen and what is from memory."""

    id: str
    place: str
    measure: str
    limit: float
    bound: str
    says: str
    beyond: str
    rule: str
    read: str
    flag: str

    def state(self, value: float) -> str:
        """`inside`, `near` or `past`."""
        if value > self.limit or (self.bound == "under" and value >= self.limit):
            return "past"
        return "near" if value > NEAR * self.limit else "inside"


def rules_from_text(text: str, file: str) -> tuple[Rule, ...]:
    """The rules of one table; InputError names file and line of what is wrong."""
    lines = text.splitlines()
    start = next((k for k, line in enumerate(lines) if not line.startswith("#")), len(lines))
    table = csv.reader(lines[start:])
    head = next(table, [])
    if tuple(head) != COLUMNS:
        raise InputError(f"{file}:{start + 1}: columns must be {','.join(COLUMNS)}")
    found: list[Rule] = []
    for row in table:
        if not row:
            continue
        where = f"{file}:{start + table.line_num}"
        if len(row) != len(COLUMNS):
            raise InputError(f"{where}: a row must have {len(COLUMNS)} entries, got {len(row)}")
        found.append(_rule(where, dict(zip(COLUMNS, row, strict=True))))
    return tuple(found)


def _rule(where: str, row: dict[str, str]) -> Rule:
    for column in ("id", "place", "says", "rule", "read", "flag"):
        if not row[column].strip():
            raise InputError(f"{where}: {column} must be given, got nothing")
    value, unit, measure = row.pop("value"), row.pop("unit"), row["measure"]
    limit = float("nan")
    if measure != "none":
        if measure not in MEASURES:
            raise InputError(f"{where}: no measure '{measure[:40]}'{nearest(measure, MEASURES)}")
        if row["bound"] not in BOUNDS:
            raise InputError(
                f"{where}: no bound '{row['bound'][:40]}'{nearest(row['bound'], BOUNDS)}"
            )
        limit = quantity_from_text(where, "value", f"{value} {unit}", DIMENSIONS[measure])
        if limit <= 0.0:
            raise InputError(f"{where}: value must be > 0, got {value}")
    return Rule(limit=limit, **row)


@cache
def rules() -> tuple[Rule, ...]:
    """The rules of every shipped table, in the order of their names."""
    folder = resources.files("slipfit").joinpath("data")
    tables = [f for f in folder.iterdir() if f.name.startswith("rules") and f.name.endswith(".csv")]
    found: list[Rule] = []
    for table in sorted(tables, key=lambda f: f.name):
        found += rules_from_text(table.read_text(encoding="utf-8"), table.name)
    ids = [rule.id for rule in found]
    twice = sorted({id for id in ids if ids.count(id) > 1})
    if twice:
        raise InputError(f"rules: id must be used once, got {', '.join(twice)} more than once")
    return tuple(found)


def kinetic_energy(p: Performance, speed_m_s: Array) -> Array:
    """Half the mass times the square of the speed, (samples, 1). [J]"""
    mass = np.asarray(p.inputs.mass_kg, dtype=float).reshape(-1, 1)
    return np.asarray(0.5 * mass * speed_m_s**2)


@dataclass(frozen=True, kw_only=True)
class Standing:
    """One value of a build that a rule limits, with when it is reached; NaN where not known."""

    when: str
    value: float


def standings(p: Performance) -> Mapping[str, tuple[Standing, ...]]:
    """What a build does, by measure; the first of each is the most it does."""
    speeds = [("at top speed", p.top_speed_m_s), ("at its speed of best range", p.cruise_speed_m_s)]
    if p.build.chase > 0.0:
        reached = np.where(chase_speed(p) <= p.top_speed_m_s, chase_speed(p), np.nan)
        speeds.insert(1, ("beside the subject", reached))
    shot = shot_of(p)
    return {
        "speed": tuple(Standing(when=when, value=float(V[0, 0])) for when, V in speeds),
        "energy": tuple(
            Standing(when=when, value=float(kinetic_energy(p, V)[0, 0])) for when, V in speeds
        ),
        "height": (Standing(when="in the shot", value=shot.above_m if shot else float("nan")),),
        "mass": (Standing(when="ready to fly", value=float(np.ravel(p.inputs.mass_kg)[0])),),
    }
