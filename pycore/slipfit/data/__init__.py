"""Tables shipped with the package; a table without source, licence and making is refused.

An .npz table holds its header as JSON text in the entry `header`; a .csv table holds it in
leading lines `# source: …`, `# licence: …`, `# made: …`.
"""

from __future__ import annotations

import csv
import io
import json
import pkgutil
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from slipfit.errors import InputError

HEADER_KEYS = ("source", "licence", "made")


@dataclass(frozen=True, kw_only=True)
class Table:
    """A shipped table: where it comes from, and its columns (or arrays) by name."""

    header: Mapping[str, str]
    columns: Mapping[str, NDArray[Any]]


@lru_cache(maxsize=4)
def table_from_npz(name: str) -> Table:
    """The shipped array file `name`.npz, read once; InputError if it does not say its source."""
    with np.load(io.BytesIO(_content(f"{name}.npz")), allow_pickle=False) as archive:
        entries = {key: archive[key] for key in archive.files}
    header = json.loads(str(entries.pop("header"))) if "header" in entries else {}
    return Table(header=_checked(header, f"{name}.npz"), columns=entries)


def table_from_csv(name: str) -> Table:
    """The shipped text file `name`.csv; columns of numbers become floats, others stay text."""
    lines = _content(f"{name}.csv").decode("utf-8").splitlines()
    header: dict[str, str] = {}
    for line in lines:
        if not line.startswith("#"):
            break
        key, colon, value = line[1:].partition(":")
        if colon:
            header[key.strip().lower()] = value.strip()
    checked = _checked(header, f"{name}.csv")
    rows = list(csv.reader(line for line in lines if line and not line.startswith("#")))
    columns = {title: _column([row[k] for row in rows[1:]]) for k, title in enumerate(rows[0])}
    return Table(header=checked, columns=columns)


def _content(file: str) -> bytes:
    content = pkgutil.get_data(__name__, file)
    if content is None:
        raise InputError(f"data: table must be a shipped file, got '{file}'")
    return content


def _checked(header: Mapping[str, str], file: str) -> Mapping[str, str]:
    for key in HEADER_KEYS:
        if not header.get(key):
            raise InputError(
                f"data: {file} must say its {key} (a table without {', '.join(HEADER_KEYS)} "
                f"is refused), got {sorted(header)}"
            )
    return header


def _column(texts: list[str]) -> NDArray[Any]:
    try:
        return np.array([float(text) if text else np.nan for text in texts])
    except ValueError:
        return np.array(texts)
