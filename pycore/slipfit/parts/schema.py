"""JSON Schema of the files that authors write, for editors that complete and check while typing.

Made from the same keys as the reading, so the two cannot drift apart.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from slipfit.parts.key import Key, bounds_text, keys_of
from slipfit.parts.kinds import Kind, kind_of
from slipfit.parts.origin import SPREADS
from slipfit.parts.reading import ID
from slipfit.parts.record import LONGEST_LIST, LONGEST_TEXT, joined_keys
from slipfit.units import UNITS

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"
_NUMBER: Final = r"[+\-−]?\s*\d+(?:[.,]\d+)?(?:[eE][+\-]?\d+)?"
_PATTERN: Final = r"^\s*\d{1,3}(?:[.,]\d{1,3})?\s*[x×]\s*\d{1,3}(?:[.,]\d{1,3})?\s*(?:mm)?\s*$"

Schema = dict[str, Any]


def json_schema(kind: str) -> Schema:
    """The schema of a file that lists parts of one kind, `[[kind]]` tables."""
    record = kind_of(kind)
    return {
        "$schema": DIALECT,
        "title": f"Slipfit parts: {record.plural}",
        "type": "object",
        "properties": {kind: {"type": "array", "items": _part_schema(record)}},
    }


def _part_schema(kind: Kind) -> Schema:
    own: Schema = {
        "id": {"type": "string", "pattern": f"^{ID.pattern}$", "description": "Stands in links."},
        "name": {"type": "string", "maxLength": LONGEST_TEXT, "description": "By its numbers."},
        "origin": {"enum": list(SPREADS), "description": "Of every number without its own."},
    }
    cls: type = kind.cls
    return table_schema(keys_of(cls), own, ("id", "name"))


def table_schema(
    keys: Mapping[str, Key], own: Mapping[str, Schema], own_required: tuple[str, ...]
) -> Schema:
    """The schema of one table: the keys of a record, and keys that its reader reads itself."""
    properties = {**own, **{name: key_schema(key) for name, key in keys.items()}}
    required = [*own_required, *(name for name, key in keys.items() if key.required)]
    alternatives = []
    for joint, group in joined_keys(keys).items():
        properties[joint] = _with_origin(
            {"type": "string", "description": " x ".join(group) + ", with one unit"}
        )
        separate = [name for name in group if name in required]
        if separate:
            required = [name for name in required if name not in group]
            alternatives.append({"anyOf": [{"required": [joint]}, {"required": separate}]})
    schema: Schema = {
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }
    if alternatives:
        schema["allOf"] = alternatives
    return schema


def key_schema(key: Key) -> Schema:
    """The schema of one key's value, with what it means, its bounds and what happens without it."""
    schema = _plain_schema(key)
    schema["description"] = description(key)
    return _with_origin(schema) if key.is_quantity or key.dimension == "number" else schema


def description(key: Key) -> str:
    """A key in words: what it is, its bounds, what stands in its place when it is left out."""
    words = [key.label[:1].upper() + key.label[1:] + "."]
    if key.help:
        words.append(key.help if key.help.endswith(".") else f"{key.help}.")
    if key.low is not None or key.high is not None:
        words.append(f"{bounds_text(key)}.")
    if key.estimate:
        words.append(f"Left out, it is estimated: {key.estimate} (±{key.spread * 100:.0f} %).")
    return " ".join(words)


def _plain_schema(key: Key) -> Schema:
    if key.is_quantity:
        units = sorted((unit for unit in UNITS[key.dimension] if unit), key=len, reverse=True)
        written = {
            "type": "string",
            "pattern": rf"^\s*{_NUMBER}\s*\S.*$" if key.dimension != "ratio" else rf"^\s*{_NUMBER}",
            "examples": [f"1 {unit}" for unit in units[:3]],
        }
        if key.dimension == "ratio":
            return {"anyOf": [written, {"type": "number"}]}
        return written
    if key.dimension == "choice":
        return {"enum": list(key.words)}
    if key.dimension == "count":
        return _bounded({"type": "integer"}, key)
    if key.dimension == "number":
        return _bounded({"type": "number"}, key)
    lists = {"patterns": _PATTERN, "lengths": rf"^\s*{_NUMBER}\s*\S.*$", "words": None}
    if key.dimension in lists:
        item: Schema = {"type": "string"}
        pattern = lists[key.dimension]
        if pattern:
            item["pattern"] = pattern
        if key.words:
            item["enum"] = list(key.words)
        return {"type": "array", "items": item, "maxItems": LONGEST_LIST}
    if key.dimension == "numbers":
        return {"type": "array", "items": {"type": "number"}, "maxItems": LONGEST_LIST}
    if key.dimension == "flag":
        return {"type": "boolean"}
    if key.dimension == "pattern":
        return {"type": "string", "pattern": _PATTERN}
    return {"type": "string", "maxLength": LONGEST_TEXT}


def _bounded(schema: Schema, key: Key) -> Schema:
    if key.low is not None:
        schema["minimum"] = key.low
    if key.high is not None:
        schema["maximum"] = key.high
    return schema


def _with_origin(schema: Schema) -> Schema:
    bare = {name: value for name, value in schema.items() if name != "description"}
    told: Schema = {
        "type": "object",
        "properties": {
            "value": bare,
            "origin": {"enum": list(SPREADS)},
            "spread": {
                "anyOf": [{"type": "number"}, {"type": "string", "pattern": r"\d\s*%?\s*$"}]
            },
            "note": {"type": "string", "maxLength": LONGEST_TEXT},
        },
        "required": ["value"],
        "additionalProperties": False,
    }
    return {"description": schema.get("description", ""), "anyOf": [bare, told]}
