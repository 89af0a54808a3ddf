"""The rotor map against the direct solve."""

import numpy as np
import pytest

from slipfit.numerics import bracketed_root
from slipfit.physics import rotor_map as module
from slipfit.physics.air import air_of_day
from slipfit.physics.blade import blade_from_style
from slipfit.physics.rotor import rotor_loads
from slipfit.physics.rotor_map import RotorMap, rotor_map

AIR = air_of_day()
# blade, greatest speed of the flights below [m/s]
CASES = {
    "steep racer": (blade_from_style(0.13335, 0.2032, 2, "slim"), 85.0),
    "freestyle": (blade_from_style(0.127, 0.109, 3, "wide"), 40.0),
    "cruiser": (blade_from_style(0.1778, 0.1016, 3, "cruise"), 30.0),
}
FIELDS = ("thrust_N", "torque_Nm", "inplane_force_N", "induced_speed_m_s")


def flights(top_m_s, seed=1):
    """Thrusts and speeds from hover to the top, scattered as samples of a build are."""
    rng = np.random.default_rng(seed)
    V = np.linspace(0.0, top_m_s, 40) * np.ones((32, 1))
    drag = 6.0 * (V / top_m_s) ** 2 * rng.uniform(0.8, 1.2, (32, 1))
    lift = 2.3 * (1 - np.minimum(0.4, 0.2 * (V / 60.0) ** 2))
    thrust = np.hypot(lift, drag) * rng.uniform(0.6, 1.6, V.shape)
    alpha = np.arctan2(lift, drag)
    return thrust, V * np.cos(alpha), V * np.sin(alpha)


def rotation(chart, thrust, axial, inplane):
    """Speed of rotation at which the map gives a thrust, up to sonic tips."""
    fastest = (AIR.sound_speed_m_s - inplane) / chart.blade.radius_m * 0.98

    def missing(omega):
        return chart.loads(omega, axial, inplane).thrust_N - thrust

    slowest = axial / (chart.blade.radius_m * np.tan(0.6)) + 1.0
    return bracketed_root(missing, slowest, fastest, settled=1e-9)


@pytest.mark.parametrize("name", CASES)
def test_map_agrees_with_the_direct_solve(name):
    """Within 0.5 % of the loads at rest at the same rotation."""
    blade, top = CASES[name]
    thrust, axial, inplane = flights(top)
    chart = RotorMap(blade, AIR)
    omega = rotation(chart, thrust, axial, inplane)
    assert np.isfinite(omega).all()
    ours = chart.loads(omega, axial, inplane)
    direct = rotor_loads(blade, omega, axial, inplane, AIR)
    rest = rotor_loads(blade, omega, 0.0, 0.0, AIR)
    size = (rest.thrust_N, rest.torque_Nm, rest.thrust_N, rest.induced_speed_m_s)
    print(f"\n{name}: error of the map, 99th percentile / greatest")
    worst = {}
    for field, scale in zip(FIELDS, size, strict=True):
        error = np.abs(getattr(ours, field) - getattr(direct, field)) / scale
        worst[field] = error.max()
        print(f"  {field:18} {np.quantile(error, 0.99):.4f} / {error.max():.4f}")
    assert max(worst.values()) <= 0.005
    assert (ours.valid == direct.valid).all()
    assert np.abs(ours.stall_fraction - direct.stall_fraction).max() < 0.25


@pytest.mark.parametrize("name", CASES)
def test_map_in_axial_flow_agrees_closer(name):
    blade, top = CASES[name]
    omega, V = np.meshgrid(np.linspace(900.0, 3000.0, 7), np.linspace(0.0, top, 23))
    ours, direct = rotor_map(blade, AIR).loads(omega, V, 0.0), rotor_loads(blade, omega, V, 0, AIR)
    rest = rotor_loads(blade, omega, 0.0, 0.0, AIR)
    thrust = np.abs((ours.thrust_N - direct.thrust_N) / rest.thrust_N)
    torque = np.abs((ours.torque_Nm - direct.torque_Nm) / rest.torque_Nm)
    driven = direct.thrust_N > 0.0
    print(f"\n{name}: axial {thrust[driven].max():.4f} {torque[driven].max():.4f}")
    assert thrust[driven].max() <= 0.003
    assert torque[driven].max() <= 0.003
    assert thrust.max() <= 0.015  # windmilling, where the table is coarser
    assert torque.max() <= 0.015
    assert (ours.inplane_force_N == 0.0).all()


def test_in_plane_flow_from_the_other_side_mirrors_the_in_plane_loads():
    chart = rotor_map(CASES["freestyle"][0], AIR)
    ahead, behind = chart.loads(1500.0, 5.0, 20.0), chart.loads(1500.0, 5.0, -20.0)
    assert behind.thrust_N == ahead.thrust_N
    for field in ("inplane_force_N", "side_moment_Nm", "pitch_moment_Nm"):
        assert getattr(behind, field) == -getattr(ahead, field)


def test_at_rest_stopped_and_far_outside_the_map_are_ordinary():
    blade = CASES["freestyle"][0]
    chart = rotor_map(blade, AIR)
    assert chart.loads(0.0, 0.0, 0.0).thrust_N == 0.0
    omega, axial, inplane = np.array([0.0, 300.0, 500.0]), np.array([20.0, -40.0, 0.0]), 50.0
    ours = chart.loads(omega, axial, inplane)
    direct = rotor_loads(blade, omega, axial, inplane, AIR)
    assert ours.thrust_N == pytest.approx(direct.thrust_N, rel=1e-12)


def test_map_is_smooth_over_speed():
    blade, _ = CASES["cruiser"]
    V = np.linspace(0.0, 30.0, 601)
    loads = rotor_map(blade, AIR).loads(900.0, 0.3 * V, 0.95 * V)
    for field in ("thrust_N", "torque_Nm", "inplane_force_N"):
        y = getattr(loads, field)
        assert np.abs(np.diff(y, 2)).max() <= 1e-4 * np.abs(y).max(), field


def test_equal_blades_share_a_map():
    again = blade_from_style(0.127, 0.109, 3, "wide")
    assert rotor_map(again, AIR) is rotor_map(CASES["freestyle"][0], AIR)
    assert rotor_map(blade_from_style(0.127, 0.110, 3, "wide"), AIR) is not rotor_map(again, AIR)


def test_order_of_questions_does_not_matter():
    blade, top = CASES["freestyle"]
    thrust, axial, inplane = flights(top)
    first, second = RotorMap(blade, AIR), RotorMap(blade, AIR)
    second.loads(np.full(5, 2000.0), np.linspace(0, 20, 5), 30.0)
    omega = rotation(first, thrust, axial, inplane)
    ours, theirs = (chart.loads(omega, axial, inplane) for chart in (first, second))
    for field in FIELDS:
        assert getattr(theirs, field) == pytest.approx(getattr(ours, field), rel=1e-9)


def test_a_map_begins_with_nodes_that_were_solved_before(monkeypatch):
    """They are the same to the last bit, none of them is solved again, and the rest can be."""
    blade, day = CASES["freestyle"][0], air_of_day(height_m=1234.0)
    omega, axial = np.linspace(900.0, 2500.0, 9), np.linspace(0.0, 30.0, 9)
    solved = RotorMap(blade, day)
    expected = solved.loads(omega, axial, 0.3 * axial)
    with monkeypatch.context() as patch:
        patch.setattr(module, "_saved", {solved.key: solved.saved()})
        rotor_map.cache_clear()
        restored = rotor_map(blade, day)
        patch.setattr(module, "rotor_loads", None)  # nothing is solved directly
        patch.setattr(module.rotor, "_oblique", None)
        found = restored.loads(omega, axial, 0.3 * axial)
    rotor_map.cache_clear()
    for field in FIELDS:
        assert getattr(found, field).tolist() == getattr(expected, field).tolist()
    more, direct = (chart.loads(1500.0, 10.0, 28.0) for chart in (restored, RotorMap(blade, day)))
    assert more.thrust_N == pytest.approx(direct.thrust_N, rel=1e-9)


def test_key_of_a_map_tells_blades_and_days_apart():
    def key(pitch_m=0.109, blades=3, height_m=0.0):
        blade = blade_from_style(0.127, pitch_m, blades, "wide")
        return RotorMap(blade, air_of_day(height_m=height_m)).key

    assert key() == key()
    assert len({key(), key(pitch_m=0.109 * (1 + 1e-6)), key(blades=2), key(height_m=1.0)}) == 4
