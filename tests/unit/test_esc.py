"""Limits, balances and refusals of the ESC model."""

from __future__ import annotations

import numpy as np
import pytest

from slipfit.errors import ValidityError
from slipfit.physics import esc


def test_fully_on_only_conduction_and_gate_remain():
    on = esc.esc_losses(40.0, 25.2, 1.0, 1e-3, 48e3)
    assert float(on.total_W) == pytest.approx(float(on.conduction_W + on.gate_W))


def test_losses_are_continuous_up_to_full_throttle():
    duty = np.linspace(0.9, 1.0, 2001)
    total = esc.esc_losses(40.0, 25.2, duty, 1e-3, 48e3).total_W
    assert np.abs(np.diff(total)).max() < 0.01
    assert (np.diff(total) <= 1e-12).all()


def test_conduction_does_not_depend_on_duty():
    losses = esc.esc_losses(30.0, 25.2, np.array([0.1, 0.5, 0.9]), 1e-3, 48e3)
    assert np.ptp(losses.conduction_W) == 0.0


def test_braking_current_heats_as_driving_current_does():
    a, b = (esc.esc_losses(i, 25.2, 0.5, 1e-3, 48e3).total_W for i in (20.0, -20.0))
    assert float(a) == float(b)


def test_no_current_leaves_only_voltage_terms():
    idle = esc.esc_losses(0.0, 25.2, 0.5, 1e-3, 48e3)
    assert float(idle.conduction_W + idle.switching_W + idle.dead_time_W) == 0.0
    assert float(idle.total_W) > 0.0


def test_losses_broadcast_and_sum():
    losses = esc.esc_losses(np.linspace(0, 60, 7), 25.2, 0.5, np.array([[1e-3], [2e-3]]), 48e3)
    assert losses.total_W.shape == (2, 7)
    assert losses.total_W == pytest.approx(losses.conduction_W + losses.chopping_W)


def test_power_through_the_board_balances():
    v, i, V, R = 18.0, 40.0, 25.2, 1.5e-3
    duty = esc.esc_duty(v, i, V, R)
    losses = esc.esc_losses(i, V, duty, 1e-3, 48e3)  # hot by default: 1.5 mohm
    bus_W = V * duty * i + float(losses.chopping_W)
    assert bus_W == pytest.approx(v * i + float(losses.total_W))


def test_cold_switch_is_better():
    cold = esc.esc_losses(40.0, 25.2, 0.5, 1e-3, 48e3, 273.15)
    warm = esc.esc_losses(40.0, 25.2, 0.5, 1e-3, 48e3, 353.15)
    assert float(cold.conduction_W) < float(warm.conduction_W)


def test_estimated_resistance_gives_boards_of_any_rating_the_same_drop():
    rating = np.array([20.0, 50.0, 80.0])
    assert rating * esc.estimated_fet_resistance(rating) == pytest.approx(0.05)


@pytest.mark.parametrize("duty", [-0.01, 1.01, float("nan")])
def test_duty_that_is_no_fraction_is_refused(duty):
    with pytest.raises(ValidityError, match=r"duty must be 0 to 1"):
        esc.esc_losses(40.0, 25.2, duty, 1e-3, 48e3)


def test_refusals_name_the_range():
    with pytest.raises(ValidityError, match=r"junction_temperature_K must be 230 to 450"):
        esc.fet_resistance(1e-3, 500.0)
    with pytest.raises(ValidityError, match=r"continuous_A must be 5 to 200 \(from memory\)"):
        esc.estimated_fet_resistance(500.0)


# the third chops no period whole; the last is of boards that differ
@pytest.mark.parametrize("pwm_Hz", [24e3, 48e3, 3e6, np.array([[24e3], [96e3]])])
def test_channel_has_the_losses_of_its_causes(pwm_Hz):
    fet = np.array([[0.7e-3], [2.0e-3]])
    current, volts = np.array([-60.0, 0.0, 3.0, 45.0]), np.array([12.0, 16.0, 25.2, 33.6])
    channel = esc.Channel(fet, pwm_Hz)
    for duty in (0.0, 0.004, 0.5, 0.97, 0.999, 1.0):
        expected = esc.esc_losses(current, volts, duty, fet, pwm_Hz).total_W
        assert channel.loss_W(current, volts, np.full(4, duty)) == pytest.approx(
            expected, rel=1e-12
        )
    outside = channel.loss_W(current, volts, np.array([-0.2, 1.0, 1.3, 2.0]))
    ends = channel.loss_W(current, volts, np.array([0.0, 1.0, 1.0, 1.0]))
    assert outside.tolist() == ends.tolist()
