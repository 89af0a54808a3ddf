"""From rotor speed and torque to currents and voltages: motor, ESC, wires and pack together."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from slipfit.build import Build
from slipfit.constants import ZERO_CELSIUS_K
from slipfit.flight.inputs import Inputs, esc_of, motor_of, pack_of
from slipfit.numerics import Array, Mask, Real
from slipfit.physics.esc import HOT_JUNCTION_K, Channel, esc_duty, fet_resistance
from slipfit.physics.motor import (
    hot_kv,
    motor_current,
    motor_voltage,
    no_load_current,
    winding_resistance,
)
from slipfit.physics.pack import cell_ocv, cell_resistance_ratio
from slipfit.physics.wire import awg_resistance

# Temperatures at which electric figures are stated until a flight is integrated over time:
# a motor a minute into hard use. Common practice, no source.
WINDING_K = ZERO_CELSIUS_K + 80.0
MAGNET_K = ZERO_CELSIUS_K + 60.0
BUS_PASSES = 4
FASTEST_SHAFT_RAD_S = 8_000.0  # the no-load loss model's range


@dataclass(frozen=True, kw_only=True)
class Drive:
    """The electric side of steady states, one per case; motor and ESC figures are per channel."""

    motor_current_A: Array
    motor_voltage_V: Array
    duty: Array
    esc_loss_W: Array
    channel_current_A: Array  # what one ESC channel draws from the bus
    pack_current_A: Array
    pack_voltage_V: Array
    pack_power_W: Array
    pack_headroom: Array  # 1 where the pack gives nothing, 0 where it gives its most
    feasible: Mask  # duty <= 1 and the pack can deliver the power


@dataclass(frozen=True, kw_only=True)
class Drivetrain:
    """Everything between cells and shaft of one build with its uncertain inputs."""

    kv_rad_s_V: Real
    resistance_ohm: Real
    no_load_current_A: Real  # at the speed below
    no_load_omega_rad_s: Real
    fet_resistance_ohm: Real
    pwm_frequency_Hz: float
    open_circuit_V: Real
    pack_resistance_ohm: Real  # cells, leads and connector in series
    motors: int
    avionics_W: float

    @cached_property
    def _channel(self) -> Channel:
        return Channel(self.fet_resistance_ohm, self.pwm_frequency_Hz)

    def drive(self, omega_rad_s: Array, torque_Nm: Array) -> Drive:
        """Currents, voltages and duty at given shaft states (fixed point on the bus voltage).

        Where the pack cannot give the power, the headroom is negative and the bus stands at the
        voltage of the most it can give. A state that the rotor has no answer for (NaN), or faster
        than the no-load loss model reaches, is computed at rest and marked not feasible.
        """
        known = (omega_rad_s <= FASTEST_SHAFT_RAD_S) & np.isfinite(torque_Nm)
        omega, torque = np.where(known, omega_rad_s, 0.0), np.where(known, torque_Nm, 0.0)
        no_load = no_load_current(omega, self.no_load_current_A, self.no_load_omega_rad_s)
        current = np.asarray(motor_current(torque, self.kv_rad_s_V, no_load))
        voltage = np.asarray(motor_voltage(omega, current, self.kv_rad_s_V, self.resistance_ohm))
        switch = fet_resistance(self.fet_resistance_ohm, HOT_JUNCTION_K)
        E, R = np.asarray(self.open_circuit_V), np.asarray(self.pack_resistance_ohm)
        bus = E * np.ones_like(voltage)
        for _ in range(BUS_PASSES):
            loss = self._channel.loss_W(current, bus, voltage / bus)
            power = self.motors * (voltage * current + loss) + self.avionics_W
            # constant power P from a source E behind R: V = (E + sqrt(E^2 - 4 P R)) / 2
            square = E**2 - 4.0 * power * R
            bus = 0.5 * (E + np.sqrt(np.maximum(square, 0.0)))
        duty = np.asarray(esc_duty(voltage, current, bus, switch))
        return Drive(
            motor_current_A=current,
            motor_voltage_V=voltage,
            duty=duty,
            esc_loss_W=loss,
            channel_current_A=(voltage * current + loss) / bus,
            pack_current_A=power / bus,
            pack_voltage_V=bus,
            pack_power_W=power,
            pack_headroom=square / E**2,
            feasible=known & (duty <= 1.0) & (square >= 0.0),
        )


def avionics_power(build: Build) -> float:
    """Power of everything on board that is not a motor. [W]"""
    kinds = ("stack", "camera", "video", "gps", "receiver")
    parts = (build.parts.get(kind) for kind in kinds)
    return build.frame.avionics_W + sum(getattr(part, "power_W", 0.0) for part in parts if part)


def lead_resistance(build: Build) -> float:
    """Resistance of the two leads between pack and ESC, there and back. [ohm]"""
    pack = pack_of(build)
    gauge, length = build.frame.wire.pack_gauge, build.frame.wire.pack_lead_length_m
    return float(
        2.0 * length * awg_resistance(gauge, build.day.air_temperature_K)
        + 2.0 * pack.lead_length_m * awg_resistance(pack.lead_gauge, build.day.air_temperature_K)
    )


def drivetrain(build: Build, inputs: Inputs, charge: float | None = None) -> Drivetrain:
    """The drivetrain at a state of charge (the day's, unless given)."""
    motor, pack, esc = motor_of(build), pack_of(build), esc_of(build)
    at = build.day.charge if charge is None else charge
    ratio = cell_resistance_ratio(build.day.pack_temperature_K, at)
    cells = inputs.cell_resistance_ohm * ratio * pack.cell_count
    return Drivetrain(
        kv_rad_s_V=hot_kv(inputs.kv_rad_s_V, MAGNET_K),
        resistance_ohm=winding_resistance(inputs.motor_resistance_ohm, WINDING_K),
        no_load_current_A=inputs.no_load_current_A,
        no_load_omega_rad_s=motor.kv_rad_s_V * motor.no_load_voltage_V,
        fet_resistance_ohm=inputs.fet_resistance_ohm,
        pwm_frequency_Hz=esc.pwm_frequency_Hz,
        open_circuit_V=pack.cell_count * cell_ocv(at, pack.full_cell_V),
        pack_resistance_ohm=cells + lead_resistance(build),
        motors=build.rotor_count,
        avionics_W=avionics_power(build),
    )
