"""`slipfit new-frame` writes a frame that works at once: it reads, flies, and its pages build."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import markdown
import pytest

import frames
from slipfit.cli import library_from_folder, main
from slipfit.errors import InputError
from slipfit.kit import passages
from slipfit.kit.newframe import FILES, add_to_nav, nav_lines, new_frame, slug_of
from slipfit.library import default_build
from slipfit.parts.shelf import Shelf
from slipfit.report import report

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """The shelf of this project, no frames, and a navigation with one."""
    shutil.copytree(ROOT / "docs" / "parts", tmp_path / "docs" / "parts")
    (tmp_path / "mkdocs.yml").write_text(
        "nav:\n  - Old:\n      - frames/old/index.md\n  - About: about.md\n", "utf-8"
    )
    return tmp_path


def test_a_new_frame_reads_flies_and_keeps_every_limit(project, capsys):
    assert main(["new-frame", "Heron 5", "--docs", str(project / "docs")]) == 0
    told = capsys.readouterr().out
    assert "wrote" in told and "heron-5" in told
    assert "Every part is clear and every limit is kept. This Heron 5 weighs" in told
    assert main(["check", "--docs", str(project / "docs")]) == 0
    made = report(default_build(library_from_folder(project / "docs"), "heron-5"))
    assert [v.id for v in made.verdicts if v.severity] == []
    assert {v.id for v in made.verdicts} >= {"screws", "screw_torque", "pack_bay", "prop_tips"}


def test_its_pages_are_read_and_filled_as_the_site_builder_does(project):
    docs = project / "docs"
    shelf = library_from_folder(docs).shelf
    new_frame(docs, "Heron 5", shelf)
    try:
        frames.read_site(docs)
        for file in FILES[1:]:
            text = (docs / "frames/heron-5" / file).read_text("utf-8")
            made = frames.to_slots(text, f"docs/frames/heron-5/{file}", "heron-5")
            html = passages.finish(markdown.markdown(made, extensions=["md_in_html"]))
            filled = frames.fill(html, "heron-5").html
            assert "is not known here" not in filled
            assert "{=" not in filled and "{when" not in filled and "@" not in filled
    finally:
        frames.read_site(ROOT / "docs")


def test_the_navigation_gets_its_pages_behind_the_last_frame_s(project):
    nav = project / "mkdocs.yml"
    assert add_to_nav(nav, "Heron 5")
    lines = nav.read_text("utf-8").splitlines()
    assert lines[3:8] == nav_lines("Heron 5")
    assert lines[8] == "  - About: about.md"
    assert not add_to_nav(project / "none.yml", "Heron 5")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("…", "NAME must hold letters or digits that make a folder's name, got '…'"),
        ('He"ron', "NAME must be plain words, got 'He\"ron'"),
        ("{x}", "NAME must be plain words"),
        ("a" * 500, "NAME must be at most 400 printable characters"),
    ],
)
def test_a_name_that_cannot_be_one_is_refused(project, name, said):
    with pytest.raises(InputError) as caught:
        new_frame(project / "docs", name, library_from_folder(project / "docs").shelf)
    assert said in caught.value.message


def test_a_frame_that_is_there_is_left_alone(project, capsys):
    docs = project / "docs"
    shelf = library_from_folder(docs).shelf
    first = new_frame(docs, "Heron 5", shelf)[0]
    first.write_text("mine", "utf-8")
    assert slug_of("HERON  5!") == "heron-5"
    with pytest.raises(InputError, match="the folder must not be there yet"):
        new_frame(docs, "heron 5", shelf)
    assert first.read_text("utf-8") == "mine"
    with pytest.raises(InputError, match=r"the shelf must hold at least one motor \(motors.toml\)"):
        new_frame(docs, "Other", Shelf(by_kind={**shelf.by_kind, "motor": {}}))
    assert not (docs / "frames" / "other").exists()


def test_the_site_builds_with_a_new_frame_strictly(tmp_path):
    for folder in ("docs", "site_src", "pycore", "tests"):
        ignored = shutil.ignore_patterns("__pycache__", "node_modules", "*.egg-info")
        shutil.copytree(ROOT / folder, tmp_path / folder, ignore=ignored)
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    assert main(["new-frame", "Heron 5", "--docs", str(tmp_path / "docs")]) == 0
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--quiet", "--strict", "--site-dir", "site"],
        cwd=tmp_path, capture_output=True, text=True, check=False,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(tmp_path / "pycore")},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    page = (tmp_path / "site/frames/heron-5/build/index.html").read_text("utf-8")
    assert 'data-frame="heron-5"' in page
    assert "M3 × 10 mm" in page
