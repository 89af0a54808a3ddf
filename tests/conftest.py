"""A real Chromium, the built site under a sub-path, and a watch over what pages ask for and say."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

import runtime as browser_runtime
from chromium import FLAGS, find_or_install
from serving import StaticServer

ROOT = Path(__file__).resolve().parents[1]
SUB_PATH = "/somewhere/docs/"


@pytest.fixture(scope="session")
def site_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site, built once; `SLIPFIT_SITE` names one that has just been built."""
    if (named := os.environ.get("SLIPFIT_SITE")) and Path(named, "index.html").is_file():
        return Path(named)
    folder = tmp_path_factory.mktemp("site")
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--site-dir", str(folder)]
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return folder


@pytest.fixture(scope="session")
def site(site_folder: Path) -> Iterator[StaticServer]:
    """The site on a server of this machine, under a path of its own."""
    server = StaticServer(site_folder, SUB_PATH).start()
    yield server
    server.close()


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One Chromium for all tests."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=find_or_install(print), args=FLAGS, headless=True
        )
        yield browser
        browser.close()


@dataclass
class Watch:
    """What the pages of a test have asked for and complained of."""

    origins: set[str] = field(default_factory=set)
    complaints: list[str] = field(default_factory=list)

    def over(self, context: BrowserContext) -> None:
        context.on("request", lambda request: self.origins.add(_origin(request.url)))
        context.on("page", self._over_page)

    def _over_page(self, page: Page) -> None:
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on(
            "console",
            lambda message: (
                self.complaints.append(message.text) if message.type == "error" else None
            ),
        )


def _origin(url: str) -> str:
    if url.startswith(("data:", "blob:", "about:")):
        return ""
    return "/".join(url.split("/", 3)[:3])


@pytest.fixture
def watch() -> Watch:
    return Watch()


@pytest.fixture
def new_context(chromium: Browser, watch: Watch) -> Iterator[Callable[..., BrowserContext]]:
    """Makes fresh browser contexts: each like a device that has never been here. Whatever a test
    does, no page may ask another host for anything, nor complain in the console."""
    opened: list[BrowserContext] = []

    def make(**options: Any) -> BrowserContext:
        # keeping the whole site is tested by itself; elsewhere it would only take time
        context = chromium.new_context(**{"service_workers": "block", **options})
        watch.over(context)
        opened.append(context)
        return context

    yield make
    for context in opened:
        context.close()
    foreign = {origin for origin in watch.origins if origin and "//127.0.0.1:" not in origin}
    assert not foreign, f"pages asked other hosts: {foreign}"
    assert not watch.complaints, "\n".join(watch.complaints)


@pytest.fixture
def page(new_context: Callable[..., BrowserContext]) -> Page:
    """A page in a fresh context."""
    return new_context().new_page()


def wait_until(page: Page, expression: str, seconds: float = 60.0) -> Any:
    """The first truthy value of a JavaScript expression; the strict policy of the pages does not
    allow the browser driver's own way of waiting."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        value = page.evaluate(expression)
        if value:
            return value
        time.sleep(0.03)
    raise AssertionError(f"not within {seconds:g} s: {expression}")


@pytest.fixture(name="wait_until")
def wait_until_fixture() -> Callable[..., Any]:
    return wait_until


@pytest.fixture(scope="session")
def axe_source() -> str:
    """The accessibility checker, to be added to a page with `page.add_script_tag` or `evaluate`."""
    cache = browser_runtime.cache_folder()
    node = browser_runtime.find_node(print)
    modules = browser_runtime.node_modules(node, cache, print)
    return (modules / "axe-core" / "axe.min.js").read_text("utf-8")
