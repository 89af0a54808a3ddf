"""How long a page takes until its first live figure, beside a bare page that loads the same runtime
and numpy the way their documentation shows. Both are served by the same server in the same run.

    python tests/bench/bench_startup.py [ROUNDS]

Visits are timed from the start of the navigation: the first ever (a new browser profile), the same
page again, another page of the site, and the first page after the browser itself was started anew.
Prints a table, writes JSON.
"""

from __future__ import annotations

import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "site_src"), str(ROOT / "tests"), str(ROOT / "pycore")]

import runtime as browser_runtime  # noqa: E402
from chromium import FLAGS, find_or_install  # noqa: E402
from serving import StaticServer  # noqa: E402

BARS = {
    "first ever": 0.45,
    "again": 0.30,
    "another page": 0.05,
    "next day": 0.30,
}  # ours over bare, at most
RESULTS = Path(__file__).parent / "results"
BARE = """<!doctype html><meta charset="utf-8"><title>bare</title><p id="figure"></p>
<script type="module">
import {loadPyodide} from "./pyodide/pyodide.mjs";
const python = await loadPyodide();
await python.loadPackage("numpy");
python.runPython("import numpy");
const figure = python.runPython("float(numpy.linspace(0, 1).sum())");
document.getElementById("figure").textContent = figure;
window.firstFigure = performance.now();
</script>
"""
# Ours: a page of the frame, complete with notes, until its figures have come from the calculator.
OURS = ("frames/quillback-5/", "frames/quillback-5/fit/")
LIVE = {
    "bare": "window.firstFigure",
    "ours": "performance.getEntriesByName('slipfit-live')[0]?.startTime",
}


def bare_site(folder: Path) -> None:
    """The bare page with the runtime as its package ships it, and numpy's wheel beside it."""
    cache = browser_runtime.cache_folder()
    node = browser_runtime.find_node(print)
    package = browser_runtime.node_modules(node, cache, print) / "pyodide"
    wheel = browser_runtime.wheel_of(package)
    sources = [browser_runtime.declared_source(package), browser_runtime.carrier_source()]
    shutil.copytree(package, folder / "pyodide")
    shutil.copy(browser_runtime.fetch_wheel(wheel, cache, sources, print), folder / "pyodide")
    for name in ("index.html", "other.html"):
        (folder / name).write_text(BARE)


def our_site(folder: Path) -> None:
    """The built site."""
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--site-dir", str(folder)]
    quiet = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    subprocess.run(command, cwd=ROOT, check=True, env=quiet)


def first_figure(page: Page, url: str, live: str) -> float:
    """Milliseconds from navigation to the first figure; `live` tells it once it is there."""
    page.goto(url, wait_until="commit")
    end = time.monotonic() + 60
    while time.monotonic() < end:
        if found := page.evaluate(live):
            return float(found)
        time.sleep(0.02)
    raise SystemExit(f"{url}: no figure within a minute")


def visits(program: str, live: str, first: str, second: str) -> dict[str, float]:
    """The visits, in a new profile that lasts until the browser has been started a second time."""
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as profile:

        def start() -> BrowserContext:
            return playwright.chromium.launch_persistent_context(
                profile, executable_path=program, args=FLAGS, headless=True
            )

        context = start()
        page = context.new_page()
        found = {"first ever": first_figure(page, first, live)}
        time.sleep(3)  # the browser writes its cache of compiled code a little later
        found["again"] = first_figure(page, first, live)
        found["another page"] = first_figure(page, second, live)
        context.close()
        context = start()
        first_figure(context.new_page(), first, live)  # compiled code is kept after the second use
        time.sleep(3)
        context.close()
        context = start()
        found["next day"] = first_figure(context.new_page(), first, live)
        context.close()
    return found


def warm(server: StaticServer) -> None:
    """Have the server compress everything once, so that no visit waits for that."""
    for file in server.folder.rglob("*"):
        if file.is_file() and file.suffix in (".mjs", ".js", ".wasm", ".zip", ".json", ".whl"):
            name = file.relative_to(server.folder).as_posix()
            request = urllib.request.Request(server.url + name, headers={"Accept-Encoding": "gzip"})
            urllib.request.urlopen(request).read()


def main() -> None:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    program = find_or_install(print)
    measured: dict[str, dict[str, list[float]]] = {"ours": {}, "bare": {}}
    with tempfile.TemporaryDirectory() as folder:
        bare, ours = Path(folder) / "bare", Path(folder) / "ours"
        bare.mkdir()
        bare_site(bare)
        our_site(ours)
        servers = {"bare": StaticServer(bare).start(), "ours": StaticServer(ours).start()}
        for server in servers.values():
            warm(server)
        pages = {"bare": ("index.html", "other.html"), "ours": OURS}
        for _ in range(rounds):
            for name, server in servers.items():
                urls = [server.url + page for page in pages[name]]
                for visit, milliseconds in visits(program, LIVE[name], *urls).items():
                    measured[name].setdefault(visit, []).append(milliseconds)
    rows: dict[str, Any] = {}
    print(f"{'visit':14}{'ours, ms':>10}{'bare, ms':>10}{'ratio':>8}{'bar':>7}")
    for visit, bar in BARS.items():
        a, b = (statistics.median(measured[name][visit]) for name in ("ours", "bare"))
        rows[visit] = {"ours_ms": a, "bare_ms": b, "ratio": a / b, "bar": bar}
        print(f"{visit:14}{a:10.0f}{b:10.0f}{a / b:8.3f}{bar:7.2f}")
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / "startup.json").write_text(json.dumps({"visits": rows, "all": measured}, indent=1))


if __name__ == "__main__":
    main()
