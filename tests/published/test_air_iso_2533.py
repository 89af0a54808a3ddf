"""Published values: ISO 2533 troposphere, Sutherland viscosity, moist air (tests/data/air_*.csv).

All three tables are flagged computed: the standard's formulas evaluated by others' libraries.
"""

from __future__ import annotations

import pytest

from published import printed
from slipfit.physics import air
from tables import rows

ISA = [(float(r["H_geopotential_m"]), r) for r in rows("air_isa.csv")]


def geometric(H: float) -> float:
    """Inverse of the geopotential height: the table's H as a height one can ask for."""
    return air.EARTH_RADIUS_M * H / (air.EARTH_RADIUS_M - H)


@pytest.mark.parametrize(("H", "row"), ISA)
def test_standard_temperature_matches_iso_2533_table(H, row):
    assert air.standard_temperature(H) == printed(row["T_K"])


@pytest.mark.parametrize(("H", "row"), ISA)
def test_standard_pressure_matches_iso_2533_table(H, row):
    assert air.standard_pressure(H) == printed(row["p_Pa"])


@pytest.mark.parametrize(("H", "row"), [case for case in ISA if case[0] < 11_000.0])
def test_air_of_day_matches_iso_2533_table(H, row):
    today = air.air_of_day(geometric(H))
    assert today.density_kg_m3 == printed(row["rho"])
    assert today.sound_speed_m_s == printed(row["a_m_s"])
    assert today.viscosity_Pa_s == printed(row["mu_Pa_s"])


@pytest.mark.parametrize("row", rows("air_viscosity.csv"))
def test_viscosity_sutherland_matches_iso_2533_table(row):
    mu = air.viscosity_sutherland(float(row["T_K"]))
    assert mu == printed(row["mu ISO2533 beta=1.458e-6 S=110.4"])
    # White's constants differ in the fifth digit; both round to the same four
    assert mu == pytest.approx(float(row["mu White 1.716e-5@273.15 S=110.4"]), rel=6e-5)


@pytest.mark.parametrize("row", rows("air_humid.csv"))
def test_saturation_vapour_pressure_matches_buck_table(row):
    t = float(row["t_C"]) + 273.15
    es = air.saturation_vapour_pressure_buck(t)
    assert es == printed(row["es Buck Pa"])
    assert es == pytest.approx(float(row["psv CIPM Pa"]), rel=6e-4)  # as the docstring promises


@pytest.mark.parametrize("row", rows("air_humid.csv"))
def test_air_density_humid_matches_ideal_mixture_table(row):
    rho = air.air_density_humid(float(row["p_Pa"]), float(row["t_C"]) + 273.15, float(row["RH"]))
    # ten units of the sixth decimal: the table's gas constant is 287.055, ISO's is 287.05287
    assert rho == printed(row["rho ideal mix (Buck es)"], ulps=10)


@pytest.mark.parametrize("row", rows("air_humid.csv"))
def test_air_density_humid_is_close_to_cipm_2007(row):
    rho = air.air_density_humid(float(row["p_Pa"]), float(row["t_C"]) + 273.15, float(row["RH"]))
    # the ideal mixture leaves out compressibility and the enhancement factor
    deficit = 1.0 - rho / float(row["rho CIPM-2007"])
    assert 0.0 < deficit < 6.5e-4


def test_air_agrees_with_a_general_atmosphere_library():
    ambiance = pytest.importorskip("ambiance")
    rel = 4e-7  # the library starts each layer from a base pressure rounded to six digits
    heights = [-1000.0, 0.0, 123.0, 1500.0, 4321.0, 9999.0]
    theirs = ambiance.Atmosphere(heights)
    for k, h in enumerate(heights):
        ours = air.air_of_day(h)
        assert ours.temperature_K == pytest.approx(theirs.temperature[k], rel=rel)
        assert ours.pressure_Pa == pytest.approx(theirs.pressure[k], rel=rel)
        assert ours.density_kg_m3 == pytest.approx(theirs.density[k], rel=rel)
        assert ours.viscosity_Pa_s == pytest.approx(theirs.dynamic_viscosity[k], rel=rel)
        assert ours.sound_speed_m_s == pytest.approx(theirs.speed_of_sound[k], rel=rel)
