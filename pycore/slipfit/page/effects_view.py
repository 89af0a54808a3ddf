"""The table of what a change would do."""

from __future__ import annotations

from collections.abc import Sequence

from slipfit.effects import SHOWN, Effect
from slipfit.markup import Tree, el
from slipfit.page.marks import capital, change_text

_HEADS = {
    "top_speed": "top speed",
    "motor_current_full": "current per motor, flat out",
    "winding_first_pass": "winding after the first pass",
    "flight_time": "time in the air",
    "winding_peak": "hottest winding in that time",
}


def effects_table(found: Sequence[Effect], system: str) -> Tree:
    """One line for each change, with the difference to the build as it is."""
    usual = found[0]
    rows = [_row(effect, usual, system) for effect in found]
    return el(
        "div",
        el(
            "table",
            el("caption", "What a change would do"),
            el(
                "thead",
                el(
                    "tr",
                    el("th", "Change", scope="col"),
                    *(el("th", capital(_HEADS[kind.id]), scope="col") for kind in SHOWN),
                    el("th", "Worst limit then", scope="col"),
                ),
            ),
            el("tbody", *rows),
            class_="sf-table",
        ),
        class_="sf-table-scroll sf-effects",
        tabindex=0,
        role="group",
        aria_label="What a change would do, table",
    )


def _row(effect: Effect, usual: Effect, system: str) -> Tree:
    cells: list[Tree] = [el("th", capital(effect.label), scope="row")]
    for kind in SHOWN:
        value, before = effect.values[kind.id], usual.values[kind.id]
        if value is None:
            cells.append(el("td", "no value"))
            continue
        change = ""
        if before is not None and effect is not usual:
            change = change_text(kind.display, before, value, system)
        cells.append(
            el(
                "td",
                kind.display.text(value, system),
                *((" ", el("small", f"({change})")) if change else ()),
            )
        )
    worst = effect.worst
    said = "all kept" if worst is None else f"{worst.subject} {worst.state}, {worst.amount:.2f} ×"
    return el("tr", *cells, el("td", capital(said)))
