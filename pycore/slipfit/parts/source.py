"""TOML text with the line of every key, and the list of everything that is wrong with a file."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

from slipfit.errors import InputError

LARGEST_FILE: Final = 1_000_000  # characters; a shelf of a thousand parts has a third of that
MOST_PROBLEMS: Final = 60

Path = tuple[str | int, ...]

_HEADER = re.compile(r"\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(
    r"\s*((?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')(?:\s*\.\s*(?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*'))*)\s*="
)
_PIECE = re.compile(r"[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*'")
_QUIET = re.compile(r"\"\"\"|'''|\"(?:[^\"\\]|\\.)*\"|'[^']*'|#.*|[\[\]{}]")


class FileError(InputError):
    """Everything that is wrong with one or more files, one sentence a line."""

    def __init__(self, problems: Iterable[str]) -> None:
        listed = tuple(problems)
        shown = listed[:MOST_PROBLEMS]
        more = len(listed) - len(shown)
        super().__init__("\n".join((*shown, *((f"… and {more} more",) if more else ()))))
        self.problems = listed


@dataclass(frozen=True, kw_only=True)
class Source:
    """A parsed file: its data, and the line on which each key stands."""

    file: str
    data: Mapping[str, Any]
    text: str

    @cached_property
    def lines(self) -> Mapping[Path, int]:
        """Line of every table and key, found when the first mistake asks for it."""
        return _lines(self.text)

    def place(self, path: Path) -> str:
        """`motors.toml:12` for a key, or for the nearest thing around it."""
        for end in range(len(path), 0, -1):
            if path[:end] in self.lines:
                return f"{self.file}:{self.lines[path[:end]]}"
        return self.file


def source_from_text(text: str, file: str) -> Source:
    """Parse TOML; FileError where it is not TOML, with the line."""
    if len(text) > LARGEST_FILE:
        raise FileError([f"{file}: must be at most {LARGEST_FILE} characters, got {len(text)}"])
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise FileError([_located(str(error), file)]) from None
    except (ValueError, RecursionError) as error:
        raise FileError([f"{file}: must be TOML, got {str(error)[:120]}"]) from None
    return Source(file=file, data=data, text=text)


def _located(message: str, file: str) -> str:
    match = re.fullmatch(r"(.*) \(at line (\d+), column (\d+)\)", message)
    if match is None:
        return f"{file}: must be TOML, got: {message}"
    what = match[1][0].lower() + match[1][1:]
    return f"{file}:{match[2]}: must be TOML, got: {what} at column {match[3]}"


def _pieces(dotted: str) -> tuple[str, ...]:
    return tuple(piece.strip("\"'") for piece in _PIECE.findall(dotted))


def _lines(text: str) -> Mapping[Path, int]:
    """Line of every table header and key that begins a line, by its path with indices."""
    found: dict[Path, int] = {}
    counts: dict[Path, int] = {}  # arrays of tables: how many entries so far
    table: Path = ()
    depth, closing = 0, ""  # open brackets and the quotes that end a long string
    for number, line in enumerate(text.splitlines(), 1):
        rest = line
        if closing:
            if closing not in rest:
                continue
            rest, closing = rest.split(closing, 1)[1], ""
        elif depth == 0:
            header = _HEADER.match(rest)
            if header:
                table = _table_path(_pieces(header[2]), header[1] == "[[", counts)
                found.setdefault(table, number)
                if table and isinstance(table[-1], int):
                    found.setdefault(table[:-1], number)
                continue
            named = _KEY.match(rest)
            if named:
                path = (*table, *_pieces(named[1]))
                for end in range(len(table) + 1, len(path) + 1):
                    found.setdefault(path[:end], number)
                rest = rest[named.end() :]
        for token in _QUIET.finditer(rest):
            mark = token[0]
            if closing:
                closing = "" if mark == closing else closing
            elif mark in ('"""', "'''"):
                closing = mark
            elif mark in "[{":
                depth += 1
            elif mark in "]}":
                depth = max(0, depth - 1)
    return found


def _table_path(pieces: tuple[str, ...], is_array: bool, counts: dict[Path, int]) -> Path:
    path: Path = ()
    for place, piece in enumerate(pieces):
        path = (*path, piece)
        if is_array and place == len(pieces) - 1:
            counts[path] = counts.get(path, 0) + 1
        if path in counts:
            path = (*path, counts[path] - 1)
    return path
