"""Tables that a reader may scroll sideways and save: of screws, of materials, of the bench."""

from __future__ import annotations

from collections.abc import Sequence

from slipfit.markup import Tree, el

Cell = Tree | list[Tree]


def table_figure(
    id: str, title: str, head: Sequence[str], rows: Sequence[Tree], *, foot: Tree | None = None,
    csv: bool = False, under: Tree | None = None,
) -> Tree:  # fmt: skip
    """A table in a box of its own; `csv` adds a button that saves it."""
    return el(
        "figure",
        el(
            "div",
            el(
                "table",
                el("caption", title),
                el("thead", el("tr", *(el("th", text, scope="col") for text in head))),
                *rows,
                foot,
                class_=f"sf-list sf-list-{id}",
            ),
            class_="sf-list-scroll",
            role="group",
            tabindex=0,
            aria_label=title,
        ),
        under,
        el(
            "p",
            el("button", "Save as CSV", type="button", class_="sf-quiet", data_csv=id),
            class_="sf-scripted sf-list-tools",
        )
        if csv
        else None,
        class_="sf-list-figure",
        data_table=id,
    )


def cell(main: Tree | None, *small: Tree | None, tag: str = "td", **attributes: object) -> Tree:
    """A cell with its main thing and smaller words under it."""
    told = [el("span", text, class_="sf-list-small") for text in small if text]
    return el(tag, main, *told, **attributes)
