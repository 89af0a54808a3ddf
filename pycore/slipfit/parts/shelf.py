"""The shelf: every part that a site offers, by kind and id."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from slipfit.errors import InputError, nearest
from slipfit.parts.kinds import KINDS, kind_of, kind_of_part
from slipfit.parts.part import Part
from slipfit.parts.reading import read_parts
from slipfit.parts.source import FileError

if TYPE_CHECKING:
    from pathlib import Path


@dataclass(frozen=True, kw_only=True)
class Shelf:
    """Parts by kind and id, in the order of their files."""

    by_kind: Mapping[str, Mapping[str, Part]]

    def of(self, kind: str) -> tuple[Part, ...]:
        """All parts of a kind."""
        return tuple(self.by_kind[kind_of(kind).id].values())

    def part(self, kind: str, id: str) -> Part:
        """One part; InputError names the nearest id."""
        parts = self.by_kind[kind_of(kind).id]
        if id not in parts:
            raise InputError(f"shelf: no {kind} '{id[:40]}'{nearest(id[:40], parts)}", field=kind)
        return parts[id]

    def __len__(self) -> int:
        return sum(len(parts) for parts in self.by_kind.values())


def shelf_from_texts(files: Mapping[str, str]) -> Shelf:
    """A shelf from the text of several files by name; FileError lists all that is wrong in all."""
    problems: list[str] = []
    by_kind: dict[str, dict[str, Part]] = {kind.id: {} for kind in KINDS}
    home: dict[tuple[str, str], str] = {}
    for file, text in files.items():
        try:
            parts = read_parts(text, file)
        except FileError as error:
            problems.extend(error.problems)
            continue
        for part in parts:
            kind = kind_of_part(part).id
            first = home.setdefault((kind, part.id), file)
            if first != file:
                problems.append(
                    f"{file}: [{kind}] '{part.id}': id must be used once, "
                    f"but it stands in {first} too"
                )
            by_kind[kind][part.id] = part
    if problems:
        raise FileError(problems)
    return Shelf(by_kind=by_kind)


def shelf_from_folder(folder: Path) -> Shelf:
    """A shelf from every `.toml` file of a folder (native use only)."""
    return shelf_from_texts(
        {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.toml"))}
    )
