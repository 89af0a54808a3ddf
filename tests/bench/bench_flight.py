"""How long a whole flight takes: of one build, of 64 samples of it, and what follows from it.

    python tests/bench/bench_flight.py [ROUNDS]

One process, one thread; processor time of the best of many rounds, since the machine may be shared.
The performance of the build (trims, top speed) is computed before and not timed. A yardstick of
small array operations is timed beside it, so that runs on different machines compare. Prints a
table and writes JSON.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "pycore"), str(ROOT / "tests"), str(ROOT / "site_src")]

from site_builds import shipped  # noqa: E402
from slipfit.checks.limit import judge  # noqa: E402
from slipfit.checks.limits import LIMITS  # noqa: E402
from slipfit.effects import effects  # noqa: E402
from slipfit.flight.flight import flight_of, fly  # noqa: E402
from slipfit.flight.full_throttle import FullThrottle  # noqa: E402
from slipfit.flight.inputs import sampled_inputs  # noqa: E402
from slipfit.flight.legs import plan_of  # noqa: E402
from slipfit.flight.performance import performance  # noqa: E402
from slipfit.flight.wiring import thinnest_motor_lead, thinnest_pack_lead  # noqa: E402
from slipfit.frame.leg import legs_from_text  # noqa: E402

RESULTS = Path(__file__).parent / "results"
TWELVE = legs_from_text(
    "hover 8 s, cruise 400 m, pass 300 m x1, turn 6 s, pass 400 m 60 m/s x2, turn 5 s, cruise 10 s,"
    " pass 500 m 65 m/s, turn 6 s, return 600 m, land 12 s, reserve 20 %"
)
BARS_MS = {"flight of 12 legs": 50.0, "flight of 12 legs, 64 samples": 400.0}


def best_ms(work: Callable[[], object], rounds: int) -> float:
    """Processor time of the fastest round after one that warms caches."""
    work()
    times = []
    for _ in range(rounds):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return 1e3 * min(times)


def yardstick() -> None:
    """A thousand small array operations, the kind that a flight consists of."""
    x = np.linspace(0.1, 1.0, 40)
    for _ in range(250):
        x = np.where(np.sqrt(x * x + 0.01) > 1.0, x, x + 1e-6)


def main() -> int:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    few = max(rounds // 4, 3)
    build = shipped()
    p = performance(build)
    inputs, _ = sampled_inputs(build, 64)
    samples = performance(build, inputs, p.speeds_m_s)
    flight_of(p)
    steps = len(fly(p, TWELVE).steps.duration_s)

    def gauges() -> None:
        for function in (thinnest_pack_lead, thinnest_motor_lead):
            function.cache_clear()
            function(p)

    found = {
        "flight of 12 legs": best_ms(lambda: fly(p, TWELVE), rounds),
        "  of which table of full throttle": best_ms(lambda: FullThrottle(p), rounds),
        "  of which trims of the legs": best_ms(lambda: plan_of(p, TWELVE), rounds),
        "flight of 12 legs, 64 samples": best_ms(lambda: fly(samples, TWELVE), few),
        "  of which its table": best_ms(lambda: FullThrottle(samples), few),
        "flight of the frame, 64 samples": best_ms(lambda: fly(samples, build.frame.legs), few),
        "leads that stand it": best_ms(gauges, rounds),
        "all limits, flight known": best_ms(lambda: [judge(limit, p) for limit in LIMITS], rounds),
        "effects of six builds": best_ms(lambda: effects(build), few),
    }
    stick = best_ms(yardstick, rounds)
    print(f"yardstick, 1000 small array operations: {stick:.2f} ms; {steps} time steps")
    failed = []
    for name, ms in found.items():
        bar = BARS_MS.get(name)
        said = f"  (at most {bar:g})" if bar else ""
        print(f"  {name:36} {ms:8.1f} ms  {ms / stick:7.1f} yardsticks{said}")
        if bar is not None and ms > bar:
            failed.append(name)
    results = {name.strip(): round(ms, 1) for name, ms in found.items()}
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / "flight.json").write_text(
        json.dumps({"yardstick_ms": round(stick, 2), "steps": steps, **results}, indent=1) + "\n"
    )
    for name in failed:
        print(f"over its bar: {name}")
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main())
