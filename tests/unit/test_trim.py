"""Steady flight: forces balance, power is conserved, and answers do not depend on company.

Balances are closed by Newton's method to rounding; 1e-6 of the weight, a milligram, is asked for.
"""

from __future__ import annotations

import dataclasses
from typing import Any

import numpy as np
import pytest

from site_builds import altered, library, shipped, swapped
from slipfit.build import Build
from slipfit.constants import G0_M_S2
from slipfit.flight.airframe import airframe_loads
from slipfit.flight.inputs import blade_of, nominal_inputs, prop_of, sampled_inputs
from slipfit.flight.performance import State, performance
from slipfit.flight.trim import MEASURED_TIP_MACH, Rotors, Trim, trim, unmeasured
from slipfit.numerics import Array
from slipfit.physics.rotor import rotor_loads
from slipfit.physics.rotor_map import rotor_map

BALANCED = 1e-6  # of the weight
PROPS = [part.id for part in library().shelf.of("prop")]


def rotors_of(build: Build, **factors: Any) -> Rotors:
    inputs = dataclasses.replace(nominal_inputs(build), **factors)
    return Rotors(map=rotor_map(blade_of(prop_of(build)), build.air), inputs=inputs)


def trimmed(build: Build, speed: Any, climb: Any = 0.0, **factors: Any) -> Trim:
    return trim(build.frame, rotors_of(build, **factors), build.air, np.asarray(speed), climb)


def weight_of(build: Build) -> float:
    return float(np.asarray(nominal_inputs(build).mass_kg)) * G0_M_S2


def top_speed(build: Build) -> float:
    return float(performance(build).top_speed_m_s[0, 0])


# ------------------------------------------------------------------------------ hover


@pytest.mark.parametrize("prop", PROPS)
def test_hover_stands_upright_and_carries_weight_and_download(prop: str) -> None:
    build = swapped(prop=prop)
    t = trimmed(build, [0.0])
    assert t.incidence_rad[0] == np.pi / 2  # exactly: no speed, so nothing to lean on
    assert t.tilt_rad[0] == 0.0
    assert t.normal_N[0] == t.rotor.inplane_force_N[0] == 0.0
    download = t.axial_N[0]
    assert 0.0 < download < 0.2 * weight_of(build)  # washed bodies are pushed down, not much
    lifted = build.rotor_count * t.thrust_N[0]
    assert lifted == pytest.approx(weight_of(build) + download, rel=BALANCED)
    assert t.valid[0]


def test_hover_without_bodies_carries_the_weight_alone() -> None:
    build = shipped()
    bare = dataclasses.replace(build, frame=dataclasses.replace(build.frame, bodies=()))
    t = trimmed(bare, [0.0])
    assert t.axial_N[0] == 0.0
    lifted = bare.rotor_count * t.thrust_N[0]
    assert lifted == pytest.approx(weight_of(bare), rel=BALANCED)


def test_hover_power_is_above_that_of_an_ideal_disk() -> None:
    """No rotor hovers on less than the power of momentum theory, T^1.5 / sqrt(2 rho A)."""
    build = shipped()
    t = trimmed(build, [0.0])
    disk = np.pi * (prop_of(build).diameter_m / 2) ** 2
    ideal = t.thrust_N**1.5 / np.sqrt(2 * build.air.density_kg_m3 * disk)
    merit = float((ideal / (t.rotor.torque_Nm * t.omega_rad_s))[0])
    assert 0.2 < merit < 0.85  # a stalled 8-inch pitch, and better than any small rotor measured


# ------------------------------------------------------------------------------ balances


@pytest.mark.parametrize("prop", PROPS)
@pytest.mark.parametrize("climb_deg", [-30.0, -10.0, 0.0, 15.0, 45.0])
def test_both_balances_close_from_hover_to_top_speed(prop: str, climb_deg: float) -> None:
    build = swapped(prop=prop)
    speeds = np.linspace(0.0, top_speed(build), 120)
    t = trimmed(build, speeds, np.radians(climb_deg))
    within = t.rotor.valid
    # tips at Mach 1 end the range in a steep climb, the vortex ring some slow descents
    assert within.mean() > 0.9
    assert np.max(t.residual_N[within]) <= BALANCED * weight_of(build)
    assert t.valid[within].all()


@pytest.mark.parametrize("climb_deg", [-20.0, 0.0, 30.0])
def test_forces_balance_by_the_models_themselves(climb_deg: float) -> None:
    """The same balance by the direct rotor solve and the bodies' own models. The airframe's table
    holds 0.3 % of its force; the rotor's map holds its coefficients to about 0.5 % of their
    largest, which is that of standing still at the same rotor speed."""
    build = shipped()
    speeds = np.array([0.0, 3.0, 10.0, 40.0, 70.0, 100.0])
    gamma = np.radians(climb_deg)
    t = trimmed(build, speeds, gamma)
    axial, side = speeds * np.cos(t.incidence_rad), speeds * np.sin(t.incidence_rad)
    rotor = rotor_loads(blade_of(prop_of(build)), t.omega_rad_s, axial, side, build.air)
    body = airframe_loads(build.frame, axial, side, rotor.induced_speed_m_s, build.air, 1.0)
    W, n = weight_of(build), build.rotor_count
    across = body.normal_N + n * rotor.inplane_force_N - W * np.cos(t.incidence_rad + gamma)
    along = n * rotor.thrust_N - W * np.sin(t.incidence_rad + gamma) - body.axial_N
    standing = rotor_loads(blade_of(prop_of(build)), t.omega_rad_s, 0.0, 0.0, build.air).thrust_N
    allowed = 0.005 * n * standing + 0.003 * np.hypot(body.axial_N, body.normal_N)
    assert np.all(np.hypot(across, along) <= allowed)


def test_a_vertical_climb_is_axial_flow() -> None:
    build = shipped()
    t = trimmed(build, [0.0, 5.0, 20.0], np.pi / 2)
    assert np.all(t.incidence_rad == 0.0)
    assert np.all(np.diff(t.thrust_N) > 0.0)  # drag comes on top of the weight
    assert np.max(t.residual_N) <= BALANCED * weight_of(build)


def test_a_fall_that_no_rotor_speed_can_hold_is_marked_not_answered() -> None:
    t = trimmed(shipped(), [10.0, 20.0], -np.pi / 2)
    assert not t.valid.any()


# ------------------------------------------------------------------------------ power


@pytest.mark.parametrize("climb_deg", [-10.0, 0.0, 20.0])
def test_work_of_the_rotors_is_drag_and_climb(climb_deg: float) -> None:
    """What the rotors do on the frame, n (T V cos a - H V sin a), is what the air takes from it and
    what lifts it: an identity of the two balances, so it holds to their residual."""
    build = shipped()
    speeds = np.linspace(1.0, 105.0, 60)
    gamma = np.radians(climb_deg)
    t = trimmed(build, speeds, gamma)
    a, n, W = t.incidence_rad, build.rotor_count, weight_of(build)
    work = n * speeds * (t.thrust_N * np.cos(a) - t.rotor.inplane_force_N * np.sin(a))
    drag = speeds * (t.axial_N * np.cos(a) + t.normal_N * np.sin(a))
    climb = W * speeds * np.sin(gamma)
    assert np.all(np.abs(work - drag - climb) <= BALANCED * W * speeds)


@pytest.mark.parametrize("prop", PROPS)
def test_shaft_power_covers_work_and_induced_power(prop: str) -> None:
    """The shaft gives the work on the frame, what the wake carries off, and the blades' own drag.
    An ideal disk in the resultant speed U (Glauert) carries off least: T^2 / (2 rho A U)."""
    build = swapped(prop=prop)
    speeds = np.linspace(0.0, top_speed(build), 100)
    t = trimmed(build, speeds)
    axial, side = speeds * np.cos(t.incidence_rad), speeds * np.sin(t.incidence_rad)
    shaft = t.rotor.torque_Nm * t.omega_rad_s
    work = t.thrust_N * axial - t.rotor.inplane_force_N * side
    assert np.all(shaft > work)
    disk = np.pi * (prop_of(build).diameter_m / 2) ** 2
    induced = t.rotor.induced_speed_m_s
    least = t.thrust_N**2 / (2 * build.air.density_kg_m3 * disk * np.hypot(axial + induced, side))
    assert np.all(shaft > work + 0.98 * least)  # 2 %: the mean of an uneven wash is not its power's


# ------------------------------------------------------------------------------ directions


def test_tilt_rises_with_speed_and_with_drag() -> None:
    """More air force across the axis carries the weight at a smaller incidence; tilt is the rest of
    the right angle."""
    build = shipped()
    speeds = np.linspace(0.0, 105.0, 50)
    assert np.all(np.diff(trimmed(build, speeds).tilt_rad) > 0.0)
    factors = np.array([0.5, 0.8, 1.0, 1.3, 2.0])[:, None]
    t = trimmed(build, speeds[None, 5:], drag_factor=factors)
    assert np.all(np.diff(t.tilt_rad, axis=0) > 0.0)
    # and at speed, where the drag itself is what is pulled, so does the thrust
    fast = speeds[5:] > 50.0
    assert np.all(np.diff(t.thrust_N[:, fast], axis=0) > 0.0)


def test_a_climb_asks_for_more_thrust_and_power_than_level_flight() -> None:
    build = shipped()
    speeds = np.linspace(5.0, 90.0, 18)
    t = trimmed(build, speeds[None, :], np.radians([[-15.0], [0.0], [15.0], [40.0]]))
    assert np.all(np.diff(t.thrust_N, axis=0) > 0.0)
    assert np.all(np.diff(t.rotor.torque_Nm * t.omega_rad_s, axis=0) > 0.0)


def test_more_mass_asks_for_more_thrust_in_hover_in_proportion() -> None:
    build = shipped()
    m = np.array([0.8, 1.0, 1.3])[:, None] * nominal_inputs(build).mass_kg
    t = trimmed(build, [[0.0]], mass_kg=m)
    # wash and download grow as the thrust does, but for Reynolds number
    assert t.thrust_N[:, 0] / m[:, 0] == pytest.approx(t.thrust_N[1, 0] / m[1, 0], rel=5e-3)


# ------------------------------------------------------------------------------ company


def same(a: Trim, b: Trim, rel: float) -> None:
    for field in ("incidence_rad", "omega_rad_s", "thrust_N", "axial_N", "normal_N"):
        assert getattr(a, field) == pytest.approx(getattr(b, field), rel=rel, abs=1e-12), field
    assert np.array_equal(a.valid, b.valid)
    assert a.drag_causes_N.keys() == b.drag_causes_N.keys()


def column(t: Trim, k: int) -> Trim:
    causes = {name: force[..., k] for name, force in t.drag_causes_N.items()}
    plain = {
        f.name: getattr(t, f.name)[..., k]
        for f in dataclasses.fields(t)
        if f.name not in ("rotor", "drag_causes_N")
    }
    return Trim(rotor=t.rotor, drag_causes_N=causes, **plain)


def test_a_case_alone_is_the_case_in_company() -> None:
    build = shipped()
    speeds = np.array([0.0, 2.0, 17.0, 45.0, 88.0, 108.0])
    climbs = np.array([0.0, 0.2, -0.1, 0.0, 0.3, 0.0])
    together = trimmed(build, speeds, climbs)
    for k in range(len(speeds)):
        alone = trimmed(build, speeds[k : k + 1], climbs[k : k + 1])
        same(column(alone, 0), column(together, k), 1e-9)
    backwards = trimmed(build, speeds[::-1], climbs[::-1])
    for k in range(len(speeds)):
        same(column(backwards, -1 - k), column(together, k), 1e-9)


def test_what_was_asked_before_leaves_no_trace() -> None:
    """The rotor map fills itself as cases ask for it; the answers must not depend on the order."""
    build = shipped()
    blade = blade_of(prop_of(build))
    speeds = np.array([6.0, 24.0, 60.0])
    answers = []
    for first in ([], [100.0], [0.0, 30.0]):
        fresh = type(rotor_map(blade, build.air))(blade, build.air)
        rotors = Rotors(map=fresh, inputs=nominal_inputs(build))
        if first:
            trim(build.frame, rotors, build.air, np.array(first))
        answers.append(trim(build.frame, rotors, build.air, speeds))
    for other in answers[1:]:
        same(other, answers[0], 1e-7)  # each node of the map is solved to about 1e-9


def test_samples_are_solved_as_if_each_were_the_only_one() -> None:
    build = shipped()
    inputs, _ = sampled_inputs(build, 5)
    rotors = Rotors(map=rotor_map(blade_of(prop_of(build)), build.air), inputs=inputs)
    together = trim(build.frame, rotors, build.air, np.array([[0.0, 20.0, 80.0]]))
    assert together.incidence_rad.shape == (5, 3)
    for k in range(5):
        one = {f.name: getattr(inputs, f.name)[k : k + 1] for f in dataclasses.fields(inputs)}
        mine = Rotors(map=rotors.map, inputs=type(inputs)(**one))
        alone = trim(build.frame, mine, build.air, np.array([[0.0, 20.0, 80.0]]))
        assert alone.incidence_rad[0] == pytest.approx(together.incidence_rad[k], rel=1e-9)
        assert alone.omega_rad_s[0] == pytest.approx(together.omega_rad_s[k], rel=1e-9)


# ------------------------------------------------------------------------------ smoothness


def off_the_cubic(values: Array) -> Array:
    """How far each value lies from the cubic through its neighbours one and three steps away,
    relative to its size; a smooth curve on a fine grid is its own cubic."""
    v = values
    cubic = (-v[:-6] + 9 * v[2:-4] + 9 * v[4:-2] - v[6:]) / 16
    return np.asarray(np.abs(cubic / v[3:-3] - 1.0))


def test_the_cubic_finds_a_kink() -> None:
    x = np.linspace(0.0, 1.0, 400)
    smooth = 2.0 + np.sin(3 * x)
    assert np.max(off_the_cubic(smooth)) < 1e-7
    assert np.max(off_the_cubic(smooth + 2.0 * np.maximum(x - 0.4, 0.0))) > 2e-4


@pytest.mark.parametrize("prop", PROPS)
def test_level_flight_is_smooth_from_hover_to_nine_tenths_of_top_speed(prop: str) -> None:
    """0.1 %: a step that a reader could see in a curve, or feel in a slider, is larger."""
    build = swapped(prop=prop)
    p = performance(build)
    speeds = np.linspace(0.0, 0.9 * float(p.top_speed_m_s[0, 0]), 400)
    t = trim(build.frame, p.rotors, build.air, speeds[None, :])
    drive = p.electric.drive(t.omega_rad_s, t.rotor.torque_Nm)
    state = State(trim=t, drive=drive)
    assert state.flyable.all()
    curves = {
        "pack power": drive.pack_power_W,
        "motor current": drive.motor_current_A,
        "throttle": drive.duty,
        "rotor speed": t.omega_rad_s,
        "thrust": t.thrust_N,
    }
    off = {name: off_the_cubic(values[0]) for name, values in curves.items()}
    worst = {name: float(np.max(o)) for name, o in off.items()}
    where = {name: f"{speeds[3 + int(np.argmax(o))]:.1f} m/s" for name, o in off.items()}
    assert max(worst.values()) <= 1e-3, (worst, where)


# ------------------------------------------------------------------------------ factors


def test_factors_of_one_are_the_nominal_rotor() -> None:
    build = shipped()
    plain = rotors_of(build)
    ones = rotors_of(build, **{f: np.ones((1, 1)) for f in ("thrust_factor", "power_factor")})
    at = np.array([[1500.0, 3000.0]]), np.array([[5.0, 60.0]]), np.array([[8.0, 2.0]])
    for field in ("thrust_N", "torque_Nm", "inplane_force_N", "induced_speed_m_s"):
        a, b = getattr(plain.loads(*at), field), getattr(ones.loads(*at), field)
        assert b == pytest.approx(a, rel=1e-14)


def test_pitch_factor_stretches_the_advance_ratio_at_the_same_efficiency() -> None:
    build = shipped()
    omega, axial, still = np.array([[3000.0]]), np.array([[60.0]]), np.array([[0.0]])
    f = np.array([[1.1]])
    nominal = rotors_of(build).loads(omega, axial, still)
    steeper = rotors_of(build, pitch_factor=f).loads(omega, f * axial, still)
    assert steeper.thrust_N == pytest.approx(nominal.thrust_N, rel=1e-14)
    ratio = (steeper.thrust_N * f * axial / steeper.torque_Nm) / (
        nominal.thrust_N * axial / nominal.torque_Nm
    )
    assert ratio == pytest.approx(1.0, rel=1e-14)


def test_spread_widens_beyond_the_tip_speeds_of_the_measurements() -> None:
    low = MEASURED_TIP_MACH
    wide = unmeasured(np.array([0.0, low, 1.5 * low, 2 * low, 1.0]))
    assert wide == pytest.approx([1.0, 1.0, 1.25, 1.5, 1.5])


@pytest.mark.parametrize("motor", ["m20-3100", "m31-900"])
@pytest.mark.parametrize("pack", ["k4-1800", "k8-1300"])
def test_the_search_starts_near_enough_for_light_and_heavy_builds(pack: str, motor: str) -> None:
    """Few Newton steps reach the balance only from nearby."""
    build = altered("pack", of=swapped(pack=pack, motor=motor), mass_kg=0.7)
    t = trimmed(build, np.linspace(0.0, 60.0, 30))
    assert np.max(t.residual_N[t.rotor.valid]) <= BALANCED * weight_of(build)
    assert t.valid.mean() > 0.9
