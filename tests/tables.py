"""Reference tables of tests/data: CSV under `#` lines that say source, flag and how it was made."""

from __future__ import annotations

import csv
from pathlib import Path

DATA = Path(__file__).parent / "data"


def rows(file: str, **where: str) -> list[dict[str, str]]:
    """Rows of a table as text (so that printed digits survive), of those that match `where`."""
    lines = (DATA / file).read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# source:"), f"{file} must begin with '# source: …'"
    assert lines[1].startswith("# flag:"), f"{file} must name its flag in line 2"
    found = [
        row
        for row in csv.DictReader(line for line in lines if not line.startswith("#"))
        if all(row[column] == value for column, value in where.items())
    ]
    assert found, f"{file} has no row where {where}"
    return found


def figures(file: str) -> dict[str, str]:
    """Values of a table of single figures by their `id`, as text."""
    return {row["id"]: row["value"] for row in rows(file)}
