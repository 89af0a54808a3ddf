"""How a limit is judged: the ratio of what the build asks to what the limit allows, in one way."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from slipfit.checks.verdict import Verdict
from slipfit.flight.performance import Performance
from slipfit.units import Display

NEAR = 0.9  # from here to the limit a verdict says "near"; our choice


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a build asks of a limit (SI): the value, what is allowed, and whether it is a floor
    (a voltage that must not fall below) rather than a ceiling."""

    value: float
    allowed: float
    floor: bool = False
    base: float = 0.0  # what ratios count from: temperatures from the day's air

    @property
    def ratio(self) -> float:
        """1 at the limit, above 1 past it; infinite where a floor asks for something and there is
        nothing."""
        if not self.floor:
            return (self.value - self.base) / (self.allowed - self.base)
        return self.allowed / self.value if self.value > 0.0 else math.inf


@dataclass(frozen=True, kw_only=True)
class LimitKind:
    """A line of the registry: one limit, the part kind it concerns, how it is said and based."""

    id: str
    kind: str
    subject: str
    when: str
    display: Display
    asked: Callable[[Performance], Asked | None]
    basis: str
    fix: Callable[[Performance, Asked], str]
    flown: bool = False  # whether it needs a whole flight, which takes longer
    near: float = NEAR  # ratio from which it says "near"; 1 for counts, which are exact


def state_of(ratio: float, near: float = NEAR) -> str:
    """`inside`, `near` or `past`; a value that is not a number is past."""
    if ratio <= near:
        return "inside"
    return "near" if ratio <= 1.0 else "past"


def judge(limit: LimitKind, p: Performance) -> Verdict | None:
    """The verdict of one limit on one build; None where the limit does not apply."""
    asked = limit.asked(p)
    if asked is None:
        return None
    ratio = asked.ratio
    state = state_of(ratio, limit.near)

    def sentence(system: str) -> str:
        value = limit.display.text(asked.value, system)
        allowed = limit.display.text(asked.allowed, system)
        of = f"{value}, at least {allowed}" if asked.floor else f"{value} of {allowed}"
        subject = limit.subject[:1].upper() + limit.subject[1:]
        share = f" ({ratio:.2f} ×)" if math.isfinite(ratio) else ""
        return f"{subject} is {state} its limit: {of}{share}, {limit.when}"

    return Verdict(
        id=limit.id,
        family="limit",
        state=state,
        kind=limit.kind,
        subject=limit.subject,
        amount=ratio,
        sentence_metric=sentence("metric"),
        sentence_imperial=sentence("imperial"),
        basis=limit.basis,
        fix=limit.fix(p, asked) if state != "inside" else "",
    )


def first(values: object) -> float:
    """The first sample of an array, as a float."""
    return float(np.ravel(np.asarray(values, dtype=float))[0])
