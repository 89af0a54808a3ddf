"""The bench sheet: what to expect before and in the first hover, with a place for what was read."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from slipfit.figures.figure import Figure
from slipfit.markup import Tree, el
from slipfit.page.marks import capital
from slipfit.page.table import cell, table_figure

# Figure, and how one reads it; in the order in which it can be read.
READINGS: Final[tuple[tuple[str, str], ...]] = (
    ("mass_total", "On a scale, with pack and propellers."),
    ("balance_station", "Across the edge of a ruler, with the pack in."),
    ("hover_throttle", "From the log or the screen, ten seconds of quiet hover in still air."),
    ("rpm_hover", "From the ESC's report of its speed, in the same hover."),
    ("motor_current_hover", "From the ESC's report; it is more than a quarter of the pack's."),
    ("pack_current_hover", "From the current sensor, in the same hover."),
    ("motor_current_static", "Never held: from the log of a short burst, tied down or in climb."),
    ("pack_voltage_per_cell_full", "From the log, at the end of the first fast run."),
)


def bench_sheet(figures: Mapping[str, Figure], system: str) -> Tree:
    """The table; what is written into it is kept with the build on this device."""
    rows = [_row(figures[id], how, system) for id, how in READINGS if id in figures]
    return table_figure(
        "bench",
        "Bench sheet",
        ("What", "Expected", "Between", "Measured"),
        [el("tbody", *rows)],
        csv=True,
        under=el(
            "p",
            "Between these two lies the true value eight times out of ten, if the inputs are as "
            "sure as the parts say. Further off, find out why before you fly faster.",
            class_="sf-quiet-line",
        ),
    )


def _row(figure: Figure, how: str, system: str) -> Tree:
    waiting = "no range" if figure.exact else "…"
    return el(
        "tr",
        cell(capital(figure.label), how, tag="th", scope="row"),
        el("td", figure.text(system), class_="sf-list-number"),
        el("td", figure.range_text(system) or waiting, class_="sf-list-number"),
        el(
            "td",
            el(
                "input",
                type="text",
                maxlength=24,
                autocomplete="off",
                class_="sf-list-write",
                data_keep=f"bench {figure.id}",
                aria_label=f"Measured: {figure.label}",
            ),
        ),
    )
