"""Published values: lift slopes of small wings (tables computed from the formulas named)."""

import math

import pytest

from published import printed
from slipfit.physics.fin import lift_slope_datcom, lift_slope_helmbold
from tables import rows

SLOPES = rows("fin_lift_slope.csv")
DATCOM = {  # column: sweep [rad], Mach, section slope ratio
    "DATCOM k=0.95 L=0": (0.0, 0.0, 0.95),
    "DATCOM k=1 Lc/2=30": (math.radians(30.0), 0.0, 1.0),
    "DATCOM k=1 Lc/2=45": (math.radians(45.0), 0.0, 1.0),
    "DATCOM k=1 M=0.25": (0.0, 0.25, 1.0),
}


@pytest.mark.parametrize("row", SLOPES, ids=lambda row: row["AR"])
def test_lift_slope_matches_helmbold(row):
    slope = lift_slope_helmbold(float(row["AR"]))
    assert slope == printed(_padded(row["Helmbold 2piA/(2+sqrt(A^2+4))"]))


@pytest.mark.parametrize("column", DATCOM)
@pytest.mark.parametrize("row", SLOPES, ids=lambda row: row["AR"])
def test_lift_slope_matches_datcom(row, column):
    sweep, mach, k = DATCOM[column]
    assert lift_slope_datcom(float(row["AR"]), sweep, mach, k) == printed(_padded(row[column]))


@pytest.mark.parametrize("aspect", ["0.25", "0.5"])
def test_low_aspect_ratio_approaches_jones(aspect):
    row = next(r for r in SLOPES if r["AR"] == aspect)
    # Jones is the limit; Helmbold lies below it by A^2/32 to first order
    A = float(aspect)
    gap = 1.0 - lift_slope_helmbold(A) / float(row["Jones piA/2"])
    assert gap == pytest.approx(A**2 / 16.0, rel=0.1)


def _padded(text):
    """The table drops trailing zeros of five printed decimals."""
    return f"{float(text):.5f}"
