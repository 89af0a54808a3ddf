"""The record of a check: what it judges and how."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from slipfit.build import Build
from slipfit.checks.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class FitCheck:
    """One fit check: `judge(build)` is its verdict, None where the part or the seat is missing.

    `kind` is the kind of part it is about; `also` other kinds that its verdict may be about.
    A check of many parts at once says by `about(build, kind)` how those of one kind do.
    """

    id: str
    kind: str
    label: str
    judge: Callable[[Build], Verdict | None]
    also: tuple[str, ...] = ()
    family: str = "fit"
    about: Callable[[Build, str], Verdict | None] | None = None
