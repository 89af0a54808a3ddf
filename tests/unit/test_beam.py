"""Limits of the arm's bending, and what it refuses."""

import numpy as np
import pytest

from slipfit.errors import ValidityError
from slipfit.physics.beam import (
    cantilever_frequency,
    cantilever_frequency_rayleigh,
    cantilever_mode,
    cantilever_stiffness,
    laminate_modulus,
    second_moment_rectangle,
)


def test_heavy_tip_is_a_spring_and_a_mass():
    k = cantilever_stiffness(0.09, 60e9, 125e-12)
    spring = cantilever_frequency_rayleigh(k, 1.0, 0.0)
    assert cantilever_frequency(0.09, 60e9, 125e-12, 1.0, 1e-4) == pytest.approx(spring, rel=1e-4)


def test_modes_broadcast_and_fall_with_the_tip_mass():
    modes = cantilever_mode(np.linspace(0.0, 50.0, 12).reshape(3, 4))
    assert modes.shape == (3, 4)
    assert np.all(np.diff(modes.ravel()) < 0.0)


def test_laminate_has_its_two_moduli_along_and_across():
    ply = (130e9, 9e9, 4.5e9, 0.3)
    assert laminate_modulus(0.0, *ply) == pytest.approx(130e9)
    assert laminate_modulus(np.pi / 2, *ply) == pytest.approx(9e9)
    assert laminate_modulus(-0.4, *ply) == pytest.approx(laminate_modulus(0.4, *ply))


def test_isotropic_plate_has_one_modulus_in_every_direction():
    E, nu = 70e9, 0.33
    angles = np.linspace(0.0, np.pi, 7)
    assert laminate_modulus(angles, E, E, E / (2 * (1 + nu)), nu) == pytest.approx(E)


def test_turning_an_arm_on_edge_stiffens_it_by_the_square_of_its_sides():
    assert second_moment_rectangle(0.005, 0.012) == pytest.approx(
        second_moment_rectangle(0.012, 0.005) * (12 / 5) ** 2
    )


def test_beams_say_what_they_need():
    with pytest.raises(ValidityError, match="length_m must be 1e-06 to inf .*, got 0"):
        cantilever_stiffness(0.0, 60e9, 1e-10)
    with pytest.raises(ValidityError, match="something moves"):
        cantilever_frequency_rayleigh(1e4, 0.0, 0.0)
    with pytest.raises(ValidityError, match="beam_mass_kg must be 1e-09 to inf"):
        cantilever_frequency(0.09, 60e9, 1e-10, 0.04, 0.0)
    with pytest.raises(ValidityError, match="mass_ratio must be 0 to 10000 .*, got -1"):
        cantilever_mode(-1.0)
    with pytest.raises(ValidityError, match="width_m must be 0 to inf .*, got -1"):
        second_moment_rectangle(-1.0, 0.005)
