"""What would mend leads that get too hot; shared by the limits on leads."""

from __future__ import annotations

import numpy as np

from slipfit.checks.limit import first
from slipfit.numerics import Array


def lead_fix(thinnest: Array, what: str) -> str:
    """The gauge that would do, or that none does."""
    gauge = first(thinnest)
    if not np.isfinite(gauge):
        return "shorter passes, less pitch or fewer cells: no gauge sold stays cool enough"
    return f"{what} of {gauge:.0f} AWG or thicker, or shorter passes"
