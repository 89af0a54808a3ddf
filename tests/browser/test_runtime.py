"""The worker, with a core of a few lines in place of the real one, so that it can misbehave."""

from __future__ import annotations

import io
import json
import pickle
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

import assets
import runtime as browser_runtime
from serving import StaticServer

ROOT = Path(__file__).resolve().parents[2]
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; "
    "connect-src 'self'; img-src data:"
)
CORE = """
import dataclasses
import json

import numpy as np

TEXTS = {}


@dataclasses.dataclass(frozen=True, kw_only=True)
class Answer:
    # Its methods are compiled when the site is built.

    norm: float
    payload: dict


def use_site(texts):
    TEXTS.update(texts)


def library():
    return TEXTS


def use_library(known, rotors):
    TEXTS.update(known, rotors=rotors)


def call_json(name, text):
    payload = json.loads(text)
    if name == "forever":
        while True:
            pass
    if name == "crash":
        raise RuntimeError("something broke")
    if name == "refuse":
        error = {"kind": "InputError", "message": "no", "field": "x"}
        return json.dumps({"ok": False, "error": error})
    if name == "import":
        names = [__import__(module).__name__ for module in payload["modules"]]
        return json.dumps({"ok": True, "result": names})
    answer = Answer(norm=float(np.linalg.norm(np.arange(4.0))), payload=payload)
    assert answer == Answer(norm=answer.norm, payload=payload)
    return json.dumps({"ok": True, "result": {"texts": TEXTS, **dataclasses.asdict(answer)}})
"""
# Whatever the core may come to use of the standard library must survive the trimming.
MODULES = (
    "bisect cmath collections contextlib csv dataclasses decimal difflib enum fractions functools "
    "hashlib heapq html importlib.resources inspect io itertools json math operator pathlib "
    "pkgutil random re statistics string struct textwrap time tomllib traceback types typing "
    "urllib.parse zipfile zlib base64 datetime numpy.linalg numpy.ma numpy.polynomial numpy.typing"
).split()


@pytest.fixture(scope="module")
def small_site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[StaticServer]:
    folder = tmp_path_factory.mktemp("small")
    package = folder / "source" / "slipfit"
    package.mkdir(parents=True)
    (package / "__init__.py").touch()
    (package / "api.py").write_text(CORE)
    site = {"parts/motors.toml": '[[motor]]\nname = "28 × 8 mm, \\"odd\\" name"\n'}
    runtime = browser_runtime.runtime()
    solved = pickle.dumps("solved before")
    core = assets.core_zip(package, site, solved, runtime, print, browser_runtime.cache_folder())
    live = assets.prepare(project=ROOT, core=core, runtime=runtime)
    live.write(folder / "site")
    for name in ("index.html", "other.html"):
        (folder / "site" / name).write_text(
            f'<!doctype html><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" '
            f'content="{POLICY}"><title>small</title><link rel="icon" href="data:,">'
            f'<script type="module" src="{live.beside("worker_client.js")}"></script>'
        )
    server = StaticServer(folder / "site", "/a/b/").start()
    yield server
    server.close()


def start(page: Page, site: StaticServer, name: str = "", **options: Any) -> None:
    """Open a page and create its calculator, as `window.calculator`, with what it says noted."""
    page.goto(site.url + name)
    page.evaluate(
        """async options => {
          const {createCalculator} = await import(document.querySelector('script').src);
          window.said = [];
          window.calculator = createCalculator({
            ...options,
            onProgress: (text, fraction) => said.push([text, fraction]),
            onReady: () => { window.readyAt = performance.now(); },
            onFailure: message => { window.failure = message; },
          });
        }""",
        options,
    )


def ask(page: Page, name: str, payload: Any = None) -> Any:
    """The result of a call, or its error under `error`."""
    return page.evaluate(
        "([name, payload]) => calculator.call(name, payload).catch(error => ({error}))",
        [name, payload or {}],
    )


@pytest.mark.parametrize("shared", [True, False])
def test_worker_answers_under_a_strict_policy(
    page: Page, small_site: StaticServer, shared: bool
) -> None:
    start(page, small_site, shared=shared)
    answer = ask(page, "anything", {"text": "½ × ü", "list": [1, None, True]})
    assert answer["norm"] == pytest.approx(14**0.5, rel=1e-15)
    assert answer["payload"] == {"text": "½ × ü", "list": [1, None, True]}
    assert answer["texts"]["parts/motors.toml"].startswith('[[motor]]\nname = "28 × 8 mm')
    assert page.evaluate("calculator.shared") is shared


def test_progress_is_told_in_words_and_never_goes_back(
    page: Page, small_site: StaticServer
) -> None:
    start(page, small_site, shared=False)
    ask(page, "anything")
    said = page.evaluate("said")
    assert said[0][0].startswith("loading the calculator, 0 of ")
    assert said[0][0].endswith(" MB")
    assert said[-1][0] == "starting the calculator"
    fractions = [fraction for _, fraction in said]
    assert fractions == sorted(fractions)
    assert len(said) > 4


def test_refusals_and_crashes_reach_the_caller_and_the_worker_lives_on(
    page: Page, small_site: StaticServer
) -> None:
    start(page, small_site)
    assert ask(page, "refuse") == {"error": {"kind": "InputError", "message": "no", "field": "x"}}
    assert ask(page, "crash") == {
        "error": {"kind": "Crash", "message": "RuntimeError: something broke"}
    }
    assert "norm" in ask(page, "anything")


@pytest.mark.parametrize("shared", [True, False])
def test_an_endless_computation_is_stopped_and_the_next_one_answered(
    page: Page, small_site: StaticServer, shared: bool
) -> None:
    start(page, small_site, shared=shared, patienceMs=2000)
    ask(page, "anything")
    assert ask(page, "forever") == {
        "error": {"kind": "TookTooLong", "message": "this took longer than 2 s and was stopped"}
    }
    assert "norm" in ask(page, "anything")
    assert page.evaluate("calculator.shared") is False


def test_the_next_page_finds_the_worker_running(
    page: Page, small_site: StaticServer, wait_until: Callable[..., Any]
) -> None:
    start(page, small_site)
    ask(page, "anything")
    fetched = len(small_site.requested)
    start(page, small_site, "other.html")
    assert "norm" in ask(page, "anything")
    assert page.evaluate("said") == []  # nothing was loaded again
    assert not [name for name in small_site.requested[fetched:] if "runtime-" in name]


def test_every_module_a_core_may_use_is_there(page: Page, small_site: StaticServer) -> None:
    start(page, small_site)
    assert ask(page, "import", {"modules": MODULES}) == [name.split(".")[0] for name in MODULES]


def test_a_missing_file_is_told_in_words(
    page: Page, small_site: StaticServer, wait_until: Callable[..., Any]
) -> None:
    core = next(small_site.folder.glob("live/core-*.zip"))
    whole = core.read_bytes()
    try:
        core.write_bytes(whole[: len(whole) // 2])
        start(page, small_site, shared=False)
        assert "arrived incomplete" in wait_until(page, "window.failure")
        assert ask(page, "anything")["error"]["kind"] == "NotLoaded"
    finally:
        core.write_bytes(whole)


def test_core_travels_as_compiled_modules_of_the_browsers_python(small_site: StaticServer) -> None:
    core = next(small_site.folder.glob("live/core-*.zip")).read_bytes()
    with zipfile.ZipFile(io.BytesIO(core)) as archive:
        names = archive.namelist()
        assert names == [
            "slipfit_rotors.bin",
            "slipfit_site.pyc",
            "slipfit.pack",
            "made_ahead.bin",
            "slipfit_library.bin",
        ]
        assert {entry.compress_type for entry in archive.infolist()} == {zipfile.ZIP_STORED}
        assert b"def __init__" in archive.read("made_ahead.bin")  # of the dataclass above
    about = json.loads((browser_runtime.runtime() / "runtime.json").read_text())
    assert about["info"]["python"].startswith("3.14")
