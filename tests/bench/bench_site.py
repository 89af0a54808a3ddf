"""How long the site takes to build with fifty frames of four pages each.

    python tests/bench/bench_site.py [FRAMES]

A copy of the project gets as many frames as asked for, made by `slipfit new-frame` and then each a
little different, so that none is computed twice. Wall time of one build, and processor time, since
the machine may be shared. The compiled core is taken from the cache, as in any second build. Prints
a table and writes JSON.
"""

from __future__ import annotations

import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "pycore"), str(ROOT / "tests"), str(ROOT / "site_src")]

from slipfit.cli import library_from_folder  # noqa: E402
from slipfit.kit.newframe import add_to_nav, new_frame  # noqa: E402

RESULTS = Path(__file__).parent / "results"
BAR_S = 60.0


def project(folder: Path, frames: int) -> None:
    """A copy of the project with many frames."""
    ignored = shutil.ignore_patterns("__pycache__", "node_modules", "*.egg-info", "results")
    for name in ("docs", "site_src", "pycore", "tests"):
        shutil.copytree(ROOT / name, folder / name, ignore=ignored)
    for name in ("mkdocs.yml", "pyproject.toml"):
        shutil.copy(ROOT / name, folder)
    shelf = library_from_folder(folder / "docs").shelf
    existing = len(list((folder / "docs/frames").iterdir()))
    for number in range(frames - existing):
        name = f"Bench {number + 1}"
        file = new_frame(folder / "docs", name, shelf)[0]
        text = file.read_text("utf-8").replace('"78 mm"', f'"{78 + 0.5 * number:g} mm"')
        file.write_text(text, "utf-8")
        add_to_nav(folder / "mkdocs.yml", name)


def build(folder: Path) -> tuple[float, float]:
    """Wall and processor seconds of one build."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--quiet", "--site-dir", "site"],
        cwd=folder, capture_output=True, text=True, check=False,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(folder / "pycore")},
    )  # fmt: skip
    wall = time.perf_counter() - start
    if done.returncode:
        raise SystemExit(done.stderr)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> int:
    frames = int(sys.argv[1]) if len(sys.argv) > 1 else 50
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        project(folder, 2)
        build(folder)  # compiles the core into the cache
        few = build(folder)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        project(folder, frames)
        build(folder)
        many = build(folder)
        pages = len(list((folder / "site").rglob("index.html")))
    print(f"{'':24}{'wall':>10}{'processor':>12}")
    print(f"{'2 frames':24}{few[0]:9.1f}s{few[1]:11.1f}s")
    bar = f"  (at most {BAR_S:g} s)" if frames == 50 else ""
    print(f"{f'{frames} frames, {pages} pages':24}{many[0]:9.1f}s{many[1]:11.1f}s{bar}")
    each = (many[1] - few[1]) / max(frames - 2, 1)
    print(f"{'each further frame':24}{'':10}{each:11.2f}s")
    RESULTS.mkdir(exist_ok=True)
    found = {
        "frames": frames, "pages": pages, "wall_s": round(many[0], 1),
        "processor_s": round(many[1], 1), "processor_s_of_2_frames": round(few[1], 1),
        "processor_s_each": round(each, 2),
    }  # fmt: skip
    (RESULTS / "site.json").write_text(json.dumps(found, indent=1) + "\n", "utf-8")
    return 1 if frames == 50 and min(many) > BAR_S else 0


if __name__ == "__main__":
    raise SystemExit(main())
