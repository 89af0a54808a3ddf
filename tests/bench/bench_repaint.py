"""How long an edit takes on a real page: from a new build in the address bar to the figures
in sight, and to everything on the page with its ranges, in Chromium.

    python tests/bench/bench_repaint.py [EDITS]

Each edit swaps one part of the frame's own build. Prints a table, writes JSON.
"""

from __future__ import annotations

import json
import statistics
import sys
import tempfile
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

sys.path[:0] = [str(Path(__file__).parent)]

from bench_startup import (  # noqa: E402  (puts the site's tools on the path)
    FLAGS,
    OURS,
    RESULTS,
    StaticServer,
    find_or_install,
    first_figure,
    our_site,
    warm,
)

BARS_MS = {"repainted": 150.0, "everything": 1000.0}  # medians, at most
SWAPS = (("pack", "k6-1500"), ("motor", "m28-1700"), ("esc", "e50"), ("pack", "k8-1300"),
         ("pack", "k6-1600"), ("motor", "m28-1950"), ("esc", "e60"))  # fmt: skip
# The figures in sight are repainted when the shelf says something else and the page has been laid
# out; everything has come when no place shows the build before and no note waits for its range.
EDIT = """async (part) => {
  const button = document.querySelector(`dialog[open] [data-swap-part="${part}"]`);
  const drawn = () => new Promise(done => setTimeout(done, document.body.offsetHeight ? 0 : 1));
  const shelf = () => document.querySelector('[data-slot="shelf"]').textContent;
  const waits = () => document.querySelector('[data-late]') ||
    [...document.querySelectorAll('.sf-note-range')].some(note => note.textContent.includes('…'));
  const before = shelf(), start = performance.now(), late = () => performance.now() - start > 20000;
  button.click();
  while (shelf() === before && !late()) await drawn();
  const repainted = performance.now() - start;
  while (waits() && !late()) await drawn();
  return {repainted, everything: performance.now() - start};
}"""


def main() -> None:
    edits = int(sys.argv[1]) if len(sys.argv) > 1 else 18
    found: dict[str, list[float]] = {name: [] for name in BARS_MS}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        our_site(Path(folder))
        server = StaticServer(Path(folder)).start()
        warm(server)
        browser = playwright.chromium.launch(executable_path=find_or_install(print), args=FLAGS)
        page = browser.new_page()
        first_figure(
            page, server.url + OURS[0], "performance.getEntriesByName('slipfit-live')[0]?.startTime"
        )
        time.sleep(5)
        for k in range(edits):
            kind, part = SWAPS[k % len(SWAPS)]
            page.locator(f'[data-open-choices="{kind}"]').first.click()
            page.wait_for_selector(f'dialog[open] [data-swap-part="{part}"]', timeout=60000)
            for name, milliseconds in page.evaluate(EDIT, part).items():
                found[name].append(milliseconds)
            time.sleep(1)
        browser.close()
    print(f"{'from edit to':14}{'median, ms':>12}{'slowest':>9}{'bar':>7}")
    rows = {}
    for name, bar in BARS_MS.items():
        median, slowest = statistics.median(found[name]), max(found[name])
        rows[name] = {"median_ms": median, "slowest_ms": slowest, "bar_ms": bar}
        print(f"{name:14}{median:12.0f}{slowest:9.0f}{bar:7.0f}")
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / "repaint.json").write_text(json.dumps({"edits": rows, "all": found}, indent=1))


if __name__ == "__main__":
    main()
