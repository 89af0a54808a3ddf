"""The run-up and the climb: against finer nodes, against steady flight, and at their ends."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from site_builds import altered, framed, on_day, shipped
from slipfit.constants import G0_M_S2
from slipfit.flight import dash as dash_module
from slipfit.flight import flat_out as flat_out_module
from slipfit.flight.dash import NEARLY, dash
from slipfit.flight.envelope import envelope
from slipfit.flight.flat_out import RUN_UP, along_nodes, flat_out
from slipfit.flight.inputs import sampled_inputs
from slipfit.flight.performance import Performance, full_throttle, performance
from slipfit.flight.trim import trim

SLUGS = ("quillback-5", "longspur-7")


@pytest.fixture(scope="module", params=SLUGS)
def p(request) -> Performance:
    return performance(shipped(request.param))


def test_at_rest_it_speeds_up_by_what_the_thrust_has_left_sideways(p):
    """Standing still at full throttle: the vertical part of the thrust, less what the wash pushes
    down on the body, is the weight; the rest is sideways."""
    states, standing = flat_out(p), p.standing
    pull = p.build.rotor_count * standing.rotor.thrust_N[0, 0]
    weight = float(np.asarray(p.inputs.mass_kg)) * G0_M_S2
    bare = np.sqrt(pull**2 - weight**2) / (weight / G0_M_S2)
    assert 0.8 * bare < states.acceleration_m_s2[0, 0] < bare
    assert weight / pull < np.sin(states.incidence_rad[0, 0]) < 1.25 * weight / pull


def test_in_flight_the_rotors_turn_at_full_throttle(p):
    """Power at each node is that of full throttle in that air, found by its own root."""
    states = flat_out(p)
    V = p.top_speed_m_s * RUN_UP
    found = full_throttle(
        p.rotors,
        p.electric,
        V * np.cos(states.incidence_rad),
        V * np.sin(states.incidence_rad),
    )
    assert found.drive.pack_power_W == pytest.approx(states.power_W, rel=2e-3)


def test_what_is_left_falls_to_nothing_at_top_speed(p):
    """The acceleration followed to top speed itself is that of steady flight: none."""
    states = flat_out(p)
    easing = along_nodes(
        RUN_UP, states.acceleration_m_s2 / (1 - RUN_UP**2), np.array([0.94, 0.97, 1.0])
    )[0]
    assert easing.min() > 0.0
    # the last piece bends little, so that reading beyond the last node is safe
    assert easing[2] == pytest.approx(easing[0], rel=0.25)


def test_more_nodes_give_the_same_run_up(p, monkeypatch):
    coarse = dash(p)
    fine = np.unique(np.concatenate([np.linspace(0.0, 0.94, 30), [0.96, 0.975]]))
    for module in (flat_out_module, dash_module):
        monkeypatch.setattr(module, "RUN_UP", fine)
    flat_out.cache_clear()
    dash.cache_clear()
    try:
        found = dash(dataclasses.replace(p))
    finally:
        flat_out.cache_clear()
        dash.cache_clear()
    for values in ("time_s", "distance_m", "energy_J"):
        a, b = (run.at(getattr(run, values), NEARLY)[0, 0] for run in (coarse, found))
        assert a == pytest.approx(b, rel=0.01)


def test_time_distance_and_energy_agree_with_one_another(p):
    run = dash(p)
    t, s, V = run.time_s[0], run.distance_m[0], run.speed_m_s[0]
    assert (np.diff(t) > 0).all() and (np.diff(s) > 0).all()
    # the distance is the integral of speed over the time, whatever the acceleration was
    assert s[-1] == pytest.approx(np.trapezoid(V, t), rel=2e-3)
    power = np.diff(run.energy_J[0]) / np.diff(t)
    assert power.max() < 1.05 * max(flat_out(p).power_W.max(), 1.0)
    # all of the drive's energy is at least the frame's motion
    m = float(np.asarray(p.inputs.mass_kg))
    assert run.energy_J[0, -1] > 0.5 * m * V[-1] ** 2


def test_a_wanted_speed_is_read_from_the_run_up_or_is_out_of_reach(p):
    run = dash(p)
    half = 0.5 * float(p.top_speed_m_s[0, 0])
    assert run.at_speed(run.time_s, half)[0, 0] == pytest.approx(
        run.at(run.time_s, 0.5)[0, 0], rel=1e-3
    )
    assert np.isnan(run.at_speed(run.time_s, 2 * half)[0, 0])


def test_a_heavier_build_needs_a_longer_straight():
    heavy = performance(altered("pack", mass_kg=0.256 + 0.3))
    light = performance(shipped())
    a, b = (q.at(q.distance_m, NEARLY)[0, 0] for q in (dash(heavy), dash(light)))
    assert a > 1.15 * b


def test_samples_bracket_the_nominal_run_up(p):
    inputs, _ = sampled_inputs(p.build, 16)
    run = dash(performance(p.build, inputs, p.speeds_m_s))
    drawn = run.at(run.distance_m, NEARLY)[:, 0]
    nominal = dash(p).at(dash(p).distance_m, NEARLY)[0, 0]
    assert np.isfinite(drawn).mean() > 0.9
    assert np.nanmin(drawn) < nominal < np.nanmax(drawn)


def test_the_climb_is_steady_flight_straight_up_at_full_throttle(p):
    """Trimmed by the trim's own way at that speed and a path straight up, the duty is 1."""
    rate = envelope(p).climb_rate_m_s
    steady = trim(p.build.frame, p.rotors, p.build.air, rate, np.pi / 2)
    drive = p.electric.drive(steady.omega_rad_s, steady.rotor.torque_Nm)
    assert drive.duty[0, 0] == pytest.approx(1.0, abs=0.004)
    assert 0.0 < rate[0, 0] < p.top_speed_m_s[0, 0]


def test_the_longest_flight_draws_least(p):
    e = envelope(p)
    V = e.endurance_speed_m_s[0, 0]
    around = np.array([[0.85 * V, V, 1.15 * V, p.cruise_speed_m_s[0, 0]]])
    steady = trim(p.build.frame, p.rotors, p.build.air, around)
    current = p.electric.drive(steady.omega_rad_s, steady.rotor.torque_Nm).pack_current_A[0]
    assert current[1] == min(current)
    hover = p.hover.drive.pack_current_A[0, 0]
    assert current[1] < hover  # moving air helps
    assert e.endurance_s[0, 0] == pytest.approx(
        0.8 * float(np.asarray(p.inputs.capacity_C)) / current[1], rel=0.01
    )
    assert e.slowest_m_s[0, 0] == 0.0


def test_wind_only_moves_the_ground():
    still, windy = (performance(on_day(wind_m_s=w)) for w in (0.0, 8.0))
    assert windy.top_speed_m_s == pytest.approx(still.top_speed_m_s)
    a, b = envelope(still), envelope(windy)
    assert a.upwind_speed_m_s[0, 0] == pytest.approx(still.cruise_speed_m_s[0, 0], rel=0.03)
    assert b.upwind_speed_m_s[0, 0] > a.upwind_speed_m_s[0, 0]
    # at the best speed of still air the wind would cost its share; flying faster loses less
    share = 1.0 - 8.0 / a.upwind_speed_m_s[0, 0]
    assert share < b.upwind_range_m[0, 0] / a.upwind_range_m[0, 0] < 1.0


def test_a_wind_that_nothing_outflies_gives_no_range():
    p = performance(on_day(wind_m_s=200.0))
    assert np.isfinite(p.top_speed_m_s).all() and np.nanmax(p.top_speed_m_s) < 200.0
    assert np.isnan(envelope(p).upwind_range_m).all()
    assert np.isfinite(envelope(p).endurance_s).all()


def test_a_build_that_cannot_fly_has_no_answers_and_no_errors():
    p = performance(
        framed(hardware=(dataclasses.replace(shipped().frame.hardware[0], mass_kg=9.0),))
    )
    assert not p.can_hover.any()
    assert np.isnan(dash(p).time_s).all()
    e = envelope(p)
    for value in (e.climb_rate_m_s, e.endurance_s, e.endurance_speed_m_s, e.upwind_range_m):
        assert np.isnan(value).all()
