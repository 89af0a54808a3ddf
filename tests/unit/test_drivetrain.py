"""Cells to shaft: power is accounted for, and each change of a part acts the way physics says."""

from __future__ import annotations

import dataclasses
from typing import Any

import numpy as np
import pytest

from site_builds import altered, framed, library, on_day, shipped, swapped
from slipfit.build import Build
from slipfit.flight.drivetrain import (
    FASTEST_SHAFT_RAD_S,
    MAGNET_K,
    WINDING_K,
    Drive,
    Drivetrain,
    avionics_power,
    drivetrain,
    lead_resistance,
)
from slipfit.flight.inputs import motor_of, nominal_inputs, pack_of
from slipfit.flight.performance import full_throttle, performance
from slipfit.numerics import Array
from slipfit.physics.esc import HOT_JUNCTION_K, esc_losses, fet_resistance
from slipfit.physics.motor import motor_from_shaft
from slipfit.physics.pack import cell_ocv, pack_at_power
from slipfit.physics.wire import awg_resistance

OMEGA = np.linspace(0.0, 3900.0, 40)
TORQUE = 0.14 * (OMEGA / 3900.0) ** 2


def electric(build: Build, charge: float | None = None, **changes: Any) -> Drivetrain:
    return dataclasses.replace(drivetrain(build, nominal_inputs(build), charge), **changes)


def drive(build: Build, omega: Array = OMEGA, torque: Array = TORQUE) -> Drive:
    return electric(build).drive(omega, torque)


# ------------------------------------------------------------------------------ power


def test_pack_power_is_motors_and_esc_losses_and_avionics() -> None:
    build = shipped()
    d = drive(build)
    motors = build.rotor_count * d.motor_voltage_V * d.motor_current_A
    losses = build.rotor_count * d.esc_loss_W
    expected = motors + losses + avionics_power(build)
    assert d.pack_power_W == pytest.approx(expected, rel=1e-9)
    assert d.pack_current_A * d.pack_voltage_V == pytest.approx(d.pack_power_W, rel=1e-12)
    channels = build.rotor_count * d.channel_current_A * d.pack_voltage_V
    assert channels + avionics_power(build) == pytest.approx(d.pack_power_W, rel=1e-9)


def test_shaft_power_never_exceeds_what_the_motor_takes() -> None:
    d = drive(shipped())
    assert np.all(d.motor_voltage_V * d.motor_current_A > OMEGA * TORQUE)


def test_the_bus_is_a_source_behind_a_resistance_under_constant_power() -> None:
    """V = E - I R, and the closed form V = (E + sqrt(E^2 - 4 P R)) / 2 of the pack module."""
    build = shipped()
    e, d = electric(build), drive(build)
    law = np.asarray(e.open_circuit_V) - d.pack_current_A * np.asarray(e.pack_resistance_ohm)
    assert d.pack_voltage_V == pytest.approx(law, rel=1e-12)
    closed = pack_at_power(e.open_circuit_V, e.pack_resistance_ohm, d.pack_power_W)
    assert d.pack_voltage_V == pytest.approx(closed.voltage_V, rel=1e-12)
    assert d.pack_current_A == pytest.approx(closed.current_A, rel=1e-12)


def test_motor_figures_are_those_of_the_motor_module() -> None:
    build = shipped()
    e, d = electric(build), drive(build)
    fast = OMEGA > 0.0
    motor = motor_from_shaft(
        OMEGA[fast],
        TORQUE[fast],
        e.kv_rad_s_V,
        e.resistance_ohm,
        no_load_current_A=0.0,
    )
    # without no-load current the two agree exactly; with it, the current is larger by just that
    bare = dataclasses.replace(e, no_load_current_A=0.0).drive(OMEGA[fast], TORQUE[fast])
    assert bare.motor_current_A == pytest.approx(motor.current_A, rel=1e-12)
    assert bare.motor_voltage_V == pytest.approx(motor.voltage_V, rel=1e-12)
    assert np.all(d.motor_current_A[fast] > bare.motor_current_A)


def test_losses_belong_to_the_voltage_under_load() -> None:
    """The bus sags by what the losses take, so both are found together. Four passes leave less than
    1e-5 of the losses, a ten-thousandth of a watt."""
    build = shipped()
    e, d = electric(build), drive(build)
    duty = np.clip(d.motor_voltage_V / d.pack_voltage_V, 0.0, 1.0)
    again = esc_losses(
        d.motor_current_A, d.pack_voltage_V, duty, e.fet_resistance_ohm, e.pwm_frequency_Hz
    )
    assert d.esc_loss_W[d.feasible] == pytest.approx(again.total_W[d.feasible], rel=1e-5)
    switch = fet_resistance(e.fet_resistance_ohm, HOT_JUNCTION_K)
    through = d.motor_voltage_V + 2.0 * d.motor_current_A * np.asarray(switch)
    assert d.duty == pytest.approx(through / d.pack_voltage_V, rel=1e-12)


def test_at_rest_only_electronics_and_gates_draw() -> None:
    build = shipped()
    d = drive(build, np.array([0.0]), np.array([0.0]))
    assert d.motor_voltage_V[0] == pytest.approx(
        d.motor_current_A[0] * float(np.asarray(electric(build).resistance_ohm)), rel=1e-12
    )
    assert avionics_power(build) < d.pack_power_W[0] < avionics_power(build) + 8.0
    assert d.feasible[0]


# ------------------------------------------------------------------------------ what cannot be


def test_more_than_the_pack_can_give_is_not_feasible_and_still_a_number() -> None:
    """A source gives at most E^2 / 4R."""
    build = shipped()
    e = electric(build)
    most = float(np.asarray(e.open_circuit_V)) ** 2 / 4 / float(np.asarray(e.pack_resistance_ohm))
    omega = np.array([3000.0, 3000.0])
    torque = np.array([0.1, 1.1 * most / 4 / 3000.0])
    d = e.drive(omega, torque)
    assert d.feasible.tolist() == [True, False]
    for field in dataclasses.fields(Drive):
        assert np.isfinite(getattr(d, field.name)).all(), field.name


def test_throttle_beyond_full_is_not_feasible() -> None:
    d = drive(shipped(), np.array([4000.0, 5500.0]), np.array([0.02, 0.02]))
    assert d.feasible.tolist() == [True, False]
    assert d.duty[1] > 1.0


@pytest.mark.parametrize(
    ("omega", "torque"), [(3000.0, np.nan), (FASTEST_SHAFT_RAD_S + 1.0, 0.01), (np.nan, 0.01)]
)
def test_a_state_without_an_answer_is_marked_not_guessed(omega: float, torque: float) -> None:
    d = drive(shipped(), np.array([omega, 1000.0]), np.array([torque, 0.01]))
    assert d.feasible.tolist() == [False, True]
    assert np.isfinite(d.pack_power_W).all()
    alone = drive(shipped(), np.array([1000.0]), np.array([0.01]))
    assert d.pack_power_W[1] == alone.pack_power_W[0]


# ------------------------------------------------------------------------------ directions


def test_a_cold_pack_sags_more() -> None:
    """Cells resist two to three times as much at -10 degC as when warm."""
    volts = [drive(on_day(pack_temperature_K=273.15 + c)).pack_voltage_V for c in (-10, 10, 40)]
    assert np.all(volts[0] < volts[1]) and np.all(volts[1] < volts[2])


def test_a_pack_at_minus_ten_resists_two_to_three_times_as_much() -> None:
    """The factor the pack model was made from, leads and all."""
    cold, usual = (
        float(np.asarray(electric(on_day(pack_temperature_K=273.15 + c)).pack_resistance_ohm))
        for c in (-10, 25)
    )
    assert 2.0 < cold / usual < 3.5


def test_charge_sets_the_open_voltage() -> None:
    build = shipped()
    pack = pack_of(build)
    for charge in (1.0, 0.5, 0.1):
        expected = pack.cell_count * float(np.asarray(cell_ocv(charge, pack.full_cell_V)))
        assert electric(build, charge).open_circuit_V == pytest.approx(expected, rel=1e-15)
    assert electric(build, 0.5).open_circuit_V < electric(build).open_circuit_V
    assert electric(build).open_circuit_V == pytest.approx(6 * 4.2, rel=1e-3)


def test_more_cells_ask_less_throttle_and_pack_current_at_one_shaft_state() -> None:
    six, eight = drive(shipped()), drive(altered("pack", cell_count=8))
    turning = OMEGA > 500.0
    assert np.all(eight.duty[turning] < six.duty[turning])
    assert np.all(eight.pack_current_A[turning] < six.pack_current_A[turning])
    assert eight.motor_current_A == pytest.approx(six.motor_current_A, rel=1e-12)


def test_more_torque_asks_more_of_everything() -> None:
    torque = np.linspace(0.0, 0.2, 20)
    d = drive(shipped(), np.full_like(torque, 2500.0), torque)
    for field in ("motor_current_A", "duty", "pack_current_A", "pack_power_W"):
        assert np.all(np.diff(getattr(d, field)) > 0.0), field
    assert np.all(np.diff(d.pack_voltage_V) < 0.0)


def test_a_motor_of_lower_speed_constant_draws_less_current_at_more_voltage() -> None:
    build = shipped()
    fast, slow = (
        drive(build),
        drive(altered("motor", kv_rad_s_V=0.8 * motor_of(build).kv_rad_s_V)),
    )
    hard = TORQUE > 0.05
    assert np.all(slow.motor_current_A[hard] < fast.motor_current_A[hard])
    assert np.all(slow.motor_voltage_V[hard] > fast.motor_voltage_V[hard])


def test_temperatures_of_hard_use_are_in_the_motor_figures() -> None:
    build, inputs = shipped(), nominal_inputs(shipped())
    e = electric(build)
    assert e.resistance_ohm > 1.15 * np.asarray(inputs.motor_resistance_ohm)  # copper at 80 degC
    assert np.asarray(e.kv_rad_s_V) > np.asarray(inputs.kv_rad_s_V)  # magnets weaken
    assert WINDING_K > MAGNET_K > 300.0


# ------------------------------------------------------------------------------ what is summed


def test_avionics_are_the_frame_and_each_powered_part_once() -> None:
    build = shipped()
    powered = [getattr(part, "power_W", 0.0) for part in build.parts.values()]
    assert avionics_power(build) == pytest.approx(build.frame.avionics_W + sum(powered), rel=1e-15)
    assert avionics_power(build) > build.frame.avionics_W
    assert avionics_power(altered("video", power_W=20.0)) == pytest.approx(
        avionics_power(build) - build.parts["video"].power_W + 20.0
    )
    assert avionics_power(framed(avionics_W=0.0)) == pytest.approx(
        avionics_power(build) - build.frame.avionics_W
    )


def test_both_leads_of_pack_and_frame_count_there_and_back() -> None:
    build = shipped()
    pack, wire, air_K = pack_of(build), build.frame.wire, build.day.air_temperature_K
    expected = 2 * wire.pack_lead_length_m * awg_resistance(wire.pack_gauge, air_K)
    expected += 2 * pack.lead_length_m * awg_resistance(pack.lead_gauge, air_K)
    assert lead_resistance(build) == pytest.approx(expected, rel=1e-15)
    assert lead_resistance(altered("pack", lead_length_m=0.3)) > lead_resistance(build)
    assert lead_resistance(altered("pack", lead_gauge=16)) > lead_resistance(build)


# ------------------------------------------------------------------------------ full throttle


@pytest.mark.parametrize("pack", [part.id for part in library().shelf.of("pack")])
def test_full_throttle_is_duty_one(pack: str) -> None:
    """Or a pack that gives its most before that. 1e-6: a root found, not a number of physics."""
    p = performance(swapped(pack=pack))
    drive = p.standing.drive
    if pack == "k6-4200r":  # round cells, too weak for this frame
        assert drive.pack_headroom[0, 0] == pytest.approx(0.0, abs=1e-6)
        assert drive.duty[0, 0] < 1.0
    else:
        assert drive.duty[0, 0] == pytest.approx(1.0, abs=1e-6)
    assert p.standing.valid[0, 0]


def test_full_throttle_in_axial_flow_turns_faster_and_draws_less() -> None:
    """The oncoming air unloads the blades: that is why standing still is the hardest on an ESC."""
    p = performance(shipped())
    axial = np.array([[0.0, 40.0, 70.0, 100.0]])
    f = full_throttle(p.rotors, p.electric, axial, 0.0 * axial)
    assert f.drive.duty == pytest.approx(np.ones((1, 4)), abs=1e-6)
    # below 40 m/s this blade is stalled, and stalled blades do not unload
    assert np.all(np.diff(f.omega_rad_s[0, 1:]) > 0.0)
    assert np.all(np.diff(f.drive.motor_current_A[0, 1:]) < 0.0)


def test_more_cells_and_warmer_packs_give_more_current_at_full_throttle() -> None:
    def current(build: Build) -> float:
        return float(performance(build).standing.drive.motor_current_A[0, 0])

    six, eight = current(shipped()), current(altered("pack", cell_count=8))
    assert eight > 1.2 * six
    cold, warm = (
        current(on_day(pack_temperature_K=265.0)),
        current(on_day(pack_temperature_K=310.0)),
    )
    assert cold < six < warm
