"""The choices for one kind of part, each already judged in this build; workable ones first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from slipfit.checks.verdict import Verdict
from slipfit.markup import Tree, el
from slipfit.page.marks import state_mark, state_sentence
from slipfit.units import MASS


@dataclass(frozen=True, kw_only=True)
class Choice:
    """A part that could be swapped in. `key` is its id on the shelf, or that of a reader's own
    part, of which `kept` is the place among those kept on this device; `worst` is its worst verdict
    in this build, None where nothing is worth saying; `effect` says what would change, such as
    `262 km/h (−12 km/h)`; `unlike` is how far it is from the build's own."""

    key: str
    name: str
    mass_kg: float
    worst: Verdict | None = None
    current: bool = False
    guessed: bool = False
    effect: str = ""
    kept: int | None = None
    unlike: float = 0.0


def ordered(choices: Iterable[Choice]) -> list[Choice]:
    """Workable choices first, the least trouble before the most, the most alike before others."""
    return sorted(choices, key=_order)


def choices_dialog(
    kind: str, kind_label: str, choices: Sequence[Choice], system: str, *, fit_only: bool = False
) -> Tree:
    """What the swap dialog shows: a filter, the judged choices, a way to a part of one's own.
    `fit_only`: they are judged by nothing else yet."""
    workable = sum(1 for choice in choices if _severity(choice) < 2)
    yours = sum(1 for choice in choices if choice.kept is not None)
    there = f"{len(choices) - yours} on the shelf" + (f" and {yours} of yours" if yours else "")
    judged, coming = "workable", None
    if fit_only:
        judged = "fit"
        coming = el("span", "Limits and speeds come one by one. ", data_until_judged=True)
    first = " The most alike to the one in this build come first." if fit_only else ""
    return el(
        "div",
        el("h2", f"Swap the {kind_label}", data_dialog_title=True),
        el(
            "p",
            f"{there}, {workable} {judged} in this build. ",
            coming,
            "Each is judged with everything else as it is now. The heat of a whole flight is "
            f"judged once a part is in.{first}",
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
            _files(kind),
            class_="sf-choices-tools",
        ),
        el("ul", *(choice_row(kind, choice, system) for choice in choices), class_="sf-choices"),
        el("p", "No name contains that.", class_="sf-choices-none", hidden=True),
    )


def _files(kind: str) -> Tree:
    """Own parts are kept on this device; a file brings them to another."""
    return el(
        "details",
        el("summary", "Your own parts as a file"),
        el(
            "p",
            "Parts that you typed in are kept on this device. Save them all as a file to bring "
            "them to another device or to send them to somebody; the same file works on the "
            "author's shelf.",
        ),
        el(
            "p",
            el("button", "Save them", type="button", class_="sf-button", data_own_save=True),
            " ",
            el("button", "Read a file", type="button", class_="sf-button", data_own_read=kind),
        ),
        class_="sf-own-files",
    )


def own_file_errors(file: str, problems: Sequence[str]) -> Tree:
    """Why nothing of a file was taken: everything that is wrong with it."""
    count = "one thing" if len(problems) == 1 else f"{len(problems)} things"
    return el(
        "div",
        el("h2", "Nothing was taken from that file", data_dialog_title=True),
        el("p", f"In {file} {count} must be mended first. What you have kept is as it was."),
        el("ul", *(el("li", problem) for problem in problems), class_="sf-own-errors"),
    )


def _severity(choice: Choice) -> int:
    return choice.worst.severity if choice.worst else 0


def _order(choice: Choice) -> tuple[int, float, float, str]:
    trouble = choice.worst.amount if choice.worst and _severity(choice) == 2 else 0.0
    past = trouble if choice.worst and choice.worst.family == "limit" else -trouble
    return (_severity(choice), past, choice.unlike, choice.name)


def choice_row(kind: str, choice: Choice, system: str) -> Tree:
    """One choice as it stands in the list."""
    if choice.worst is None:
        verdict: Tree = el("span", state_mark(0), "nothing against it", class_="sf-part-verdict")
    else:
        verdict = state_sentence(choice.worst, system)
    mass = MASS.text(choice.mass_kg, system) + (", partly guessed" if choice.guessed else "")
    own = choice.kept is not None
    button = (
        el("span", "in this build", class_="sf-choice-current")
        if choice.current
        else el(
            "button",
            "Use this",
            type="button",
            class_="sf-button",
            data_swap_kind=None if own else kind,
            data_swap_part=None if own else choice.key,
            data_own_use=choice.kept,
            aria_label=f"Use this: {choice.name}",
        )
    )
    forget = el(
        "button",
        "Forget",
        type="button",
        class_="sf-quiet",
        data_own_forget=choice.kept,
        aria_label=f"Forget {choice.name}",
    )
    return el(
        "li",
        el("span", choice.name, ", yours" if own else None, class_="sf-part-name"),
        el("span", mass, class_="sf-part-mass"),
        verdict,
        el("span", choice.effect, class_="sf-choice-effect") if choice.effect else None,
        button,
        forget if own else None,
        class_="sf-choice",
        data_name=choice.name.lower(),
        data_choice=choice.key,
    )
