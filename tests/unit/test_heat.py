"""Balances, limits and refusals of the heat models."""

from __future__ import annotations

import numpy as np
import pytest

from slipfit.errors import ValidityError
from slipfit.physics import heat
from slipfit.physics.motor import winding_resistance

MOTOR = (0.029, 40.0, 1.16, 0.9)  # resistance, iron loss, conductances


def test_steady_state_closes_the_heat_balance():
    R, Pi, Gw, Gc = MOTOR
    Ta = 265.15
    m = heat.motor_temperatures(30.0, R, Pi, Gw, Gc, Ta)
    made = 30.0**2 * winding_resistance(R, float(m.winding_K)) + Pi
    assert Gw * float(m.winding_K - m.case_K) == pytest.approx(made)
    assert Gc * (float(m.case_K) - Ta) == pytest.approx(made)


def test_no_loss_no_rise():
    m = heat.motor_temperatures(0.0, 0.029, 0.0, 1.16, 0.9, 280.0)
    assert float(m.winding_K) == float(m.case_K) == 280.0


def test_runaway_is_a_mask_not_a_number():
    m = heat.motor_temperatures(np.array([20.0, 200.0]), *MOTOR, 293.15)
    assert m.steady.tolist() == [True, False]
    assert np.isnan(m.winding_K[1])


def after(t, current=40.0, start=(293.15, 293.15)):
    return heat.motor_temperatures_after(t, *start, current, *MOTOR, 12.0, 16.8, 293.15)


def test_transient_starts_where_it_is_and_ends_at_the_steady_state():
    begin = after(0.0, start=(310.0, 300.0))
    assert (float(begin.winding_K), float(begin.case_K)) == pytest.approx((310.0, 300.0))
    end, steady = after(5000.0), heat.motor_temperatures(40.0, *MOTOR, 293.15)
    assert float(end.winding_K) == pytest.approx(float(steady.winding_K))
    assert float(end.case_K) == pytest.approx(float(steady.case_K))
    assert end.steady


@pytest.mark.parametrize("current", [15.0, 40.0, 120.0])  # the last runs away
def test_transient_solves_the_two_equations(current):
    R, Pi, Gw, Gc = MOTOR
    dt = 1e-3
    early, now, late = (after(t, current) for t in (8.0 - dt, 8.0, 8.0 + dt))
    made = current**2 * R * (1 + 0.00393 * (now.winding_K - 293.15)) + Pi
    across, out = Gw * (now.winding_K - now.case_K), Gc * (now.case_K - 293.15)
    assert (late.winding_K - early.winding_K) / (2 * dt) == pytest.approx(
        (made - across) / 12.0, rel=1e-5
    )
    assert (late.case_K - early.case_K) / (2 * dt) == pytest.approx((across - out) / 16.8, rel=1e-5)


def test_two_steps_are_one_long_one():
    half = after(6.0)
    twice = after(9.0, start=(half.winding_K, half.case_K))
    assert float(twice.winding_K) == pytest.approx(float(after(15.0).winding_K))


def test_first_seconds_are_adiabatic():
    R, Pi, *_ = MOTOR
    rate = (float(after(0.01).winding_K) - 293.15) / 0.01
    assert rate == pytest.approx((40.0**2 * R + Pi) / 12.0, rel=0.01)


def test_film_is_still_air_at_rest_and_grows_with_speed():
    V = np.array([0.0, 1.0, 5.0, 20.0, 80.0])
    for h in (
        heat.film_coefficient_cylinder(V, 0.034, 310.0, 1.14),
        heat.film_coefficient_plate(V, 0.04, 310.0, 1.14),
    ):
        assert h[0] == pytest.approx(heat.STILL_AIR_W_M2_K, rel=0.01)
        assert (np.diff(h) > 0).all()
    assert heat.film_coefficient_cylinder(-20.0, 0.034, 310.0, 1.14) == pytest.approx(
        heat.film_coefficient_cylinder(20.0, 0.034, 310.0, 1.14)
    )


def test_turning_can_sheds_more():
    still, turning = (
        heat.case_conductance(20.0, rim, 0.034, 0.023, 293.15, 1.204) for rim in (0.0, 40.0)
    )
    assert turning > 1.3 * still


def test_prandtl_of_air():
    assert heat.air_prandtl(np.array([250.0, 300.0, 350.0])) == pytest.approx(0.71, abs=0.02)


def test_board_sheds_its_loss():
    T = heat.board_temperature(10.0, 0.0032, 40.0, 293.15)
    assert 40.0 * 0.0032 * (T - 293.15) == pytest.approx(10.0)


def test_heat_broadcasts():
    m = heat.motor_temperatures(np.linspace(0, 30, 4), *MOTOR, np.array([[263.0], [303.0]]))
    assert m.winding_K.shape == (2, 4)
    assert after(np.linspace(0, 30, 4), np.array([[10.0], [40.0]])).case_K.shape == (2, 4)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: heat.nusselt_cylinder_churchill_bernstein(2e7, 0.7),
            r"reynolds must be 0 to 1e\+07",
        ),
        (lambda: heat.nusselt_plate_laminar(6e5, 0.7), r"reynolds must be 0 to 500000"),
        (lambda: heat.air_conductivity(20.0), r"temperature_K must be 200 to 500"),
        (lambda: heat.film_coefficient_cylinder(9.0, 0.03, 20.0, 1.2), r"temperature_K must be"),
    ],
)
def test_heat_refuses_what_is_outside(call, message):
    with pytest.raises(ValidityError, match=message):
        call()
