"""Links of every version ever released still open and still say the same."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from slipfit.link import LinkState, read_link
from slipfit.parts.part import Part

CORPUS = Path(__file__).parents[1] / "data/link_corpus.txt"


def entries() -> list[tuple[str, dict[str, Any], list[str]]]:
    """(link, what it says, messages) of each entry."""
    found: list[tuple[str, dict[str, Any], list[str]]] = []
    for line in CORPUS.read_text(encoding="utf-8").splitlines():
        if line.startswith("#b"):
            found.append((line, {}, []))
        elif line.startswith("{"):
            found[-1][1].update(json.loads(line))
        elif line.startswith("! "):
            found[-1][2].append(line[2:])
    return found


def said(state: LinkState, like: dict[str, Any]) -> dict[str, Any]:
    """A state in the corpus's form, with those fields of own parts that the corpus names."""
    parts: dict[str, Any] = {}
    for kind, part in state.parts.items():
        if isinstance(part, Part):
            fields = like["parts"].get(kind, {"id": None})
            parts[kind] = {name: getattr(part, name) for name in fields}
        else:
            parts[kind] = part
    found = {"frame": state.frame_slug, "parts": parts, "day": state.day.given()}
    shot = state.shot.given()
    return {
        **found,
        **({"shot": shot} if shot else {}),
        **({"options": dict(state.options)} if state.options else {}),
    }


def approximately(value: Any) -> Any:
    """Numbers at any depth compare to 1e-9 of themselves."""
    if isinstance(value, dict):
        return {name: approximately(item) for name, item in value.items()}
    if isinstance(value, list):
        return tuple(approximately(item) for item in value)
    return pytest.approx(value, rel=1e-9) if isinstance(value, float) else value


@pytest.mark.parametrize(("link", "expected", "messages"), entries())
def test_link_still_opens(link, expected, messages):
    state, heard = read_link(link)
    assert said(state, expected) == approximately(expected)
    assert list(heard) == messages


def test_corpus_holds_links_of_the_present_version():
    assert len(entries()) >= 9
    assert all(expected for _, expected, _ in entries())
