"""The rules of law that a build is held against, by place, and what they do not settle."""

from __future__ import annotations

from collections.abc import Sequence

from slipfit.checks.rule import RulesOfPlace
from slipfit.checks.verdict import Verdict
from slipfit.markup import Tree, el
from slipfit.page.marks import capital, state_word

WHO_DECIDES = (
    "Rules change, and they differ by place and by what a flight is for. Permissions and waivers "
    "exist, and ask for things that no calculation knows. Your local code, the owner of the land, "
    "the event and a licensed operator decide. Here stand a few numbers, as they were read in the "
    "month given, against an estimate: inside is not a permission."
)


def rules_list(places: Sequence[RulesOfPlace], system: str) -> Tree:
    """Every rule of every place, as they are written, under the sentence on who decides."""
    return el(
        "div",
        el("p", WHO_DECIDES, class_="sf-rules-who"),
        *(piece for place in places for piece in _place(place, system)),
        class_="sf-rules",
    )


def _place(place: RulesOfPlace, system: str) -> list[Tree]:
    pieces: list[Tree] = [
        el("p", el("strong", place.place), class_="sf-rules-place"),
        el("ul", *(_item(v, system) for v in place.verdicts), class_="sf-verdicts"),
    ]
    if place.others:
        pieces.append(el("ul", *(el("li", text) for text in place.others), class_="sf-rules-other"))
    return pieces


def _item(verdict: Verdict, system: str) -> Tree:
    return el(
        "li",
        state_word(verdict),
        el(
            "div",
            el("p", capital(verdict.sentence(system)), class_="sf-verdict-sentence"),
            el("p", el("em", "Past it: "), verdict.fix) if verdict.fix else None,
            el("p", verdict.basis, class_="sf-verdict-basis"),
        ),
        class_=f"sf-verdict sf-verdict-{verdict.severity}",
        data_check=verdict.id,
    )
