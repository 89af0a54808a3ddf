"""Builds of the site's own frames and shelf, for tests that need a whole one."""

from __future__ import annotations

import dataclasses
from functools import lru_cache
from pathlib import Path
from typing import Any

from assets import site_files
from slipfit.build import Build
from slipfit.frame.frame import Frame
from slipfit.library import Library, default_build, library_from_texts

DOCS = Path(__file__).resolve().parents[1] / "docs"
SLUG = "quillback-5"


@lru_cache(maxsize=1)
def library() -> Library:
    """The site's frames and shelf."""
    return library_from_texts(site_files(DOCS))


def shipped(slug: str = SLUG) -> Build:
    """The build that a frame ships with, Quillback 5 unless named."""
    return default_build(library(), slug)


def swapped(**ids: str) -> Build:
    """The shipped build with other parts of the shelf, `kind=id`."""
    build = shipped()
    parts = {kind: library().shelf.part(kind, id) for kind, id in ids.items()}
    return dataclasses.replace(build, parts={**build.parts, **parts})


def altered(kind: str, *, of: Build | None = None, **values: Any) -> Build:
    """A build, the shipped one unless given, with some fields of one of its parts changed."""
    build = of or shipped()
    part = dataclasses.replace(build.parts[kind], **values)
    return dataclasses.replace(build, parts={**build.parts, kind: part})


def without(kind: str) -> Build:
    """The shipped build with one part left out."""
    build = shipped()
    return dataclasses.replace(build, parts={k: p for k, p in build.parts.items() if k != kind})


def on_day(**values: float) -> Build:
    """The shipped build on another day."""
    build = shipped()
    return dataclasses.replace(build, day=dataclasses.replace(build.day, **values))


def framed(**values: Any) -> Build:
    """The shipped build on a frame that differs in some fields."""
    build = shipped()
    frame: Frame = dataclasses.replace(build.frame, **values)
    return dataclasses.replace(build, frame=frame)
