"""How long a flight of 12 legs takes in the browser's calculator, alone: of one build, and of its
64 samples.

    python tests/bench/bench_browser_flight.py [FLIGHTS]

Every flight has legs of its own, so that none is remembered. The build's level flight is asked for
before (a figure that needs no flight) and is not timed; what is timed is the question for the time
in the air, from a page's script to its answer. Prints a table, writes JSON.
"""

from __future__ import annotations

import json
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

sys.path[:0] = [str(Path(__file__).parent)]

from bench_startup import (  # noqa: E402  (puts the site's tools on the path)
    FLAGS,
    RESULTS,
    StaticServer,
    find_or_install,
    our_site,
)

BARS_MS = {"one build": 150.0, "64 samples": None}  # medians, at most
LEGS = (
    "hover {0}s,cruise 400m,pass 300m x1,turn 6s,pass 400m 60m/s x2,turn 5s,cruise 10s,"
    "pass 500m 65m/s,turn 6s,return 600m,land 12s,reserve 20%25"
)
ASK = """async ([client, link, ranges]) => {
  if (!window.calculator) {
    const {createCalculator} = await import(client);
    window.calculator = createCalculator({patienceMs: 120000});
  }
  const ask = slot => calculator.call('page', {link, ranges, slots: [slot], system: 'metric'});
  await ask('value:top_speed');
  const start = performance.now();
  const answer = await ask('value:flight_time');
  return [performance.now() - start, answer.figures.flight_time, answer.messages];
}"""


def main() -> int:
    flights = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    found: dict[str, list[float]] = {name: [] for name in BARS_MS}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        our_site(Path(folder))
        server = StaticServer(Path(folder)).start()
        client = next(Path(folder).glob("live/js-*/worker_client.js")).relative_to(folder)
        browser = playwright.chromium.launch(executable_path=find_or_install(print), args=FLAGS)
        page = browser.new_page()
        page.goto(f"{server.url}404.html")
        for k in range(flights + 2):
            legs = LEGS.format(8 + k / 10).replace(" ", "_")
            for name, ranges in (("one build", False), ("64 samples", True)):
                given = [f"{server.url}{client.as_posix()}", f"#b1;quillback-5;legs={legs}", ranges]
                milliseconds, seconds, messages = page.evaluate(ASK, given)
                if messages or not seconds:
                    raise SystemExit(f"no flight: {messages}")
                if k >= 2:  # the first are slower: code is compiled
                    found[name].append(milliseconds)
        browser.close()
    print(f"{'12 legs in the browser':24}{'median, ms':>12}{'fastest':>9}{'slowest':>9}{'bar':>7}")
    rows = {}
    for name, bar in BARS_MS.items():
        times = found[name]
        median = statistics.median(times)
        rows[name] = {"median_ms": round(median, 1), "bar_ms": bar}
        limit = "" if bar is None else f"{bar:.0f}"
        print(f"{name:24}{median:12.0f}{min(times):9.0f}{max(times):9.0f}{limit:>7}")
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / "browser_flight.json").write_text(
        json.dumps({"flights": rows, "all": found}, indent=1) + "\n"
    )
    return int(
        any(row["bar_ms"] is not None and row["median_ms"] > row["bar_ms"] for row in rows.values())
    )


if __name__ == "__main__":
    raise SystemExit(main())
