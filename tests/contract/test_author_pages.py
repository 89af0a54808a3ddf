"""The author's pages say what the code does: tables of keys, tokens, examples."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from site_builds import library
from slipfit.buildfile import read_build_toml
from slipfit.charts.registry import CHARTS
from slipfit.drawings.registry import DRAWINGS, FLOWN
from slipfit.figures.registry import FIGURES
from slipfit.kit import tokens
from slipfit.link import read_link
from slipfit.notes import JOINT_FIELDS, VALUES, condition_problem, known_names
from slipfit.parts.kinds import KINDS
from slipfit.parts.pack import Pack
from slipfit.parts.reading import read_parts
from slipfit.parts.source import FileError

ROOT = Path(__file__).resolve().parents[2]
AUTHORS = ROOT / "docs/authors"
FRAME_PAGES = sorted((ROOT / "docs/frames").glob("*/*.md"))
TOKEN = re.compile(r"\{[=>]([\w.-]+)\}")


def text_of(page: str) -> str:
    return (AUTHORS / page).read_text(encoding="utf-8")


def test_tables_of_keys_are_in_step_with_the_dataclasses():
    tool = ROOT / "tools/key_tables.py"
    done = subprocess.run(
        [sys.executable, str(tool), "--check"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr + "run python tools/key_tables.py"


def test_notes_page_lists_exactly_the_figures_there_are():
    section = text_of("notes.md").split("## Figures")[1].split("\n## ")[0]
    assert set(re.findall(r"^\| `(\w+)` \|", section, re.MULTILINE)) == {k.id for k in FIGURES}


@pytest.mark.parametrize("page", FRAME_PAGES, ids=lambda p: f"{p.parent.name}/{p.name}")
def test_frame_pages_name_only_what_exists(page):
    known = set(known_names(library().frames[page.parent.name]))
    assert set(TOKEN.findall(page.read_text(encoding="utf-8"))) <= known


def toml_example() -> str:
    block = re.search(r"```toml\n(\[\[pack\]\].*?)```", text_of("parts.md"), re.DOTALL)
    assert block is not None
    return block[1]


def test_example_part_reads():
    (pack,) = read_parts(toml_example(), "packs.toml")
    assert pack.id == "six-1600"
    assert pack.mass_kg == pytest.approx(0.248)
    assert pack.origins["cell_resistance_ohm"].spread == pytest.approx(0.10)


def test_example_error_is_what_a_slip_in_the_example_gives():
    slipped = toml_example().replace('"1600 mAh"', "1600")
    with pytest.raises(FileError) as caught:
        read_parts(slipped, "docs/parts/packs.toml")
    assert str(caught.value) in text_of("parts.md")


def test_example_link_is_understood():
    link = re.search(r"#b1;\S+", text_of("links.md"))
    assert link is not None
    state, messages = read_link(link[0])
    assert messages == ()
    assert state.frame_slug == "quillback-5"
    assert state.parts == {"motor": "m28-1950", "prop": "p525-80-2", "pack": "k6-1600"}
    assert state.day.air_temperature_K == pytest.approx(265.15)


def test_example_build_file_reads():
    block = re.search(r"```toml\n(frame = .*?)```", text_of("command-line.md"), re.DOTALL)
    assert block is not None
    state = read_build_toml(block[1])
    assert state.parts["prop"] == "p525-80-2"
    assert isinstance(state.parts["pack"], Pack)
    assert state.parts["pack"].mass_kg == pytest.approx(0.238)


def test_page_on_adapting_notes_lists_the_fields_of_joints_and_the_values_there_are():
    section = text_of("adapting.md").split("## Names")[1].split("\n## ")[0]
    listed = re.findall(r"^\| `([\w.]+)` \|", section, re.MULTILINE)
    assert set(listed) == {*JOINT_FIELDS, *(value.id for value in VALUES)}


def test_conditions_on_the_page_about_adapting_notes_are_understood():
    frame = library().frames["quillback-5"]
    shelf = {kind.id: [part.id for part in library().shelf.of(kind.id)] for kind in KINDS}
    table = text_of("adapting.md").split("## Conditions")[1].split("\n## ")[0]
    examples = re.findall(r"^\| `([^`]+)` \|", table, re.MULTILINE)
    assert len(examples) == 11
    for example in examples:
        assert condition_problem(example, frame, shelf) == ""


def test_every_figure_chart_and_drawing_has_a_place_on_some_page():
    text = "\n".join(page.read_text(encoding="utf-8") for page in FRAME_PAGES)
    assert {kind.id for kind in FIGURES} <= set(TOKEN.findall(text))
    placed = set(re.findall(r"^\{((?:chart|drawing) \w+)\}$", text, re.MULTILINE))
    assert {f"chart {id}" for id in CHARTS} | {
        f"drawing {id}" for id in (*DRAWINGS, *FLOWN)
    } == placed


def test_tokens_that_stand_alone_are_all_on_the_page_about_notes():
    listed = set(re.findall(r"^\| `\{(\w+)\}` \|", text_of("notes.md"), re.MULTILINE))
    assert listed == set(tokens.ALONE)


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_the_notes_of_the_demo_frames_adapt_in_at_least_twelve_places_each(slug):
    texts = [p.read_text(encoding="utf-8") for p in (ROOT / "docs/frames" / slug).glob("*.md")]
    passages = sum(len(re.findall(r"\{(?:when|only) ", text)) for text in texts)
    assert passages >= 12
