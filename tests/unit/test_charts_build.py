"""Charts of a build: gaps instead of flat lines, bands around curves, layers that add up."""

from __future__ import annotations

import itertools
import re

import numpy as np
import pytest

from site_builds import altered, framed, shipped, swapped
from slipfit.charts.chart import Chart, band, gaps
from slipfit.charts.drag_split import SHOWN_CAUSES
from slipfit.charts.registry import CHARTS
from slipfit.flight.flight import flight_of, with_rounds
from slipfit.flight.inputs import esc_of, sampled_inputs
from slipfit.flight.performance import Performance, performance
from slipfit.numerics import quantiles
from slipfit.units import ENERGY, TEMPERATURE


def charts(p: Performance, samples: Performance | None = None) -> dict[str, Chart]:
    return {id: chart(p, samples) for id, chart in CHARTS.items()}


@pytest.fixture(scope="module")
def usual() -> tuple[Performance, Performance]:
    p = performance(shipped())
    inputs, _ = sampled_inputs(shipped(), 64)
    return p, performance(shipped(), inputs, p.speeds_m_s)


def test_ids_are_the_registrys_and_every_chart_says_what_it_shows(
    usual: tuple[Performance, Performance],
) -> None:
    for id, chart in charts(*usual).items():
        assert chart.id == id
        assert chart.title and re.search(r"\d.*\.$", chart.caption), chart.caption
        assert chart.series
        for series in chart.series:
            assert len(series.values) == len(chart.x or chart.names), series.id
            assert series.label
        assert len({series.id for series in chart.series}) == len(chart.series)


def test_level_flight_runs_from_hover_to_top_speed(usual: tuple[Performance, Performance]) -> None:
    p, samples = usual
    chart = charts(p, samples)["level_flight"]
    assert chart.x[0] == 0.0 and chart.x[-1] == pytest.approx(float(p.top_speed_m_s[0, 0]))
    power, current, throttle = chart.series
    assert (power.id, current.id, throttle.id) == ("power", "current", "throttle")
    assert power.values[0] == pytest.approx(float(p.hover.drive.pack_power_W[0, 0]), rel=1e-9)
    assert throttle.values[-2] is not None and 0.8 < throttle.values[-2] < 1.0


def test_bands_lie_around_their_curve(usual: tuple[Performance, Performance]) -> None:
    chart = charts(*usual)["level_flight"]
    for series in chart.series:
        assert len(series.low) == len(series.high) == len(series.values)
        for low, middle, high in zip(series.low, series.values, series.high, strict=True):
            if low is not None and high is not None and middle is not None:
                assert low <= middle <= high, series.id
        assert series.low[0] is not None
    # near top speed many samples have stopped: no band of the lucky rest is drawn
    assert chart.series[0].low[-1] is None


def test_marks_name_where_things_happen(usual: tuple[Performance, Performance]) -> None:
    p, _ = usual
    marks = {mark.label: mark.x for mark in charts(p)["level_flight"].marks}
    assert marks["best range"] == float(p.cruise_speed_m_s[0, 0])
    assert marks["full throttle"] == float(p.top_speed_m_s[0, 0])
    assert "ESC rating" not in marks
    small = performance(swapped(esc="e40"))
    rating = esc_of(small.build).continuous_A
    x = {mark.label: mark.x for mark in charts(small)["level_flight"].marks}["ESC rating"]
    k = int(np.searchsorted(small.speeds_m_s, x))
    current = small.curve.drive.motor_current_A[0]
    assert current[k - 1] <= rating <= current[k]


def test_layers_of_the_drag_add_up(usual: tuple[Performance, Performance]) -> None:
    p, _ = usual
    chart = charts(p)["drag_split"]
    assert len(chart.series) <= SHOWN_CAUSES + 1
    layers = np.array([[np.nan if v is None else v for v in s.values] for s in chart.series])
    flown = p.curve.flyable[0]
    assert layers[:, flown].sum(axis=0) == pytest.approx(
        p.curve.trim.axial_N[0, flown], rel=1e-9, abs=1e-9
    )
    top = layers[:-1, -2]
    assert np.all(np.diff(top) <= 1e-9), "the largest cause lies lowest"
    assert f"{float(p.top.trim.axial_N[0, 0]):.1f} N" in chart.caption


def test_a_build_that_cannot_fly_has_gaps_and_says_so() -> None:
    for id, chart in charts(performance(altered("pack", mass_kg=9.0))).items():
        if id in ("campbell", "motor_chart"):
            continue  # arms bend and motors turn on the ground too
        assert "This build cannot" in chart.caption
        assert all(value is None for series in chart.series for value in series.values)
        assert chart.marks == ()


def test_frames_with_few_bodies_have_charts() -> None:
    none = charts(performance(framed(bodies=())))["drag_split"]
    assert none.series == () and "no bodies" in none.caption
    shell = shipped().frame.bodies[:1]
    one = charts(performance(framed(bodies=shell)))["drag_split"]
    assert one.series and "%" in one.caption


def test_gaps_and_bands() -> None:
    where = np.array([True, False, True])
    assert gaps(np.array([1.0, 2.0, 3.0]), where) == (1.0, None, 3.0)
    values = np.linspace(0.0, 1.0, 101)[:, None] * np.array([1.0, 10.0, 100.0])
    there = np.ones(values.shape, dtype=bool)
    there[:20, 1] = False  # 80 % of the samples: too few
    there[:5, 2] = False  # 95 %: enough
    low, high = band(values, there)
    assert low[0] == pytest.approx(0.1) and high[0] == pytest.approx(0.9)
    assert low[1] is None and high[1] is None
    assert low[2] == pytest.approx(14.5) and high[2] == pytest.approx(90.5)


def test_flight_sheet_shows_the_legs_and_ends_where_the_flight_does(
    usual: tuple[Performance, Performance],
) -> None:
    p, _ = usual
    chart, flight = charts(p)["flight_sheet"], flight_of(p)
    assert chart.x[-1] == pytest.approx(float(flight.ends_s[0]))
    assert chart.stretches[0].low == 0.0 and chart.stretches[-1].high == pytest.approx(chart.x[-1])
    assert all(a.high == b.low for a, b in itertools.pairwise(chart.stretches))
    names = [stretch.label for stretch in chart.stretches]
    assert names[0] == "lift-off" and names[-1] == "land"
    assert "flat out, pass 1" in names and "chase, pass 2" in names
    by_id = {series.id: series.values for series in chart.series}
    assert by_id["charge"][-1] == pytest.approx(float(flight.condition.charge[-1, 0]))
    assert by_id["charge"] == tuple(sorted(by_id["charge"], reverse=True))
    peak = float(flight.peak(flight.condition.winding_K)[0])
    assert max(by_id["winding"]) == pytest.approx(peak)
    assert TEMPERATURE.text(peak, "metric") in chart.caption


def test_flight_sheet_is_as_low_as_the_least_voltage_of_the_flight(
    usual: tuple[Performance, Performance],
) -> None:
    p, _ = usual
    volts = next(s for s in CHARTS["flight_sheet"](p, None).series if s.id == "voltage").values
    flight = flight_of(p)
    assert min(volts) == float(flight.least(flight.steps.pack_least_V)[0])


def test_samples_fly_the_builds_own_rounds_beside_it(
    usual: tuple[Performance, Performance],
) -> None:
    p, samples = usual
    flight, drawn = flight_of(p), flight_of(samples)
    alike = with_rounds(samples, drawn, flight.rounds_flown)
    assert alike is not None
    # its rows are the samples' own steps so far, and those that chose as many end alike
    same = (drawn.passes // 1 == flight.passes[0] // 1) & drawn.able
    assert 3 <= same.sum() < 60
    last = np.array([c[drawn.flown[:, s]][-1] for s, c in enumerate(drawn.condition.charge.T)])
    assert alike.condition.charge[-1, same] == pytest.approx(last[same], rel=1e-12)
    assert np.abs(alike.condition.charge[-1, ~same] - last[~same]).min() > 1e-3
    # of the build itself, it is the flight
    again = with_rounds(p, flight, flight.rounds_flown)
    assert again is not None
    for ours, theirs in (
        (again.condition.charge, flight.condition.charge),
        (again.board_K, flight.board_K),
        (again.steps.pack_least_V, flight.steps.pack_least_V),
    ):
        assert ours[:, 0] == pytest.approx(theirs[flight.flown[:, 0], 0], rel=1e-12)
    assert with_rounds(p, flight, 39) is None


def test_places_count_legs(usual: tuple[Performance, Performance]) -> None:
    flight = flight_of(usual[0])
    places = flight.places()[:, 0]
    legs = len(np.unique(flight.stretch_of[flight.flown[:, 0]]))
    assert places[-1] == pytest.approx(legs)
    assert (np.diff(places) >= 0.0).all()
    # half of the last leg's time is half of the last leg
    times = flight.times_s[flight.flown[:, 0], 0]
    land = flight.stretch_of[flight.flown[:, 0]] == flight.stretch_of[-1]
    start = times[~land][-1]
    assert places[land] - (legs - 1) == pytest.approx(
        (times[land] - start) / (times[-1] - start), abs=1e-9
    )


def test_flight_sheet_has_ranges_once_there_are_samples(
    usual: tuple[Performance, Performance],
) -> None:
    p, samples = usual
    bare, chart = (CHARTS["flight_sheet"](p, s) for s in (None, samples))
    assert all(not series.low and not series.high for series in bare.series)
    assert "ranges" not in bare.caption and "10–90 % ranges" in chart.caption
    assert chart.x == bare.x
    for series in chart.series:
        assert series.low[0] == series.values[0] == series.high[0]
        for low, middle, high in zip(series.low, series.values, series.high, strict=True):
            assert low <= middle <= high, series.id
    alike = with_rounds(samples, flight_of(samples), flight_of(p).rounds_flown)
    assert alike is not None
    charge = next(s for s in chart.series if s.id == "charge")
    assert (charge.low[-1], charge.high[-1]) == pytest.approx(
        tuple(quantiles(alike.condition.charge[-1], (0.1, 0.9)))
    )


def test_flight_sheet_of_a_weak_pack_ends_its_ranges_where_samples_have_nothing_left() -> None:
    build = altered("pack", capacity_C=0.25 * shipped().parts["pack"].capacity_C)
    p = performance(build)
    samples = performance(build, sampled_inputs(build, 64)[0], p.speeds_m_s)
    chart = CHARTS["flight_sheet"](p, samples)
    for series in chart.series:
        for low, high in zip(series.low, series.high, strict=True):
            assert (low is None) == (high is None)
            assert low is None or 0.0 <= low <= high


def test_flight_energy_is_that_of_the_flight(usual: tuple[Performance, Performance]) -> None:
    p, _ = usual
    chart = charts(p)["flight_energy"]
    assert "chase" in chart.names and "reserve" not in chart.names
    total = float(flight_of(p).energy_J[:, 0].sum())
    assert sum(chart.series[0].values) == pytest.approx(total)
    assert ENERGY.text(total, "metric") in chart.caption


def test_motor_chart_crosses_what_flight_asks_at_full_throttle(
    usual: tuple[Performance, Performance],
) -> None:
    p, _ = usual
    chart = charts(p)["motor_chart"]
    by_id = {series.id: series.values for series in chart.series}
    flat_out = next(mark.x for mark in chart.marks if mark.label == "flat out")
    k = int(np.searchsorted(chart.x, flat_out))
    torque = np.interp(flat_out, chart.x[k - 1 : k + 1], by_id["torque"][k - 1 : k + 1])
    # between two points of the curve, which bends with the no-load loss
    assert torque == pytest.approx(float(p.top.trim.rotor.torque_Nm[0, 0]), rel=0.03)
    current = by_id["current"]
    there = [c for c in current if c is not None]
    assert there == sorted(there, reverse=True)
    assert max(e for e in by_id["efficiency"] if e is not None) < 1.0
