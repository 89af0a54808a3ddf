"""The record of a verdict: how a part fits, or how near a limit the build runs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

FIT_STATES: Final = ("clear", "snug", "clashes")
LIMIT_STATES: Final = ("inside", "near", "past")
SEVERITY: Final = {"clear": 0, "inside": 0, "snug": 1, "near": 1, "clashes": 2, "past": 2}


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """One judgement of one build.

    `family` is `"fit"` or `"limit"`; `state` one of the words of that family; `kind` the part kind
    it is about; `amount` the clearance in m, or of an angle in rad (fit; negative where it
    clashes) or the ratio to the limit (limit); `sentence_metric` and `sentence_imperial` say it
    aloud; `basis` names the rule and its source; `fix` what would mend it.
    """

    id: str
    family: str
    state: str
    kind: str
    subject: str
    amount: float
    sentence_metric: str
    sentence_imperial: str
    basis: str = ""
    fix: str = ""

    @property
    def severity(self) -> int:
        """0 good, 1 worth a look, 2 does not work."""
        return SEVERITY[self.state]

    def sentence(self, system: str) -> str:
        """The sentence in a unit system."""
        return self.sentence_metric if system == "metric" else self.sentence_imperial
