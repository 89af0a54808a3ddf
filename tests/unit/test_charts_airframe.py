"""Charts of the run-up, the centre of pressure, the arms and what drag costs, on both frames and
on builds that cannot fly."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from site_builds import framed, shipped
from slipfit.charts.dash import dash_chart
from slipfit.charts.pressure import pressure
from slipfit.charts.registry import CHARTS
from slipfit.drawings.registry import DRAWINGS
from slipfit.flight.dash import dash
from slipfit.flight.inputs import sampled_inputs
from slipfit.flight.performance import Performance, performance
from slipfit.stability import stability

NEW = ("dash", "pressure", "campbell", "drag_cost")
SLUGS = ("quillback-5", "longspur-7")


@pytest.fixture(scope="module", params=SLUGS)
def pair(request) -> tuple[Performance, Performance]:
    build = shipped(request.param)
    p = performance(build)
    inputs, _ = sampled_inputs(build, 12)
    return p, performance(build, inputs, p.speeds_m_s)


def grounded() -> Performance:
    heavy = dataclasses.replace(shipped().frame.hardware[0], mass_kg=9.0)
    return performance(framed(hardware=(heavy,)))


@pytest.mark.parametrize("id", NEW)
def test_series_are_as_long_as_their_axis_and_hold_numbers_or_gaps(id, pair):
    for samples in (None, pair[1]):
        chart = CHARTS[id](pair[0], samples)
        assert chart.id == id and chart.title and chart.caption.endswith(".")
        for series in chart.series:
            assert len(series.values) == len(chart.x or chart.names)
            assert any(v is not None for v in series.values)
            shown = [v for v in (*series.values, *series.low, *series.high) if v is not None]
            assert np.isfinite(shown).all()
        assert list(chart.x) == sorted(set(chart.x))


@pytest.mark.parametrize("id", NEW)
def test_a_build_that_cannot_fly_says_so_in_the_caption(id):
    chart = CHARTS[id](grounded(), None)
    if id == "campbell":
        assert "bends at about" in chart.caption and chart.marks == ()
    else:
        assert "cannot hold its weight" in chart.caption


def test_run_up_chart_reads_as_its_figures(pair):
    p, samples = pair
    chart = dash_chart(p, samples)
    marks = {m.label: m.x for m in chart.marks}
    run = dash(p)
    assert marks["95% of top speed"] == pytest.approx(run.at(run.distance_m, 0.95)[0, 0])
    speed = next(s for s in chart.series if s.id == "speed")
    read = np.interp(marks["chase speed"], chart.x, speed.values)
    assert read == pytest.approx(p.build.chase, rel=0.02)
    low, high = speed.low[20], speed.high[20]
    assert low is not None and high is not None and low < speed.values[20] < high


def test_pressure_chart_begins_where_the_figure_is(pair):
    p, _ = pair
    chart = pressure(p, None)
    whole = next(s for s in chart.series if s.id == "whole")
    assert chart.x[0] == pytest.approx(p.top.trim.incidence_rad[0, 0], abs=0.02)
    assert whole.values[0] == pytest.approx(stability(p).lever_m[0, 0], abs=2e-4)
    balance = next(s for s in chart.series if s.id == "balance")
    assert set(balance.values) == {0.0}


def test_side_elevation_marks_the_centre_of_pressure_where_it_lies_in_the_picture(pair):
    p, _ = pair
    station = float(stability(p).pressure_station_m[0, 0])
    points = {q.role: q for q in DRAWINGS["side"](p.build, 0.1, station).points}
    assert points["pressure"].x == pytest.approx(station)
    assert points["balance"].x == 0.1
    far = DRAWINGS["side"](p.build, 0.1, 9.0)
    assert [q.role for q in far.points] == ["balance"]
    assert far.right < 1.0
