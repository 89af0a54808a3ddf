"""How long single computations take in the browser's Python, beside the same ones natively.

    python tests/bench/bench_browser.py [ROUNDS]

The core is packed with one call more, which times what is named below in the calculator's worker of
a real page in Chromium; the same code runs natively in this process. Prints a table, writes JSON.
"""

from __future__ import annotations

import json
import pickle
import shutil
import statistics
import sys
import tempfile
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

sys.path[:0] = [str(Path(__file__).parent)]

from bench_startup import FLAGS, RESULTS, ROOT, StaticServer, browser_runtime, find_or_install  # noqa: E402

import assets  # noqa: E402  (bench_startup puts the site's tools on the path)

BARS_MS = {"trim of 40 speeds": 60.0, "flight of 12 legs": 150.0, "64 samples of it": None}
# Becomes the module `slipfit.timed` of the packed core. Every round takes another build (its motors
# a little heavier), so that nothing kept from the round before helps.
TIMED = """
import time
from dataclasses import replace

import numpy as np

from slipfit.flight.flight import fly
from slipfit.flight.inputs import blade_of, nominal_inputs, prop_of, sampled_inputs
from slipfit.flight.performance import performance
from slipfit.flight.trim import Rotors, trim
from slipfit.frame.leg import legs_from_text
from slipfit.library import default_build
from slipfit.physics.rotor_map import rotor_map

TWELVE = legs_from_text(
    "hover 8 s, cruise 400 m, pass 300 m x1, turn 6 s, pass 400 m 60 m/s x2, turn 5 s, cruise 10 s,"
    " pass 500 m 65 m/s, turn 6 s, return 600 m, land 12 s, reserve 20 %"
)


def run(known, rounds):
    shipped = default_build(known, "quillback-5")
    times = {"trim of 40 speeds": [], "flight of 12 legs": [], "64 samples of it": []}
    for k in range(rounds):
        motor = shipped.parts["motor"]
        motor = replace(motor, mass_kg=motor.mass_kg * (1.0 + 1e-3 * k))
        build = replace(shipped, parts={**shipped.parts, "motor": motor})
        p = performance(build)
        rotors = Rotors(map=rotor_map(blade_of(prop_of(build)), build.air),
                        inputs=nominal_inputs(build))
        speeds = np.linspace(0.0, float(p.top_speed_m_s[0, 0]), 40)
        start = time.perf_counter()
        trim(build.frame, rotors, build.air, speeds)
        middle = time.perf_counter()
        fly(p, TWELVE)
        end = time.perf_counter()
        if k < 5:
            many = performance(build, sampled_inputs(build, 64)[0], p.speeds_m_s)
            start_many = time.perf_counter()
            fly(many, TWELVE)
            times["64 samples of it"].append(1e3 * (time.perf_counter() - start_many))
        times["trim of 40 speeds"].append(1e3 * (middle - start))
        times["flight of 12 legs"].append(1e3 * (end - middle))
    return times
"""
ADDED = """

def _timed(payload):
    from slipfit.timed import run

    return run(library(), payload["rounds"])


CALLS = {**CALLS, "timed": _timed}
"""
PAGE = (
    """<!doctype html><meta charset="utf-8"><title>timed</title><link rel="icon" href="data:,">"""
)
ASK = """async ([script, rounds]) => {
  const {createCalculator} = await import(script);
  const calculator = createCalculator({patienceMs: 600000, shared: false});
  await calculator.call('timed', {rounds: 4});
  return calculator.call('timed', {rounds});
}"""


def in_browser(rounds: int, folder: Path) -> dict[str, list[float]]:
    """Times of every round in Chromium, after four that warm up."""
    package = folder / "slipfit"
    shutil.copytree(ROOT / "pycore" / "slipfit", package)
    (package / "timed.py").write_text(TIMED, "utf-8")
    with (package / "api.py").open("a", encoding="utf-8") as api:
        api.write(ADDED)
    runtime = browser_runtime.runtime()
    site, solved = assets.site_files(ROOT / "docs"), pickle.dumps({})
    core = assets.core_zip(package, site, solved, runtime, print, browser_runtime.cache_folder())
    live = assets.prepare(project=ROOT, core=core, runtime=runtime)
    live.write(folder / "site")
    (folder / "site" / "index.html").write_text(PAGE, "utf-8")
    server = StaticServer(folder / "site").start()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_or_install(print), args=FLAGS)
        page = browser.new_page()
        page.goto(server.url)
        found: dict[str, list[float]] = page.evaluate(
            ASK, [server.url + live.beside("worker_client.js"), rounds]
        )
        browser.close()
    server.close()
    return found


def natively(rounds: int) -> dict[str, list[float]]:
    """Times of every round in this process."""
    from slipfit import api

    api.use_site(assets.site_files(ROOT / "docs"))
    names: dict[str, Any] = {}
    exec(compile(TIMED, "timed", "exec"), names)
    names["run"](api.library(), 4)
    found: dict[str, list[float]] = names["run"](api.library(), rounds)
    return found


def main() -> None:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    native = natively(rounds)
    with tempfile.TemporaryDirectory() as folder:
        browser = in_browser(rounds, Path(folder))
    rows = {}
    print(f"{'median of ' + str(rounds):20}{'browser, ms':>13}{'native, ms':>12}{'bar':>7}")
    for name, bar in BARS_MS.items():
        there, here = (statistics.median(times[name]) for times in (browser, native))
        rows[name] = {"browser_ms": there, "native_ms": here, "bar_ms": bar}
        print(f"{name:20}{there:13.1f}{here:12.1f}{bar or '':>7}")
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / "browser.json").write_text(
        json.dumps({"computations": rows, "all": browser}, indent=1)
    )


if __name__ == "__main__":
    main()
