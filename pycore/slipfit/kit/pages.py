"""The Markdown pages of a frame: read into slots and passages, and what is wrong in them."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping

from slipfit.charts.registry import CHARTS
from slipfit.drawings.registry import DRAWINGS, FLOWN
from slipfit.errors import SlipfitError, nearest
from slipfit.figures.registry import FIGURES
from slipfit.frame.frame import Frame
from slipfit.frame.joint import ID
from slipfit.kit import passages, tokens
from slipfit.library import Library
from slipfit.notes import condition_problem, known_names
from slipfit.parts.source import FileError
from slipfit.units import quantity_from_text

_HEAD = re.compile(r"\A---[ \t]*\n.*?\n(?:---|\.\.\.)[ \t]*\n", re.DOTALL)


def frame_of(page_file: str) -> str | None:
    """The frame that a Markdown file belongs to: `frames/<slug>/…`."""
    steps = page_file.replace("\\", "/").split("/")
    return steps[1] if len(steps) > 2 and steps[0] == "frames" else None


def known_ids(frame: Frame) -> dict[str, Collection[str]]:
    """What each kind of slot may name on the pages of a frame."""
    figures = [kind.id for kind in FIGURES]
    return {
        "value": known_names(frame),
        "note": figures,
        "chart": list(CHARTS),
        "drawing": [*DRAWINGS, *FLOWN],
        "checks": ("fit", "limits"),
    }


def page_problems(texts: Mapping[str, str], library: Library) -> Iterator[str]:
    """Everything wrong in pages by name, `frames/<slug>/fly.md`; those of a frame that is not in
    the library are left out."""
    for file, text in texts.items():
        slug = frame_of(file)
        if slug is not None and slug in library.frames:
            try:
                to_slots(without_head(text), file, library, slug)
            except FileError as error:
                yield from error.problems


def without_head(text: str) -> str:
    """A page with empty lines in place of its head, so that lines keep their numbers."""
    return _HEAD.sub(lambda head: "\n" * head[0].count("\n"), text)


def to_slots(text: str, file: str, library: Library, slug: str) -> str:
    """A frame page's Markdown with slots for its tokens, and its passages as elements; FileError
    lists everything that is wrong, by line."""
    frame = library.frame(slug)
    shelf = {kind: list(parts) for kind, parts in library.shelf.by_kind.items() if parts}
    joints = [joint.id for joint in frame.joints]
    checks = passages.Checks(
        condition=lambda text: condition_problem(text, frame, shelf),
        time=_time_problem,
        tool=lambda text: _tool_problem(text, joints),
    )
    text, problems = passages.to_blocks(text, checks)
    told: list[str] = []
    try:
        text = tokens.to_slots(text, file, known_ids(frame), _nearest)
    except FileError as error:
        told += error.problems
    text, more = passages.to_spans(text, checks)
    told += [f"{file}:{line}: {sentence}" for line, sentence in (*problems, *more)]
    if told:
        raise FileError(sorted(told, key=_line_of))
    return text


def _nearest(name: str, known: Iterable[str]) -> str:
    """The nearest name; of the hundreds only those of the same sort are listed."""
    head = name.partition(".")[0] + "."
    alike = [one for one in known if one.startswith(head)] if "." in name else []
    return nearest(name, alike or [one for one in known if "." not in one])


def _line_of(problem: str) -> int:
    number = problem.partition(":")[2].partition(":")[0]
    return int(number) if number.isdigit() else 0


def _time_problem(text: str) -> str:
    try:
        quantity_from_text("", "time", text, "time")
    except SlipfitError as error:
        return error.message.removeprefix(": ")
    return ""


def _tool_problem(text: str, joints: Collection[str]) -> str:
    """`key motors` is the key of that joint's screws; other words are a tool's own."""
    word, _, joint = text.partition(" ")
    if word != "key" or joint in joints or not ID.fullmatch(joint):
        return ""
    return f"no joint '{joint}'{nearest(joint, joints)}"
