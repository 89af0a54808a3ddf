"""Roots of several equations at once, and the least value on a grid."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from slipfit.numerics import grid_minimum, newton_roots


@given(st.lists(st.tuples(st.floats(0.2, 3.0), st.floats(0.1, 2.0)), min_size=1, max_size=6))
def test_newton_finds_where_a_circle_meets_a_line_for_all_cases(cases):
    radius = np.array([r for r, _ in cases])
    slope = np.array([s for _, s in cases])

    def residuals(p):
        x, y = p
        return np.stack([x**2 + y**2 - radius**2, y - slope * x])

    start = np.stack([radius, radius])
    x, y = newton_roots(residuals, start, 0.0 * start, 4.0 + 0.0 * start, steps=9)
    assert x == pytest.approx(radius / np.sqrt(1 + slope**2), rel=1e-6)
    assert y == pytest.approx(slope * x, rel=1e-6)


def test_newton_leaves_a_case_without_an_answer_where_it_is_and_solves_the_others():
    good = np.array([True, False])

    def residuals(p):
        return np.stack([np.where(good, p[0] ** 2 - 2.0, np.nan)])

    (x,) = newton_roots(residuals, np.ones((1, 2)), np.zeros((1, 2)), np.full((1, 2), 4.0))
    assert x[0] == pytest.approx(2**0.5, rel=1e-9)
    assert x[1] == 1.0


def test_newton_stays_within_its_bounds_and_a_flat_function_stays_put():
    start, low, high = np.full((1, 1), 0.5), np.zeros((1, 1)), np.ones((1, 1))
    assert newton_roots(lambda p: p - 7.0, start, low, high)[0, 0] == 1.0
    assert newton_roots(lambda p: 0.0 * p + 1.0, start, low, high)[0, 0] == 0.5


@given(st.floats(0.5, 9.5), st.floats(0.1, 5.0), st.floats(-3.0, 3.0))
def test_grid_minimum_is_exact_for_parabolas_inside(place, bend, least):
    x = np.linspace(0.0, 10.0, 21)
    at, value = grid_minimum(x, (bend * (x - place) ** 2 + least)[None, :])
    assert at[0] == pytest.approx(place, abs=1e-6)
    assert value[0] == pytest.approx(least, abs=1e-6)


def test_grid_minimum_at_an_end_or_beside_a_gap_is_the_node():
    x = np.linspace(0.0, 4.0, 5)
    rows = np.array([[1.0, 2, 3, 4, 5], [9, 8, np.inf, np.inf, np.inf], [np.inf] * 5])
    at, value = grid_minimum(x, rows)
    assert list(at[:2]) == [0.0, 1.0]
    assert list(value) == [1.0, 8.0, np.inf]
