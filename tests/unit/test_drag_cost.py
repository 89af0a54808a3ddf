"""What causes of drag cost, against frames that are really without them."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from site_builds import framed, shipped
from slipfit.charts.drag_cost import drag_cost
from slipfit.flight.drag_cost import largest_causes, speed_cost, speed_without
from slipfit.flight.inputs import sampled_inputs
from slipfit.flight.performance import performance


def without_body(name: str):
    """The shipped build on a frame that lacks a body without side force."""
    return framed(bodies=tuple(b for b in shipped().frame.bodies if b.name != name))


@pytest.mark.parametrize(
    ("name", "cause"),
    [("nose inlet", "nose inlet: cooling air"), ("shell screws", "shell screws: screws and seams")],
)
def test_a_body_without_side_force_costs_what_its_absence_wins(name, cause):
    p = performance(shipped())
    (cause,) = [c for c in p.top.trim.drag_causes_N if c.startswith(name)]
    won = performance(without_body(name)).top_speed_m_s - p.top_speed_m_s
    assert speed_cost(p, (cause,))[0, 0] == pytest.approx(won[0, 0], abs=0.03)


def test_the_largest_cause_costs_what_a_spinner_would_win_at_best():
    """The flat noses of the pods rounded: nothing else changes, and a tenth of the drag goes."""
    p = performance(shipped())
    bodies = tuple(
        dataclasses.replace(b, shape=dataclasses.replace(b.shape, flat_nose_diameter_m=0.0))
        if b.name == "motor pods"
        else b
        for b in shipped().frame.bodies
    )
    rounded = performance(framed(bodies=bodies))
    won = float(rounded.top_speed_m_s[0, 0] - p.top_speed_m_s[0, 0])
    cost = speed_cost(p, ("motor pods: flat nose",))[0, 0]
    assert won > 2.0
    assert cost == pytest.approx(won, rel=0.03)


def test_causes_come_largest_first_and_cost_in_that_order():
    p = performance(shipped("longspur-7"))
    names = largest_causes(p)
    forces = [p.top.trim.drag_causes_N[name][0, 0] for name in names]
    costs = speed_cost(p, names)[0]
    assert forces == sorted(forces, reverse=True)
    assert (costs > 0.0).all() and (np.diff(costs) <= 1e-6).all()


def test_samples_have_costs_of_their_own():
    p = performance(shipped())
    inputs, _ = sampled_inputs(shipped(), 8)
    samples = performance(shipped(), inputs, p.speeds_m_s)
    found = speed_cost(samples, largest_causes(p, 2))
    assert found.shape == (8, 2)
    # a sample whose top speed ends with the rotor model has no answer, every other one has
    answered = np.isfinite(found[:, 0])
    assert np.array_equal(answered, samples.top_ends_by_throttle[:, 0])
    assert np.ptp(found[answered, 0]) > 0.0


def test_the_chart_says_what_the_largest_costs_and_survives_what_cannot_fly():
    p = performance(shipped())
    chart = drag_cost(p, None)
    assert "km/h" in chart.caption and chart.names[0] in chart.caption
    assert len(chart.series[0].values) == len(chart.series[1].values) == len(chart.names)
    heavy = dataclasses.replace(shipped().frame.hardware[0], mass_kg=9.0)
    grounded = performance(framed(hardware=(heavy,)))
    assert drag_cost(grounded, None).names == ()
    assert np.isnan(speed_without(grounded, largest_causes(grounded, 1))).all()
