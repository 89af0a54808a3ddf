"""Limits and refusals of the air model."""

from __future__ import annotations

import numpy as np
import pytest

from slipfit.errors import ValidityError
from slipfit.physics import air


def test_dry_and_moist_formulas_meet_at_zero_humidity():
    assert air.air_density_humid(95_000.0, 280.0, 0.0) == pytest.approx(
        air.air_density_dry(95_000.0, 280.0), rel=1e-14
    )


def test_moist_air_is_lighter_and_the_more_so_the_warmer():
    loss = [
        1.0 - air.air_density_humid(101_325.0, T, 1.0) / air.air_density_dry(101_325.0, T)
        for T in (263.15, 283.15, 303.15)
    ]
    assert 0.0 < loss[0] < loss[1] < loss[2]


def test_temperature_offset_changes_density_as_the_inverse_of_temperature():
    base, warm = air.standard_air(800.0), air.standard_air(800.0, 20.0)
    assert warm.pressure_Pa == base.pressure_Pa
    assert warm.density_kg_m3 * warm.temperature_K == pytest.approx(
        base.density_kg_m3 * base.temperature_K, rel=1e-12
    )


def test_measured_values_replace_standard_ones():
    day = air.air_of_day(1200.0, temperature_K=265.15, pressure_Pa=88_000.0)
    assert day.temperature_K == 265.15
    assert day.pressure_Pa == 88_000.0
    assert day.density_kg_m3 == air.air_density_dry(88_000.0, 265.15)


def test_air_can_be_a_key_and_holds_plain_floats():
    day = air.air_of_day(300.0, relative_humidity=0.4)
    assert {day: 1}[air.air_of_day(300.0, relative_humidity=0.4)] == 1
    assert all(type(value) is float for value in vars(day).values())


def test_formulas_broadcast():
    p = np.array([[90e3], [100e3]])
    T = np.array([260.0, 280.0, 300.0])
    assert np.shape(air.air_density_dry(p, T)) == (2, 3)
    assert np.shape(air.air_density_humid(p, T, 0.5)) == (2, 3)


@pytest.mark.parametrize("height_m", [-2001.0, 11_001.0, float("nan")])
def test_height_outside_the_troposphere_is_refused(height_m):
    with pytest.raises(
        ValidityError, match=r"height_m must be -2000 to 11000 \(ISO 2533 troposphere\)"
    ):
        air.air_of_day(height_m)


def test_humidity_in_percent_is_refused():
    with pytest.raises(ValidityError, match=r"air_of_day: relative_humidity .* got 55"):
        air.air_of_day(0.0, relative_humidity=55.0)


@pytest.mark.parametrize("humidity", [-0.1, float("nan")])
def test_humidity_that_is_no_fraction_is_refused(humidity):
    with pytest.raises(ValidityError, match=r"relative_humidity must be 0 to 1"):
        air.air_of_day(0.0, relative_humidity=humidity)


def test_celsius_taken_for_kelvin_is_refused():
    with pytest.raises(ValidityError, match=r"temperature_K must be 200 to 400 .*got -8"):
        air.air_of_day(0.0, temperature_K=-8.0)


def test_sea_level_pressure_in_hectopascal_is_refused():
    with pytest.raises(ValidityError, match=r"pressure_Pa must be 15000 to 115000 .*got 1013"):
        air.air_of_day(0.0, pressure_Pa=1013.0)
