"""A reader's own parts as a file: the same tables as the shelf's, so that either reads the other's.

[[pack]]
id = "the-old-one"
name = "the old one"
cell_count = 6
…
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable
from typing import Final

from slipfit.parts.kinds import kind_of_part
from slipfit.parts.part import OWN, Part
from slipfit.parts.reading import read_parts
from slipfit.parts.source import FileError
from slipfit.parts.writing import part_toml

MOST: Final = 100  # parts of one file, or kept on one device


def own_parts_toml(parts: Iterable[Part]) -> str:
    """A file of parts, each with an id made from its name."""
    tables: list[str] = []
    used: set[tuple[str, str]] = set()
    for part in parts:
        kind = kind_of_part(part).id
        id = _id(part.name, kind, used)
        tables.append(f'[[{kind}]]\nid = "{id}"\n{part_toml(part)}\n')
    return "\n".join(tables)


def _id(name: str, kind: str, used: set[tuple[str, str]]) -> str:
    plain = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:26].strip("-") or "part"
    if plain == OWN:
        plain = "own-part"
    id, number = plain, 1
    while (kind, id) in used:
        number += 1
        id = f"{plain}-{number}"
    used.add((kind, id))
    return id


def read_own_parts(text: str, file: str = "parts.toml") -> tuple[Part, ...]:
    """The parts of a file, as a reader's own; FileError lists everything that is wrong with it, and
    then nothing of it is taken."""
    parts = read_parts(text, file)
    if len(parts) > MOST:
        raise FileError([f"{file}: must hold at most {MOST} parts, got {len(parts)}"])
    return tuple(dataclasses.replace(part, id=OWN) for part in parts)
