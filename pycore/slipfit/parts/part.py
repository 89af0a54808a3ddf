"""What every part has, whatever its kind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from slipfit.parts.key import key
from slipfit.parts.origin import Origin

OWN: Final = "own"  # the id of a part that a reader typed in


@dataclass(frozen=True, kw_only=True)
class Part:
    """Fields of every part. Values are SI floats; a sampled build puts arrays in their place.

    `origins` maps a field's name to where its value came from.
    """

    id: str
    name: str
    mass_kg: float = key("mass", "mass", "g", low=1e-4, high=20.0, help="All in, with its leads.")
    origins: Mapping[str, Origin] = field(default_factory=dict, compare=False)
    note: str = key("note", "text", default="", help="A sentence for readers.")

    @property
    def own(self) -> bool:
        """True where a reader typed the part in."""
        return self.id == OWN

    @property
    def guessed(self) -> tuple[str, ...]:
        """Names of the fields that nobody stated."""
        return tuple(name for name, origin in self.origins.items() if origin.guessed)
