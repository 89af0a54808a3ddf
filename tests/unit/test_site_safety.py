"""The block on what can hurt stands on every page of a frame, whatever its author wrote."""

from __future__ import annotations

import dataclasses

import pytest

import frames
from safety import BLOCK, with_safety
from site_builds import DOCS, shipped
from slipfit import page
from slipfit.markup import plain_text
from slipfit.report import report

FRAME_PAGES = sorted(DOCS.glob("frames/*/*.md"))


def test_a_page_without_it_ends_with_it():
    assert with_safety("<p>words</p>") == f"<p>words</p>\n{BLOCK}"


def test_a_page_that_places_it_keeps_its_place():
    placed = f"<h2>First</h2>\n{BLOCK}\n<p>and the author's own</p>"
    assert with_safety(placed) == placed
    inside = f'<div class="sf-beside"><br>{BLOCK}<p>more</p></div>'
    assert with_safety(inside) == inside


@pytest.mark.parametrize(
    "hidden",
    [
        f'<div class="sf-when" data-when="pack.cell_count &gt; 99" markdown="1">{BLOCK}</div>',
        f"<div hidden>{BLOCK}</div>",
        f'<div style="display:none">{BLOCK}</div>',
        f"<details><summary>x</summary>{BLOCK}</details>",
        f"<!-- {BLOCK} -->",
        '<div data-slot="safety" hidden></div>',
        f"<template>{BLOCK}</template>",
        f"<p>closed twice</p></div><div hidden><p>{BLOCK}",
    ],
)
def test_where_it_could_be_hidden_it_comes_once_more(hidden):
    assert with_safety(hidden) == f"{hidden}\n{BLOCK}"


def test_token_places_it():
    frames.read_site(DOCS)
    text = frames.to_slots("Words.\n\n{safety}\n", "docs/frames/quillback-5/x.md", "quillback-5")
    assert BLOCK in text


@pytest.fixture(scope="module")
def block() -> str:
    return plain_text(page.slots(report(shipped()), ["safety"], "metric")["safety"])


@pytest.mark.parametrize(
    "words", ["Packs burn", "Propellers cut", "propellers off", "Cold packs", "Spectators"]
)
def test_it_names_each_hazard(block, words):
    assert words in block


def test_it_carries_the_build_s_numbers(block):
    found = report(shipped()).figures
    for id in ("kinetic_energy", "reaction_distance", "throw_distance"):
        assert found[id].text("metric") in block
    assert "−8\N{NARROW NO-BREAK SPACE}°C" in block


def test_it_stands_without_numbers_too():
    heavy = dataclasses.replace(shipped().parts["pack"], mass_kg=9.0)
    build = dataclasses.replace(shipped(), parts={**shipped().parts, "pack": heavy})
    text = plain_text(page.slots(report(build), ["safety"], "imperial")["safety"])
    assert "Packs burn" in text and "no value" not in text and "It ." not in text
