"""Pack, ESC and motors over a short time: from a rotor state to currents, voltages and warmth.

Everything is an array of shape (samples,). A step takes the rotor state as constant; charge and
polarisation are taken at the step's middle, and the motor's two temperatures are followed exactly,
so that a step of some seconds is as good as many short ones.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from slipfit.build import Build
from slipfit.constants import COPPER_TEMPERATURE_COEFFICIENT_PER_K
from slipfit.flight.cooling import Cooling
from slipfit.flight.drivetrain import avionics_power, lead_resistance
from slipfit.flight.full_throttle import Supply
from slipfit.flight.inputs import Inputs, esc_of, motor_of, pack_of
from slipfit.numerics import Array, Mask, Real
from slipfit.physics.esc import HOT_JUNCTION_K, Channel, fet_resistance
from slipfit.physics.heat import (
    estimated_case_heat_capacity,
    estimated_winding_heat_capacity,
    motor_temperatures_after,
)
from slipfit.physics.motor import REMANENCE_COEFFICIENT_PER_K, T20_K
from slipfit.physics.pack import (
    HEAT_CAPACITY_J_KG_K,
    POLARISATION_SHARE,
    POLARISATION_TIME_S,
    T25_K,
    cell_ocv,
    cell_resistance_ratio,
)

# Beyond these the models of copper and cells end. What gets there is long past its limit, and the
# flight has ended; the last known value keeps what follows finite.
_HOTTEST_MOTOR_K, _HOTTEST_CELL_K, _COLDEST_CELL_K = 620.0, 338.15, 248.15
_CHARGES = np.linspace(0.0, 1.0, 1025)
_CELL_K = np.linspace(_COLDEST_CELL_K, _HOTTEST_CELL_K, 91)
FULL = 1.0 + 2e-3  # duty above this cannot be had


@dataclass(frozen=True, kw_only=True)
class Condition:
    """What a flight changes in a build: charge, voltage of the slow element, temperatures."""

    charge: Array
    polarisation_V: Array
    pack_K: Array
    winding_K: Array
    case_K: Array

    def where(self, mask: Mask, other: Condition) -> Condition:
        """This where the mask is true, the other elsewhere."""
        pairs = ((name, getattr(self, name), getattr(other, name)) for name in vars(self))
        return Condition(**{name: np.where(mask, a, b) for name, a, b in pairs})


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step: means over it, and the worst of its start, mean and end where the name says peak or
    least; per motor or channel where the name says so."""

    duration_s: Array
    omega_rad_s: Array
    torque_Nm: Array
    motor_current_A: Array
    duty: Array
    copper_W: Array
    iron_W: Array
    esc_W: Array
    pack_current_A: Array
    pack_voltage_V: Array
    pack_resistance_ohm: Array  # cells and leads
    polarisation_V: Array
    polarisation_W: Array  # heat of the slow element
    motor_peak_A: Array
    pack_peak_A: Array
    pack_least_V: Array
    deliverable: Mask  # the pack gives the power, and the duty is at most 1


class Circuit:
    """The electric side of one build, or of its samples."""

    def __init__(self, build: Build, inputs: Inputs, cooling: Cooling, samples: int) -> None:
        motor, pack, esc = motor_of(build), pack_of(build), esc_of(build)

        def wide(value: Real) -> Array:
            return np.array(np.broadcast_to(np.ravel(np.asarray(value, dtype=float)), samples))

        self.cooling = cooling
        self.motors = build.rotor_count
        self.kv20 = wide(inputs.kv_rad_s_V)
        self.winding20 = wide(inputs.motor_resistance_ohm)
        self.fet = wide(inputs.fet_resistance_ohm)
        self.switch = np.asarray(fet_resistance(self.fet, HOT_JUNCTION_K))
        self.cells = pack.cell_count
        self.cell_ohm = wide(inputs.cell_resistance_ohm)
        self.capacity = wide(inputs.capacity_C)
        self.leads = lead_resistance(build)
        self.avionics_W = avionics_power(build)
        self.winding_J_K = float(estimated_winding_heat_capacity(motor.mass_kg))
        self.case_J_K = float(estimated_case_heat_capacity(motor.mass_kg))
        self.pack_J_K = HEAT_CAPACITY_J_KG_K * pack.mass_kg
        self._ocv = np.asarray(cell_ocv(_CHARGES, pack.full_cell_V)) * self.cells
        self._by_charge = np.asarray(cell_resistance_ratio(T25_K, _CHARGES))
        self._by_warmth = np.asarray(cell_resistance_ratio(_CELL_K, 0.5))
        self.channel = Channel(self.fet, esc.pwm_frequency_Hz)
        # at full throttle no period is chopped: only the gates' loss is left beside conduction
        self._fixed_W = self.avionics_W + self.motors * self.channel.gates_W
        air = build.day.air_temperature_K
        self.start = Condition(
            charge=wide(build.day.charge),
            polarisation_V=wide(0.0),
            pack_K=wide(build.day.pack_temperature_K),
            winding_K=wide(air),
            case_K=wide(air),
        )

    def open_circuit_V(self, charge: Array) -> Array:
        """Open-circuit voltage of the pack."""
        return np.asarray(np.interp(charge, _CHARGES, self._ocv))

    def cells_ohm(self, charge: Array, pack_K: Array) -> Array:
        """Resistance of all cells to a pulse of a second."""
        warmth = np.interp(pack_K, _CELL_K, self._by_warmth)
        by_charge = np.interp(charge, _CHARGES, self._by_charge)
        return np.asarray(self.cells * self.cell_ohm * warmth * by_charge)

    def kv(self, case_K: Array) -> Array:
        """Speed constant with magnets as warm as the case."""
        return np.asarray(self.kv20 / (1.0 + REMANENCE_COEFFICIENT_PER_K * (case_K - T20_K)))

    def winding_ohm(self, winding_K: Array) -> Array:
        """Winding resistance when warm."""
        rise = COPPER_TEMPERATURE_COEFFICIENT_PER_K * (winding_K - T20_K)
        return np.asarray(self.winding20 * (1.0 + rise))

    def supply(self, c: Condition) -> Supply:
        """What full throttle has to work with in a condition."""
        open_V = self.open_circuit_V(c.charge)
        return Supply(
            open_circuit_V=open_V - c.polarisation_V,
            pack_resistance_ohm=self.cells_ohm(c.charge, c.pack_K) + self.leads,
            winding_and_switch_ohm=self.winding_ohm(c.winding_K) + 2.0 * self.switch,
            kv_rad_s_V=self.kv(c.case_K),
            other_power_W=self._fixed_W,
            motors=self.motors,
        )

    def load(
        self, c: Condition, omega: Array, torque: Array, no_load: Array, winding_K: Array
    ) -> tuple[Array, Array, Array, Array]:
        """Motor current and voltage, copper and iron loss, of one motor."""
        kv = self.kv(c.case_K)
        current = torque * kv + no_load
        R = self.winding_ohm(winding_K)
        return current, omega / kv + current * R, current**2 * R, omega / kv * no_load

    def power(
        self, current: Array, voltage: Array, E: Array, R: Array
    ) -> tuple[Array, Array, Array, Array, Mask]:
        """Pack current and voltage, duty, ESC loss of a channel, and whether the pack gives it,
        for motors at a current and voltage on a source E behind R."""
        motors = self.motors * voltage * current + self.avionics_W
        bus = _behind(E, R, motors)[0]
        duty = np.minimum((voltage + 2.0 * current * self.switch) / bus, 1.0)
        loss = self.channel.loss_W(current, bus, duty)
        power = motors + self.motors * loss
        bus, enough = _behind(E, R, power)
        duty = (voltage + 2.0 * current * self.switch) / bus
        return power / bus, bus, duty, loss, enough

    def middle(
        self, c: Condition, duration_s: Array, drawn_A: Array, cells_ohm: Array
    ) -> tuple[Array, Array]:
        """Charge and voltage of the slow element in the middle of a time at a pack current, with
        the cells' resistance at its start."""
        charge = np.maximum(c.charge - 0.5 * duration_s * drawn_A / self.capacity, 0.0)
        half = np.exp(-0.5 * duration_s / POLARISATION_TIME_S)
        R_slow = POLARISATION_SHARE * cells_ohm
        return charge, c.polarisation_V * half + drawn_A * R_slow * (1.0 - half)

    def step(
        self,
        c: Condition,
        duration_s: Array,
        omega: Array,
        torque: Array,
        no_load: Array,
        through_m_s: Array,
        ends: Array | None = None,
    ) -> tuple[Step, Condition]:
        """The step, and the condition at its end. At full throttle, torque, no-load current and
        pack current at start and end are given by `ends` (3, 2, samples), and the duty is 1 but for
        what the supply changes within the step, which is no reason to call it more than there is.
        """
        dt = duration_s
        kv = self.kv(c.case_K)
        current = torque * kv + no_load
        iron = omega / kv * no_load
        case_W_K, ambient_K = self.cooling.of_case(omega, through_m_s)
        warm = motor_temperatures_after(
            dt, c.winding_K, c.case_K, current, self.winding20, iron,
            self.cooling.winding_W_K, case_W_K, self.winding_J_K, self.case_J_K, ambient_K,
        )  # fmt: skip
        winding_K = np.minimum(warm.winding_K, _HOTTEST_MOTOR_K)
        case_K = np.minimum(warm.case_K, _HOTTEST_MOTOR_K)
        R_winding = self.winding_ohm(0.5 * (c.winding_K + winding_K))
        voltage = omega / kv + current * R_winding

        # a first look at the pack's current, to know its state in the middle of the step
        R_cells = self.cells_ohm(c.charge, c.pack_K)
        R = R_cells + self.leads
        E = E_start = self.open_circuit_V(c.charge) - c.polarisation_V
        R_start = R
        rough = self.motors * voltage * current + self.avionics_W
        drawn = rough / _behind(E, R, rough)[0]
        middle, slow_V = self.middle(c, dt, drawn, R_cells)
        R_cells = self.cells_ohm(middle, c.pack_K)
        R = R_cells + self.leads
        E = self.open_circuit_V(middle) - slow_V
        drawn, bus, duty, loss, enough = self.power(current, voltage, E, R)
        deliverable = enough & (duty <= FULL) if ends is None else enough
        whole = np.exp(-dt / POLARISATION_TIME_S)
        R_slow = POLARISATION_SHARE * R_cells
        slow_end = c.polarisation_V * whole + drawn * R_slow * (1.0 - whole)
        slow_W = _mean_square(c.polarisation_V, drawn * R_slow, dt) / R_slow
        pack_K = self.cooling.pack_after(dt, c.pack_K, drawn**2 * R_cells + slow_W, self.pack_J_K)
        charge = np.maximum(c.charge - dt * drawn / self.capacity, 0.0)
        # start and end, at which current is highest and voltage lowest
        E_ends = np.array([E_start, self.open_circuit_V(charge) - slow_end])
        R_ends = np.array([R_start, R])
        if ends is None:
            motor_A, pack_V = current, _behind(E_ends, R_ends, drawn * bus)[0]
            pack_A = drawn * bus / pack_V
        else:
            motor_A, pack_A = (ends[0] * kv + ends[1]).max(axis=0), ends[2]
            pack_V = E_ends - pack_A * R_ends
        step = Step(
            duration_s=dt,
            omega_rad_s=omega,
            torque_Nm=torque,
            motor_current_A=current,
            duty=duty,
            copper_W=current**2 * R_winding,
            iron_W=iron,
            esc_W=loss,
            pack_current_A=drawn,
            pack_voltage_V=bus,
            pack_resistance_ohm=R,
            polarisation_V=slow_V,
            polarisation_W=slow_W,
            motor_peak_A=np.maximum(current, motor_A),
            pack_peak_A=np.maximum(drawn, pack_A.max(axis=0)),
            pack_least_V=np.minimum(bus, pack_V.min(axis=0)),
            deliverable=deliverable,
        )
        end = replace(
            c,
            charge=charge,
            polarisation_V=slow_end,
            pack_K=pack_K,
            winding_K=winding_K,
            case_K=case_K,
        )
        return step, end


def _behind(E: Array, R: Array, power: Array) -> tuple[Array, Mask]:
    """Voltage of a source E behind R that gives a power, and whether it can."""
    square = E**2 - 4.0 * power * R
    return 0.5 * (E + np.sqrt(np.maximum(square, 0.0))), np.asarray(square >= 0.0)


def _mean_square(start: Array, end: Array, dt: Array) -> Array:
    """Mean over a time of the square of a voltage that tends from `start` towards `end`."""
    x = dt / POLARISATION_TIME_S
    safe = np.maximum(x, 1e-9)
    once = -np.expm1(-safe) / safe
    twice = -np.expm1(-2.0 * safe) / (2.0 * safe)
    gap = start - end
    return np.asarray(end**2 + 2.0 * end * gap * once + gap**2 * twice)
