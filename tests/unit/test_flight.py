"""The flight: conservation, convergence, limits, and what ends it."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from site_builds import altered, library, on_day, shipped, swapped
from slipfit.build import Build
from slipfit.constants import G0_M_S2
from slipfit.flight.airframe_map import airframe_map
from slipfit.flight.cooling import Cooling
from slipfit.flight.flight import ENDS, PACK_LIMIT_K, Flight, flight_of, fly
from slipfit.flight.full_throttle import FullThrottle, Supply
from slipfit.flight.inputs import nominal_inputs, pack_of, sampled_inputs
from slipfit.flight.legs import plan_of
from slipfit.flight.performance import Performance, performance
from slipfit.flight.wiring import (
    WIRE_LIMIT_K,
    lasting_current,
    motor_lead_peak,
    pack_lead_peak,
    thinnest_pack_lead,
)
from slipfit.frame.leg import legs_from_text
from slipfit.library import default_build
from slipfit.physics.pack import POLARISATION_SHARE, POLARISATION_TIME_S, usable_energy

TWELVE = legs_from_text(
    "hover 8 s, cruise 400 m, pass 300 m x1, turn 6 s, pass 400 m 60 m/s x2, turn 5 s, cruise 10 s,"
    " pass 500 m 65 m/s, turn 6 s, return 600 m, land 12 s, reserve 20 %"
)
CALM = legs_from_text("hover 20 s, cruise 60 s, hover 20 s, land 10 s")


@pytest.fixture(scope="module")
def p() -> Performance:
    return performance(shipped())


@pytest.fixture(scope="module")
def samples(p) -> Performance:
    inputs, _ = sampled_inputs(p.build, 16)
    return performance(p.build, inputs, p.speeds_m_s)


def first(values) -> float:
    return float(np.ravel(values)[0])


def flown(flight: Flight, values) -> float:
    """Sum over what the first sample flew."""
    return float((values * flight.steps.duration_s * flight.flown)[:, 0].sum())


def least_cell_V(flight: Flight) -> float:
    """Up to the end of the first round: how many follow may hang on a hair."""
    there = (flight.parts <= 0) & (flight.steps.duration_s[:, 0] > 0.0)
    return float(flight.steps.pack_least_V[there, 0].min()) / flight.circuit.cells


# --- conservation ------------------------------------------------------------------------------


@pytest.mark.parametrize("legs", [TWELVE, CALM], ids=["twelve", "calm"])
def test_energy_that_leaves_the_cells_arrives_somewhere(p, legs):
    flight = fly(p, legs)
    steps, circuit = flight.steps, flight.circuit
    left = first(flight.condition.charge[-1])
    pack = pack_of(p.build)
    stored = float(usable_energy(pack.capacity_C, pack.cell_count, 1.0, left, pack.full_cell_V))
    terminals = flown(flight, steps.pack_current_A * steps.pack_voltage_V)
    ohmic = flown(flight, steps.pack_current_A**2 * steps.pack_resistance_ohm)
    slow = flown(flight, steps.polarisation_W)
    R_slow = POLARISATION_SHARE * first(
        circuit.cells_ohm(flight.condition.charge[-1], flight.condition.pack_K[-1])
    )
    in_slow = 0.5 * (POLARISATION_TIME_S / R_slow) * first(flight.condition.polarisation_V[-1]) ** 2
    assert terminals + ohmic + slow + in_slow == pytest.approx(stored, rel=1e-3)

    shafts = flown(flight, steps.omega_rad_s * steps.torque_Nm)
    lost = flown(flight, steps.copper_W + steps.iron_W + steps.esc_W)
    electronics = circuit.avionics_W * flown(flight, np.ones_like(steps.duty))
    assert circuit.motors * (shafts + lost) + electronics == pytest.approx(terminals, rel=1e-3)


def test_charge_is_the_integral_of_current(p):
    flight = fly(p, TWELVE)
    drawn = flown(flight, flight.steps.pack_current_A) / first(flight.circuit.capacity)
    assert 1.0 - drawn == pytest.approx(first(flight.condition.charge[-1]), abs=1e-12)


def test_energy_by_leg_adds_up(p):
    flight = fly(p, TWELVE)
    by_leg = [flight.energy_J[flight.stretch_of == k].sum() for k in range(len(flight.stretches))]
    terminals = flown(flight, flight.steps.pack_current_A * flight.steps.pack_voltage_V)
    assert sum(by_leg) == pytest.approx(terminals, rel=1e-12)


# --- steps -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "build",
    [shipped(), swapped(prop="p525-95-2"), swapped(pack="k4-1800")],
    ids=["shipped", "steep", "four cells"],
)
def test_shorter_steps_change_little(build):
    p = performance(build)
    coarse, fine = (fly(p, build.frame.legs, finer) for finer in (1, 4))
    assert first(coarse.passes) == pytest.approx(first(fine.passes), rel=1e-2)
    if coarse.rounds_flown == fine.rounds_flown:  # not so where a pass is only just to be had
        assert first(coarse.ends_s) == pytest.approx(first(fine.ends_s), rel=5e-3)
    for name in ("winding_K", "case_K", "pack_K"):
        pair = [first(f.peak(getattr(f.condition, name))) for f in (coarse, fine)]
        assert pair[0] == pytest.approx(pair[1], abs=1.0)
    boards = [first(f.peak(f.board_K)) for f in (coarse, fine)]
    assert boards[0] == pytest.approx(boards[1], abs=1.0)
    cells = [least_cell_V(f) for f in (coarse, fine)]
    assert cells[0] == pytest.approx(cells[1], abs=0.015)


PASSES = {
    "of the frame": "",
    "flat out from hover": "hover 5 s, pass 300 m x1, turn 5 s, land 5 s, reserve 20 %",
    "eased to a speed": "hover 5 s, pass 600 m 40 m/s x2, turn 5 s, land 5 s, reserve 20 %",
    "none": "hover 20 s, cruise 60 s, hover 20 s, land 10 s",
}


@pytest.mark.parametrize("legs", PASSES)
@pytest.mark.parametrize("build", [shipped(), swapped(pack="k4-1800")], ids=["shipped", "four"])
def test_peaks_are_those_of_much_finer_steps(build, legs):
    p = performance(build)
    flown = legs_from_text(PASSES[legs]) if PASSES[legs] else build.frame.legs
    coarse, fine = fly(p, flown), fly(p, flown, finer=8)
    for name in ("motor_peak_A", "pack_peak_A"):
        pair = [first(f.peak(getattr(f.steps, name))) for f in (coarse, fine)]
        assert pair[0] == pytest.approx(pair[1], rel=2e-3), name
    cells = [least_cell_V(f) for f in (coarse, fine)]
    assert cells[0] == pytest.approx(cells[1], abs=0.015)


def test_peak_of_a_run_up_is_at_its_start_and_means_of_ever_finer_steps_come_to_it(p):
    legs = legs_from_text(PASSES["flat out from hover"])
    peak = first(fly(p, legs).peak(fly(p, legs).steps.motor_peak_A))
    means = [first(f.peak(f.steps.motor_current_A)) for f in (fly(p, legs, n) for n in (1, 8, 64))]
    assert means[0] < means[1] < means[2] < peak
    assert means[0] < 0.98 * peak
    assert means[2] == pytest.approx(peak, rel=6e-3)
    # full throttle at rest on what hover has left of the pack, with cold motors
    flight = fly(p, legs)
    start = flight.steps.motor_peak_A[flight.parts == 0][0, 0]
    assert peak == start


@pytest.mark.parametrize("build", [shipped(), swapped(pack="k4-1800")], ids=["shipped", "four"])
def test_run_up_from_hover_is_as_good_as_with_finer_steps(build):
    """From rest the pull falls with the speed, not with its square: the steps must see that."""
    p = performance(build)
    legs = legs_from_text(PASSES["flat out from hover"])
    coarse, fine = fly(p, legs), fly(p, legs, finer=8)

    def of_first(flight: Flight, values) -> float:
        inside = flight.parts == 0
        return float((values * flight.steps.duration_s)[inside, 0].sum())

    square, time = (
        [of_first(f, values(f)) for f in (coarse, fine)]
        for values in (lambda f: f.steps.pack_current_A**2, lambda f: np.ones_like(f.speed_m_s))
    )
    assert square[0] == pytest.approx(square[1], rel=2e-2)
    assert time[0] == pytest.approx(time[1], rel=1e-2)
    for name in ("pack_K", "winding_K"):
        pair = [getattr(f.condition, name)[f.parts == 0][-1, 0] for f in (coarse, fine)]
        assert pair[0] == pytest.approx(pair[1], abs=0.5), name


def test_passes_that_warmth_ends_do_not_hang_on_the_steps(p):
    """The pack reaches its limit within a step; the share of it that was flown counts."""
    legs = legs_from_text("hover 5 s, pass 600 m x2, turn 5 s, land 5 s")
    coarse, fine = fly(p, legs), fly(p, legs, finer=8)
    assert coarse.passes_by == fine.passes_by == "pack"
    assert first(coarse.passes) == pytest.approx(first(fine.passes), abs=0.05)


def test_no_mean_is_past_its_peak(p, samples):
    for flight in (flight_of(p), fly(samples, TWELVE)):
        steps = flight.steps
        assert (steps.motor_peak_A >= steps.motor_current_A).all()
        assert (steps.pack_peak_A >= steps.pack_current_A).all()
        assert (steps.pack_least_V <= steps.pack_voltage_V).all()


def test_error_falls_with_the_step(p):
    def charge(finer: int) -> float:
        return first(fly(p, TWELVE[:4], finer).condition.charge[-1])

    coarse, middle, fine = charge(1), charge(8), charge(32)
    assert coarse == pytest.approx(fine, abs=1e-3)
    assert abs(middle - fine) < 0.6 * abs(coarse - fine) + 1e-6


# --- one code path -----------------------------------------------------------------------------


def test_samples_fly_as_single_builds_do(p, samples):
    many = fly(samples, TWELVE)
    for row in (0, 7, 15):
        given = {
            name: float(np.ravel(getattr(samples.inputs, name))[row])
            for name in vars(samples.inputs)
        }
        alone = performance(p.build, type(samples.inputs)(**given), p.speeds_m_s)
        one = fly(alone, TWELVE)
        # alike but for the steps, which are those that the slowest and fastest samples ask for
        assert many.passes[row] == pytest.approx(first(one.passes), rel=1e-3)
        assert many.ends_s[row] == pytest.approx(first(one.ends_s), rel=1e-3)
        peak = many.peak(many.condition.winding_K)[row]
        assert peak == pytest.approx(first(one.peak(one.condition.winding_K)), rel=1e-3)


def test_same_flight_twice_is_the_same(p):
    assert np.array_equal(fly(p, TWELVE).condition.charge, fly(p, TWELVE).condition.charge)


def test_a_flight_is_kept(p):
    assert flight_of(p) is flight_of(p)


# --- full throttle -----------------------------------------------------------------------------


def test_full_throttle_at_top_speed_does_not_accelerate(p):
    supply = Supply(
        open_circuit_V=np.ravel(p.electric.open_circuit_V),
        pack_resistance_ohm=np.ravel(p.electric.pack_resistance_ohm),
        winding_and_switch_ohm=np.ravel(p.electric.resistance_ohm)
        + 2 * 1.5 * np.ravel(p.electric.fet_resistance_ohm),
        kv_rad_s_V=np.ravel(p.electric.kv_rad_s_V),
        other_power_W=np.array([p.electric.avionics_W]),
        motors=4,
    )
    found = FullThrottle(p).at(p.top_speed_m_s[:, 0], supply)
    assert first(found.omega_rad_s) == pytest.approx(first(p.top.trim.omega_rad_s), rel=3e-3)
    assert first(found.acceleration_m_s2) == pytest.approx(0.0, abs=0.25)
    still = FullThrottle(p).at(np.zeros(1), supply)
    assert first(still.omega_rad_s) == pytest.approx(first(p.standing.omega_rad_s), rel=3e-3)
    assert first(still.torque_Nm) == pytest.approx(first(p.standing.rotor.torque_Nm), rel=1e-2)
    body = airframe_map(p.build.frame.bodies, p.build.air)
    zero = np.zeros(1)
    washed, _ = body.forces(zero, zero, np.ravel(p.standing.rotor.induced_speed_m_s), 1.0)
    pull = (4 * first(p.standing.rotor.thrust_N) - first(washed)) / first(p.inputs.mass_kg)
    level = np.sqrt(pull**2 - G0_M_S2**2)  # what is left when the weight is held
    assert first(still.acceleration_m_s2) == pytest.approx(level, rel=0.01)


def test_a_gentle_run_up_keeps_to_its_acceleration(p):
    flight = fly(p, legs_from_text("hover 3 s, pass 400 m 40 m/s x1, land 5 s"))
    inside = flight.stretch_of == 1
    V, dt = flight.speed_m_s[inside, 0], flight.steps.duration_s[inside, 0]
    running = V < 39.0
    assert dt[running].sum() == pytest.approx(40.0 / 10.0, rel=0.05)  # from rest at 10 m/s2
    assert (V * dt).sum() == pytest.approx(400.0, rel=1e-9)


def test_pass_faster_than_the_build_is_flown_flat_out(p):
    asked = fly(p, legs_from_text("cruise 10 s, pass 900 m 139 m/s x1, land 5 s"))
    assert asked.able[0]
    assert first(asked.peak(asked.speed_m_s)) < first(p.top_speed_m_s)
    assert first(asked.peak(asked.steps.duty)) == pytest.approx(1.0, abs=0.01)


def test_a_turn_asks_for_more_than_level_flight(p):
    wide, tight = (
        fly(p, legs_from_text(f"cruise 20 s 36 m/s, turn {t} s 36 m/s")) for t in (30, 5)
    )
    level, gentle = (first(f.steps.motor_current_A[f.stretch_of == k][0]) for k, f in
                     ((0, wide), (1, wide)))  # fmt: skip
    assert gentle == pytest.approx(level, rel=0.25)
    assert first(tight.steps.motor_current_A[-1]) > 1.5 * level


# --- plans -------------------------------------------------------------------------------------


def test_passes_with_a_count_are_written_out_each_with_its_turn(p):
    plan = plan_of(p, TWELVE)
    kinds = [stretch.leg.kind for stretch in plan.opening]
    assert kinds == ["hover", "cruise", "pass", "turn", "pass", "turn", "pass", "turn", "cruise"]
    assert [stretch.leg.kind for stretch in plan.round] == ["pass", "turn"]
    assert [stretch.leg.kind for stretch in plan.closing] == ["return", "land"]
    assert plan.passes_before == 3
    assert plan.rounds_wanted is None
    assert plan.reserve == pytest.approx(0.2)


def test_flight_lands_with_its_reserve_and_no_whole_pass_to_spare(p):
    flight = flight_of(p)
    left = first(flight.condition.charge[-1])
    assert flight.ended_by == ("reserve",)
    assert left > flight.plan.reserve - 0.005
    drawn = flight.steps.pack_current_A * flight.steps.duration_s / flight.circuit.capacity
    next_round = float(drawn[flight.parts == flight.rounds_flown].sum())
    # what the way home takes is foreseen to half a per cent of the capacity
    assert left < flight.plan.reserve + next_round + 0.005


def test_a_count_that_the_pack_can_afford_is_flown_as_planned(p):
    flight = fly(p, legs_from_text("hover 5 s, pass 300 m 60 m/s x2, turn 5 s, land 5 s"))
    assert flight.ended_by == ("plan",)
    assert sum(stretch.leg.kind == "pass" for stretch in flight.stretches) > 2  # looked at
    assert first(flight.flown[flight.parts == 2]) == 0.0  # but only two are flown
    assert first(flight.passes) > 2.0  # what the pack would give


def test_more_reserve_means_fewer_passes(p):
    def passes(share: int) -> float:
        text = f"hover 8 s, pass 400 m 60 m/s, turn 6 s, land 8 s, reserve {share} %"
        return first(fly(p, legs_from_text(text)).passes)

    assert passes(10) > passes(20) > passes(40) > passes(80) >= 0.0


def test_flight_without_a_pass_has_minutes_and_no_passes(p):
    flight = fly(p, CALM)
    assert first(flight.ends_s) == pytest.approx(110.0)
    assert np.isnan(first(flight.passes))
    assert flight.ended_by == ("plan",)


def test_hover_beyond_the_pack_ends_at_the_reserve(p):
    flight = fly(p, legs_from_text("hover 900 s, reserve 20 %"))
    assert flight.ended_by == ("reserve",)
    steady = 0.8 * 5760.0 / first(p.hover_late.pack_current_A)
    assert first(flight.ends_s) == pytest.approx(steady, rel=0.15)


# --- temperatures ------------------------------------------------------------------------------


def test_nothing_is_colder_than_air_or_start(p):
    flight = flight_of(p)
    air = p.build.day.air_temperature_K
    for values in (flight.condition.winding_K, flight.condition.case_K, flight.board_K):
        assert (values >= air - 1e-9).all()


def test_long_hover_comes_to_the_steady_temperatures(p):
    from slipfit.physics.heat import board_temperature, motor_temperatures

    endless = performance(altered("pack", capacity_C=60 * 3600.0, of=p.build))
    flight = fly(endless, legs_from_text("hover 3000 s, reserve 0 %"))
    steps, cooling = flight.steps, flight.circuit.cooling
    conductance, air = cooling.of_case(
        steps.omega_rad_s[-1], flight.stretches[0].steady.through_m_s
    )
    steady = motor_temperatures(
        steps.motor_current_A[-1], flight.circuit.winding20, steps.iron_W[-1],
        cooling.winding_W_K, conductance, air,
    )  # fmt: skip
    assert first(flight.condition.winding_K[-1]) == pytest.approx(first(steady.winding_K), abs=0.5)
    assert first(flight.condition.case_K[-1]) == pytest.approx(first(steady.case_K), abs=0.5)
    from slipfit.physics.heat import film_coefficient_plate

    still = film_coefficient_plate(0.0, 0.042, p.build.air.temperature_K + 30.0, 1.0)
    board = board_temperature(
        4 * first(steps.esc_W[-1]), 2 * 0.042 * 0.038, still, p.build.air.temperature_K
    )
    assert first(flight.board_K[-1]) == pytest.approx(board, abs=1.0)


def test_inlets_cool_the_board_in_a_duct_only():
    frame = shipped().frame
    speed = np.array([60.0])

    def past(cooling: str) -> float:
        seat = dataclasses.replace(frame.stack_seat, cooling=cooling)
        build = dataclasses.replace(shipped(), frame=dataclasses.replace(frame, stack_seat=seat))
        return first(Cooling(build, nominal_inputs(build), 1).bay_speed(speed))

    assert past("closed") == 0.0
    assert past("open") == pytest.approx(30.0)
    assert past("duct") == pytest.approx(0.6 * 180e-6 * 60.0 / 14e-4)


def test_a_closed_bay_gets_hotter_than_a_duct(p):
    frame = p.build.frame
    seat = dataclasses.replace(frame.stack_seat, cooling="closed")
    closed = dataclasses.replace(p.build, frame=dataclasses.replace(frame, stack_seat=seat))
    shut, ducted = flight_of(performance(closed)), flight_of(p)
    assert first(shut.peak(shut.board_K)) > first(ducted.peak(ducted.board_K)) + 5.0


def test_better_cooling_is_cooler(p):
    cool = dataclasses.replace(nominal_inputs(p.build), cooling_factor=2.0)
    better = flight_of(performance(p.build, cool))
    assert first(better.peak(better.condition.winding_K)) < first(
        flight_of(p).peak(flight_of(p).condition.winding_K)
    )


def test_a_motor_past_its_insulation_ends_the_flight():
    build = altered("motor", max_winding_temperature_K=310.0)
    flight = flight_of(performance(build))
    assert flight.ended_by == ("winding",)
    assert flight.passes_by == "winding"
    usual = flight_of(performance(shipped()))
    assert first(flight.ends_s) < first(usual.ends_s)
    assert first(flight.passes) < first(usual.passes)
    # the verdict still sees what the whole plan would do
    assert first(flight.peak(flight.condition.winding_K)) == pytest.approx(
        first(usual.peak(usual.condition.winding_K))
    )


def test_a_hot_pack_ends_the_flight():
    flight = flight_of(performance(on_day(pack_temperature_K=PACK_LIMIT_K - 5.0)))
    assert flight.ended_by == ("pack",)
    assert flight.passes_by == "pack"


def test_a_cold_pack_sags_and_gives_less():
    warm, cold = (flight_of(performance(on_day(pack_temperature_K=t))) for t in (298.15, 263.15))
    cells = [first(f.least(f.steps.pack_voltage_V)) / 6 for f in (warm, cold)]
    assert cells[1] < cells[0] - 0.3
    assert first(cold.passes) < first(warm.passes)
    assert cold.passes_by == "voltage"


def test_weak_build_says_that_full_throttle_is_not_enough():
    build = swapped(pack="k4-1800", prop="p490-45-3")
    legs = legs_from_text("cruise 900 s 50 m/s, reserve 0 %")
    p = performance(build)
    if not p.can_hover[0, 0]:
        pytest.skip("does not fly at all")
    flight = fly(p, legs)
    assert flight.ended_by[0] in ("power", "reserve", "voltage") or not flight.able[0]


def test_leg_that_cannot_be_flown_is_named(p):
    flight = fly(p, legs_from_text("hover 5 s, turn 2 s 100 m/s 720 deg, land 5 s"))
    if flight.able[0]:
        assert flight.ended_by == ("power",)
    else:
        assert flight.why_not() == "this build cannot fly the leg 'turn'"


def test_build_that_cannot_hover_has_no_flight():
    heavy = altered("motor", mass_kg=2.0)
    flight = flight_of(performance(heavy))
    assert not flight.able[0]
    assert np.isnan(flight.answer(flight.ends_s)).all()


def test_every_end_has_its_words():
    assert set(ENDS) == {
        "plan", "reserve", "voltage", "power", "winding", "board", "pack", "rounds",
    }  # fmt: skip


def test_many_short_passes_are_followed_to_a_bound():
    p = performance(default_build(library(), "longspur-7"))
    flight = fly(p, legs_from_text("hover 3 s, pass 20 m 5 m/s, land 3 s"))
    assert flight.passes_by == "rounds"
    assert first(flight.passes) == pytest.approx(40.0)


# --- wires -------------------------------------------------------------------------------------


def test_leads_never_pass_their_adiabatic_heating(p):
    flight = flight_of(p)
    from slipfit.physics.wire import awg_resistance, wire_time_constant

    square = flown(flight, flight.steps.pack_current_A**2)
    capacity = float(wire_time_constant(12, 0.0045, 15.0)) * 15.0 * np.pi * 0.0045
    most = square * float(awg_resistance(12, 400.0)) / capacity
    rise = first(pack_lead_peak(p)) - p.build.day.air_temperature_K
    assert 0.2 * most < rise < most


def test_thinner_leads_get_hotter_and_the_named_gauge_is_the_thinnest():
    frame = shipped().frame

    def peak(gauge: int) -> float:
        wire = dataclasses.replace(frame.wire, pack_gauge=gauge)
        build = altered("pack", lead_gauge=8)
        build = dataclasses.replace(build, frame=dataclasses.replace(frame, wire=wire))
        return first(pack_lead_peak(performance(build)))

    least = int(first(thinnest_pack_lead(performance(shipped()))))
    assert peak(least) <= WIRE_LIMIT_K < peak(least + 2)
    assert peak(10) < peak(12) < peak(14)


def test_wire_thicker_than_the_table_is_still_judged():
    frame = shipped().frame
    wire = dataclasses.replace(frame.wire, pack_gauge=6, motor_gauge=8)
    build = dataclasses.replace(
        altered("pack", lead_gauge=6), frame=dataclasses.replace(frame, wire=wire)
    )
    p = performance(build)
    assert first(pack_lead_peak(p)) < WIRE_LIMIT_K
    assert first(motor_lead_peak(p)) < WIRE_LIMIT_K


def test_lasting_current_lies_below_the_peak_and_near_a_steady_one(p):
    calm = fly(p, legs_from_text("hover 400 s, reserve 0 %"))
    steady = first(calm.steps.pack_current_A[-1])
    # the current rises as the pack empties, so what lasts a minute lies a little behind it
    assert 0.95 * steady < first(calm.peak(lasting_current(calm, 60.0))) < steady
    flight = flight_of(p)
    burst, long = (first(flight.peak(lasting_current(flight, t))) for t in (10.0, 60.0))
    assert long < burst < first(flight.peak(flight.steps.pack_current_A))


# --- builds of every kind ----------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["motor", "prop", "pack", "esc"])
def test_every_part_of_the_shelf_has_a_flight_or_none(kind):
    shelf = library().shelf
    for part in shelf.of(kind):
        build: Build = swapped(**{kind: part.id})
        p = performance(build)
        flight = flight_of(p)
        assert flight.ended_by[0] in ENDS
        if flight.able[0]:
            assert np.isfinite(first(flight.ends_s))
            assert np.isfinite(first(flight.peak(flight.condition.winding_K)))
            assert 0.0 <= first(flight.condition.charge[-1]) <= 1.0
