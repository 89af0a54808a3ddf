"""What an author sees while writing: mistakes in words, on the page that has them."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import dev
import pytest

import mistakes

ROOT = Path(__file__).resolve().parents[2]
TWO = "docs/frames/x/fly.md:3: no figure '<b>'; did you mean 'x'?\ndocs/frames/x/fly.md:9: more\n"


def test_mistakes_stand_as_text_in_place_of_the_page() -> None:
    page = mistakes.in_place_of_a_page(TWO)
    assert page.startswith("# 2 things to mend on this page")
    assert "<li>docs/frames/x/fly.md:3: no figure &#x27;&lt;b&gt;&#x27;; did you mean" in page
    assert mistakes.in_place_of_a_page("a:1: one").startswith("# One thing to mend")
    bare = mistakes.in_place_of_the_site(TWO)
    assert "&lt;b&gt;" in bare and 'http-equiv="refresh"' in bare


def test_mistakes_are_listed_for_the_one_who_serves(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    listed = tmp_path / "list.txt"
    mistakes.note("to nobody")
    monkeypatch.setenv(mistakes.LIST, str(listed))
    mistakes.note("a:1: one")
    mistakes.note("b:2: two\n")
    assert listed.read_text("utf-8") == "a:1: one\nb:2: two\n"


def test_a_stamp_with_mistakes_keeps_the_stamp(tmp_path: Path) -> None:
    dev.stamp_reload(tmp_path)
    stamp = (tmp_path / "reload.txt").read_text("utf-8")
    dev.stamp_mistakes(tmp_path, "a:1: one\n")
    assert (tmp_path / "reload.txt").read_text("utf-8").splitlines() == [stamp, "a:1: one"]


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the project whose docs are one frame, to make mistakes in."""
    folder = tmp_path_factory.mktemp("project")
    ignored = shutil.ignore_patterns("__pycache__", "node_modules", "*.egg-info")
    for name in ("site_src", "pycore", "tests", "docs"):
        shutil.copytree(ROOT / name, folder / name, ignore=ignored)
    shutil.copy(ROOT / "mkdocs.yml", folder)
    shutil.copy(ROOT / "pyproject.toml", folder)
    return folder


def build(project: Path, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--quiet", "--site-dir", "site"],
        cwd=project, capture_output=True, text=True, check=False,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": "pycore", **more},
    )  # fmt: skip


def test_a_page_with_mistakes_shows_them_while_writing_and_stops_a_build_for_publishing(
    project: Path,
) -> None:
    page = project / "docs/frames/longspur-7/fly.md"
    usual = page.read_text("utf-8")
    page.write_text(usual + "\n{when pack.cell_cout > 6: x}\n", "utf-8")
    line = usual.count("\n") + 2
    said = f"docs/frames/longspur-7/fly.md:{line}: no name 'pack.cell_cout'; did you mean"
    published = build(project)
    assert published.returncode != 0
    assert said in published.stderr
    listed = project / "list.txt"
    written = build(project, SLIPFIT_RELOAD="1", SLIPFIT_MISTAKES=str(listed))
    assert written.returncode == 0, written.stderr
    assert listed.read_text("utf-8").startswith(said)
    html = (project / "site/frames/longspur-7/fly/index.html").read_text("utf-8")
    assert "One thing to mend on this page" in html
    assert "no name &#x27;pack.cell_cout&#x27;; did you mean" in html
    assert "reload.js" in html
    page.write_text(usual, "utf-8")
    frame = project / "docs/frames/longspur-7/frame.toml"
    text = frame.read_text("utf-8")
    frame.write_text(text.replace("max_height =", "max_hight =", 1), "utf-8")
    listed.unlink()
    broken = build(project, SLIPFIT_RELOAD="1", SLIPFIT_MISTAKES=str(listed))
    assert broken.returncode != 0
    assert "no key 'max_hight'; did you mean 'max_height'?" in listed.read_text("utf-8")
