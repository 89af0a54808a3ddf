"""The bill of materials: what to have on the table, how many, what it weighs."""

from __future__ import annotations

from itertools import groupby

from slipfit.fit.bill import BillLine, bill_mass
from slipfit.markup import Tree, el
from slipfit.page.marks import capital
from slipfit.page.table import table_figure
from slipfit.units import Display

# Of single things; a gram is too coarse for a screw's worth of them.
_MASS = Display(dimension="mass", metric="g", imperial="oz", metric_decimals=1, imperial_decimals=2)


def bill_table(lines: tuple[BillLine, ...], system: str) -> Tree:
    """Every line, by group, with the mass of all."""
    head = ("What", "Count", "Each", "Together", "Note")
    bodies: list[Tree] = []
    for group, members in groupby(lines, key=lambda line: line.group):
        bodies.append(
            el(
                "tbody",
                el(
                    "tr",
                    el("th", capital(group), scope="rowgroup", colspan=5),
                    class_="sf-list-group",
                ),
                *(_row(line, system) for line in members),
            )
        )
    foot = el(
        "tbody",
        el(
            "tr",
            el("th", "Ready to fly", scope="row"),
            el("td"),
            el("td"),
            el("td", _MASS.text(bill_mass(lines), system), class_="sf-list-number"),
            el("td"),
        ),
    )
    return table_figure("bill-of-materials", "Bill of materials", head, bodies, foot=foot, csv=True)


def _row(line: BillLine, system: str) -> Tree:
    name = f"{capital(line.what)}: {line.name}" if line.what else capital(line.name)
    each = "" if line.mass_kg is None else _MASS.text(line.mass_kg, system)
    whole = "" if line.mass_kg is None else _MASS.text(line.count * line.mass_kg, system)
    note = line.note
    if line.mass_kg is None:
        note = f"{note}; its mass is in the lines above"
    return el(
        "tr",
        el("th", name, scope="row"),
        el("td", str(line.count), class_="sf-list-number"),
        el("td", each, class_="sf-list-number"),
        el("td", whole, class_="sf-list-number"),
        el("td", capital(note)),
    )
