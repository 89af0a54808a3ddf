"""What is made when it is first asked for, and kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import wraps
from typing import TypeVar

S = TypeVar("S")
T = TypeVar("T")


def kept_for_latest(make: Callable[[S], T]) -> Callable[[S], T]:
    """A function that keeps its last answer: what one report consists of asks for the same often.

    It is given when asked about the very same object, because comparing builds takes long.
    """
    latest: list[tuple[S, T]] = []

    @wraps(make)
    def kept(asked: S) -> T:
        if not latest or latest[0][0] is not asked:
            latest[:] = [(asked, make(asked))]
        return latest[0][1]

    return kept


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
