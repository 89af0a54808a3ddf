"""Verdicts as lists: worst first, each a word with its own line pattern and a sentence."""

from __future__ import annotations

from collections.abc import Sequence

from slipfit.checks.verdict import Verdict
from slipfit.markup import Tree, el
from slipfit.page.marks import capital, state_word


def verdict_list(verdicts: Sequence[Verdict], system: str) -> Tree:
    """Every verdict of a family, worst first; the rule behind each and what would mend it."""
    if not verdicts:
        return el("p", "Nothing to check here.", class_="sf-quiet-line")
    ordered = sorted(verdicts, key=lambda verdict: -verdict.severity)
    return el("ul", *(_item(verdict, system) for verdict in ordered), class_="sf-verdicts")


def _item(verdict: Verdict, system: str) -> Tree:
    mend = verdict.fix if verdict.severity else ""
    return el(
        "li",
        state_word(verdict),
        el(
            "div",
            el("p", capital(verdict.sentence(system)), class_="sf-verdict-sentence"),
            el("p", el("em", "What would mend it: "), mend) if mend else None,
            el("p", verdict.basis, class_="sf-verdict-basis") if verdict.basis else None,
        ),
        class_=f"sf-verdict sf-verdict-{verdict.severity}",
        data_check=verdict.id,
    )
