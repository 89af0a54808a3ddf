"""Climb and descent on a slope: against steady flight by another method, and at their ends."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from site_builds import altered, framed, shipped
from slipfit.charts.climb import climb_chart
from slipfit.constants import G0_M_S2
from slipfit.figures import climb_power, climb_steepest, descent_steepest
from slipfit.flight.airframe import airframe_loads
from slipfit.flight.climb import (
    ANGLES_RAD,
    CLIMB,
    CLIMB_RAD,
    DESCENT,
    DESCENT_RAD,
    FULL,
    STATED,
    STEEPEST,
    flies_along_axis,
    paths,
    steepest_climb,
)
from slipfit.flight.envelope import envelope
from slipfit.flight.inputs import sampled_inputs
from slipfit.flight.performance import Performance, performance
from slipfit.flight.trim import trim

SLUGS = ("quillback-5", "longspur-7")


@pytest.fixture(scope="module", params=SLUGS)
def p(request) -> Performance:
    return performance(shipped(request.param))


def test_stated_slopes():
    assert np.degrees(CLIMB_RAD) == pytest.approx(30.0)
    assert np.degrees(DESCENT_RAD) == pytest.approx(10.0)
    assert ANGLES_RAD[0] == 0.0 and ANGLES_RAD[-1] == np.pi / 2


def test_ends_are_level_top_speed_and_the_climb_straight_up(p):
    V = paths(p).speed_m_s[0, FULL]
    assert V[0] == pytest.approx(float(p.top_speed_m_s[0, 0]), rel=1e-4)
    assert V[-1] == pytest.approx(float(envelope(p).climb_rate_m_s[0, 0]), rel=3e-3)
    assert (np.diff(V) < 0.0).all()


def test_steady_flight_at_those_speeds_and_slopes_needs_all_of_the_throttle(p):
    """The trim closes two balances for a given speed by its own search; the throttle that it
    finds must be the full one."""
    found = paths(p)
    V = found.speed_m_s[:, FULL]
    steady = trim(p.build.frame, p.rotors, p.build.air, V, ANGLES_RAD)
    drive = p.electric.drive(steady.omega_rad_s, steady.rotor.torque_Nm)
    assert steady.valid.all()
    assert drive.duty == pytest.approx(np.ones(drive.duty.shape), abs=3e-4)
    assert found.power_W[:, FULL] == pytest.approx(drive.pack_power_W, rel=1e-3)


def test_forces_of_the_whole_frame_balance_on_the_stated_climb(p):
    """With the bodies' own models instead of their table: along the path thrust, drag and weight,
    across it what is left of them, to a hundredth of the weight."""
    found, gamma = paths(p), CLIMB_RAD
    alpha, omega, V = (
        values[:, CLIMB : CLIMB + 1]
        for values in (found.incidence_rad, found.omega_rad_s, found.speed_m_s)
    )
    rotor = p.rotors.loads(omega, V * np.cos(alpha), V * np.sin(alpha))
    loads = airframe_loads(
        p.build.frame, V * np.cos(alpha), V * np.sin(alpha), rotor.induced_speed_m_s,
        p.build.air, 1.0,
    )  # fmt: skip
    count, weight = p.build.rotor_count, float(p.inputs.mass_kg) * G0_M_S2
    assert found.pull_N[0, CLIMB] == pytest.approx(count * rotor.thrust_N[0, 0])
    pull = count * rotor.thrust_N - loads.axial_N
    lift = loads.normal_N + count * rotor.inplane_force_N
    along = pull * np.cos(alpha) - lift * np.sin(alpha) - weight * np.sin(gamma)
    across = pull * np.sin(alpha) + lift * np.cos(alpha) - weight * np.cos(gamma)
    assert np.abs([along, across]).max() < 0.01 * weight


def test_a_climb_takes_at_least_the_lift_of_the_weight_more_than_level_flight(p):
    """Power rises by the weight times the rate of climb, over losses that only add to it; a
    descent gives part of that back."""
    climb, descent = paths(p).power_W[0, [CLIMB, DESCENT]]
    assert paths(p).speed_m_s[0, CLIMB:] == pytest.approx(p.cruise_speed_m_s[0, 0])
    assert paths(p).slope_rad[0, [CLIMB, DESCENT]] == pytest.approx([CLIMB_RAD, -DESCENT_RAD])
    level = p.cruise.drive.pack_power_W[0, 0]
    weight, V = float(p.inputs.mass_kg) * G0_M_S2, p.cruise_speed_m_s[0, 0]
    assert climb - level > weight * V * np.sin(CLIMB_RAD)
    assert 0.0 < level - descent < weight * V * np.sin(DESCENT_RAD) / 0.5


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_steepest_climb_holds_its_speed_at_full_throttle(p, share):
    V = paths(p).speed_m_s[0, FULL]
    speed = float(V[-1] + share * (V[0] - V[-1]))
    gamma = steepest_climb(p, speed)
    steady = trim(p.build.frame, p.rotors, p.build.air, np.full_like(gamma, speed), gamma)
    drive = p.electric.drive(steady.omega_rad_s, steady.rotor.torque_Nm)
    assert drive.duty[0, 0] == pytest.approx(1.0, abs=3e-4)
    assert 0.0 < gamma[0, 0] < np.pi / 2


def test_steepest_climb_at_the_stated_speed_is_the_stated_slope(p):
    speed = float(paths(p).speed_m_s[0, STATED])
    assert steepest_climb(p, speed)[0, 0] == pytest.approx(CLIMB_RAD, abs=1e-4)


def test_slower_than_straight_up_is_straight_up_and_faster_than_level_is_none(p):
    assert steepest_climb(p, 5.0)[0, 0] == np.pi / 2
    assert np.isnan(steepest_climb(p, float(p.top_speed_m_s[0, 0]) + 1.0)[0, 0])
    fast = dataclasses.replace(p.build, chase_speed_m_s=149.0)
    said = climb_steepest.KIND.missing(performance(fast))
    assert said == "not even level flight reaches the chase speed"


def test_descent_of_the_tail_sitter_ends_where_its_propellers_stop_pulling():
    p = performance(shipped())
    assert flies_along_axis(p)[0, 0]
    gamma = -paths(p).slope_rad[:, STEEPEST:]
    steady = trim(p.build.frame, p.rotors, p.build.air, p.cruise_speed_m_s, -gamma)
    weight = float(p.inputs.mass_kg) * G0_M_S2
    assert abs(p.build.rotor_count * steady.thrust_N[0, 0]) < 1e-3 * weight
    gentler = trim(p.build.frame, p.rotors, p.build.air, p.cruise_speed_m_s, 0.1 - gamma)
    assert gentler.thrust_N[0, 0] > 0.0
    assert "brake" in descent_steepest.KIND.cause(p)


def test_descent_of_the_flat_frame_ends_where_the_air_comes_from_the_side():
    p = performance(shipped("longspur-7"))
    assert not flies_along_axis(p)[0, 0]
    gamma = -paths(p).slope_rad[:, STEEPEST:]
    steady = trim(p.build.frame, p.rotors, p.build.air, p.cruise_speed_m_s, -gamma)
    assert steady.incidence_rad[0, 0] == pytest.approx(np.pi / 2, abs=1e-3)
    assert "below" in descent_steepest.KIND.cause(p)


def test_build_that_cannot_fly_has_no_slopes():
    p = performance(altered("motor", mass_kg=2.0))
    assert np.isnan(paths(p).speed_m_s).all()
    assert np.isnan(steepest_climb(p, 10.0)).all()
    assert np.isnan(climb_power.KIND.value(p)).all()
    chart = climb_chart(p, None)
    assert "no climb" in chart.caption
    assert all(v is None for s in chart.series for v in s.values)


def test_samples_are_single_builds(p):
    inputs, _ = sampled_inputs(p.build, 5)
    drawn = performance(p.build, inputs, p.speeds_m_s)
    third = dataclasses.replace(
        inputs, **{f.name: float(getattr(inputs, f.name)[2, 0]) for f in dataclasses.fields(inputs)}
    )
    alone = performance(p.build, third, p.speeds_m_s)
    for name, values in vars(paths(drawn)).items():
        assert values[2] == pytest.approx(getattr(paths(alone), name)[0], rel=1e-5, abs=1e-6), name


def test_chart_falls_from_the_climb_to_level_flight(p):
    inputs, _ = sampled_inputs(p.build, 64)
    chart = climb_chart(p, performance(p.build, inputs, p.speeds_m_s))
    rise, slope, power = chart.series
    assert rise.values[0] == pytest.approx(float(paths(p).speed_m_s[0, FULL][-1]))
    assert rise.values[-1] == pytest.approx(0.0, abs=1e-6)
    assert slope.values[0] == pytest.approx(np.pi / 2)
    assert (np.diff([v for v in rise.values if v is not None]) < 0.0).all()
    assert all(
        lo < v < hi for lo, v, hi in zip(rise.low[:20], rise.values, rise.high, strict=False)
    )
    assert power.values[-1] == pytest.approx(p.top.drive.pack_power_W[0, 0], rel=1e-3)
    assert chart.marks[0].label == "best range"


def test_speed_of_best_range_is_held_where_nothing_is_chased():
    p = performance(framed(chase_speed_m_s=0.0))
    assert "best range" in climb_steepest.KIND.cause(p)
    assert climb_steepest.KIND.value(p)[0, 0] == np.pi / 2
