"""How fit verdicts speak: one sentence per unit system, and what would mend it in both."""

from __future__ import annotations

from collections.abc import Callable

from slipfit.checks.verdict import Verdict
from slipfit.units import LENGTH_MM

ADJECTIVES = ("long", "wide", "high")


def size(length_m: float, system: str) -> str:
    """A length without its sign: `2.4 mm`, `0.09 in`."""
    return LENGTH_MM.text(abs(length_m), system)


def both(length_m: float) -> str:
    """A length in both systems: `38.0 mm (1.50 in)`."""
    return f"{size(length_m, 'metric')} ({size(length_m, 'imperial')})"


def box_size(sizes_m: tuple[float, ...]) -> str:
    """A box in both systems: `73.0 × 38.0 × 35.0 mm (2.87 × 1.50 × 1.38 in)`."""

    def one(system: str) -> str:
        numbers = " × ".join(LENGTH_MM.number(value, system) for value in sizes_m)
        return f"{numbers} {LENGTH_MM.unit(system)}"

    return f"{one('metric')} ({one('imperial')})"


def state_of(gap_m: float, needed_m: float) -> str:
    """The fit verdict of a gap where a certain room is asked for."""
    if gap_m < 0:
        return "clashes"
    return "snug" if gap_m < needed_m - 1e-9 else "clear"


def says(subject: str, state: str, gap_m: float, where: str, system: str) -> str:
    """`Pack clashes by 2.4 mm in width`; snug and clear give the gap that is left."""
    if state == "clashes":
        return f"{subject} clashes by {size(gap_m, system)} {where}"
    return f"{subject} is {state}: {size(gap_m, system)} left {where}"


def fit_verdict(
    id: str, kind: str, subject: str, state: str, gap_m: float, sentence: Callable[[str], str],
    basis: str, fix: str = "",
) -> Verdict:  # fmt: skip
    """A fit verdict from a sentence that takes the unit system; a clear part needs no fix."""
    return Verdict(
        id=id,
        family="fit",
        state=state,
        kind=kind,
        subject=subject,
        amount=gap_m,
        sentence_metric=sentence("metric"),
        sentence_imperial=sentence("imperial"),
        basis=basis,
        fix=fix,
    )
