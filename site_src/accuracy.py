"""The page that sets the rotor beside every published measurement, drawn as the site is built.

Points and model are those of the tests (tests/validation.py), so the plots cannot drift from them.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import numpy as np

PROJECT = Path(__file__).resolve().parent.parent
if str(PROJECT / "tests") not in sys.path:
    sys.path.append(str(PROJECT / "tests"))

from slipfit.charts.chart import Chart, Series, gaps  # noqa: E402
from slipfit.markup import el, to_html  # noqa: E402
from slipfit.page.chart_views import NARROW, WIDE  # noqa: E402
from slipfit.page.curves import curves_svg  # noqa: E402
from slipfit.units import ANGLE, RATIO, ROTATION, Display  # noqa: E402
from validation import (  # noqa: E402
    SETS,
    Array,
    Comparison,
    Run,
    coefficients,
    compared,
    efficiency,
    naca_626,
    naca_640,
    nasa_81232,
    sampled_inputs,
    university,
)

# Two displays, so that thrust and power stand in a panel each.
THRUST, POWER = (
    Display(dimension="ratio", metric="", imperial="", metric_decimals=k, imperial_decimals=k)
    for k in (3, 4)
)
CURVE_POINTS = 24

HEAD = """---
title: The rotor against measurements
description: Every published measurement beside the rotor model, with its range.
---

# The rotor against measurements

Drawn from the tests' own figures when the site is built. Circles are measured. Lines are the model
for the blade as its shape was measured, and the bands are its 10-90 % range, with the spreads that
flight estimates use (see [Ranges and accuracy](accuracy.md)). Nothing in the model knows which
rotor it computes; how it works is said on [Rotor](rotor.md).

Coefficients are those of propellers: thrust over ρ n² D⁴, power over ρ n³ D⁵.

## All sets

Errors are means over all points, each relative to the greatest measured coefficient of its rotor;
in brackets the mean error with its sign. *Asked* is what the model was meant to reach.

"""


def page() -> str:
    """The page as Markdown with pictures in it."""
    written = [HEAD, _table()]
    at_rest = [*university("static", "9"), *university("static", "5")]
    in_flight = [*university("advance", "9"), *university("advance", "5")]
    written.append("\n## Small propellers at rest\n")
    for run in _chosen(at_rest):
        written.append(_figure(_over_rotation(run)))
    written.append("\n## Small propellers in flight\n")
    for run in _chosen(in_flight):
        written.append(_figure(_over_advance(_at_one_rotation(run))))
    written.append("\n## A large propeller\n")
    written += [_figure(_over_advance(run)) for run in naca_640()]
    written.append("\n## Hover over pitch angle\n")
    hovering = naca_626()
    for blades in ("2", "3"):
        runs = [run for run in hovering if run.label.startswith(blades)]
        written.append(_figure(_over_pitch(blades, runs)))
    written.append("\n## Hover over tip Mach number\n")
    written.append(_figure(_over_mach(nasa_81232())))
    return "\n".join(written)


def _chosen(runs: list[Run]) -> list[Run]:
    """One propeller of each make and number of blades in each size: the second pitch of several."""
    groups: dict[tuple[str, str, str], list[Run]] = {}
    for run in runs:
        size, make, _, blades = run.label.split(", ")
        groups.setdefault((size, make, blades), []).append(run)
    return [group[min(1, len(group) - 1)] for group in groups.values()]


def _at_one_rotation(run: Run) -> Run:
    """Points at the rotation with most of them."""
    rotation, count = np.unique(run.n_rev_s.round(), return_counts=True)
    return run.only(run.n_rev_s.round() == rotation[count.argmax()])


def _table() -> str:
    lines = [
        "| measurement | points | thrust | asked | power | asked |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    for one in SETS:
        runs = one.runs()
        thrust, power = compared(runs)
        points = sum(len(run.x) for run in runs)
        cells = (
            _error(thrust), _asked(one.asked_thrust), _error(power), _asked(one.asked_power),
        )  # fmt: skip
        lines.append(f"| {one.title} | {points} | {' | '.join(cells)} |")
    return "\n".join(lines) + "\n"


def _error(found: Comparison | None) -> str:
    if found is None:
        return "not measured"
    return f"{found.mean:.1%} ({found.bias:+.1%})".replace("%", " %").replace("-", "−")


def _asked(value: float | None) -> str:
    return "" if value is None else f"{100 * value:.0f} %"


def _figure(chart: Chart) -> str:
    """Picture and caption, in two widths of which the style sheet shows one."""
    tree = el(
        "figure",
        el("p", chart.title, class_="sf-figure-title"),
        el("div", curves_svg(chart, "metric", WIDE), class_="sf-only-wide"),
        el("div", curves_svg(chart, "metric", NARROW), class_="sf-only-narrow"),
        el("figcaption", chart.caption),
        class_="sf-chart sf-chart-curves",
    )
    return to_html(tree) + "\n"


def _series(
    label: str, ours: Array, sampled: Array, points: tuple[Array, Array], display: Display
) -> Series:
    known = np.isfinite(ours)
    ranged = known & np.isfinite(sampled).all(axis=0)
    low, high = np.quantile(np.where(ranged, sampled, 0.0), (0.1, 0.9), axis=0)
    return Series(
        id=label,
        label=label,
        display=display,
        values=gaps(ours, known),
        low=gaps(low, ranged),
        high=gaps(high, ranged),
        points=tuple(zip(*(part.tolist() for part in points), strict=True)),
    )


def _both(run: Run, curve: Run) -> tuple[Series, Series]:
    """Thrust and power of a run, its model drawn at the cases of `curve`."""
    ours, sampled = coefficients(curve), coefficients(curve, sampled_inputs())
    names = ("thrust coefficient", "power coefficient")
    thrust, power = (
        _series(name, middle, many, (run.x, measured), display)
        for name, middle, many, measured, display in zip(
            names, ours, sampled, (run.ct, run.cp), (THRUST, POWER), strict=True
        )
    )
    return thrust, power


def _efficiency(run: Run, curve: Run) -> Series:
    """Where the rotor pulls well enough that measured efficiency is more than noise."""
    ours, sampled = (
        efficiency(curve, *coefficients(curve, inputs)) for inputs in (None, sampled_inputs())
    )
    pulls = run.ct > 0.1 * run.ct.max()
    measured = efficiency(run, run.ct, run.cp) if run.read is None else run.read
    points = (run.x[pulls], measured[pulls])
    drawn = coefficients(curve)[0] > 0.1 * run.ct.max()
    return _series("efficiency", np.where(drawn, ours, np.nan), sampled, points, RATIO)


def _over_rotation(run: Run) -> Chart:
    n = np.linspace(run.n_rev_s.min(), run.n_rev_s.max(), CURVE_POINTS // 2)
    curve = run.at(n * (2 * np.pi), n, 0.0 * n)
    return Chart(
        id=f"rest-{run.label}",
        title=f"{run.label}, at rest",
        caption="Thrust and power coefficients over the speed of rotation.",
        shape="curves",
        series=_both(run, curve),
        x_label="rotation",
        x_display=ROTATION,
        x=tuple(curve.x.tolist()),
    )


def _over_advance(run: Run) -> Chart:
    advance = np.linspace(run.x.min(), run.x.max(), CURVE_POINTS)
    n = np.full_like(advance, run.n_rev_s.mean())
    curve = run.at(advance, n, advance * n * run.diameter_m)
    return Chart(
        id=f"flight-{run.label}",
        title=f"{run.label}, {60 * n[0]:.0f} rpm",
        caption="Thrust, power and efficiency over the advance ratio V / nD.",
        shape="curves",
        series=(*_both(run, curve), _efficiency(run, curve)),
        x_label="advance ratio",
        x_display=RATIO,
        x=tuple(advance.tolist()),
    )


def _joined(runs: list[Run]) -> tuple[Series, Series]:
    """Runs of one case each, in a row: a curve through their cases."""
    pairs = [_both(run, run) for run in runs]
    series = []
    for parts in zip(*pairs, strict=True):
        first = parts[0]
        series.append(
            Series(
                id=first.id,
                label=first.label,
                display=first.display,
                values=sum((part.values for part in parts), ()),
                low=sum((part.low for part in parts), ()),
                high=sum((part.high for part in parts), ()),
                points=sum((part.points for part in parts), ()),
            )
        )
    return series[0], series[1]


def _over_pitch(blades: str, runs: list[Run]) -> Chart:
    return Chart(
        id=f"hover-{blades}",
        title=f"{blades} blades NACA 0015, hovering (TN 626)",
        caption="Thrust and power coefficients over the pitch angle.",
        shape="curves",
        series=_joined(runs),
        x_label="pitch angle",
        x_display=ANGLE,
        x=tuple(float(run.x[0]) for run in runs),
    )


def _over_mach(runs: list[Run]) -> Chart:
    mach = np.linspace(0.43, 0.88, CURVE_POINTS // 2)
    series = []
    for run in runs:
        n = np.interp(mach, [0.0, 1.0], [0.0, run.n_rev_s[0] / run.x[0]])
        thrust, _ = _both(run, run.at(mach, n, 0.0 * n))
        series.append(replace(thrust, label=run.label))
    return Chart(
        id="mach",
        title="Two short blades NACA 0012, hovering (TM-81232)",
        caption="Thrust coefficient over the tip Mach number. This set was kept aside: nothing in "
        "the model was set by it. Its level is missed, its trend is met.",
        shape="curves",
        series=tuple(series),
        x_label="tip Mach number",
        x_display=RATIO,
        x=tuple(mach.tolist()),
        one_panel=True,
    )
