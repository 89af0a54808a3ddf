"""Legs: the pieces of a flight, as an author or a reader writes them.

In a frame's file each is a table `[[leg]]`. In a link and in the form on the page the whole flight
is one line of words, leg by leg: `hover 8 s, cruise 15 s, pass 600 m 60 m/s x3, turn 5 s`.
Values need no names there, since their units tell them apart.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Any, Final

from slipfit.errors import InputError, nearest
from slipfit.parts.key import Key, key, keys_of
from slipfit.parts.record import value_of
from slipfit.parts.writing import value_text
from slipfit.units import UNITS

LEG_KINDS: Final = ("hover", "cruise", "pass", "turn", "return", "land", "reserve")
MOST_LEGS: Final = 24
USUAL_RESERVE: Final = 0.2  # of the capacity; common practice, no source

# What a leg of each kind must have, what it may have (beside a name), and how that is said.
_TAKES: Final[Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]]] = {
    "hover": (("time",), ()),
    "cruise": ((), ("time", "length", "speed")),
    "pass": (("length",), ("speed", "count")),
    "turn": (("time",), ("speed", "angle")),
    "return": ((), ("time", "length", "speed")),
    "land": (("time",), ()),
    "reserve": (("charge",), ()),
}


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One piece of a flight. Without a speed, a `pass` is flown at full throttle and every other
    leg at the speed of best range. Without a count, a pass is flown as often as the pack lasts,
    each time with the turn that stands behind it."""

    kind: str = key("kind", "choice", choices=LEG_KINDS)
    name: str = key("name", "text", default="", help="As shown; the kind's own word if left out.")
    time_s: float | None = key(
        "duration", "time", "s", low=0.5, high=7200.0, default=None,
        help="Of hover, turn, land; cruise and return have it or a length.",
    )  # fmt: skip
    length_m: float | None = key(
        "length", "length", "m", low=1.0, high=100_000.0, default=None,
        help="Over the ground in still air, run-up included.",
    )  # fmt: skip
    speed_m_s: float | None = key(
        "speed", "speed", "m/s", low=1.0, high=140.0, default=None,
        help="Of a pass: full throttle if left out; of others: the speed of best range.",
    )  # fmt: skip
    count: int | None = key(
        "how often", "count", low=1, high=40, default=None,
        help="Of a pass, each time with the turn behind it; as often as the pack lasts if left "
        "out.",
    )  # fmt: skip
    angle_rad: float = key(
        "angle of the turn", "angle", "deg", low=0.0, high=4 * math.pi, default=math.pi,
        help="Turned through at a constant rate.",
    )  # fmt: skip
    charge: float | None = key(
        "charge that stays", "ratio", "%", low=0.0, high=0.9, default=None,
        help="Of a reserve: share of the capacity that is not flown.",
    )  # fmt: skip

    @property
    def label(self) -> str:
        """The leg's name, or its kind."""
        return self.name or self.kind


DEFAULT_LEGS: Final = (
    Leg(kind="hover", time_s=8.0),
    Leg(kind="cruise", time_s=15.0),
    Leg(kind="pass", length_m=400.0),
    Leg(kind="turn", time_s=6.0),
    Leg(kind="return", length_m=500.0),
    Leg(kind="land", time_s=10.0),
    Leg(kind="reserve", charge=USUAL_RESERVE),
)


def leg_keys() -> Mapping[str, Key]:
    """The keys of a leg by the name people type."""
    cls: type = Leg
    return keys_of(cls)


def leg_problem(leg: Leg) -> tuple[str, str] | None:
    """(key, sentence) for what a leg of its kind lacks or must not have; None where it is right."""
    needed, allowed = _TAKES[leg.kind]
    given = {
        name
        for name, record in leg_keys().items()
        if name not in ("kind", "name") and getattr(leg, record.field) is not None
    }
    if leg.angle_rad == math.pi and leg.kind != "turn":
        given.discard("angle")
    for name in needed:
        if name not in given:
            return name, f"{name} must be given for a {leg.kind}"
    for name in sorted(given):
        if name not in (*needed, *allowed):
            fine = (*needed, *allowed)
            return name, f"{name} has no place in a {leg.kind}, which takes {_listed(fine)}"
    if leg.kind in ("cruise", "return") and ("time" in given) == ("length" in given):
        return "time", f"a {leg.kind} must have either time or length"
    return None


def flight_problem(legs: Iterable[Leg]) -> str:
    """What is wrong with the order of legs; empty where it is right."""
    kinds = [leg.kind for leg in legs]
    if not 1 <= len(kinds) <= MOST_LEGS:
        return f"a flight must have 1 to {MOST_LEGS} legs, got {len(kinds)}"
    if "reserve" in kinds[:-1]:
        return "a reserve must be the last leg: it is what stays in the pack"
    if kinds == ["reserve"]:
        return "a flight must have a leg besides its reserve"
    open_ended = [leg for leg in legs if leg.kind == "pass" and leg.count is None]
    if len(open_ended) > 1:
        return "only one pass may be without a count: it is flown as often as the pack lasts"
    return ""


def _listed(names: tuple[str, ...]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


# The words of one leg: which key a value belongs to follows from its unit.
_BY_DIMENSION: Final = {
    "time": "time", "length": "length", "speed": "speed", "angle": "angle", "ratio": "charge",
}  # fmt: skip
_VALUE: Final = re.compile(r"([+\-−]?\d+(?:[.,]\d+)?)\s*([^\d\s+\-][^\s]*)")
_COUNT: Final = re.compile(r"[x×*]\s*(\d{1,4})|(\d{1,4})\s*[x×*]")
_FILLERS: Final = re.compile(r"\b(at|for|of|to|over|through|and|times)\b")
_LONGEST_LINE: Final = 1200


def legs_from_text(text: str) -> tuple[Leg, ...]:
    """A flight from its line of words; InputError names the leg and what is wrong with it."""
    if len(text) > _LONGEST_LINE:
        raise InputError(
            f": a flight must be at most {_LONGEST_LINE} characters, got {len(text)}", field="legs"
        )
    pieces = [piece.strip() for piece in re.split(r"[,;\n]+(?!\d)", text) if piece.strip()]
    if len(pieces) > MOST_LEGS:
        raise InputError(
            f": a flight must have 1 to {MOST_LEGS} legs, got {len(pieces)}", field="legs"
        )
    legs = tuple(_leg_from_words(piece, number) for number, piece in enumerate(pieces, 1))
    problem = flight_problem(legs)
    if problem:
        raise InputError(f": {problem}", field="legs")
    return legs


def _leg_from_words(piece: str, number: int) -> Leg:
    who = f": leg {number}"
    words = piece.split(maxsplit=1)
    kind, rest = words[0].lower(), words[1] if len(words) > 1 else ""
    if kind not in LEG_KINDS:
        raise InputError(
            f"{who} must begin with its kind, got '{kind[:24]}'{nearest(kind[:24], LEG_KINDS)}",
            field="legs",
        )
    values: dict[str, Any] = {}
    keys = leg_keys()
    rest = _FILLERS.sub(" ", rest)
    counted = _COUNT.search(rest)
    if counted:
        rest = rest[: counted.start()] + " " + rest[counted.end() :]
        values["count"] = int(counted[1] or counted[2])
    for match in _VALUE.finditer(rest):
        name = _name_of_unit(match[2])
        if name is None:
            raise InputError(
                f"{who}, {kind}: '{match[0][:24]}' must be a time, length, speed, angle or share "
                "with its unit",
                field="legs",
            )
        if name in values:
            raise InputError(f"{who}, {kind}: {name} must be given once", field="legs")
        try:
            values[name] = value_of(keys[name], f"{match[1]} {match[2]}")
        except InputError as error:
            raise InputError(f"{who}, {kind}: {error.message.lstrip(': ')}", field="legs") from None
    left = _VALUE.sub("", rest).strip()
    if left:
        raise InputError(
            f"{who}, {kind}: '{left[:24]}' was not understood; values carry units, such as 600 m "
            "or 60 m/s, and a count is written x3",
            field="legs",
        )
    if "count" in values:
        try:
            value_of(keys["count"], values["count"])
        except InputError as error:
            raise InputError(f"{who}, {kind}: {error.message.lstrip(': ')}", field="legs") from None
    leg = Leg(kind=kind, **{keys[name].field: value for name, value in values.items()})
    problem = leg_problem(leg)
    if problem:
        raise InputError(f"{who}, {kind}: {problem[1]}", field="legs")
    return leg


def _name_of_unit(symbol: str) -> str | None:
    from slipfit.units import quantity_from_text

    for dimension, name in _BY_DIMENSION.items():
        try:
            quantity_from_text("", name, f"1 {symbol}", dimension)
        except InputError:
            continue
        return name
    return None


def legs_text(legs: Iterable[Leg], between: str = ", ") -> str:
    """The words of a flight, which `legs_from_text` reads back. Names are left out."""
    return between.join(_words(leg) for leg in legs)


def named_like(legs: Iterable[Leg], named: Iterable[Leg]) -> tuple[Leg, ...]:
    """Legs with the names of those that say the same in words, first of those that stand in the
    same order, then of those that were moved: what a reader left as it was keeps the author's name,
    though links and forms carry words alone."""
    legs, named = tuple(legs), tuple(named)
    ours, theirs = ([legs_text((leg,)) for leg in each] for each in (legs, named))
    names: dict[int, str] = {}
    left = dict(enumerate(named))
    for block in SequenceMatcher(None, ours, theirs, autojunk=False).get_matching_blocks():
        for k in range(block.size):
            names[block.a + k] = left.pop(block.b + k).name
    for k in range(len(legs)):
        moved = next((n for n in left if theirs[n] == ours[k]), None)
        if k not in names and moved is not None:
            names[k] = left.pop(moved).name
    return tuple(replace(leg, name=leg.name or names.get(k, "")) for k, leg in enumerate(legs))


def _words(leg: Leg) -> str:
    said = [leg.kind]
    for name, record in leg_keys().items():
        value = getattr(leg, record.field)
        if name in ("kind", "name") or value is None:
            continue
        if name == "angle" and (leg.kind != "turn" or value == math.pi):
            continue
        # far below what a flight could mean there are no digits to write
        said.append(f"x{value}" if name == "count" else value_text(record, round(value, 12), 9))
    return " ".join(said)


assert set(_BY_DIMENSION) <= set(UNITS)
