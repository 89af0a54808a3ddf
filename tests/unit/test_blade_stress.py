"""Tension in turning blades: the rod that can be done by hand, scaling, refusals."""

import numpy as np
import pytest

from slipfit.errors import ValidityError
from slipfit.physics.blade_stress import blade_stress


def test_a_uniform_rod_is_exact_at_every_radius():
    r = np.linspace(0.01, 0.06, 6)
    stress = blade_stress(r, np.full(6, 2e-6), 3000.0, 1200.0)
    assert stress == pytest.approx(0.5 * 1200.0 * 3000.0**2 * (0.06**2 - r**2), rel=1e-12, abs=1e-6)


def test_a_blade_that_tapers_to_nothing_is_exact_at_its_root():
    """Section S0 (R - r)/R: the integral of S r is R^2 S0 / 6, in one piece or in many."""
    for n in (2, 9):
        r = np.linspace(0.0, 0.05, n)
        S = np.maximum(1.0 - r / 0.05, 1e-12)
        root = blade_stress(r, S, 2000.0, 1000.0)[0]
        assert root == pytest.approx(1000.0 * 2000.0**2 * 0.05**2 / 6, rel=1e-9)


def test_it_grows_with_the_square_of_speed_and_not_with_the_sections_themselves():
    r, S = np.array([0.01, 0.03, 0.06]), np.array([3.0, 2.0, 1.0])
    both = blade_stress(r, S, np.array([1000.0, 2000.0]), 1200.0)
    assert both[1] == pytest.approx(4 * both[0])
    assert blade_stress(r, 10 * S, 1000.0, 1200.0) == pytest.approx(both[0])
    assert both[0][-1] == 0.0


@pytest.mark.parametrize(
    ("r", "S", "name"),
    [([0.02, 0.01], [1.0, 1.0], "rise of stations_m"), ([0.01, 0.02], [1.0, 0.0], "sections_m2")],
)
def test_what_is_no_blade_is_refused(r, S, name):
    with pytest.raises(ValidityError, match=f"blade_stress: {name} must be"):
        blade_stress(r, S, 1000.0, 1200.0)
