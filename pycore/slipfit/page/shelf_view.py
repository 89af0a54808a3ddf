"""The parts shelf: one line per part of the build, a column on wide screens, a drawer on phones."""

from __future__ import annotations

from collections.abc import Sequence

from slipfit.markup import Tree, el
from slipfit.page.marks import capital, state_mark, state_sentence
from slipfit.page.shown import ShownPart
from slipfit.units import MASS


def parts_shelf(lines: Sequence[ShownPart], system: str) -> Tree:
    """The shelf; its summary names the worst thing so that a closed drawer still warns."""
    total = sum(line.mass_kg * line.count for line in lines)
    return el(
        "details",
        el(
            "summary",
            el("span", "Parts of this build", class_="sf-shelf-title"),
            _worst(lines),
        ),
        el("ul", *(_line(line, system) for line in lines), class_="sf-shelf-lines"),
        el("p", f"Parts together {MASS.text(total, system)}", class_="sf-shelf-total"),
        class_="sf-shelf",
    )


def _worst(lines: Sequence[ShownPart]) -> Tree:
    worst = max(
        (line for line in lines if line.worst is not None and line.worst.severity),
        key=lambda line: line.worst.severity if line.worst else 0,
        default=None,
    )
    if worst is None or worst.worst is None:
        return el("span", "nothing clashes, nothing past a limit", class_="sf-shelf-worst")
    return el(
        "span",
        state_mark(worst.worst.severity),
        f"{capital(worst.kind_label)} {worst.worst.state}",
        class_="sf-shelf-worst",
    )


def _line(line: ShownPart, system: str) -> Tree:
    worst = line.worst
    return el(
        "li",
        el("span", capital(line.kind_label), class_="sf-part-kind"),
        el("span", line.name, class_="sf-part-name"),
        el(
            "span",
            f"{line.count} × " if line.count > 1 else None,
            MASS.text(line.mass_kg, system),
            ", partly guessed" if line.guessed else None,
            class_="sf-part-mass",
        ),
        state_sentence(worst, system) if worst is not None else None,
        el(
            "button",
            "Swap",
            type="button",
            class_="sf-quiet sf-scripted",
            data_open_choices=line.kind,
            aria_label=f"Swap the {line.kind_label}",
        ),
        class_="sf-part",
        data_kind=line.kind,
    )
