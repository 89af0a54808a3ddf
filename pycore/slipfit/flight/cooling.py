"""What carries heat away on one build: air past the motors and boards, and around the pack."""

from __future__ import annotations

import numpy as np

from slipfit.build import Build
from slipfit.flight.inputs import Inputs, esc_of, motor_of, pack_of
from slipfit.numerics import Array, Real
from slipfit.physics.bay import (
    board_temperature_after,
    ducted_air_speed,
    estimated_board_heat_capacity,
    recovery_temperature,
)
from slipfit.physics.body.inlet import Inlet
from slipfit.physics.heat import (
    STILL_AIR_W_M2_K,
    case_conductance,
    estimated_winding_conductance,
    film_coefficient_plate,
)

_AIR_SPEEDS = np.concatenate([np.linspace(0.0, 12.0, 7), np.geomspace(16.0, 480.0, 22)])
_FILM_K = 30.0  # the film of air on a warm part is taken this much warmer than the air
OPEN_SHARE = 0.5  # of the speed of flight reaches boards in the open, behind plugs; memory


class Cooling:
    """Conductances of one build, or of its samples."""

    def __init__(self, build: Build, inputs: Inputs, samples: int) -> None:
        motor, pack, esc = motor_of(build), pack_of(build), esc_of(build)
        air, seat = build.air, build.frame.motor_seat

        def wide(value: Real) -> Array:
            return np.array(np.broadcast_to(np.ravel(np.asarray(value, dtype=float)), samples))

        self._factor = wide(inputs.cooling_factor)
        self._air_K, self._density = air.temperature_K, air.density_kg_m3
        # recovery goes with the square of the speed: its factor at 1 m/s
        self._recovery = float(recovery_temperature(self._air_K, 1.0)) - self._air_K
        self._can_radius_m = 0.5 * motor.can_diameter_m
        self._air_share = seat.air_share
        self._case_W_K = np.asarray(
            case_conductance(
                _AIR_SPEEDS, 0.0, motor.can_diameter_m, motor.can_length_m, self._air_K,
                self._density,
            )
        )  # fmt: skip
        inner = estimated_winding_conductance(motor.stator_diameter_m, motor.stator_height_m)
        self.winding_W_K = inner * self._factor
        sides = (pack.length_m, pack.width_m, pack.height_m)
        area = 2.0 * (sides[0] * sides[1] + sides[1] * sides[2] + sides[2] * sides[0])
        self.pack_W_K = STILL_AIR_W_M2_K * area * self._factor
        self._board_area_m2 = 2.0 * esc.length_m * esc.width_m
        self._board_length_m = esc.length_m
        self._board_J_K = float(estimated_board_heat_capacity(esc.mass_kg))
        self._stack_seat = build.frame.stack_seat
        inlets = [b for b in build.frame.bodies if isinstance(b.shape, Inlet)]
        self._inlet_m2 = sum(b.count * b.shape.area_m2 for b in inlets)
        captured = sum(b.count * b.shape.area_m2 * b.shape.capture for b in inlets)
        self._capture = captured / self._inlet_m2 if inlets else 0.0

    def of_case(self, omega: Array, through_m_s: Array) -> tuple[Array, Array]:
        """Conductance from a motor's case to the air, and the temperature of that air."""
        past = self._air_share * np.abs(through_m_s)
        met = np.hypot(past, self._can_radius_m * omega)
        conductance = np.interp(met, _AIR_SPEEDS, self._case_W_K) * self._factor
        return conductance, self._air_K + self._recovery * past**2

    def pack_after(self, duration_s: Array, pack_K: Array, heat_W: Array, J_K: float) -> Array:
        """Temperature of the pack after a time: its bay's still air is as cold as the day's."""
        end = self._air_K + heat_W / self.pack_W_K
        return np.asarray(end + (pack_K - end) * np.exp(-duration_s * self.pack_W_K / J_K))

    def bay_speed(self, speed_m_s: Array) -> Array:
        """Air speed past the boards at a speed of flight."""
        seat = self._stack_seat
        if seat.cooling == "open":
            return np.asarray(OPEN_SHARE * speed_m_s)
        if seat.cooling == "duct":
            return np.asarray(
                ducted_air_speed(speed_m_s, self._inlet_m2, self._capture, seat.air_section_m2)
            )
        return np.zeros_like(speed_m_s)

    def board_after(
        self, duration_s: Array, board_K: Real, loss_W: Array, speed_m_s: Array
    ) -> Array:
        """Temperature of the ESC board after a time at a loss of all its channels."""
        past = self.bay_speed(speed_m_s)
        film_K = self._air_K + _FILM_K
        film = film_coefficient_plate(
            past, self._board_length_m, film_K, self._density * self._air_K / film_K
        )
        return np.asarray(
            board_temperature_after(
                duration_s,
                board_K,
                loss_W,
                np.asarray(film) * self._board_area_m2 * self._factor,
                self._board_J_K,
                recovery_temperature(self._air_K, past),
            )
        )
