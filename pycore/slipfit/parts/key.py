"""One record per field of a part or frame: the place that reading, error texts, the JSON Schema,
the documentation and the form for a reader's own part all derive from.

    kv_rad_s_V: float = key("speed constant", "kv", "rpm/V", low=5, high=1050)

The key that people type is the field's name without its unit: `kv`, `stator_diameter`, `mass`.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Final, cast

from slipfit.errors import InputError
from slipfit.units import SUFFIXES, UNITS

# What a value may be besides a quantity of one of the dimensions of `units.UNITS`.
PLAIN: Final[Mapping[str, str]] = {
    "text": "text",
    "choice": "one of a few words",
    "count": "a whole number",
    "number": "a plain number",
    "flag": "true or false",
    "pattern": "a hole pattern",
    "patterns": "a list of hole patterns",
    "lengths": "a list of lengths",
    "numbers": "a list of plain numbers",
    "words": "a list of words",
    "table": "a table",
}
LENGTH_SPREAD: Final = 0.01  # what a printed length is good for; our choice
_BY_LENGTH: Final = sorted(SUFFIXES, key=len, reverse=True)


@dataclass(frozen=True, kw_only=True)
class Key:
    """What is known about one field.

    `dimension` is one of `units.UNITS` or `PLAIN`; `unit` the one shown to people; `low` and
    `high` the SI bounds outside which no real part lies; `estimate` says in words how a missing
    value is estimated; `spread` the spread of that estimate; `stated` the spread of a value from
    a data sheet, where it is not the usual one; `choices` the words allowed (a function where
    they are listed elsewhere); `convention` that of a hole pattern; `typed` the key people type
    where it is not the field's name without its unit.
    """

    field: str = ""
    label: str
    dimension: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    required: bool = True
    help: str = ""
    estimate: str = ""
    spread: float = 0.20
    stated: float = math.nan
    choices: tuple[str, ...] | Callable[[], tuple[str, ...]] = ()
    convention: str = ""
    typed: str = ""

    @property
    def name(self) -> str:
        """The key people type."""
        return self.typed or key_name(self.field)

    @property
    def is_quantity(self) -> bool:
        """True for a number with a unit."""
        return self.dimension in UNITS

    @property
    def words(self) -> tuple[str, ...]:
        """The words a choice allows."""
        return self.choices() if callable(self.choices) else self.choices


def key(
    label: str,
    dimension: str,
    unit: str = "",
    *,
    low: float | None = None,
    high: float | None = None,
    default: Any = dataclasses.MISSING,
    help: str = "",
    estimate: str = "",
    spread: float = 0.20,
    stated: float = math.nan,
    choices: tuple[str, ...] | Callable[[], tuple[str, ...]] = (),
    convention: str = "",
    typed: str = "",
) -> Any:
    """A dataclass field that carries its `Key`. It is required unless it has a default or an
    estimate."""
    if dimension not in UNITS and dimension not in PLAIN:
        raise AssertionError(f"key '{label}': no dimension '{dimension}'")
    if dimension == "length" and math.isnan(stated):
        stated = LENGTH_SPREAD
    record = Key(
        label=label, dimension=dimension, unit=unit, low=low, high=high, help=help,
        required=default is dataclasses.MISSING and not estimate, estimate=estimate,
        spread=spread, stated=stated, choices=choices, convention=convention,
        typed=typed,
    )  # fmt: skip
    return dataclasses.field(default=default, metadata={"key": record})


@cache
def key_name(field: str) -> str:
    """The key of a field: its name without the unit suffix (`kv_rad_s_V` -> `kv`)."""
    for suffix in _BY_LENGTH:
        if field.endswith("_" + suffix):
            return field[: -len(suffix) - 1]
    return field


_KEYS: dict[type, Mapping[str, Key]] = {}


def keys_of(cls: type) -> Mapping[str, Key]:
    """Every key of a dataclass by the name people type, in the order of its fields."""
    if cls in _KEYS:
        return _KEYS[cls]
    found: dict[str, Key] = {}
    for field in dataclasses.fields(cls):
        if "key" in field.metadata:
            record = dataclasses.replace(cast(Key, field.metadata["key"]), field=field.name)
            found[record.name] = record
    _KEYS[cls] = found
    return found


def require_inside(who: str, record: Key, value: float, shown: str) -> None:
    """Raise InputError where no real part has the value; says which slip makes it likely."""
    low = -float("inf") if record.low is None else record.low
    high = float("inf") if record.high is None else record.high
    if low <= value <= high:
        return
    rule = bounds_text(record)
    raise InputError(
        f"{who}: {record.name} must be {rule}, got {shown}{_likely_slip(record, value, shown)}",
        field=record.name,
    )


def bounds_text(record: Key) -> str:
    """The bounds of a key in the unit shown: `50 to 10000 rpm/V`, `at least 0 W`."""

    def shown(value: float) -> str:
        return f"{_in_shown_unit(record, value):.6g}"

    unit = f" {record.unit}" if record.unit else ""
    if record.low is not None and record.high is not None:
        return f"{shown(record.low)} to {shown(record.high)}{unit}"
    if record.low is not None:
        return f"at least {shown(record.low)}{unit}"
    if record.high is not None:
        return f"at most {shown(record.high)}{unit}"
    return "any value"


def _in_shown_unit(record: Key, value: float) -> float:
    if not record.is_quantity:
        return value
    factor, offset = UNITS[record.dimension][record.unit]
    return (value - offset) / factor


def _likely_slip(record: Key, value: float, shown: str) -> str:
    """`; did you mean 1800 mAh?`: the same figures in another unit, or a slipped decimal point."""
    inside = [v for v in (record.low, record.high) if v is not None]
    if len(inside) != 2:
        return ""
    low, high = inside
    if record.is_quantity:
        units = UNITS[record.dimension]
        typed = [u for u in units if shown.endswith(u) and u]
        if typed:
            symbol = max(typed, key=len)
            factor, offset = units[symbol]
            number = (value - offset) / factor
            ordered = sorted(units, key=lambda u: u != record.unit)
            for other in ordered:
                other_factor, other_offset = units[other]
                if other != symbol and low <= number * other_factor + other_offset <= high:
                    return f"; did you mean {number:.6g} {other}?"
    if record.dimension != "temperature":
        for power in (10.0, 100.0):
            for slipped in (value / power, value * power):
                if low <= slipped <= high:
                    unit = f" {record.unit}" if record.unit else ""
                    return f"; did you mean {_in_shown_unit(record, slipped):.6g}{unit}?"
    return ""
