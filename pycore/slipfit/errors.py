"""The three ways a computation can refuse, each with a sentence that says what to mend.

Form of every message: `<who>: <name> must be <rule> (<source or reason>), got <value>`.
A bad answer ("clashes", "past the rating") is not an error; it is a verdict.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike, NDArray


class SlipfitError(ValueError):
    """Any refusal by Slipfit; `field` names the input to mark on a page, where there is one."""

    def __init__(self, message: str, *, field: str | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.field = field


class InputError(SlipfitError):
    """A value that no real part, frame or day could have, or text that cannot be read."""


class ValidityError(SlipfitError):
    """A value that may be real but lies outside the range a model was made for."""

    def __init__(
        self,
        message: str,
        *,
        field: str | None = None,
        low: float = -np.inf,
        high: float = np.inf,
        mask: NDArray[np.bool_] | None = None,
    ) -> None:
        super().__init__(message, field=field)
        self.low = low
        self.high = high
        self.mask = mask


class NoSolutionError(SlipfitError):
    """A solver found no answer; carries where it looked and how far off it stayed."""

    def __init__(self, message: str, *, low: float, high: float, residual: float) -> None:
        super().__init__(message)
        self.low = low
        self.high = high
        self.residual = residual


def require_range(
    who: str, name: str, value: ArrayLike, low: float, high: float, reason: str
) -> None:
    """Raise ValidityError unless every element of `value` lies in [low, high]; NaN never does."""
    array = np.asarray(value, dtype=float)
    inside = (array >= low) & (array <= high)
    if not inside.all():
        worst = array[~inside].ravel()[0]
        raise ValidityError(
            f"{who}: {name} must be {low:g} to {high:g} ({reason}), got {worst:g}",
            field=name,
            low=low,
            high=high,
            mask=~inside,
        )


def nearest(word: str, known: Iterable[str]) -> str:
    """The sentence tail that helps with a misspelt name: `; did you mean 'x'? There are: …`."""
    names = sorted(known)
    close = difflib.get_close_matches(word, names, n=1, cutoff=0.5)
    hint = f"; did you mean '{close[0]}'?" if close else "."
    return f"{hint} There are: {', '.join(repr(n) for n in names)}"
