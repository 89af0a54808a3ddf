"""How long it takes to judge the fit of sixty parts of the shelf against a frame, each in the
frame's own build, as a reader's swap dialog and a search do.

    python tests/bench/bench_fit.py [ROUNDS]

One process, one thread; processor time of the best of many rounds. Prints a table and writes JSON.
"""

from __future__ import annotations

import dataclasses
import json
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "pycore"), str(ROOT / "tests"), str(ROOT / "site_src")]

from site_builds import library  # noqa: E402
from slipfit.build import Build  # noqa: E402
from slipfit.checks.fit_checks import fit_verdicts  # noqa: E402
from slipfit.fit.screws import screw_fits  # noqa: E402
from slipfit.library import default_build  # noqa: E402
from slipfit.parts.kinds import KINDS  # noqa: E402

RESULTS = Path(__file__).parent / "results"
PARTS = 60
BAR_MS = 50.0


def candidates(slug: str) -> list[tuple[str, Build]]:
    """The first 60 parts of the shelf, a few of each kind, each swapped into the frame's build."""
    build = default_build(library(), slug)
    found = [
        (kind.id, dataclasses.replace(build, parts={**build.parts, kind.id: part}))
        for kind in KINDS
        for part in library().shelf.of(kind.id)
    ]
    assert len(found) >= PARTS, f"the shelf must hold at least {PARTS} parts, got {len(found)}"
    step = len(found) / PARTS
    return [found[int(step * n)] for n in range(PARTS)]


def best_ms(work: object, rounds: int) -> float:
    times = []
    for _ in range(rounds):
        start = time.process_time()
        work()  # type: ignore[operator]
        times.append(time.process_time() - start)
    return 1e3 * min(times)


def main() -> int:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    results: dict[str, float] = {}
    for slug in library().frames:
        swapped = candidates(slug)

        def shelf(swapped: list[tuple[str, Build]] = swapped) -> None:
            for kind, build in swapped:
                fit_verdicts(build, kind)

        def whole(swapped: list[tuple[str, Build]] = swapped) -> None:
            fit_verdicts(dataclasses.replace(swapped[0][1]))  # a new one: the last is kept

        def screws(swapped: list[tuple[str, Build]] = swapped) -> None:
            screw_fits(swapped[0][1])

        shelf()
        results[f"{slug}: {PARTS} parts"] = best_ms(shelf, rounds)
        results[f"{slug}: one build, every check"] = best_ms(whole, rounds)
        results[f"{slug}: its screws"] = best_ms(screws, rounds)
    for name, ms in results.items():
        bar = f"  (at most {BAR_MS:g})" if name.endswith(" parts") else ""
        print(f"{name:40} {ms:8.2f} ms{bar}")
    RESULTS.mkdir(exist_ok=True)
    rounded = {name: round(ms, 2) for name, ms in results.items()}
    (RESULTS / "fit.json").write_text(json.dumps(rounded, indent=1) + "\n", "utf-8")
    over = [name for name, ms in results.items() if name.endswith(" parts") and ms > BAR_MS]
    for name in over:
        print(f"over its bar: {name}")
    return 1 if over else 0


if __name__ == "__main__":
    raise SystemExit(main())
