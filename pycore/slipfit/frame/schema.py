"""JSON Schema of `frame.toml`, made from the same keys as its reading."""

from __future__ import annotations

from typing import Any

from slipfit.frame.frame import BodyEntry, Frame
from slipfit.frame.joint import DERIVED, MOST_LAYERS, Joint
from slipfit.frame.reading import MANY, MOST_ENTRIES, NAMED, ONE, OPTIONAL
from slipfit.frame.shape import shape_keys
from slipfit.parts.key import keys_of
from slipfit.parts.kinds import KINDS
from slipfit.parts.reading import ID
from slipfit.parts.record import LONGEST_TEXT
from slipfit.parts.schema import DIALECT, Schema, table_schema
from slipfit.physics.body import MODELS


def json_schema() -> Schema:
    """The schema of a frame's file."""
    top = table_schema(keys_of(Frame), {}, ())
    properties: dict[str, Any] = dict(top["properties"])
    for name, cls in ONE.items():
        properties[name] = table_schema(keys_of(cls), {}, ())
    for name, cls in MANY.items():
        properties[name] = {
            "type": "array",
            "minItems": 0 if name in OPTIONAL else 1,
            "maxItems": MOST_ENTRIES,
            "items": _items_schema(cls, NAMED[name]),
        }
    properties["defaults"] = {
        "type": "object",
        "description": "The build the frame ships with: one part's id for each kind.",
        "properties": {kind.id: {"type": "string", "pattern": f"^{ID.pattern}$"} for kind in KINDS},
        "required": [kind.id for kind in KINDS],
        "additionalProperties": False,
    }
    needed = [name for name in (*ONE, *MANY) if name not in OPTIONAL]
    return {
        "$schema": DIALECT,
        "title": "Slipfit frame",
        "type": "object",
        "properties": properties,
        "required": [*top["required"], *needed, "defaults"],
        "additionalProperties": False,
    }


def _items_schema(cls: type, named: tuple[str, ...]) -> Schema:
    if cls is BodyEntry:
        return _body_schema()
    return _joint_schema() if cls is Joint else _entry_schema(cls, named)


def _joint_schema() -> Schema:
    length: Schema = {
        "type": "string",
        "pattern": r"^\s*\d+(?:[.,]\d+)?\s*\S+\s*$|^[a-z]+\.\w+$",
        "examples": ["4 mm", "esc.height", *DERIVED],
    }
    own: dict[str, Schema] = {
        "id": _text(),
        "depth": {**length, "description": "Length of thread that the screw may turn into."},
        "grip": {
            "type": "object",
            "description": f"1 to {MOST_LAYERS} lengths by the name of what the screw passes.",
            "additionalProperties": length,
        },
    }
    return table_schema(keys_of(Joint), own, ("id", "depth", "grip"))


def _entry_schema(cls: type, named: tuple[str, ...]) -> Schema:
    return table_schema(keys_of(cls), {name: _text() for name in named}, named)


def _body_schema() -> Schema:
    """One alternative for each body model, so that an editor offers the keys of its shape."""
    return {
        "anyOf": [
            table_schema(
                {**keys_of(BodyEntry), **shape_keys(model.shape)},
                {"name": _text(), "model": {"const": name, "description": model.description}},
                ("name", "model"),
            )
            for name, model in MODELS.items()
        ]
    }


def _text() -> Schema:
    return {"type": "string", "minLength": 1, "maxLength": LONGEST_TEXT}
