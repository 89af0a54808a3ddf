"""The frame pages, filled natively by the very calls that the browser makes."""

from __future__ import annotations

import json
import pickle
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assets import site_files
from safety import with_safety
from slipfit import api
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import performance
from slipfit.frame.schema import json_schema as frame_schema
from slipfit.kit import pages, passages, tokens
from slipfit.library import default_build
from slipfit.markup import to_html
from slipfit.parts.kinds import KINDS
from slipfit.parts.schema import json_schema as part_schema


@dataclass(frozen=True, kw_only=True)
class Filled:
    """A frame page's content and the link of the build that it shows."""

    html: str
    link: str


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
        found = performance(default_build(known, slug))
        flight_of(found)
        rotor = found.rotors.map
        maps[rotor.key] = rotor.saved()
    return pickle.dumps(maps)


def to_slots(text: str, file: str, frame: str) -> str:
    """A frame page's Markdown with slots for its tokens, and its passages as elements; FileError
    lists everything that is wrong."""
    return pages.to_slots(text, file, api.library(), frame)


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
