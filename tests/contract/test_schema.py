"""The JSON Schemas accept the files that the reading accepts, and refuse what it refuses.

The subset of JSON Schema that they use is small, so it is checked here in a few lines.
"""

from __future__ import annotations

import copy
import json
import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from slipfit.frame.reading import read_frame
from slipfit.frame.schema import json_schema as frame_schema
from slipfit.parts.key import keys_of
from slipfit.parts.kinds import KINDS
from slipfit.parts.reading import read_parts
from slipfit.parts.schema import description, json_schema
from slipfit.parts.source import FileError

ROOT = Path(__file__).parents[2]
FRAME_TEXT = (ROOT / "docs/frames/quillback-5/frame.toml").read_text(encoding="utf-8")
TYPES: dict[str, Callable[[Any], bool]] = {
    "object": lambda v: isinstance(v, dict),
    "array": lambda v: isinstance(v, list),
    "string": lambda v: isinstance(v, str),
    "boolean": lambda v: isinstance(v, bool),
    "integer": lambda v: isinstance(v, int) and not isinstance(v, bool),
    "number": lambda v: isinstance(v, int | float) and not isinstance(v, bool),
}
RULES: dict[str, Callable[[Any, Any, dict[str, Any]], bool]] = {
    "type": lambda rule, v, _: TYPES[rule](v),
    "enum": lambda rule, v, _: v in rule,
    "const": lambda rule, v, _: v == rule,
    "pattern": lambda rule, v, _: re.search(rule, v) is not None,
    "minLength": lambda rule, v, _: len(v) >= rule,
    "maxLength": lambda rule, v, _: len(v) <= rule,
    "minimum": lambda rule, v, _: v >= rule,
    "maximum": lambda rule, v, _: v <= rule,
    "minItems": lambda rule, v, _: len(v) >= rule,
    "maxItems": lambda rule, v, _: len(v) <= rule,
    "items": lambda rule, v, _: all(accepts(rule, item) for item in v),
    "required": lambda rule, v, _: all(name in v for name in rule),
    "properties": lambda rule, v, _: all(accepts(rule[n], v[n]) for n in v if n in rule),
    "additionalProperties": lambda rule, v, s: rule or set(v) <= set(s["properties"]),
    "anyOf": lambda rule, v, _: any(accepts(one, v) for one in rule),
    "allOf": lambda rule, v, _: all(accepts(one, v) for one in rule),
}
WORDS = {"$schema", "title", "description", "examples"}


def accepts(schema: dict[str, Any], value: Any) -> bool:
    """Whether a value follows a schema; an unknown keyword is a mistake of the test."""
    if "type" in schema and not TYPES[schema["type"]](value):
        return False
    return all(
        RULES[keyword](rule, value, schema)
        for keyword, rule in schema.items()
        if keyword not in WORDS
    )


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.id)
def test_every_file_of_the_shelf_follows_its_schema(kind):
    text = (ROOT / "docs/parts" / kind.file).read_text(encoding="utf-8")
    schema = json_schema(kind.id)
    assert accepts(schema, tomllib.loads(text))
    assert json.loads(json.dumps(schema)) == schema


def test_the_demo_frame_follows_the_schema():
    schema = frame_schema()
    assert accepts(schema, tomllib.loads(FRAME_TEXT))
    assert json.loads(json.dumps(schema)) == schema


SPOILS: list[tuple[str, Callable[[dict[str, Any]], object]]] = [
    ("a number without a unit", lambda part: part.update(mass=8)),
    ("an unknown key", lambda part: part.update(colour="red")),
    ("a missing key", lambda part: part.pop("mass")),
    ("a missing size", lambda part: part.pop("size")),
    ("a flag for a quantity", lambda part: part.update(power=True)),
    ("an id that no link can hold", lambda part: part.update(id="G 20")),
    ("an unknown origin", lambda part: part.update(mass={"value": "8 g", "origin": "guess"})),
    ("an unknown key of an origin", lambda part: part.update(mass={"value": "8 g", "x": 1})),
    ("a value without its value", lambda part: part.update(mass={"origin": "measured"})),
]


@pytest.mark.parametrize(("what", "spoil"), SPOILS, ids=[what for what, _ in SPOILS])
def test_schema_and_reading_refuse_the_same(what, spoil):
    part: dict[str, Any] = {"id": "g", "name": "g", "mass": "8 g", "size": "20 x 20 x 8 mm"}
    assert accepts(json_schema("gps"), {"gps": [part]})
    read_parts(toml_of({"gps": [part]}), "f")
    spoiled = copy.deepcopy(part)
    spoil(spoiled)
    assert not accepts(json_schema("gps"), {"gps": [spoiled]})
    with pytest.raises(FileError):
        read_parts(toml_of({"gps": [spoiled]}), "f")


def toml_of(data: dict[str, list[dict[str, Any]]]) -> str:
    """TOML of lists of flat tables, values by JSON but for tables."""
    lines = []
    for kind, parts in data.items():
        for part in parts:
            lines.append(f"[[{kind}]]")
            for name, value in part.items():
                if isinstance(value, dict):
                    pairs = ", ".join(f"{k} = {json.dumps(v)}" for k, v in value.items())
                    lines.append(f"{name} = {{ {pairs} }}")
                else:
                    lines.append(f"{name} = {json.dumps(value)}")
    return "\n".join(lines)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('bore = "36 mm"', "bore = 36"),
        ('bore = "36 mm"', 'boar = "36 mm"'),
        ('model = "fin"', 'model = "finn"'),
        ('nose_length = "105 mm"', 'nose_lenght = "105 mm"'),
        ("across = true", 'across = "yes"'),
        ('patterns = ["30.5x30.5"]', 'patterns = ["30.5"]'),
        ('gps = "g20"\n', ""),
        ('kind = "pack"', 'kind = "lunch"'),
    ],
)
def test_frame_schema_and_reading_refuse_the_same(old, new):
    text = FRAME_TEXT.replace(old, new, 1)
    assert text != FRAME_TEXT
    assert not accepts(frame_schema(), tomllib.loads(text))
    with pytest.raises(FileError):
        read_frame(text, "q")


def test_every_key_is_described_with_its_bounds_and_its_estimate():
    for kind in KINDS:
        table = json_schema(kind.id)["properties"][kind.id]["items"]
        for name, key in keys_of(kind.cls).items():
            assert table["properties"][name]["description"] == description(key)
            assert (name in table["required"]) <= key.required
    motor = keys_of(KINDS[0].cls)
    assert description(motor["can_diameter"]) == (
        "Can diameter. Across the turning can: it must pass into the fairing. 8 to 150 mm. "
        "Left out, it is estimated: 1.13 stator diameters and 2.4 mm (±4 %)."
    )
