"""Comparison with a number at the digits that its source prints."""

from decimal import Decimal
from typing import Any

import pytest


def printed(text: str, ulps: float = 0.5) -> Any:
    """Approx for a number as a source prints it: half a unit in its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    if not isinstance(exponent, int):
        raise ValueError(f"printed: text must be a finite number, got '{text}'")
    last_digit = Decimal(1).scaleb(exponent)
    return pytest.approx(float(text), rel=0, abs=ulps * float(last_digit) * (1 + 1e-9))
