"""Balances, limits, refusals and estimates of the motor model."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from slipfit.errors import ValidityError
from slipfit.physics import motor
from tables import rows

RPM = np.pi / 30.0


@given(
    omega=st.floats(-4000, 4000),
    torque=st.floats(-0.3, 0.3),
    kv=st.floats(30, 900),
    R=st.floats(0.001, 0.3),
    i0=st.floats(0, 4),
)
def test_power_in_is_shaft_plus_losses(omega, torque, kv, R, i0):
    s = motor.motor_from_shaft(omega, torque, kv, R, i0)
    scale = abs(float(s.shaft_power_W)) + float(s.copper_loss_W) + abs(float(s.iron_loss_W)) + 1e-9
    total = s.shaft_power_W + s.copper_loss_W + s.iron_loss_W
    assert float(s.electrical_power_W) == pytest.approx(float(total), abs=1e-9 * scale)
    assert 0.0 <= float(s.efficiency) <= 1.0 + 1e-9 or omega * torque < 0 or omega < 0


@given(voltage=st.floats(1, 60), current=st.floats(0.1, 100))
def test_shaft_and_supply_forms_are_inverses(voltage, current):
    a = motor.motor_from_supply(voltage, current, 204.2, 0.03, 1.4)
    b = motor.motor_from_shaft(a.omega_rad_s, a.torque_Nm, 204.2, 0.03, 1.4)
    assert float(b.voltage_V) == pytest.approx(voltage, rel=1e-9)
    assert float(b.current_A) == pytest.approx(current, rel=1e-9)


def test_current_and_voltage_alone_agree_with_the_state():
    s = motor.motor_from_shaft(3000.0, 0.1, 204.2, 0.05, 1.5)
    i = motor.motor_current(0.1, 204.2, 1.5)
    assert float(s.current_A) == pytest.approx(i)
    assert float(s.voltage_V) == pytest.approx(motor.motor_voltage(3000.0, i, 204.2, 0.05))


def test_efficiency_peaks_where_the_formula_says():
    i = np.linspace(2.0, 120.0, 4001)
    eta = motor.motor_from_supply(22.2, i, 204.2, 0.05, 1.5).efficiency
    assert i[eta.argmax()] == pytest.approx(
        motor.best_efficiency_current(22.2, 0.05, 1.5), abs=0.04
    )
    assert eta.max() == pytest.approx(motor.best_efficiency(22.2, 0.05, 1.5), rel=1e-6)


def test_standstill_without_load_is_an_ordinary_state():
    s = motor.motor_from_shaft(0.0, 0.0, 204.2, 0.05, 0.0)
    assert float(s.voltage_V) == 0.0
    assert float(s.efficiency) == 0.0


def test_windmilling_gives_power_back():
    s = motor.motor_from_shaft(2000.0, -0.05, 204.2, 0.05, 1.0)
    assert float(s.electrical_power_W) < 0.0
    assert float(s.efficiency) == 0.0


def test_states_broadcast():
    s = motor.motor_from_shaft(np.linspace(0, 4000, 5), 0.1, np.array([[200.0], [300.0]]), 0.05, 1)
    assert s.voltage_V.shape == (2, 5)
    assert s.copper_loss_W.shape == (2, 5)


def test_no_load_current_is_the_quoted_one_at_its_speed_and_rises():
    assert motor.no_load_current(2042.0, 1.5, 2042.0) == pytest.approx(1.5)
    i0 = motor.no_load_current(np.linspace(0, 8000, 50), 1.5, 2042.0)
    assert (np.diff(i0) > 0).all()
    assert motor.no_load_current(-3000.0, 1.5, 2042.0) == motor.no_load_current(3000.0, 1.5, 2042.0)
    # memory: twice 2000 rad/s raises it by 1.3 to 1.5
    assert 1.3 <= motor.no_load_current(4000.0, 1.0, 2000.0) <= 1.5


def test_motor_constant_does_not_depend_on_the_winding():
    kv = np.array([100.0, 200.0, 400.0])
    R = motor.estimated_resistance(0.022, 0.007, kv) - motor._LEAD_RESISTANCE_OHM
    assert R * kv**2 == pytest.approx(R[0] * kv[0] ** 2)


# The laws and this table come from one memory, so this says only that they agree within the
# spread that is promised: at most one motor in five may lie outside a 10-90 % range.
@pytest.mark.parametrize(
    ("column", "scale", "spread", "estimate"),
    [
        ("resistance_mohm", 1e3, "resistance_ohm", motor.estimated_resistance),
        ("no_load_current_10V_A", 1.0, "no_load_current_A", motor.estimated_no_load_current),
        ("mass_g", 1e3, "mass_kg", lambda D, h, kv: motor.estimated_mass(D, h)),
        (
            "can_diameter_mm",
            1e3,
            "can_diameter_m",
            lambda D, h, kv: motor.estimated_can_diameter(D),
        ),
    ],
)
def test_estimates_hold_their_spread_over_remembered_motors(column, scale, spread, estimate):
    known = [r for r in rows("motor_estimates.csv") if r[column]]
    D, h, kv, value = (
        np.array([float(r[c]) for r in known])
        for c in ("stator_diameter_mm", "stator_height_mm", "kv_rpm_V", column)
    )
    ratio = scale * estimate(D * 1e-3, h * 1e-3, kv * RPM) / value
    inside = np.abs(ratio - 1.0) <= motor.ESTIMATE_SPREADS[spread]
    assert inside.mean() >= 0.8
    assert abs(np.log(ratio).mean()) <= 0.05  # no lean to one side


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: motor.winding_resistance(0.05, 80.0), r"winding_temperature_K must be 220 to 620"),
        (lambda: motor.hot_kv(200.0, 60.0), r"magnet_temperature_K must be 220 to 500"),
        (lambda: motor.no_load_current(9e3, 1.0, 2e3), r"omega_rad_s must be -8000 to 8000"),
        (lambda: motor.estimated_mass(22.0, 7.0), r"stator_diameter_m must be 0.008 to 0.045"),
        (lambda: motor.estimated_mass(0.022, 0.07), r"stator_height_m must be 0.001 to 0.025"),
    ],
)
def test_motor_refuses_what_is_outside(call, message):
    with pytest.raises(ValidityError, match=message):
        call()
