"""One table of a file, or one form, read into the fields of a dataclass by its keys.

This is the door at which text and units become SI numbers. Every problem is collected, none
stops the reading of the rest.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from slipfit.errors import InputError, nearest
from slipfit.parts.key import Key, require_inside
from slipfit.parts.origin import DATA_SHEET, ESTIMATED, MEASURED, Origin
from slipfit.parts.pattern import HolePattern, pattern_from_text
from slipfit.units import quantity_from_text

LONGEST_TEXT: Final = 400
LONGEST_LIST: Final = 200

# Keys that give several fields at once, in this order: `size = "75 x 36 x 32 mm"`.
JOINED: Final[Mapping[str, tuple[tuple[str, ...], ...]]] = {
    "size": (("length", "width", "height"), ("width", "height", "depth")),
    "stator": (("stator_diameter", "stator_height"),),
}
_ORIGIN_KEYS: Final = ("value", "origin", "spread", "note")

Say = Callable[[str, str], None]  # (key, sentence after the who)


@dataclass(frozen=True, kw_only=True)
class Reading:
    """What a table said: values by field, and where each number came from."""

    values: dict[str, Any] = field(default_factory=dict)
    origins: dict[str, Origin] = field(default_factory=dict)


def joined_keys(keys: Mapping[str, Key]) -> dict[str, tuple[str, ...]]:
    """The joined keys that a record with these keys understands."""
    return {
        name: group
        for name, groups in JOINED.items()
        for group in groups
        if all(member in keys for member in group) and name not in keys
    }


def read_table(
    table: Mapping[str, Any],
    keys: Mapping[str, Key],
    say: Say,
    *,
    also: tuple[str, ...] = (),
    origin: str = DATA_SHEET,
    from_form: bool = False,
) -> Reading:
    """Read a table by its keys; `also` names keys that the caller reads itself.

    `origin` is the kind of origin of every number without one of its own. In a form all
    values are text, and a bare number is in the unit shown beside it.
    """
    reading = Reading()
    joined = {name: group for name, group in joined_keys(keys).items() if name not in also}
    for name, raw in table.items():
        if name in also:
            continue
        try:
            if name in joined:
                _read_joined(reading, name, raw, joined[name], keys, table, origin)
            elif name in keys:
                _read_one(reading, keys[name], raw, origin, from_form)
            else:
                known = (*keys, *joined, *also)
                raise InputError(f"no key '{name[:40]}'{nearest(name[:40], known)}")
        except InputError as error:
            say(name, error.message.removeprefix(": "))
    for name, record in keys.items():
        covered = any(name in group and joint in table for joint, group in joined.items())
        if record.required and name not in table and not covered:
            unit = f", in {record.unit}" if record.unit else ""
            say(name, f"{name} must be given ({record.label}{unit})")
    return reading


def _read_one(reading: Reading, key: Key, raw: Any, kind: str, from_form: bool) -> None:
    origin = usual_origin(key, kind)
    if isinstance(raw, Mapping) and key.dimension != "table":
        origin = _origin_of(key.name, key, raw, kind)
        raw = raw["value"]
    reading.values[key.field] = value_of(key, raw, from_form=from_form)
    if key.is_quantity or key.dimension == "number":
        reading.origins[key.field] = origin


def usual_origin(key: Key, kind: str) -> Origin:
    """An origin of a kind, with the smaller of the kind's spread and the key's own."""
    usual = Origin(kind)
    if kind == ESTIMATED or math.isnan(key.stated):
        return usual
    return Origin(kind, min(usual.spread, key.stated) if kind == MEASURED else key.stated)


def estimate_origin(key: Key) -> Origin:
    """The origin of a value that Slipfit estimated because nobody gave it."""
    return Origin(ESTIMATED, key.spread, key.estimate)


def _origin_of(name: str, key: Key, table: Mapping[str, Any], usual: str) -> Origin:
    for given in table:
        if given not in _ORIGIN_KEYS:
            raise InputError(f": {name} has no key '{given[:40]}'{nearest(given, _ORIGIN_KEYS)}")
    if "value" not in table:
        raise InputError(f": {name} must have a value beside its origin, got none")
    kind, note = table.get("origin", usual), table.get("note", "")
    if not isinstance(kind, str) or not isinstance(note, str):
        raise InputError(f": {name}: origin and note must be text, got {kind!r:.40}")
    try:
        origin = usual_origin(key, kind)
        spread = table.get("spread", origin.spread)
        if isinstance(spread, str):
            spread = quantity_from_text("", "spread", spread, "ratio")
        if isinstance(spread, bool) or not isinstance(spread, int | float):
            raise InputError(f"spread must be a ratio such as '3 %', got {spread!r:.40}")
        return Origin(kind, float(spread), plain_line("", "note", note))
    except InputError as error:
        raise InputError(f": {name}: {error.message.removeprefix(': ')}") from None


def _read_joined(
    reading: Reading, name: str, raw: Any, group: tuple[str, ...], keys: Mapping[str, Key],
    table: Mapping[str, Any], kind: str,
) -> None:  # fmt: skip
    origin = None
    if isinstance(raw, Mapping):
        origin = _origin_of(name, keys[group[0]], raw, kind)
        raw = raw["value"]
    rule = f"{name} must be {' x '.join(group)} with one unit, such as '{_example(len(group))}'"
    if not isinstance(raw, str):
        raise InputError(f": {rule}, got {raw!r:.40}")
    body, unit = _split_unit(raw)
    sides = [side.strip() for side in re.split(r"[x×*]", body)]
    if len(sides) != len(group) or not unit or not all(sides):
        raise InputError(f": {rule}, got '{raw[:60]}'")
    for member, side in zip(group, sides, strict=True):
        if member in table:
            raise InputError(f": {member} must be given once, got it in {name} and by itself")
        reading.values[keys[member].field] = value_of(keys[member], f"{side} {unit}")
        reading.origins[keys[member].field] = origin or usual_origin(keys[member], kind)


def _split_unit(text: str) -> tuple[str, str]:
    match = re.fullmatch(r"(.*\d)\s*([^\d\s][^\d]*)", text.strip()[:60])
    return (match[1], match[2].strip()) if match else (text, "")


def _example(count: int) -> str:
    return "28 x 8 mm" if count == 2 else "75 x 36 x 32 mm"


def value_of(key: Key, raw: Any, *, from_form: bool = False) -> Any:
    """The SI value of one key from what a file or a form holds; InputError begins with `: `."""
    if key.is_quantity:
        return _quantity(key, raw, from_form)
    reader = _READERS.get(key.dimension)
    if reader is None:
        raise AssertionError(f"key '{key.name}' of dimension '{key.dimension}' is read elsewhere")
    return reader(key, raw, from_form)


def _quantity(key: Key, raw: Any, from_form: bool) -> float:
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        if key.dimension == "ratio":
            return _bounded(key, float(raw), f"{raw:g}")
        raise InputError(
            f": {key.name} must carry a unit, such as '{_short(raw)} {key.unit}' with quotes, "
            f"got {_short(raw)}"
        )
    if not isinstance(raw, str):
        raise InputError(f": {key.name} must be text such as '1 {key.unit}', got {raw!r:.40}")
    text = raw
    if from_form and re.fullmatch(r"\s*[+\-−]?\d+(?:[.,]\d+)?\s*", text[:40]):
        text = f"{text.strip()} {key.unit}"
    value = quantity_from_text("", key.name, text, key.dimension)
    return _bounded(key, value, text.strip())


def _short(raw: float) -> str:
    return "a number beyond all bounds" if abs(raw) > 1e300 else f"{raw:g}"


def _bounded(key: Key, value: float, shown: str) -> float:
    if not math.isfinite(value):
        raise InputError(f": {key.name} must be finite, got {shown}")
    require_inside("", key, value, shown)
    return value


def _number(key: Key, raw: Any, from_form: bool) -> float:
    if isinstance(raw, str) and from_form:
        raw = quantity_from_text("", key.name, raw, "ratio")
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise InputError(f": {key.name} must be a plain number, got {raw!r:.40}")
    try:
        return _bounded(key, float(raw), _short(raw))
    except OverflowError:
        raise InputError(f": {key.name} must be finite, got {_short(raw)}") from None


def _count(key: Key, raw: Any, from_form: bool) -> int:
    if isinstance(raw, str) and from_form and re.fullmatch(r"\s*\d{1,6}\s*", raw):
        raw = int(raw)
    if isinstance(raw, bool) or not isinstance(raw, int) or abs(raw) > 10**9:
        raise InputError(f": {key.name} must be a whole number, got {raw!r:.40}")
    require_inside("", key, raw, str(raw))
    return raw


def _flag(key: Key, raw: Any, from_form: bool) -> bool:
    if isinstance(raw, str) and from_form and raw in ("true", "false"):
        return raw == "true"
    if not isinstance(raw, bool):
        raise InputError(f": {key.name} must be true or false, got {raw!r:.40}")
    return raw


def _text(key: Key, raw: Any, from_form: bool) -> str:
    if not isinstance(raw, str):
        raise InputError(f": {key.name} must be text in quotes, got {raw!r:.40}")
    return plain_line("", key.name, raw)


def plain_line(who: str, name: str, raw: str) -> str:
    """Text fit to be shown: one line of printable characters, not too long."""
    text = " ".join(raw.split())
    if len(text) > LONGEST_TEXT or not text.isprintable():
        raise InputError(
            f"{who}: {name} must be at most {LONGEST_TEXT} printable characters, got {len(text)}"
            f"{'' if text.isprintable() else ' with control characters'}",
            field=name,
        )
    return text


def _choice(key: Key, raw: Any, from_form: bool) -> str:
    if not isinstance(raw, str) or raw not in key.words:
        shown = raw[:40] if isinstance(raw, str) else f"{raw!r:.40}"
        tail = nearest(shown, key.words)
        raise InputError(f": {key.name} must be one of its words, got '{shown}'{tail}")
    return raw


def _pattern(key: Key, raw: Any, from_form: bool) -> HolePattern:
    if not isinstance(raw, str):
        raise InputError(f": {key.name} must be text such as '16x16', got {raw!r:.40}")
    return pattern_from_text("", key.name, raw, key.convention)


def _list(key: Key, raw: Any, from_form: bool) -> list[Any]:
    if from_form and isinstance(raw, str):
        return [piece for piece in re.split(r"[\s;+]+", raw.strip()) if piece]
    if not isinstance(raw, list) or len(raw) > LONGEST_LIST:
        raise InputError(
            f": {key.name} must be a list in [ ] of at most {LONGEST_LIST}, got {raw!r:.40}"
        )
    return raw


def _patterns(key: Key, raw: Any, from_form: bool) -> tuple[HolePattern, ...]:
    return tuple(_pattern(key, item, from_form) for item in _list(key, raw, from_form))


def _words(key: Key, raw: Any, from_form: bool) -> tuple[str, ...]:
    return tuple(_choice(key, item, from_form) for item in _list(key, raw, from_form))


def _lengths(key: Key, raw: Any, from_form: bool) -> tuple[float, ...]:
    return tuple(
        quantity_from_text("", key.name, str(item), "length") for item in _list(key, raw, from_form)
    )


def _numbers(key: Key, raw: Any, from_form: bool) -> tuple[float, ...]:
    factor = math.pi / 180 if key.unit == "deg" else 1.0
    values = []
    for item in _list(key, raw, from_form):
        if isinstance(item, str) and from_form:
            item = quantity_from_text("", key.name, item, "ratio")
        if isinstance(item, bool) or not isinstance(item, int | float) or not abs(item) < 1e9:
            raise InputError(f": {key.name} must hold plain numbers, got {item!r:.40}")
        values.append(float(item) * factor)
    return tuple(values)


_READERS: Final[Mapping[str, Callable[[Key, Any, bool], Any]]] = {
    "number": _number,
    "count": _count,
    "flag": _flag,
    "text": _text,
    "choice": _choice,
    "pattern": _pattern,
    "patterns": _patterns,
    "lengths": _lengths,
    "words": _words,
    "numbers": _numbers,
}
