"""What a build does: limits, directions, and builds that cannot do it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from site_builds import altered, framed, library, on_day, shipped, swapped, without
from slipfit.build import Build
from slipfit.constants import G0_M_S2
from slipfit.errors import InputError
from slipfit.flight.inputs import sampled_inputs
from slipfit.flight.performance import FASTEST_M_S, NEEDED_PARTS, Performance, performance
from slipfit.flight.trim import trim

TOO_HEAVY = {"mass_kg": 9.0}
FADED = {"cell_resistance_ohm": 0.3}  # duty would do, but the pack cannot give the power


def top_speed(p: Performance) -> float:
    return float(p.top_speed_m_s[0, 0])


def first(values: Any) -> float:
    return float(np.ravel(values)[0])


# ------------------------------------------------------------------------------ top speed


@pytest.mark.parametrize("prop", [part.id for part in library().shelf.of("prop")])
def test_top_speed_is_where_the_throttle_is_full_or_the_rotors_range_ends(prop: str) -> None:
    """The end is searched to half a m/s and then taken from the duty's parabola there: 1e-3 of the
    duty is 0.05 m/s. Where the rotor's range ends, half a m/s is left."""
    p = performance(swapped(prop=prop))
    if p.top_ends_by_throttle[0, 0] and p.top.trim.valid[0, 0]:
        assert first(p.top.drive.duty) == pytest.approx(1.0, abs=1e-3)
    speeds = top_speed(p) + np.array([[-0.6, -0.05, 0.6]])
    t = trim(p.build.frame, p.rotors, p.build.air, speeds)
    flyable = t.valid & p.electric.drive(t.omega_rad_s, t.rotor.torque_Nm).feasible
    assert flyable.tolist()[0][0] and not flyable.tolist()[0][2]


def test_every_speed_of_the_curve_below_the_top_is_flown() -> None:
    p = performance(shipped())
    assert p.speeds_m_s[0] == 0.0
    assert p.speeds_m_s[-1] == pytest.approx(top_speed(p), rel=1e-12)
    assert p.curve.flyable[0, :-1].all()


def test_the_curve_begins_with_hover_and_ends_with_the_top() -> None:
    p = performance(shipped())
    for field in ("motor_current_A", "pack_power_W", "duty"):
        curve = getattr(p.curve.drive, field)[0]
        assert curve[0] == pytest.approx(first(getattr(p.hover.drive, field)), rel=1e-9)
        assert curve[-1] == pytest.approx(first(getattr(p.top.drive, field)), rel=1e-9)


def test_best_range_is_the_least_energy_per_metre_on_a_fine_grid() -> None:
    """A parabola through three points of a grid of 33: to a tenth of its step, a third of a m/s,
    and the energy there, flat as it is, to 0.1 %."""
    p = performance(shipped())
    speeds = np.linspace(5.0, top_speed(p), 2000)
    t = trim(p.build.frame, p.rotors, p.build.air, speeds[None])
    power = p.electric.drive(t.omega_rad_s, t.rotor.torque_Nm).pack_power_W[0]
    best = int(np.argmin(power / speeds))
    step = p.speeds_m_s[1] - p.speeds_m_s[0]
    assert first(p.cruise_speed_m_s) == pytest.approx(speeds[best], abs=0.1 * step)
    found = first(p.cruise.drive.pack_power_W) / first(p.cruise_speed_m_s)
    assert found == pytest.approx(power[best] / speeds[best], rel=1e-3)


def test_the_search_never_passes_the_body_models_range() -> None:
    p = performance(altered("pack", cell_count=14))
    assert top_speed(p) <= FASTEST_M_S
    assert not p.top_ends_by_throttle[0, 0]  # the rotor model's range does
    assert first(p.top.trim.rotor.tip_mach) <= 1.0


# ------------------------------------------------------------------------------ directions


def changed(build: Build) -> dict[str, float]:
    p = performance(build)
    return {
        "top": top_speed(p),
        "hover": first(p.hover.drive.motor_current_A),
        "hover duty": first(p.hover.drive.duty),
        "static": first(p.standing.drive.motor_current_A),
        "static thrust": first(p.standing.rotor.thrust_N),
        "full": first(p.top.drive.motor_current_A),
        "cell volts": first(p.top.drive.pack_voltage_V) / p.build.parts["pack"].cell_count,
    }


@pytest.fixture(scope="module")
def usual() -> dict[str, float]:
    return changed(shipped())


def test_eight_cells_are_faster_and_draw_more(usual: dict[str, float]) -> None:
    eight = changed(altered("pack", cell_count=8))
    assert eight["top"] > usual["top"] + 1.0
    assert eight["static"] > 1.1 * usual["static"]
    assert eight["static thrust"] > 1.1 * usual["static thrust"]
    assert eight["hover duty"] < usual["hover duty"]


def test_more_mass_takes_more_to_hover_and_hardly_slows(usual: dict[str, float]) -> None:
    heavy = changed(altered("pack", mass_kg=shipped().parts["pack"].mass_kg + 0.3))
    assert heavy["hover"] > 1.2 * usual["hover"]
    assert heavy["hover duty"] > usual["hover duty"]
    assert heavy["static"] == pytest.approx(usual["static"], rel=1e-9)
    assert 0.97 * usual["top"] < heavy["top"] < usual["top"]


def test_more_pitch_draws_more_standing_still() -> None:
    currents = [
        changed(swapped(prop=id))["static"] for id in ("p500-60-2", "p525-70-2", "p525-95-2")
    ]
    assert currents[0] < currents[1] < currents[2]


def test_more_drag_is_slower(usual: dict[str, float]) -> None:
    frame = shipped().frame
    bodies = tuple(
        # an arm more, or a second of each body: about twice the drag
        type(body)(**{**vars(body), "count": 2 * body.count})
        for body in frame.bodies
    )
    assert changed(framed(bodies=bodies))["top"] < 0.93 * usual["top"]


def test_thin_air_asks_more_to_hover_and_a_cold_pack_slows(usual: dict[str, float]) -> None:
    high = changed(on_day(height_m=3000.0))
    assert high["hover duty"] > usual["hover duty"]
    assert high["static thrust"] < usual["static thrust"]
    cold = changed(on_day(pack_temperature_K=263.0))
    assert cold["top"] < usual["top"] - 1.0
    assert cold["cell volts"] < usual["cell volts"]


def test_a_higher_speed_constant_draws_more_and_is_faster(usual: dict[str, float]) -> None:
    motor = shipped().parts["motor"]
    quick = changed(altered("motor", kv_rad_s_V=1.06 * motor.kv_rad_s_V))
    assert quick["static"] > usual["static"]
    assert quick["top"] > usual["top"]


# ------------------------------------------------------------------------------ what is left out


@pytest.mark.parametrize("kind", NEEDED_PARTS)
def test_a_build_without_a_part_that_flies_it_is_refused(kind: str) -> None:
    with pytest.raises(
        InputError,
        match=f"performance: a build must have a {kind} before it can be flown, got none",
    ) as error:
        performance(without(kind))
    assert error.value.field == kind


@pytest.mark.parametrize("kind", ["camera", "video", "gps", "receiver", "stack"])
def test_a_build_flies_without_what_does_not_fly_it(kind: str, usual: dict[str, float]) -> None:
    lighter = changed(without(kind))
    assert lighter["hover"] < usual["hover"]
    assert lighter["top"] == pytest.approx(usual["top"], rel=0.01)


# ------------------------------------------------------------------------------ cannot


@pytest.mark.parametrize("changes", [TOO_HEAVY, FADED, {"cell_count": 1}])
def test_a_build_that_cannot_hover_has_no_speeds_and_no_warnings(changes: dict[str, Any]) -> None:
    """Warnings are errors here, so a 0/0 anywhere fails this test."""
    p = performance(altered("pack", **changes))
    assert not p.can_hover[0, 0]
    assert np.isnan(first(p.top_speed_m_s)) and np.isnan(first(p.cruise_speed_m_s))
    assert not p.curve.flyable.any()
    assert np.isfinite(p.standing.rotor.thrust_N).all()


def test_thrust_below_weight_is_why_a_heavy_build_cannot_hover() -> None:
    p = performance(altered("pack", **TOO_HEAVY))
    lift = p.build.rotor_count * first(p.standing.rotor.thrust_N)
    assert lift < first(p.inputs.mass_kg) * G0_M_S2
    assert first(p.hover.drive.duty) > 1.0


# ------------------------------------------------------------------------------ samples


def test_samples_hold_the_nominal_build_in_their_middle() -> None:
    build = shipped()
    one = performance(build)
    inputs, _ = sampled_inputs(build, 32)
    many = performance(build, inputs, one.speeds_m_s)
    assert many.top_speed_m_s.shape == (32, 1)
    assert many.curve.trim.speed_m_s.shape == (32, len(one.speeds_m_s))
    low, high = np.quantile(many.top_speed_m_s, [0.1, 0.9])
    assert low < top_speed(one) < high
    # each sample is itself a build: the first alone gives its own answers
    alone = performance(
        build,
        type(inputs)(**{name: value[:1] for name, value in vars(inputs).items()}),
        one.speeds_m_s,
    )
    assert alone.top_speed_m_s[0] == pytest.approx(many.top_speed_m_s[0], rel=1e-9)
    assert alone.curve.drive.pack_power_W[0] == pytest.approx(
        many.curve.drive.pack_power_W[0], rel=1e-9
    )


def test_some_samples_may_fail_without_spoiling_the_others() -> None:
    # as heavy as the rotors can just lift, a part of which is the download on the body
    usual = performance(shipped())
    lift_kg = shipped().rotor_count * first(usual.standing.rotor.thrust_N) / G0_M_S2
    rest_kg = first(usual.inputs.mass_kg) - shipped().parts["pack"].mass_kg
    build = altered("pack", mass_kg=0.96 * lift_kg - rest_kg)
    one = performance(build)
    inputs, _ = sampled_inputs(build, 32)
    many = performance(build, inputs, one.speeds_m_s)
    share = float(many.can_hover.mean())
    assert 0.0 < share < 1.0, "the mass must be chosen at the edge"
    assert np.isnan(many.top_speed_m_s[~many.can_hover]).all()
    assert np.isfinite(many.top_speed_m_s[many.can_hover]).all()
