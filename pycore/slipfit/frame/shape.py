"""Keys of the body models' shapes, made from what their records say of each field.

The shapes belong to physics and know nothing of files: each field carries a help text, a
dimension and the unit to show it in (`physics.body.loads.shape_key`), and its key is its name
without the unit: `boat_tail_half_angle_rad` is typed `boat_tail_half_angle = "9 deg"`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from slipfit.parts.key import Key, key_name
from slipfit.units import UNITS


def shape_keys(cls: type) -> Mapping[str, Key]:
    """The keys of a shape's dataclass by the name people type."""
    made = [_shape_key(field) for field in dataclasses.fields(cls)]
    return {key.name: key for key in made}


def _shape_key(field: dataclasses.Field[Any]) -> Key:
    said = field.metadata
    dimension = said["dimension"]
    unit = said.get("unit") or (next(iter(UNITS[dimension])) if dimension in UNITS else "")
    if field.type == "int":
        dimension, unit = "count", ""
    return Key(
        field=field.name,
        label=key_name(field.name).replace("_", " "),
        help=said.get("help", ""),
        dimension=dimension,
        unit=unit,
        required=bool(said["required"]),
    )
