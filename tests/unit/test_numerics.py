"""Roots, curves and samples: limits and exactness."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from slipfit.numerics import bracketed_root, low_discrepancy, normal_quantile, pchip, quantiles


@given(st.lists(st.floats(0.05, 50.0), min_size=1, max_size=20))
def test_bracketed_root_finds_every_case_at_once(targets):
    k = np.array(targets)
    root = bracketed_root(lambda x: x**3 - k, np.zeros_like(k), np.full_like(k, 5.0))
    assert root == pytest.approx(np.cbrt(k), rel=1e-9)


def test_bracketed_root_stops_once_it_stands_on_the_root():
    calls = []

    def line(x):
        calls.append(1)
        return x - 2.0

    assert bracketed_root(line, [0.0], [3.0], steps=40) == pytest.approx([2.0], rel=1e-15)
    assert len(calls) < 10


def test_pchip_passes_through_its_points_and_never_overshoots():
    x = np.array([0.0, 1.0, 2.0, 4.0, 5.0])
    y = np.array([0.0, 0.0, 1.0, 1.0, 0.0])
    assert pchip(x, y, x) == pytest.approx(y, abs=1e-15)
    fine = pchip(x, y, np.linspace(0, 5, 501))
    assert fine.min() >= 0.0
    assert fine.max() <= 1.0


def test_pchip_is_exact_for_a_straight_line():
    x = np.array([0.0, 0.3, 2.0, 7.0])
    at = np.linspace(0, 7, 50)
    assert pchip(x, 3 * x - 1, at) == pytest.approx(3 * at - 1, abs=1e-12)


def test_samples_cover_every_tenth_of_every_dimension():
    points = low_discrepancy(64, 11)
    assert points.shape == (64, 11)
    for column in points.T:
        counts, _ = np.histogram(column, bins=8, range=(0, 1))
        assert counts.min() >= 4  # 8 expected; plain random numbers often leave 2 or fewer
    assert np.array_equal(points, low_discrepancy(64, 11))


# Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1: P(x) at printed x;
# the approximation's stated error is 4.5e-4.
@pytest.mark.parametrize(
    ("p", "x"), [(0.5, 0.0), (0.8413447, 1.0), (0.9772499, 2.0), (0.1586553, -1.0)]
)
def test_normal_quantile_matches_as_table_26_1(p, x):
    assert normal_quantile(p) == pytest.approx(x, abs=4.5e-4)


def test_bracketed_root_gives_the_nearer_end_where_there_is_no_root():
    k = np.array([-1.0, 2.0, 30.0])
    root = bracketed_root(lambda x: x - k, np.zeros(3), np.full(3, 5.0))
    assert root == pytest.approx([0.0, 2.0, 5.0], abs=1e-12)


def test_quantiles_are_numpys_without_what_is_missing():
    """numpy's own linear quantiles, column by column; to rounding."""
    values = low_discrepancy(37, 6)
    values[:5, 1] = values[::2, 2] = values[1:, 3] = np.nan
    shares = (0.0, 0.1, 0.5, 0.9, 1.0)
    assert quantiles(values, shares) == pytest.approx(np.nanquantile(values, shares, axis=0))
    assert quantiles(values[:, 0], shares) == pytest.approx(np.quantile(values[:, 0], shares))
    assert np.isnan(quantiles(np.full((4, 1), np.nan), shares)).all()
