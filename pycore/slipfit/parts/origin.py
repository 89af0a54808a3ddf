"""Where a number of a part comes from, and how far it may be off."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from slipfit.errors import InputError, nearest

MEASURED: Final = "measured"
DATA_SHEET: Final = "data sheet"
ESTIMATED: Final = "estimated"

# Half-width of the 10-90 % range relative to the value; our choice, used where none is stated.
SPREADS: Final[Mapping[str, float]] = {MEASURED: 0.02, DATA_SHEET: 0.05, ESTIMATED: 0.20}


@dataclass(frozen=True)
class Origin:
    """The origin of one value: its kind, the half-width of its 10-90 % range relative to the
    value, and a note. A spread left out is the usual one of the kind (`SPREADS`)."""

    kind: str
    spread: float = math.nan
    note: str = ""

    def __post_init__(self) -> None:
        if self.kind not in SPREADS:
            raise InputError(
                f"no origin '{self.kind}'{nearest(self.kind, SPREADS)}", field="origin"
            )
        if math.isnan(self.spread):
            object.__setattr__(self, "spread", SPREADS[self.kind])
        if not 0.0 <= self.spread <= 2.0:
            raise InputError(
                f"origin: spread must be 0 to 2 (0 to 200 %), got {self.spread:g}", field="spread"
            )

    @property
    def guessed(self) -> bool:
        """True where nobody stated the value and Slipfit estimated it."""
        return self.kind == ESTIMATED
