"""Bay air, boards and leads over time: limits that steady tables and first principles set."""

from __future__ import annotations

import numpy as np
import pytest

from published import printed
from slipfit.constants import COPPER_RESISTIVITY_OHM_M
from slipfit.physics.bay import (
    board_temperature_after,
    bus_capacitance,
    ducted_air_speed,
    estimated_board_heat_capacity,
    recovery_temperature,
)
from slipfit.physics.heat import board_temperature
from slipfit.physics.wire import (
    awg_area,
    rated_current_mil5088,
    silicone_wire_diameter,
    wire_temperature_after,
    wire_temperature_rise,
    wire_time_constant,
)

# Worked example WIRE-RISE of tests/data/electric_drive.csv (computed, film from memory): 12 AWG,
# 4.5 mm over the insulation, 30 A, 15 W/(m2 K), air of 20 degC.
WIRE_RISE = "24.2204"
T20 = 293.15


def test_wire_temperature_after_tends_to_the_worked_example():
    end = wire_temperature_after(1e5, T20, 30.0, 12, 0.0045, 15.0)
    assert end - T20 == printed(WIRE_RISE)


def test_wire_temperature_after_begins_adiabatically_as_copper_and_rubber_do():
    # J^2 rho over the heat of copper and silicone together; the copper alone would be the
    # reference's CU-ADIAB, 0.004998 K/s for (A/mm2)^2
    current, seconds = 100.0, 0.01
    area = float(awg_area(12))
    heat = float(wire_time_constant(12, 0.0045, 15.0)) * 15.0 * np.pi * 0.0045
    expected = current**2 * COPPER_RESISTIVITY_OHM_M / area / heat
    rise = wire_temperature_after(seconds, T20, current, 12, 0.0045, 15.0) - T20
    assert rise / seconds == pytest.approx(expected, rel=1e-3)
    copper_only = (current / area * 1e-6) ** 2 * 0.00499808
    assert expected < copper_only


def test_wire_temperature_after_grows_without_bound_where_nothing_is_steady():
    assert not wire_temperature_rise(200.0, 12, 0.0045, 15.0).steady
    short, long = (wire_temperature_after(t, T20, 200.0, 12, 0.0045, 15.0) for t in (60.0, 120.0))
    assert long - T20 > 2.0 * (short - T20)


@pytest.mark.parametrize("gauge", [10, 12, 14, 18])
def test_rated_currents_stay_below_their_temperature(gauge):
    # MIL-W-5088B: conductor at 105 degC in air of 50 degC, single wire in free air. Silicone wire
    # of that gauge, with the middle of the range of still air, gets within a third of those 55 K.
    current = float(rated_current_mil5088(gauge))
    outer = float(silicone_wire_diameter(gauge))
    rise = wire_temperature_after(1e5, 323.15, current, gauge, outer, 15.0, 323.15) - 323.15
    assert 0.67 * 55.0 < rise < 1.4 * 55.0


def test_wire_temperature_after_takes_two_steps_as_one():
    half = wire_temperature_after(7.0, T20, 90.0, 14, 0.0035, 12.0, 270.0)
    twice = wire_temperature_after(7.0, half, 90.0, 14, 0.0035, 12.0, 270.0)
    once = wire_temperature_after(14.0, T20, 90.0, 14, 0.0035, 12.0, 270.0)
    assert twice == pytest.approx(once, rel=1e-12)


def test_board_temperature_after_tends_to_the_steady_one():
    steady = board_temperature(10.0, 0.0032, 40.0, T20)
    assert board_temperature_after(1e5, 300.0, 10.0, 0.0032 * 40.0, 12.8, T20) == pytest.approx(
        steady
    )
    assert board_temperature_after(0.0, 300.0, 10.0, 0.128, 12.8, T20) == 300.0


def test_board_temperature_after_begins_with_loss_over_heat_capacity():
    C = float(estimated_board_heat_capacity(0.016))
    rise = board_temperature_after(0.1, T20, 20.0, 0.13, C, T20) - T20
    assert rise == pytest.approx(0.1 * 20.0 / C, rel=1e-3)


# Recovery factor of a laminar plate: sqrt(0.71) = 0.84 as textbooks print it for air.
def test_recovery_temperature_has_the_laminar_recovery_factor():
    dT = recovery_temperature(288.15, 100.0) - 288.15
    assert dT / (100.0**2 / (2 * 1004.7)) == printed("0.84")


def test_recovery_temperature_of_air_at_rest_is_its_own():
    assert recovery_temperature(265.0, 0.0) == 265.0
    assert recovery_temperature(265.0, -50.0) == recovery_temperature(265.0, 50.0)


def test_ducted_air_keeps_its_volume_flow():
    assert ducted_air_speed(50.0, 2e-4, 0.6, 2e-4) == pytest.approx(30.0)
    assert ducted_air_speed(-50.0, 2e-4, 0.6, 4e-4) == pytest.approx(15.0)
    assert ducted_air_speed(0.0, 2e-4, 0.6, 4e-4) == 0.0


def test_bus_capacitance_is_greatest_at_half_duty_and_none_without_chopping():
    duty = np.linspace(0.0, 1.0, 101)
    needed = np.asarray(bus_capacitance(80.0, duty, 48e3, 0.5))
    assert int(np.argmax(needed)) == 50
    assert needed[0] == needed[-1] == 0.0
    # charge that the capacitor carries: the current for the time of a pulse, less its mean
    assert bus_capacitance(80.0, 0.25, 48e3, 0.5) * 0.5 == pytest.approx(
        (80.0 - 20.0) * 0.25 / 48e3
    )
