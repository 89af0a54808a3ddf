"""Parts as text again: for forms, for build files, for links."""

from __future__ import annotations

import json
import math
from decimal import Decimal
from typing import Any

from slipfit.parts.key import Key, keys_of
from slipfit.parts.origin import DATA_SHEET, Origin
from slipfit.parts.part import Part
from slipfit.parts.pattern import HolePattern
from slipfit.parts.record import estimate_origin, usual_origin
from slipfit.units import in_unit


def value_text(key: Key, value: Any, digits: int = 12) -> str:
    """A value as people type it: `62 mohm`, `16x19`, `14`. Twelve digits survive reading back."""
    if isinstance(value, HolePattern):
        return value.text()
    if isinstance(value, bool):
        return "true" if value else "false"
    if key.dimension == "numbers":
        factor = 180 / math.pi if key.unit == "deg" else 1.0
        return " ".join(_plain(item * factor, digits) for item in value)
    if key.is_quantity:
        unit = f" {key.unit}" if key.unit else ""
        return f"{_plain(in_unit(float(value), key.dimension, key.unit), digits)}{unit}"
    if isinstance(value, float):
        return _plain(value, digits)
    return str(value)


def _plain(number: float, digits: int) -> str:
    text = f"{number:.{digits}g}"
    if "e" in text:
        text = f"{Decimal(text):f}"
    return "0" if text == "-0" else text


def stated_texts(part: Part) -> dict[str, str]:
    """Everything somebody stated about a part, by key, leaving out what is usual or guessed."""
    found: dict[str, str] = {}
    for name, key in keys_of(type(part)).items():
        value = getattr(part, key.field)
        origin = part.origins.get(key.field)
        if origin is None and (value is None or value == _default(type(part), key)):
            continue
        if origin is not None and origin == estimate_origin(key):
            continue
        found[name] = value_text(key, value)
    return found


def _default(cls: type, key: Key) -> Any:
    return cls.__dataclass_fields__[key.field].default  # type: ignore[attr-defined]


def unusual_origin(part: Part, key: Key) -> Origin | None:
    """The origin of a field where it is not the usual one of a data sheet, else None."""
    origin = part.origins.get(key.field)
    return None if origin is None or origin == usual_origin(key, DATA_SHEET) else origin


def toml_text(text: str) -> str:
    """Text in the quotes of TOML."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def part_toml(part: Part) -> str:
    """The lines of a part's table, without its header: what somebody stated, with origins."""
    lines = [f"name = {toml_text(part.name)}"]
    keys = keys_of(type(part))
    for name, text in stated_texts(part).items():
        key = keys[name]
        bare = key.dimension in ("count", "number", "flag")
        if key.dimension == "numbers":
            value = f"[{', '.join(text.split())}]"
        else:
            value = text if bare else toml_text(text)
        origin = unusual_origin(part, key)
        if origin is not None:
            note = f", note = {toml_text(origin.note)}" if origin.note else ""
            spread = f"spread = {origin.spread:.6g}{note}"
            value = f'{{ value = {value}, origin = "{origin.kind}", {spread} }}'
        lines.append(f"{name} = {value}")
    return "\n".join(lines)
