"""A mapping whose values are made when first asked for, and kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TypeVar

T = TypeVar("T")


class OnDemand(Mapping[str, T]):
    """Values by name from their makers. Names, their order and their number cost nothing."""

    def __init__(self, makers: Mapping[str, Callable[[], T]]) -> None:
        self._makers = makers
        self._made: dict[str, T] = {}

    def __getitem__(self, name: str) -> T:
        if name not in self._made:
            self._made[name] = self._makers[name]()
        return self._made[name]

    def __contains__(self, name: object) -> bool:
        return name in self._makers

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)
