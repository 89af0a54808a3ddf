"""The choices for one kind of part, each already judged in this build; workable ones first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from slipfit.checks.verdict import Verdict
from slipfit.markup import Tree, el
from slipfit.page.marks import state_mark, state_sentence
from slipfit.units import MASS


@dataclass(frozen=True, kw_only=True)
class Choice:
    """A part that could be swapped in. `worst` is its worst verdict in this build, None where
    nothing is worth saying; `effect` says what would change, such as `262 km/h (−12 km/h)`."""

    part_id: str
    name: str
    mass_kg: float
    worst: Verdict | None = None
    current: bool = False
    guessed: bool = False
    effect: str = ""


def choices_dialog(kind: str, kind_label: str, choices: Sequence[Choice], system: str) -> Tree:
    """What the swap dialog shows: a filter, the judged choices, a way to a part of one's own."""
    ordered = sorted(choices, key=_order)
    workable = sum(1 for choice in choices if _severity(choice) < 2)
    return el(
        "div",
        el("h2", f"Swap the {kind_label}", data_dialog_title=True),
        el(
            "p",
            f"{len(choices)} on the shelf, {workable} workable in this build. "
            "Each is judged with everything else as it is now.",
        ),
        el(
            "div",
            el(
                "div",
                el("label", "Show only names with", for_="sf-choices-filter"),
                el("input", type="search", id="sf-choices-filter", data_filter=True, maxlength=60),
                class_="sf-field",
            ),
            el(
                "p",
                el(
                    "button",
                    f"Your own {kind_label}",
                    type="button",
                    class_="sf-button",
                    data_own_kind=kind,
                ),
            ),
            class_="sf-choices-tools",
        ),
        el("ul", *(_choice(kind, choice, system) for choice in ordered), class_="sf-choices"),
        el("p", "No name contains that.", class_="sf-choices-none", hidden=True),
    )


def _severity(choice: Choice) -> int:
    return choice.worst.severity if choice.worst else 0


def _order(choice: Choice) -> tuple[int, float, str]:
    trouble = choice.worst.amount if choice.worst and _severity(choice) == 2 else 0.0
    past = trouble if choice.worst and choice.worst.family == "limit" else -trouble
    return (_severity(choice), past, choice.name)


def _choice(kind: str, choice: Choice, system: str) -> Tree:
    if choice.worst is None:
        verdict: Tree = el("span", state_mark(0), "nothing against it", class_="sf-part-verdict")
    else:
        verdict = state_sentence(choice.worst, system)
    mass = MASS.text(choice.mass_kg, system) + (", partly guessed" if choice.guessed else "")
    button = (
        el("span", "in this build", class_="sf-choice-current")
        if choice.current
        else el(
            "button",
            "Use this",
            type="button",
            class_="sf-button",
            data_swap_kind=kind,
            data_swap_part=choice.part_id,
            aria_label=f"Use this: {choice.name}",
        )
    )
    return el(
        "li",
        el("span", choice.name, class_="sf-part-name"),
        el("span", mass, class_="sf-part-mass"),
        verdict,
        el("span", choice.effect, class_="sf-choice-effect") if choice.effect else None,
        button,
        class_="sf-choice",
        data_name=choice.name.lower(),
    )
