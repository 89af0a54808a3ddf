"""The site on a device without a network, after one visit."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page

from serving import StaticServer

LIVE = "document.documentElement.dataset.live === 'yes'"
KEPT = "!document.getElementById('sf-field').hidden"
FRAME = "frames/quillback-5/"
NAMES = "caches.keys().then(names => names.filter(name => name.startsWith('slipfit ')))"
UPDATE = "navigator.serviceWorker.getRegistration().then(found => found.update()).then(() => 1)"


def kept_site(page: Page, folder: Path, wait_until: Callable[..., object]) -> StaticServer:
    """A server of its own, so that it can be taken away, whose site a page has kept."""
    server = StaticServer(folder, "/somewhere/docs/").start()
    page.goto(server.url + FRAME)
    wait_until(page, LIVE)
    assert not page.evaluate(KEPT)
    wait_until(page, KEPT, seconds=60)
    return server


def test_pages_open_and_compute_without_a_network(
    chromium: Browser, site: StaticServer, wait_until: Callable[..., object]
) -> None:
    context = chromium.new_context()
    page = context.new_page()
    server = kept_site(page, site.folder, wait_until)
    figure = page.locator('[data-slot="value:top_speed"]').first.text_content()
    server.close()
    other = context.new_page()  # a page that was never visited
    other.goto(server.url + FRAME + "fly/")
    wait_until(other, LIVE)
    other.goto(server.url + FRAME)
    wait_until(other, LIVE)
    assert other.locator('[data-slot="value:top_speed"]').first.text_content() == figure
    other.goto(server.url + "nowhere/")
    assert "no such page" in (other.text_content("article") or "")
    context.close()


def test_a_new_version_replaces_the_old_one_whole(
    chromium: Browser, site: StaticServer, wait_until: Callable[..., object], tmp_path: Path
) -> None:
    folder = tmp_path / "site"
    shutil.copytree(site.folder, folder)
    worker = folder / "field-worker.js"
    text = worker.read_text("utf-8")
    context = chromium.new_context()
    page = context.new_page()
    server = kept_site(page, folder, wait_until)
    (first,) = page.evaluate(NAMES)
    worker.write_text(text.replace('version = "', 'version = "x', 1), "utf-8")
    page.evaluate(UPDATE)
    wait_until(page, f"{NAMES}.then(names => !names.includes({first!r}))")
    (second,) = page.evaluate(NAMES)
    listed = json.loads(text.split("const files = ", 1)[1].split(";\n", 1)[0])
    count = f"caches.open({second!r}).then(kept => kept.keys()).then(keys => keys.length)"
    assert page.evaluate(count) == len(listed) > 50
    broken = text.replace('version = "', 'version = "y', 1)
    worker.write_text(broken.replace("files = [", 'files = ["no-such-file", ', 1), "utf-8")
    page.evaluate(UPDATE)
    # an incomplete version is dropped: nothing waits, and what was kept is still there
    state = "navigator.serviceWorker.getRegistration().then(r => !r.installing && !r.waiting)"
    assert wait_until(page, state)
    assert page.evaluate(NAMES) == [second]
    server.close()
    context.close()
