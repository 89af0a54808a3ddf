"""Published values: cantilevers with a mass at the tip (tests/data/beam_figures.csv)."""

import math

import pytest

from published import printed
from slipfit.physics.beam import (
    cantilever_frequency,
    cantilever_frequency_rayleigh,
    cantilever_mode,
    cantilever_stiffness,
    second_moment_rectangle,
)
from tables import figures

FIGURES = figures("beam_figures.csv")
LENGTH, WIDTH, HEIGHT, MODULUS, TIP = 0.090, 0.012, 0.005, 60e9, 0.040
BEAM = LENGTH * WIDTH * HEIGHT * 1550.0
INERTIA = second_moment_rectangle(WIDTH, HEIGHT)


def test_eigenvalue_of_a_bare_cantilever():
    assert cantilever_mode(0.0) == printed(FIGURES["BEAM-NOTIP"])


def test_eigenvalue_with_a_tip_as_heavy_as_the_beam():
    assert cantilever_mode(1.0) == printed(FIGURES["BEAM-MU1"])


def test_rayleigh_with_a_tip_as_heavy_as_the_beam():
    """With EI = m = L = 1: angular frequency sqrt(3 / (1 + 33/140))."""
    value = 2.0 * math.pi * cantilever_frequency_rayleigh(3.0, 1.0, 1.0)
    assert value == printed(FIGURES["BEAM-MU1-RAY"])


def test_stiffness_of_the_carbon_arm():
    assert cantilever_stiffness(LENGTH, MODULUS, INERTIA) == printed(FIGURES["ARM-K"])


def test_rayleigh_frequency_of_the_carbon_arm():
    k = cantilever_stiffness(LENGTH, MODULUS, INERTIA)
    assert cantilever_frequency_rayleigh(k, TIP, BEAM) == printed(FIGURES["ARM-F-RAY"])


def test_exact_frequency_of_the_carbon_arm():
    exact = cantilever_frequency(LENGTH, MODULUS, INERTIA, TIP, BEAM)
    assert exact == printed(FIGURES["ARM-F-EXACT"])


def test_figures_are_all_used():
    assert set(FIGURES) == {
        "BEAM-NOTIP",
        "BEAM-MU1",
        "BEAM-MU1-RAY",
        "ARM-K",
        "ARM-F-RAY",
        "ARM-F-EXACT",
    }


@pytest.mark.parametrize("ratio", [0.0, 0.1, 1.0, 10.0, 1000.0])
def test_rayleigh_is_never_low_and_at_most_1_5_percent_high(ratio):
    """Its deflection curve is a guess, so it can only stiffen the beam."""
    exact = cantilever_mode(ratio)
    guess = 2.0 * math.pi * cantilever_frequency_rayleigh(3.0, ratio, 1.0)
    assert 1.0 - 1e-9 <= guess / exact < 1.015
