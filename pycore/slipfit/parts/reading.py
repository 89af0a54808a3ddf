"""Parts from text: a file of the shelf, or the few numbers that a reader typed in.

    [[motor]]
    id = "m28-1950"
    name = "28 × 8 mm stator, 1950 rpm/V"
    stator = "28 x 8 mm"
    kv = "1950 rpm/V"
    resistance = { value = "47 mohm", origin = "measured", spread = "3 %" }

What is missing is estimated where it can be, and marked so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final

from slipfit.errors import InputError, SlipfitError, nearest
from slipfit.parts.consistency import CONSISTENCY
from slipfit.parts.estimates import ESTIMATES
from slipfit.parts.key import keys_of
from slipfit.parts.kinds import KINDS, Kind, kind_of
from slipfit.parts.origin import DATA_SHEET, Origin
from slipfit.parts.part import OWN, Part
from slipfit.parts.record import Reading, estimate_origin, plain_line, read_table
from slipfit.parts.source import FileError, Source, source_from_text

ID: Final = re.compile(r"[a-z0-9](?:[a-z0-9.-]{0,30}[a-z0-9])?")
_PART_KEYS: Final = ("id", "name", "origin")


def read_parts(text: str, file: str) -> tuple[Part, ...]:
    """Every part of a file, in its order; FileError lists everything that is wrong with it."""
    source = source_from_text(text, file)
    problems: list[str] = []
    parts: list[Part] = []
    seen: dict[tuple[str, str], int] = {}
    known = {kind.id: kind for kind in KINDS}
    for name, tables in source.data.items():
        if name not in known:
            where = source.place((name,))
            problems.append(f"{where}: no kind of part '{name[:40]}'{nearest(name[:40], known)}")
        elif not isinstance(tables, list) or not all(isinstance(t, dict) for t in tables):
            where = source.place((name,))
            problems.append(f"{where}: [{name}] must be written [[{name}]], one for each part")
        else:
            for index, table in enumerate(tables):
                part = _read_part(source, known[name], index, table, problems)
                if part is None:
                    continue
                first = seen.setdefault((name, part.id), index)
                if first != index:
                    problems.append(
                        f"{source.place((name, index, 'id'))}: [{name}] '{part.id}': id must be "
                        f"used once, but it stands at {source.place((name, first, 'id'))} too"
                    )
                parts.append(part)
    if problems:
        raise FileError(problems)
    return tuple(parts)


def _read_part(
    source: Source, kind: Kind, index: int, table: Mapping[str, Any], problems: list[str]
) -> Part | None:
    shown = table.get("id")
    who = f"[{kind.id}] '{shown[:40]}'" if isinstance(shown, str) else f"[{kind.id}]"
    before = len(problems)

    def say(key: str, sentence: str) -> None:
        place = source.place((kind.id, index, key))
        problems.append(f"{place}: {who}: {sentence}")

    id = _id(table, say)
    name = _name(table, say)
    origin = _whole_origin(table, say)
    reading = read_table(table, keys_of(kind.cls), say, also=_PART_KEYS, origin=origin)
    if len(problems) > before:
        return None
    part, faults = part_from_values(kind.id, id=id, name=name, reading=reading)
    for key, sentence in faults:
        say(key, sentence)
    return part


def _id(table: Mapping[str, Any], say: Any) -> str:
    id = table.get("id")
    if not isinstance(id, str) or not ID.fullmatch(id):
        got = f"got '{id[:40]}'" if isinstance(id, str) else "got none"
        say(
            "id",
            "id must be 1 to 32 small letters, digits, dots and hyphens (it stands in links), "
            + got,
        )
        return ""
    if id == OWN:
        say("id", f"id must not be '{OWN}', which stands for a reader's own part")
    return id


def _name(table: Mapping[str, Any], say: Any) -> str:
    name = table.get("name")
    if not isinstance(name, str) or not name.strip():
        say("name", "name must be given: what the part is, by its numbers")
        return ""
    try:
        return plain_line("", "name", name)
    except InputError as error:
        say("name", error.message.removeprefix(": "))
        return ""


def _whole_origin(table: Mapping[str, Any], say: Any) -> str:
    kind = table.get("origin", DATA_SHEET)
    try:
        return Origin(kind if isinstance(kind, str) else f"{kind!r:.40}").kind
    except InputError as error:
        say("origin", error.message)
        return DATA_SHEET


def part_from_values(
    kind: str, *, id: str, name: str, reading: Reading
) -> tuple[Part | None, list[tuple[str, str]]]:
    """A part from the values read, its gaps filled; with what its fields do not agree on."""
    record = kind_of(kind)
    values: dict[str, Any] = dict(reading.values)
    origins: dict[str, Origin] = dict(reading.origins)
    for field, estimate in ESTIMATES.get(kind, {}).items():
        if field not in values:
            key = next(k for k in keys_of(record.cls).values() if k.field == field)
            try:
                values[field] = estimate(values)
            except SlipfitError as error:
                return None, [(key.name, f"{key.name} must be given: {error.message}")]
            origins[field] = estimate_origin(key)
    part = record.cls(id=id, name=name, origins=origins, **values)
    faults = CONSISTENCY[kind](part) if kind in CONSISTENCY else []
    return (None if faults else part), faults


def part_from_texts(
    kind: str, fields: Mapping[str, str], *, id: str = OWN
) -> tuple[Part | None, tuple[tuple[str, str], ...]]:
    """A reader's own part from the text of a form's fields, or what is wrong as (key, sentence).

    Empty fields count as not given. A bare number is in the unit shown beside its field.
    """
    given = {name: text for name, text in fields.items() if str(text).strip()}
    return _loose_part(kind, given, id=id, from_form=True)


def own_part_from_table(
    kind: str, table: Mapping[str, Any]
) -> tuple[Part | None, tuple[tuple[str, str], ...]]:
    """A reader's own part from a TOML table, or what is wrong as (key, sentence)."""
    return _loose_part(kind, table, id=OWN, from_form=False)


def _loose_part(
    kind: str, table: Mapping[str, Any], *, id: str, from_form: bool
) -> tuple[Part | None, tuple[tuple[str, str], ...]]:
    record = kind_of(kind)
    problems: list[tuple[str, str]] = []

    def say(key: str, sentence: str) -> None:
        problems.append((key, sentence))

    name = _name(table, say) if "name" in table else f"your own {record.label}"
    reading = read_table(table, keys_of(record.cls), say, also=("name",), from_form=from_form)
    if problems:
        return None, tuple(problems)
    part, faults = part_from_values(kind, id=id, name=name, reading=reading)
    return part, tuple(faults)
