"""The frame pages, filled natively by the very calls that the browser makes."""

from __future__ import annotations

import json
import pickle
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import passages
import tokens
from assets import site_files
from safety import with_safety
from slipfit import api
from slipfit.charts.registry import CHARTS
from slipfit.drawings.registry import DRAWINGS, FLOWN
from slipfit.errors import SlipfitError, nearest
from slipfit.figures.registry import FIGURES
from slipfit.frame.frame import Frame
from slipfit.frame.schema import json_schema as frame_schema
from slipfit.library import default_build
from slipfit.markup import to_html
from slipfit.notes import condition_problem, known_names
from slipfit.parts.kinds import KINDS
from slipfit.parts.schema import json_schema as part_schema
from slipfit.physics.rotor_map import map_key
from slipfit.report import report
from slipfit.units import quantity_from_text


@dataclass(frozen=True, kw_only=True)
class Filled:
    """A frame page's content and the link of the build that it shows."""

    html: str
    link: str


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


def read_site(docs: Path) -> Mapping[str, str]:
    """Read and check the site's frames and parts; raises InputError with file and line."""
    files = site_files(docs)
    api.use_site(files)
    return files


def solved_rotors() -> bytes:
    """The rotor maps of the frames' own builds as far as a page of theirs needs them, so that no
    reader waits for them."""
    known = api.library()
    maps = {}
    for slug in known.frames:
        found = report(default_build(known, slug))
        assert found.verdicts  # which fly the legs
        rotor = found.performance.rotors.map
        maps[map_key(rotor.blade, rotor.air)] = rotor.saved()
    return pickle.dumps(maps)


def frame_of(page_file: str) -> str | None:
    """The frame that a Markdown file belongs to: `frames/<slug>/…`."""
    steps = page_file.replace("\\", "/").split("/")
    return steps[1] if len(steps) > 2 and steps[0] == "frames" else None


def to_slots(text: str, file: str, frame: str) -> str:
    """A frame page's Markdown with slots for its tokens, and its passages as elements."""
    site = api.library()
    known = site.frame(frame)
    shelf = {kind.id: [part.id for part in site.shelf.of(kind.id)] for kind in KINDS}
    checks = passages.Checks(
        condition=lambda text: condition_problem(text, known, shelf), time=_time_problem
    )
    text, problems = passages.to_blocks(text, checks)
    told: list[str] = []
    try:
        text = tokens.to_slots(text, file, known_ids(known), _nearest)
    except tokens.TokenError as error:
        told = str(error).splitlines()
    text, more = passages.to_spans(text, checks)
    told += [f"{file}:{line}: {sentence}" for line, sentence in (*problems, *more)]
    if told:
        raise tokens.TokenError("\n".join(sorted(told, key=_line_of)))
    return text


def _nearest(name: str, known: Collection[str]) -> str:
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


def fill(html: str, frame: str) -> Filled:
    """A frame page with the default build's figures, ranges, charts and drawings in its slots."""
    html = with_safety(html)
    wanted = tokens.slots_of(html)
    payload: dict[str, Any] = {
        "frame": frame,
        "slots": wanted,
        "system": "metric",
        "ranges": True,
        "late": True,
        "previous": {},
        "conditions": passages.conditions_of(html),
    }
    answer = api.call("page", payload)
    if not answer["ok"]:
        raise ValueError(f"frame '{frame}': {answer['error']['message']}")
    result = answer["result"]
    content = {name: to_html(tree) for name, tree in result["slots"].items()}
    html = passages.hide(tokens.fill(html, content), result["shown"])
    return Filled(html=html, link=result["link"])


def write_schemas(folder: Path) -> None:
    """JSON Schemas of the files that authors write, for their editors."""
    folder.mkdir(parents=True, exist_ok=True)
    schemas = {"frame": frame_schema(), **{kind.id: part_schema(kind.id) for kind in KINDS}}
    for name, schema in schemas.items():
        text = json.dumps(schema, indent=1, ensure_ascii=False)
        (folder / f"{name}.schema.json").write_text(text, "utf-8")
