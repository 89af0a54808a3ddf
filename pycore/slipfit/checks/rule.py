"""Verdicts on published rules: inside, near or past, by place, with the section and the month in
which it was read."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from slipfit.checks.verdict import Verdict
from slipfit.flight.performance import Performance
from slipfit.rules import Rule, Standing, rules, standings
from slipfit.units import DISTANCE, KINETIC, SPEED, Display

MASS: Final = Display(
    dimension="mass", metric="kg", imperial="lb", metric_decimals=2, imperial_decimals=2
)
DISPLAYS: Final[Mapping[str, Display]] = {
    "speed": SPEED, "height": DISTANCE, "mass": MASS, "energy": KINETIC,
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class RulesOfPlace:
    """What the rules of one place say of a build; `others` are rules without a number."""

    place: str
    verdicts: tuple[Verdict, ...]
    others: tuple[str, ...]


def rule_verdicts(p: Performance) -> tuple[RulesOfPlace, ...]:
    """A build against every rule that Slipfit knows, by place, in the order of the tables."""
    stands = standings(p)
    judged: dict[str, tuple[list[Verdict], list[str]]] = {}
    for rule in rules():
        verdicts, others = judged.setdefault(rule.place, ([], []))
        if rule.measure == "none":
            others.append(f"{rule.says}: {rule.rule}, read {rule.read}.")
            continue
        known = [s for s in stands[rule.measure] if math.isfinite(s.value)]
        if known:
            verdicts.append(_verdict(rule, known))
    return tuple(
        RulesOfPlace(place=place, verdicts=tuple(verdicts), others=tuple(others))
        for place, (verdicts, others) in judged.items()
    )


def _verdict(rule: Rule, known: list[Standing]) -> Verdict:
    most = known[0]
    state = rule.state(most.value)
    display = DISPLAYS[rule.measure]

    def sentence(system: str) -> str:
        limit = display.text(rule.limit, system)
        value, ratio = display.text(most.value, system), _times(most.value / rule.limit)
        subject = rule.says[:1].upper() + rule.says[1:]
        said = f"{subject}: {rule.bound} {limit}. {most.when.capitalize()} {value} ({ratio} ×)"
        rest = [
            f"{s.when} {display.text(s.value, system)}, {rule.state(s.value)}" for s in known[1:]
        ]
        return "; ".join([said, *rest])

    return Verdict(
        id=rule.id,
        family="rule",
        state=state,
        kind="",
        subject=rule.says,
        amount=most.value / rule.limit,
        sentence_metric=sentence("metric"),
        sentence_imperial=sentence("imperial"),
        basis=f"{rule.rule}, read {rule.read}",
        fix="" if state == "inside" else rule.beyond,
    )


def _times(ratio: float) -> str:
    """A ratio with the digits that mean something: `0.96`, `2.46`, `72`."""
    return f"{ratio:.2f}" if ratio < 10.0 else f"{ratio:.0f}"
