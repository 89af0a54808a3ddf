"""The command line: check an author's files, report a build, compute a rotor, write and read links.

Every command reads frames and parts from a folder of docs (`--docs`, `docs` unless given).
"""

from __future__ import annotations

import argparse
import json
import math
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from slipfit import __version__
from slipfit.buildfile import build_toml, read_build_toml
from slipfit.errors import InputError, SlipfitError
from slipfit.kit.newframe import add_to_nav, nav_lines, new_frame, slug_of
from slipfit.kit.pages import page_problems
from slipfit.library import (
    Library,
    build_of,
    build_of_link,
    default_build,
    library_from_texts,
    link_of_build,
    read_library,
    state_of_build,
)
from slipfit.numerics import Array
from slipfit.parts.source import FileError
from slipfit.physics.air import air_of_day
from slipfit.physics.blade import blade_from_csv
from slipfit.physics.rotor import rotor_loads
from slipfit.report import Report, report, report_json
from slipfit.units import quantity_from_text


def _read(path: Path) -> str:
    """The text of a file; a byte order mark, as some editors write, is dropped."""
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(
            f"slipfit: {path} must be UTF-8 text, got a byte that is not at position {error.start}"
        ) from None


def _texts(docs: Path, *patterns: str) -> dict[str, str]:
    """Texts of a folder's files by name."""
    found = sorted(path for pattern in patterns for path in docs.glob(pattern))
    return {path.relative_to(docs).as_posix(): _read(path) for path in found}


def _library_texts(docs: Path) -> dict[str, str]:
    texts = _texts(docs, "frames/*/frame.toml", "parts/*.toml")
    if not texts:
        raise InputError(
            f"slipfit: --docs must name a folder with frames/*/frame.toml, got '{docs}'"
        )
    return texts


def library_from_folder(docs: Path) -> Library:
    """A library from a folder of docs: `frames/*/frame.toml` and `parts/*.toml` below it."""
    return library_from_texts(_library_texts(docs))


def _check(options: argparse.Namespace) -> int:
    library, problems = read_library(_library_texts(options.docs))
    pages = _texts(options.docs, "frames/*/**/*.md")
    problems += page_problems(pages, library)
    if problems:
        raise FileError(problems)
    for slug in library.frames:
        made = report(default_build(library, slug))
        print(f"{slug}: {made.in_short['metric']}")
    print(
        f"{len(library.frames)} frames with {len(pages)} pages and {len(library.shelf)} parts are "
        "in order."
    )
    return 0


def _new_frame(options: argparse.Namespace) -> int:
    library = library_from_folder(options.docs)
    written = new_frame(options.docs, options.name, library.shelf)
    for path in written:
        print(f"wrote {path}")
    nav = options.docs.parent / "mkdocs.yml"
    if add_to_nav(nav, options.name):
        print(f"added its pages to {nav}")
    else:
        print("Add its pages to the navigation:", *nav_lines(options.name), sep="\n")
    again = library_from_folder(options.docs)
    made = report(default_build(again, slug_of(options.name)))
    print(f"{made.in_short['metric']}")
    print("Next: replace its dimensions by yours, from the top down, and run slipfit check.")
    return 0


def _report(options: argparse.Namespace) -> int:
    library = library_from_folder(options.docs)
    state = read_build_toml(_read(options.build), str(options.build))
    build, messages = build_of(library, state)
    made = report(build, ranges=not options.no_ranges)
    for message in messages:
        print(message, file=sys.stderr)
    if options.json:
        print(
            json.dumps({**report_json(made), "messages": list(messages)}, indent=2, allow_nan=False)
        )
    else:
        print(_report_text(made))
    return 0


def _report_text(made: Report) -> str:
    lines = [made.in_short["metric"], ""]
    for figure in made.figures.values():
        reach = figure.range_text("metric")
        spread = f"  ({reach})" if reach else ""
        lines.append(f"{figure.label:48} {figure.text('metric'):>12}{spread}")
    lines.append("")
    lines += [f"{v.state:8} {v.sentence_metric}" for v in made.verdicts]
    lines += ["", f"share as {made.link}"]
    return "\n".join(lines)


def _rotor(options: argparse.Namespace) -> int:
    diameter = quantity_from_text("slipfit rotor", "--diameter", options.diameter, "length")
    text = _read(options.geometry)
    blade = blade_from_csv(text, diameter, options.blades, options.section)
    speeds = _speeds(options.speeds)
    if not 0.0 < options.rpm < math.inf:
        raise InputError(f"slipfit rotor: --rpm must be above 0, got {options.rpm:g}")
    omega = options.rpm * 2 * np.pi / 60
    air = air_of_day()
    loads = rotor_loads(blade, np.full_like(speeds, omega), speeds, np.zeros_like(speeds), air)
    n = options.rpm / 60
    driven = (loads.torque_Nm > 0.0) & (loads.thrust_N >= 0.0)  # a windmill has no efficiency
    rho, power = air.density_kg_m3, omega * loads.torque_Nm
    rows = {
        "speed_m_s": speeds,
        "J": speeds / (n * diameter),
        "ct_prop": loads.thrust_N / (rho * n**2 * diameter**4),
        "cp_prop": power / (rho * n**3 * diameter**5),
        "efficiency": np.divide(
            loads.thrust_N * speeds, power, out=np.full_like(power, np.nan), where=driven
        ),
        "thrust_N": loads.thrust_N,
        "torque_Nm": loads.torque_Nm,
        "tip_mach": loads.tip_mach,
    }
    if options.json:
        data: dict[str, Any] = {
            name: [float(v) if math.isfinite(v) else None for v in values]
            for name, values in rows.items()
        }
        data["valid"] = [bool(v) for v in loads.valid]
        print(
            json.dumps(
                {"slipfit": __version__, "rpm": options.rpm, **data}, indent=2, allow_nan=False
            )
        )
        return 0
    print("".join(f"{name:>12}" for name in rows))
    for k in range(len(speeds)):
        note = "" if loads.valid[k] else "  outside the model's range"
        cells = (
            f"{values[k]:.5g}" if math.isfinite(values[k]) else "-" for values in rows.values()
        )
        print("".join(f"{cell:>12}" for cell in cells) + note)
    return 0


def _speeds(text: str) -> Array:
    try:
        speeds = np.array([float(v) for v in text.split(",")])
    except ValueError:
        speeds = np.array([np.nan])
    if not np.isfinite(speeds).all():
        raise InputError(
            f"slipfit rotor: --speeds must be numbers in m/s with commas, got '{text}'"
        )
    return speeds


def _link(options: argparse.Namespace) -> int:
    library = library_from_folder(options.docs)
    state = read_build_toml(_read(options.build), str(options.build))
    build, messages = build_of(library, state)
    for message in messages:
        print(message, file=sys.stderr)
    print(link_of_build(build))
    return 0


def _open(options: argparse.Namespace) -> int:
    library = library_from_folder(options.docs)
    build, messages = build_of_link(library, options.link, next(iter(library.frames)))
    for message in messages:
        print(message, file=sys.stderr)
    print(build_toml(state_of_build(build)), end="")
    return 1 if messages else 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="slipfit", description=__doc__)
    parser.add_argument("--version", action="version", version=f"slipfit {__version__}")
    commands = parser.add_subparsers(dest="command", required=True)

    def command(name: str, run: Callable[[argparse.Namespace], int], help: str) -> Any:
        added = commands.add_parser(name, help=help, description=help)
        added.set_defaults(run=run)
        added.add_argument("--docs", type=Path, default=Path("docs"), help="folder of the docs")
        return added

    command("check", _check, "Check frames, their pages and parts, and report each frame's build.")
    added = command("new-frame", _new_frame, "Write a frame to begin with: a file and four pages.")
    added.add_argument("name", metavar="NAME", help="as readers will see it: 'Heron 5'")
    added = command("report", _report, "Report a build file.")
    added.add_argument("build", type=Path, metavar="BUILD.toml")
    added.add_argument("--json", action="store_true", help="as data, with stable keys")
    added.add_argument("--no-ranges", action="store_true", help="nominal values only, faster")
    added = command("rotor", _rotor, "Compute a rotor from a blade table.")
    added.add_argument("geometry", type=Path, metavar="GEOMETRY.csv")
    added.add_argument("--diameter", required=True, help="such as 9in or 228.6mm")
    added.add_argument("--blades", type=int, required=True)
    added.add_argument("--rpm", type=float, required=True)
    added.add_argument("--speeds", default="0", help="axial speeds in m/s, such as 0,5,10")
    added.add_argument("--section", default="cambered-3", help="blade section, by name")
    added.add_argument("--json", action="store_true", help="as data, with stable keys")
    added = command("link", _link, "Write the share link of a build file.")
    added.add_argument("build", type=Path, metavar="BUILD.toml")
    added = command("open", _open, "Write the build file of a share link.")
    added.add_argument("link", metavar="LINK", help="in quotes: '#b1;…'")
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 when it did what was asked, 1 with a sentence on stderr when not."""
    options = _parser().parse_args(arguments)
    try:
        run: Callable[[argparse.Namespace], int] = options.run
        return run(options)
    except FileError as error:
        print("\n".join(error.problems), file=sys.stderr)
    except SlipfitError as error:
        print(error.message, file=sys.stderr)
    except (
        BrokenPipeError
    ):  # whoever read us has read enough; Python's own last flush must not fail
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as error:
        print(f"slipfit: {error.filename} must be readable, got: {error.strerror}", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())
