"""Limits and refusals of wires and connectors."""

from __future__ import annotations

import numpy as np
import pytest

from slipfit.errors import InputError, ValidityError
from slipfit.physics import connector, wire


def test_six_gauges_double_the_diameter():
    assert wire.awg_diameter(10) / wire.awg_diameter(16) == pytest.approx(2.005, abs=0.001)
    assert wire.awg_diameter(36) == pytest.approx(0.127e-3)
    assert wire.awg_diameter(0) / wire.awg_diameter(39) == pytest.approx(92.0)


def test_heat_balance_closes_at_the_temperature_found():
    I, n, D, h, Ta = 60.0, 12, 0.0045, 40.0, 263.15  # noqa: E741
    rise = float(wire.wire_temperature_rise(I, n, D, h, Ta).rise_K)
    made = I**2 * wire.awg_resistance(n, Ta + rise)
    assert made == pytest.approx(h * np.pi * D * rise)


def test_no_current_no_rise():
    assert float(wire.wire_temperature_rise(0.0, 12, 0.0045, 15.0).rise_K) == 0.0


def test_thermal_runaway_is_a_mask_not_a_number():
    heat = wire.wire_temperature_rise(np.array([30.0, 300.0]), 16, 0.003, 10.0)
    assert heat.steady.tolist() == [True, False]
    assert np.isnan(heat.rise_K[1])


def test_suggested_gauge_is_the_thinnest_that_stays_cool():
    gauge = wire.suggested_gauge(30.0, 60.0, 15.0)

    def rise(n):
        D = wire.silicone_wire_diameter(n)
        return float(wire.wire_temperature_rise(30.0, n, D, 15.0).rise_K)

    assert rise(gauge) <= 60.0 < rise(gauge + 2)


def test_suggested_gauge_gets_thicker_with_current_until_none_is_thick_enough():
    gauges = wire.suggested_gauge(np.array([1.0, 10.0, 30.0, 80.0, 500.0]), 60.0, 15.0)
    assert (np.diff(gauges[:4]) < 0).all()
    assert np.isnan(gauges[4])


def test_time_constant_falls_with_air_flow():
    still, moving = (wire.wire_time_constant(12, 0.0045, h) for h in (15.0, 150.0))
    assert still == pytest.approx(10 * moving)
    assert 60.0 < still < 300.0  # minutes in still air


def test_rated_currents_fall_with_gauge_and_rise_with_the_limit():
    n = np.linspace(8, 22, 57)
    for current in (wire.rated_current_mil5088(n), wire.rated_current_ac4313(n, 423.15)):
        assert (np.diff(current) < 0).all()
    T = np.linspace(378.15, 473.15, 40)
    assert (np.diff(wire.rated_current_ac4313(12, T)) > 0).all()


def test_every_sold_gauge_has_a_diameter_wider_than_its_copper():
    for n in wire.SOLD_GAUGES:
        assert wire.silicone_wire_diameter(n) > wire.awg_diameter(n)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: wire.awg_diameter(-1), r"gauge must be 0 to 40"),
        (lambda: wire.awg_resistance(12, 20.0), r"temperature_K must be 200 to 520 .*got 20"),
        (lambda: wire.silicone_wire_diameter(6), r"gauge must be 8 to 30"),
        (lambda: wire.rated_current_ac4313(6, 400.0), r"gauge must be 8 to 24 \(AC 43.13-1B\)"),
        (lambda: wire.rated_current_ac4313(12, 500.0), r"conductor_limit_K must be 378.15"),
        (lambda: wire.rated_current_mil5088(24), r"gauge must be 8 to 22 \(MIL-W-5088B\)"),
    ],
)
def test_wire_refuses_what_is_outside(call, message):
    with pytest.raises(ValidityError, match=message):
        call()


def test_connectors_grow_with_their_pins():
    for small, large in zip(connector.CONNECTORS, connector.CONNECTORS[1:], strict=False):
        assert small.pin_diameter_m < large.pin_diameter_m
        assert small.continuous_A < large.continuous_A
        assert small.contact_resistance_ohm > large.contact_resistance_ohm
    assert all(c.continuous_A < c.burst_A for c in connector.CONNECTORS)


def test_connector_for_a_current():
    found = connector.connector_for(40.0)
    assert found is not None
    assert found.name == "3.5 mm bullet pair"
    assert connector.connector_for(101.0) is None


def test_unknown_connector_names_the_nearest():
    with pytest.raises(
        InputError, match=r"no connector class '3.5mm bullet'; did you mean '3.5 mm"
    ):
        connector.connector_named("3.5mm bullet")
