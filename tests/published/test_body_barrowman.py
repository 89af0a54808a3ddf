"""Published values: Barrowman's two worked examples (lengths in inches), DATCOM example 1."""

import math

import pytest

from published import printed
from slipfit.physics.air import air_of_day
from slipfit.physics.body.crossflow import apparent_mass_factor_munk
from slipfit.physics.body.fins import Fin, fin_loads, fin_moment
from slipfit.physics.centre_of_pressure import (
    centre_of_pressure,
    fins_barrowman,
    nose_barrowman,
    slender_body_force,
)
from tables import rows

AIR = air_of_day()
GEOMETRY = {  # nose length, diameter; root, tip, span, sweep, station of the fins
    "aerobee-350": (110.0, 22.0, (50.0, 25.0, 34.2, 34.2, 400.45)),
    "javelin": (3.6, 0.75, (1.6, 0.85, 1.65, 0.75, 11.2)),
}


def _row(example, part):
    row = rows("body_barrowman_examples.csv", example=example, part=part)[0]
    return row["CN_alpha_per_rad(printed)"], row["CP_in(printed)"]


def _parts(example):
    length, d, fins = GEOMETRY[example]
    return nose_barrowman(length, d, d), fins_barrowman(4, *fins, d, d)


@pytest.mark.parametrize("example", GEOMETRY)
def test_nose_matches_barrowman(example):
    slope, station = _row(example, "nose")
    nose, _ = _parts(example)
    assert nose.slope_per_rad == printed(slope)
    assert nose.station_m == printed(station)


@pytest.mark.parametrize("example", GEOMETRY)
def test_fins_match_barrowman(example):
    slope, station = _row(example, "fins")
    _, fins = _parts(example)
    # one unit: the reports add terms that they have rounded (0.34 + 0.32 is 0.652 unrounded)
    assert fins.slope_per_rad == printed(slope, ulps=1.0)
    assert fins.station_m == printed(station, ulps=1.0)


@pytest.mark.parametrize("example", GEOMETRY)
def test_centre_of_pressure_matches_barrowman(example):
    slope, station = _row(example, "total")
    total = centre_of_pressure(_parts(example))
    assert total.slope_per_rad == printed(slope, ulps=1.0)
    # 0.2 %: the first report rounds the sum of its products, 8398 over 21.5, to 391
    assert total.station_m == pytest.approx(float(station), rel=0.002)


def test_slender_body_force_matches_datcom_example_1():
    """Sections as in the example's input, feet and square feet; reference 8.85, chord 2.46."""
    stations = [0.0, 0.258, 0.589, 1.260, 2.260, 2.590, 2.930, 3.590, 4.570, 6.260]
    sections = [0.0, 0.080, 0.160, 0.323, 0.751, 0.883, 0.939, 1.032, 1.032, 1.032]
    force = slender_body_force(stations, sections, 8.85)
    slope_per_deg, moment_per_deg = 3.433e-3, 3.443e-3  # seen: notes of body_datcom_example1.csv
    station = 4.14 - 2.46 * moment_per_deg / slope_per_deg
    assert force.station_m == pytest.approx(station, rel=1e-3)
    fineness = 6.26 / (4.0 * 1.032 / 3.14159265) ** 0.5
    slope = force.slope_per_rad * apparent_mass_factor_munk(fineness) * 3.14159265 / 180.0
    # 3 %: DATCOM reads the apparent mass factor from a chart
    assert slope == pytest.approx(slope_per_deg, rel=0.03)


@pytest.mark.parametrize("count", [3, 4])
def test_fins_of_a_frame_match_barrowman(count):
    """A rectangular fin on a body as the frame's model has it, at a small incidence, is Barrowman's
    set of fins: the same force, and the same place."""
    chord, span, body, reference = 0.06, 0.05, 0.045, 0.066
    fin = Fin(area_m2=chord * span, span_m=span, thickness_m=0.002, body_diameter_m=body)
    V, alpha = 40.0, 1e-4
    u, w = V * math.cos(alpha), V * math.sin(alpha)
    q = 0.5 * AIR.density_kg_m3 * V**2
    force = count * float(fin_loads(fin, u, w, AIR).normal_N)
    moment = count * float(fin_moment(fin, u, w, AIR))
    set_of_fins = fins_barrowman(count, chord, chord, span, 0.0, 0.2, body, reference)
    area = math.pi / 4 * reference**2
    assert force / (q * area * alpha) == pytest.approx(set_of_fins.slope_per_rad, rel=1e-5)
    assert 0.2 + chord / 2 + moment / force == pytest.approx(set_of_fins.station_m, rel=1e-5)
