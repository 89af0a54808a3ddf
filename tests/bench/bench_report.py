"""How long reports take natively, beside a fixed piece of numpy work in the same run, so that the
ratio means the same on any machine.

    python tests/bench/bench_report.py [ROUNDS] [--profile]

Times are CPU time of this process on one thread, whole calls; each round takes another build (its
pack a little heavier), so that nothing kept from the round before helps. `first` is with empty
tables of rotor and airframe, as when a reader picks a new propeller. Prints a table, writes JSON;
`--profile` prints where the time of a report with ranges goes instead.
"""

from __future__ import annotations

import os

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import argparse  # noqa: E402
import cProfile  # noqa: E402
import gc  # noqa: E402
import json  # noqa: E402
import platform  # noqa: E402
import pstats  # noqa: E402
import statistics  # noqa: E402
import sys  # noqa: E402
import time  # noqa: E402
from collections.abc import Callable  # noqa: E402
from functools import partial  # noqa: E402
from pathlib import Path  # noqa: E402

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "site_src"), str(ROOT / "tests"), str(ROOT / "pycore")]

import numpy as np  # noqa: E402

from assets import site_files  # noqa: E402
from site_builds import altered, shipped  # noqa: E402
from slipfit import api  # noqa: E402
from slipfit.build import Build  # noqa: E402
from slipfit.charts.registry import CHARTS  # noqa: E402
from slipfit.figures.registry import FIGURES  # noqa: E402
from slipfit.flight.airframe_map import airframe_map  # noqa: E402
from slipfit.flight.inputs import blade_of, nominal_inputs, prop_of  # noqa: E402
from slipfit.flight.trim import Rotors, trim  # noqa: E402
from slipfit.library import link_of_build  # noqa: E402
from slipfit.parts.part import OWN  # noqa: E402
from slipfit.physics.rotor_map import rotor_map  # noqa: E402
from slipfit.report import report, report_json  # noqa: E402

RESULTS = Path(__file__).parent / "results"
BARS_MS = {"report": 60.0, "report with ranges": 400.0}  # of an idle core of a common machine
# What the overview page of a frame asks for.
SLOTS = [
    "short", "shelf", "day", "checks:limits", "chart:level_flight", "chart:drag_split",
    "drawing:side", "value:top_speed", "note:top_speed", "note:motor_current_full",
    "note:hover_time", "note:mass_total",
]  # fmt: skip


def calibration() -> None:
    """Forty products of 300 x 300 matrices, each after a step that keeps the numbers in range."""
    a = np.linspace(-1.0, 1.0, 300 * 300).reshape(300, 300)
    b = a.T.copy()
    for _ in range(40):
        b = np.tanh(a @ b / 300.0)


def another(round: int) -> Build:
    """The shipped build with a pack that is some milligrams heavier each time."""
    mass_kg = shipped().parts["pack"].mass_kg + 1e-6 * round
    return altered("pack", id=OWN, mass_kg=mass_kg)


def whole(build: Build, ranges: bool = False) -> None:
    """Everything that a report can say: all figures, charts and drawings."""
    made = report(build, ranges=ranges)
    report_json(made)
    for id in made.drawings:
        made.drawings[id]


def first(build: Build) -> None:
    rotor_map.cache_clear()
    airframe_map.cache_clear()
    whole(build)


def envelope(build: Build) -> None:
    """Trim at forty speeds, from hover to 95 m/s."""
    blades = rotor_map(blade_of(prop_of(build)), build.air)
    rotors = Rotors(map=blades, inputs=nominal_inputs(build))
    trim(build.frame, rotors, build.air, np.linspace(0.0, 95.0, 40))


def asked(name: str, build: Build, **payload: object) -> None:
    """One question to the api, as the page asks it."""
    question = json.dumps({"link": link_of_build(build), **payload})
    answer = api.call_json(name, question)
    assert answer.startswith('{"ok": true'), answer[:200]


WORK: dict[str, Callable[[Build], None]] = {
    "report, first": first,
    "report": whole,
    "report with ranges": partial(whole, ranges=True),
    "page call": lambda build: asked("page", build, slots=SLOTS),
    "page call with ranges": lambda build: asked("page", build, slots=SLOTS, ranges=True),
    "choices of motors": lambda build: asked("choices", build, kind="motor"),
    "choices of propellers": lambda build: asked("choices", build, kind="prop"),
    "40-speed envelope": envelope,
}


def timed(work: Callable[[], None]) -> float:
    """Milliseconds of CPU."""
    start = time.process_time()
    work()
    return 1e3 * (time.process_time() - start)


def measured(rounds: int) -> dict[str, list[float]]:
    times: dict[str, list[float]] = {name: [] for name in ("calibration", *WORK)}
    calibration()
    for work in WORK.values():
        work(another(0))  # imports, tables
    gc.collect()
    gc.freeze()  # as the page's worker does with what it has imported
    for round in range(1, rounds + 1):
        times["calibration"].append(timed(calibration))
        for name, work in WORK.items():
            times[name].append(timed(partial(work, another(round))))
    return times


def profiled() -> None:
    whole(another(0), ranges=True)
    profile = cProfile.Profile()
    profile.enable()
    whole(another(1), ranges=True)
    profile.disable()
    pstats.Stats(profile).sort_stats("tottime").print_stats(30)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rounds", nargs="?", type=int, default=7)
    parser.add_argument("--profile", action="store_true")
    options = parser.parse_args()
    api.use_site(site_files(ROOT / "docs"))
    if options.profile:
        profiled()
        return
    times = measured(options.rounds)
    unit = min(times["calibration"])
    rows = {
        name: {
            "median_ms": statistics.median(values),
            "least_ms": min(values),
            "over_calibration": min(values) / unit,
            "bar_ms": BARS_MS.get(name),
        }
        for name, values in times.items()
    }
    print(f"{'':24}{'median':>9}{'least':>9}{'bar':>8}   least over calibration")
    for name, row in rows.items():
        bar = f"{row['bar_ms']:.0f} ms" if row["bar_ms"] else ""
        print(
            f"{name:24}{row['median_ms']:6.0f} ms{row['least_ms']:6.0f} ms{bar:>8}"
            f"{row['over_calibration']:9.2f}"
        )
    RESULTS.mkdir(exist_ok=True)
    machine = f"{platform.machine()}, {os.cpu_count()} cores"
    found = {
        "machine": f"{machine}, Python {platform.python_version()}, numpy {np.__version__}",
        "figures": len(FIGURES),
        "charts": len(CHARTS),
        "rounds": options.rounds,
        "work": rows,
    }
    (RESULTS / "report.json").write_text(json.dumps(found, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
