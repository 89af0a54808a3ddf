"""How long the complete envelope of a build takes: hover, full throttle standing still, top speed,
best range, and the curve of level flight at 40 speeds, each with its trim, currents and pack.

    python tests/bench/bench_envelope.py [ROUNDS]

One process, one thread; processor time of the best of many rounds, since the machine may be shared.
What follows from it (run-up and climb, what drag costs, stability) is timed on its own. A yardstick
of the same kind of work, small arrays in many calls, is timed beside it, so that runs on different
machines compare. Prints a table and writes JSON.
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
from slipfit.flight.dash import dash  # noqa: E402
from slipfit.flight.drag_cost import largest_causes, speed_without  # noqa: E402
from slipfit.flight.envelope import envelope  # noqa: E402
from slipfit.flight.flat_out import flat_out  # noqa: E402
from slipfit.flight.inputs import sampled_inputs  # noqa: E402
from slipfit.flight.performance import Performance, performance  # noqa: E402
from slipfit.stability import pressure_lever, stability  # noqa: E402

RESULTS = Path(__file__).parent / "results"
SLUGS = ("quillback-5", "longspur-7")
SPEEDS = 40
BARS_MS = {"envelope": 30.0, "envelope, 64 samples": 500.0}


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
    """A thousand small array operations, the kind that an envelope consists of."""
    x = np.linspace(0.1, 1.0, SPEEDS)
    for _ in range(250):
        x = np.where(np.sqrt(x * x + 0.01) > 1.0, x, x + 1e-6)


def fresh(p: Performance, *kept: object) -> Performance:
    """The same performance with nothing kept beside it."""
    for function in (flat_out, dash, envelope, stability, speed_without, *kept):
        function.cache_clear()  # type: ignore[attr-defined]
    return p


def timings(slug: str, rounds: int) -> dict[str, float]:
    """Milliseconds of one frame's default build."""
    build = shipped(slug)
    p = performance(build)
    end = float(p.top_speed_m_s[0, 0])
    speeds = np.linspace(0.0, end, SPEEDS)
    inputs, _ = sampled_inputs(build, 64)
    uncached = getattr(performance, "__wrapped__", performance)
    return {
        "envelope": best_ms(lambda: uncached(build, speeds_m_s=speeds), rounds),
        "envelope, 64 samples": best_ms(
            lambda: uncached(build, inputs, speeds), max(rounds // 8, 3)
        ),
        "run-up, climb, endurance": best_ms(lambda: (dash(fresh(p)), envelope(p)), rounds),
        "what drag costs, ten causes": best_ms(
            lambda: speed_without(fresh(p), largest_causes(p)), rounds
        ),
        "stability": best_ms(lambda: (stability(fresh(p)), pressure_lever(p, slice(None))), rounds),
    }


def main() -> int:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    stick = best_ms(yardstick, rounds)
    results: dict[str, object] = {"yardstick_ms": round(stick, 2)}
    failed = []
    print(f"yardstick, 1000 small array operations: {stick:.2f} ms")
    for slug in SLUGS:
        found = timings(slug, rounds)
        results[slug] = {name: round(ms, 1) for name, ms in found.items()}
        print(slug)
        for name, ms in found.items():
            bar = BARS_MS.get(name)
            said = f"  (at most {bar:g})" if bar else ""
            print(f"  {name:30} {ms:8.1f} ms  {ms / stick:7.1f} yardsticks{said}")
            if bar is not None and ms > bar:
                failed.append(f"{slug}: {name}")
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / "envelope.json").write_text(json.dumps(results, indent=1) + "\n")
    for name in failed:
        print(f"over its bar: {name}")
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main())
