"""Limits and refusals of the small-incidence centre of pressure."""

import numpy as np
import pytest

from slipfit.errors import InputError, ValidityError
from slipfit.physics.centre_of_pressure import (
    NormalForce,
    centre_of_pressure,
    fin_body_interference,
    fins_barrowman,
    nose_barrowman,
    slender_body_force,
    static_margin,
    transition_barrowman,
)


def test_shoulder_and_boat_tail_cancel_a_step_there_and_back():
    shoulder = transition_barrowman(0.05, 0.08, 0.04, 0.1, 0.08)
    boat_tail = transition_barrowman(0.08, 0.05, 0.04, 0.2, 0.08)
    assert shoulder.slope_per_rad == pytest.approx(-boat_tail.slope_per_rad)
    with pytest.raises(ValidityError, match="total slope_per_rad must be above 0.001"):
        centre_of_pressure([shoulder, boat_tail])


@pytest.mark.parametrize(("front", "rear"), [(0.05, 0.08), (0.08, 0.05), (0.0, 0.08), (0.08, 0.08)])
def test_transition_agrees_with_the_slender_body_integral(front, rear):
    """Its own formula against the sections of a cone in a thousand slices."""
    x = np.linspace(0.1, 0.2, 1001)
    S = np.pi / 4 * np.linspace(front, rear, x.size) ** 2
    tube = slender_body_force(np.append(0.0, x), np.append(S[0], S), S.max())
    conical = transition_barrowman(front, rear, 0.1, 0.1, np.sqrt(4 * S.max() / np.pi))
    moment = tube.slope_per_rad * tube.station_m
    assert conical.slope_per_rad * conical.station_m == pytest.approx(moment, rel=1e-5, abs=1e-12)


def test_ellipsoid_nose_agrees_with_its_sections():
    x = np.linspace(0.0, 0.12, 4001)
    S = 0.004 * (1.0 - (1.0 - x / 0.12) ** 2)
    whole = slender_body_force(x, S, 0.004)
    nose = nose_barrowman(0.12, 0.07, 0.07, "ellipsoid")
    assert nose.station_m == pytest.approx(whole.station_m, rel=1e-5)
    assert nose.slope_per_rad == whole.slope_per_rad


def test_fins_lower_on_the_body_move_the_centre_aft():
    nose = nose_barrowman(0.1, 0.07, 0.07)
    stations = np.array([0.20, 0.25, 0.30])
    fins = fins_barrowman(4, 0.05, 0.04, 0.05, 0.01, stations, 0.06, 0.07)
    total = centre_of_pressure([nose, fins])
    assert np.all(np.diff(total.station_m) > 0.0)
    margin = static_margin(total.station_m, 0.17, 0.07)
    assert margin[2] - margin[0] > 0.5


def test_fins_without_a_body_have_no_interference():
    assert fin_body_interference(0.05, 0.0) == 1.0


def test_noses_and_counts_outside_the_report_are_refused():
    with pytest.raises(InputError, match="no nose 'ogiv'; did you mean 'ogive'"):
        nose_barrowman(0.1, 0.07, 0.07, "ogiv")
    with pytest.raises(ValidityError, match="count must be 3 to 8 .*, got 2"):
        fins_barrowman(2, 0.05, 0.04, 0.05, 0.01, 0.3, 0.06, 0.07)
    with pytest.raises(ValidityError, match="base over largest section must be 0.01 to 1"):
        slender_body_force([0.0, 0.1, 0.3], [0.0, 0.004, 0.0], 0.004)
    with pytest.raises(ValidityError, match="rise of stations_m must be 0 to inf"):
        slender_body_force([0.1, 0.0], [0.0, 0.004], 0.004)
    with pytest.raises(ValidityError, match="diameter_m must be 1e-06 to inf .*, got 0"):
        static_margin(0.2, 0.1, 0.0)


def test_one_force_is_its_own_total():
    force = NormalForce(slope_per_rad=2.0, station_m=0.1)
    assert centre_of_pressure([force]) == force
