"""The rotor's limits, symmetries, balances and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from slipfit.errors import InputError
from slipfit.physics import rotor
from slipfit.physics.air import air_of_day
from slipfit.physics.blade import STYLES, blade_from_style
from slipfit.physics.polar import Station
from slipfit.physics.rotor import rotor_loads

AIR = air_of_day()
WIDE = blade_from_style(0.127, 0.109, 3, "wide")
STEEP = blade_from_style(0.13335, 0.2032, 2, "slim")  # 8 inches of pitch on 5.25
BLADES = [WIDE, STEEP, blade_from_style(0.1778, 0.1016, 3, "cruise")]
FIELDS = ("thrust_N", "torque_Nm", "inplane_force_N", "side_moment_Nm", "pitch_moment_Nm")


def close(a, b, part=1e-9):
    """Loads within a part of the greatest of their kind (or of 1)."""
    for field in ("thrust_N", "torque_Nm", "induced_speed_m_s", "stall_fraction"):
        x, y = getattr(a, field), getattr(b, field)
        assert np.abs(x - y).max() <= part * max(1.0, np.abs(y).max()), field


@pytest.fixture
def ideal(monkeypatch):
    monkeypatch.setattr(rotor, "_loss", lambda a, s, c: (np.ones_like(s), np.zeros_like(s)))
    monkeypatch.setattr(Station, "drag", lambda self, alpha, cl: np.zeros_like(cl))


@pytest.mark.parametrize("blade", BLADES)
def test_at_rest_and_without_air_there_are_no_loads(blade):
    loads = rotor_loads(blade, 0.0, 0.0, 0.0, AIR)
    assert [float(getattr(loads, f)) for f in FIELDS] == [0.0] * 5
    assert bool(loads.valid)


@pytest.mark.parametrize("blade", BLADES)
def test_stopped_rotor_drags_and_wants_to_turn(blade):
    loads = rotor_loads(blade, 0.0, 30.0, 0.0, AIR)
    assert loads.thrust_N < 0.0
    assert loads.torque_Nm < 0.0
    assert bool(loads.valid)
    plate = 0.5 * AIR.density_kg_m3 * 30.0**2 * blade.solidity * np.pi * blade.radius_m**2
    assert -loads.thrust_N < 1.3 * plate  # no more than plates square to the flow


@pytest.mark.parametrize("blade", BLADES)
def test_hover_needs_more_power_than_an_ideal_disk(blade):
    omega = np.linspace(200.0, 3000.0, 15)
    loads = rotor_loads(blade, omega, 0.0, 0.0, AIR)
    area = np.pi * blade.radius_m**2
    ideal_W = loads.thrust_N**1.5 / np.sqrt(2 * AIR.density_kg_m3 * area)
    merit = ideal_W / (loads.torque_Nm * omega)
    assert (merit > 0.15).all()  # the steep blade stalls all over
    assert (merit < 0.85).all()


def test_turning_without_thrust_still_costs_power():
    speed = np.linspace(30.0, 50.0, 401)
    loads = rotor_loads(WIDE, 2000.0, speed, 0.0, AIR)
    k = int(np.argmin(np.abs(loads.thrust_N)))
    assert abs(loads.thrust_N[k]) < 0.02
    assert loads.torque_Nm[k] > 0.01


def test_windmilling_drives_the_shaft():
    loads = rotor_loads(WIDE, 1000.0, 60.0, 0.0, AIR)
    assert loads.torque_Nm < 0.0
    assert loads.thrust_N < 0.0


def test_shaft_power_is_thrust_power_and_induced_power(ideal):
    """One annulus, no drag: the force stands square on the flow, so Q W = T (V + v) + Q u / r."""
    omega, speed = np.array([800.0, 1500.0, 2500.0]), np.array([0.0, 12.0, 40.0])
    loads = rotor_loads(WIDE, omega, speed, 0.0, AIR, annuli=1)
    r = WIDE.radius_m * (WIDE.hub_r_R + 0.5 * (1 - WIDE.hub_r_R))
    T, Q, v = loads.thrust_N, loads.torque_Nm, loads.induced_speed_m_s
    u = v * Q / (r * T)  # both momenta share the mass flow
    assert Q * omega == pytest.approx(T * (speed + v) + Q * u / r, rel=1e-9)


@pytest.mark.parametrize("blade", BLADES)
def test_profile_drag_adds_to_the_ideal_power(blade, monkeypatch):
    arguments = (np.array([700.0, 1500.0, 2500.0]), np.array([0.0, 5.0, 30.0]))
    full = rotor_loads(blade, *arguments, np.array([0.0, 20.0, 30.0]), AIR)
    monkeypatch.setattr(Station, "drag", lambda self, alpha, cl: np.zeros_like(cl))
    bare = rotor_loads(blade, *arguments, np.array([0.0, 20.0, 30.0]), AIR)
    assert (full.torque_Nm > bare.torque_Nm).all()
    assert (full.thrust_N < bare.thrust_N).all()


@pytest.mark.parametrize("blade", BLADES)
@pytest.mark.parametrize("inplane", [0.0, 10.0, 40.0])
def test_shaft_and_flow_together_put_power_into_the_air(blade, inplane):
    """Shaft power, plus what the in-plane force takes from the motion, exceeds thrust power."""
    axial = np.linspace(0.0, 60.0, 13)
    omega = 1500.0
    loads = rotor_loads(blade, omega, axial, inplane, AIR)
    given_W = omega * loads.torque_Nm + loads.inplane_force_N * inplane - loads.thrust_N * axial
    assert (given_W > 0.0).all()


@pytest.mark.parametrize("blade", BLADES)
def test_oblique_flow_becomes_axial_flow_without_a_step(blade):
    """One formulation: a breath of in-plane air changes nothing, and H falls in proportion."""
    omega, axial = np.array([900.0, 1800.0, 2600.0]), np.array([0.0, 10.0, 45.0])
    straight = rotor_loads(blade, omega, axial, 0.0, AIR)
    bent = rotor_loads(blade, omega, axial, 1e-6, AIR)
    close(bent, straight, 1e-4)
    H = [
        float(rotor_loads(blade, 1800.0, 10.0, x, AIR).inplane_force_N) for x in (1e-3, 2e-3, 4e-3)
    ]
    assert H[0] > 0.0
    assert H[1] / H[0] == pytest.approx(2.0, rel=0.02)
    assert H[2] / H[0] == pytest.approx(4.0, rel=0.02)


@pytest.mark.parametrize("blade", BLADES)
def test_in_plane_flow_from_the_other_side_mirrors_the_in_plane_loads(blade):
    ahead = rotor_loads(blade, 1500.0, 12.0, 25.0, AIR)
    behind = rotor_loads(blade, 1500.0, 12.0, -25.0, AIR)
    assert behind.thrust_N == ahead.thrust_N
    assert behind.torque_Nm == ahead.torque_Nm
    for field in ("inplane_force_N", "side_moment_Nm", "pitch_moment_Nm"):
        assert getattr(behind, field) == -getattr(ahead, field)


def test_forward_speed_raises_thrust_and_lifts_the_advancing_side():
    loads = rotor_loads(WIDE, 1800.0, 0.0, np.array([0.0, 10.0, 20.0, 30.0]), AIR)
    assert (np.diff(loads.thrust_N) > 0.0).all()
    assert (np.diff(loads.side_moment_Nm) > 0.0).all()
    assert (np.diff(loads.inplane_force_N) > 0.0).all()


@settings(max_examples=25, deadline=None)
@given(omega=st.floats(0.0, 4000.0), axial=st.floats(-40.0, 120.0), inplane=st.floats(-60.0, 60.0))
def test_every_case_gives_numbers(omega, axial, inplane):
    loads = rotor_loads(WIDE, omega, axial, inplane, AIR)
    for field in (*FIELDS, "induced_speed_m_s", "tip_mach", "stall_fraction"):
        assert np.isfinite(getattr(loads, field)).all(), field
    assert 0.0 <= loads.stall_fraction <= 1.0


def test_cases_do_not_depend_on_their_company():
    rng = np.random.default_rng(3)
    omega, axial, inplane = rng.uniform([[500], [0], [0]], [[3000], [60], [30]], (3, 700))
    together = rotor_loads(WIDE, omega, axial, inplane, AIR)
    for k in (0, 333, 699):
        alone = rotor_loads(WIDE, omega[k], axial[k], inplane[k], AIR)
        for field in FIELDS:
            assert getattr(alone, field) == pytest.approx(getattr(together, field)[k], rel=1e-10)


def test_inputs_broadcast():
    loads = rotor_loads(WIDE, np.full((5, 1), 1500.0), np.linspace(0, 30, 4), 0.0, AIR)
    assert loads.thrust_N.shape == loads.valid.shape == (5, 4)
    assert rotor_loads(WIDE, 1500.0, 0.0, 0.0, AIR).thrust_N.shape == ()


@pytest.mark.parametrize("blade", BLADES)
def test_twelve_annuli_and_eight_azimuths_suffice(blade):
    omega, V = 1800.0, np.linspace(0.0, 40.0, 9)
    usual = rotor_loads(blade, omega, 0.4 * V, 0.9 * V, AIR)
    finer = rotor_loads(blade, omega, 0.4 * V, 0.9 * V, AIR, annuli=36)
    rounder = rotor_loads(blade, omega, 0.4 * V, 0.9 * V, AIR, azimuths=32)
    for other in (finer, rounder):
        for field in ("thrust_N", "torque_Nm", "inplane_force_N"):
            a, b = getattr(usual, field), getattr(other, field)
            assert np.abs(a - b).max() <= 0.01 * np.abs(b).max(), field


def test_more_solver_steps_change_nothing(monkeypatch):
    omega, V = np.array([[600.0], [1500.0], [2500.0]]), np.linspace(0.0, 60.0, 31)
    usual = rotor_loads(WIDE, omega, V, 0.0, AIR)
    monkeypatch.setattr(rotor, "_STEPS", 40)
    close(rotor_loads(WIDE, omega, V, 0.0, AIR), usual, 1e-6)


@pytest.mark.parametrize("blade", BLADES)
@pytest.mark.parametrize("share", [0.0, 0.85])
def test_loads_have_no_kinks_over_speed(blade, share):
    """Steps of 5 cm/s: a smooth curve's second difference is far below a part in a thousand."""
    V = np.linspace(0.0, 40.0, 801)
    loads = rotor_loads(blade, 1500.0, V * np.sqrt(1 - share**2), V * share, AIR)
    for field in ("thrust_N", "torque_Nm"):
        y = getattr(loads, field)
        assert np.abs(np.diff(y, 2)).max() <= 1e-3 * np.abs(y).max(), field


def test_stall_delay_holds_the_thrust_of_steep_blades_up():
    with_delay = rotor_loads(STEEP, 2000.0, 0.0, 0.0, AIR)
    without = rotor_loads(STEEP, 2000.0, 0.0, 0.0, AIR, with_stall_delay=False)
    assert 1.02 < with_delay.thrust_N / without.thrust_N < 1.6
    assert with_delay.stall_fraction > 0.3


def test_vortex_ring_and_sonic_tips_are_marked():
    hover = rotor_loads(WIDE, 1500.0, 0.0, 0.0, AIR)
    assert bool(hover.valid)
    descents = -float(hover.induced_speed_m_s) * np.array([0.1, 0.6, 1.2])
    assert rotor_loads(WIDE, 1500.0, descents, 0.0, AIR).valid.tolist() == [True, False, False]
    fast = rotor_loads(WIDE, np.array([5200.0, 5400.0]), 0.0, 0.0, AIR)
    assert fast.valid.tolist() == [True, False]
    assert fast.tip_mach == pytest.approx(np.array([5200.0, 5400.0]) * 0.0635 / AIR.sound_speed_m_s)


def test_turbulent_wake_begins_without_a_jump():
    """At the start of a descent, where momentum theory and Buhl's curve take over."""
    V = np.linspace(-1e-4, 1e-4, 5)
    loads = rotor_loads(WIDE, 1500.0, V, 0.0, AIR)
    assert np.ptp(loads.torque_Nm) < 1e-4 * loads.torque_Nm.mean()


def test_thin_blades_lose_no_efficiency_below_a_helical_tip_mach_of_0_85_and_more_beyond():
    """One advance ratio at rising rotation; NACA TR 302 and TN 2881 by their summaries."""
    omega = np.array([3000.0, 3500.0, 3700.0, 3900.0, 4100.0, 4300.0, 4500.0])
    speed = omega * STEEP.radius_m * 0.5
    loads = rotor_loads(STEEP, omega, speed, 0.0, AIR)
    efficiency = loads.thrust_N * speed / (loads.torque_Nm * omega)
    print("\ntip Mach", loads.tip_mach.round(3), "efficiency", efficiency.round(3))
    slow = loads.tip_mach < 0.86
    assert (efficiency[slow] > 0.97 * np.maximum.accumulate(efficiency[slow])).all()
    assert (np.diff(efficiency[~slow]) < 0.0).all()
    assert (np.diff(efficiency[~slow], 2) < 0.0).all()  # ever faster
    assert efficiency[-1] < efficiency.max() - 0.05


def test_refusals_name_the_value():
    with pytest.raises(InputError, match=r"omega_rad_s must be >= 0 .*, got -5"):
        rotor_loads(WIDE, -5.0, 0.0, 0.0, AIR)
    with pytest.raises(InputError, match=r"axial_speed_m_s must be finite, got nan"):
        rotor_loads(WIDE, 5.0, np.nan, 0.0, AIR)


@pytest.mark.parametrize("style", STYLES)
def test_steep_pitches_work_in_every_style(style):
    loads = rotor_loads(blade_from_style(0.127, 0.2032, 2, style), 2000.0, 30.0, 5.0, AIR)
    assert loads.thrust_N > 0.0
    assert loads.torque_Nm > 0.0
