"""Centre of pressure, margins, fin area and the pack's place, of whole frames."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from site_builds import framed, shipped
from slipfit.build import Build
from slipfit.flight.inputs import sampled_inputs
from slipfit.flight.performance import performance
from slipfit.flight.trim import Trim
from slipfit.frame.frame import BodyEntry
from slipfit.masses import balance, mass_total
from slipfit.physics.body.box import Box
from slipfit.physics.body.crossflow import apparent_mass_factor_munk
from slipfit.physics.body.fins import Fin
from slipfit.physics.body.streamlined import Streamlined
from slipfit.physics.centre_of_pressure import centre_of_pressure, fins_barrowman, nose_barrowman
from slipfit.physics.rotor import RotorLoads
from slipfit.stability import (
    body_diameter,
    fin_area,
    pressure_lever,
    side_force,
    stability,
)


def gliding(build: Build, speed: float, alpha: float, **rotor: float) -> Trim:
    """A state in which the rotors do nothing but what is said."""
    at = {name: np.array([[rotor.get(name, 0.0)]]) for name in RotorLoads.__dataclass_fields__}
    at["valid"] = np.array([[True]])
    V, a, none = np.array([[speed]]), np.array([[alpha]]), np.zeros((1, 1))
    return Trim(
        speed_m_s=V, climb_angle_rad=none, incidence_rad=a, thrust_N=none, omega_rad_s=none,
        rotor=RotorLoads(**at), drag_causes_N={}, axial_N=none, normal_N=none, residual_N=none,
        valid=at["valid"],
    )  # fmt: skip


LENGTH, WIDE, NOSE = 0.5, 0.06, 0.15
TUBE = BodyEntry(
    name="tube", model="streamlined", station_m=LENGTH / 2,
    shape=Streamlined(length_m=LENGTH, width_m=WIDE, height_m=WIDE, nose_length_m=NOSE,
                      base_diameter_m=WIDE),
)  # fmt: skip
CHORD, SPAN = 0.06, 0.05
FINS = BodyEntry(
    name="fins", model="fin", count=4, station_m=LENGTH - CHORD / 2,
    shape=Fin(area_m2=CHORD * SPAN, span_m=SPAN, thickness_m=0.002, body_diameter_m=WIDE),
)  # fmt: skip


def test_tube_with_fins_has_barrowmans_centre_of_pressure():
    """A nose, a tube and four fins as bodies of a frame, at a small incidence, against the sum of
    the published forms (the nose an ellipsoid, a short body's lift after Munk): within 1 %."""
    build = framed(bodies=(TUBE, FINS))
    forces = side_force(build, gliding(build, 40.0, 1e-4))
    nose = nose_barrowman(NOSE, WIDE, WIDE, "ellipsoid")
    munk = float(apparent_mass_factor_munk(LENGTH / WIDE))
    nose = dataclasses.replace(nose, slope_per_rad=munk * float(nose.slope_per_rad))
    fins = fins_barrowman(4, CHORD, CHORD, SPAN, 0.0, LENGTH - CHORD, WIDE, WIDE)
    expected = centre_of_pressure([nose, fins])
    assert forces.station_m[0, 0] == pytest.approx(float(expected.station_m), rel=0.01)
    q = 0.5 * build.air.density_kg_m3 * 40.0**2 * math.pi / 4 * WIDE**2 * 1e-4
    force = (forces.body_N + forces.fins_N)[0, 0]
    assert force / q == pytest.approx(float(expected.slope_per_rad), rel=0.01)


def test_broadside_it_is_the_middle_of_the_side_view():
    """Square to the air a tube with a rounded nose is pushed at the middle of what the air sees."""
    build = framed(bodies=(TUBE,))
    forces = side_force(build, gliding(build, 20.0, math.pi / 2))
    assert forces.station_m[0, 0] == pytest.approx(TUBE.shape.planform_centre_m, rel=1e-6)


def test_turning_into_the_air_moves_the_centre_of_pressure_of_a_tube_aft():
    build = framed(bodies=(TUBE,))
    stations = [
        side_force(build, gliding(build, 30.0, math.radians(a))).station_m[0, 0]
        for a in (1, 10, 30, 60, 90)
    ]
    assert (np.diff(stations) > 0).all()


def test_rotors_push_where_they_stand_and_what_raises_their_edge_pulls_forward():
    build = framed(bodies=(TUBE,))
    disk = build.frame.rotors[0].station_m
    pushed = side_force(build, gliding(build, 30.0, 0.2, inplane_force_N=3.0))
    n = build.rotor_count
    assert pushed.rotors_N[0, 0] == pytest.approx(3.0 * n)
    assert pushed.rotors_Nm[0, 0] == pytest.approx(3.0 * n * disk)
    raised = side_force(build, gliding(build, 30.0, 0.2, inplane_force_N=3.0, pitch_moment_Nm=0.1))
    assert raised.station_m[0, 0] < pushed.station_m[0, 0]
    assert pushed.rotors_Nm[0, 0] - raised.rotors_Nm[0, 0] == pytest.approx(0.1 * n)


def test_drag_off_the_axis_turns_the_frame():
    """A box in front of the axis is dragged aft and turns the nose to the front, into the air."""
    box = BodyEntry(
        name="box", model="box", station_m=0.2, front_m=0.1,
        shape=Box(length_m=0.03, width_m=0.03, height_m=0.03),
    )  # fmt: skip
    on_axis = dataclasses.replace(box, front_m=0.0)
    found = []
    for entry in (on_axis, box):
        build = framed(bodies=(TUBE, entry))
        found.append(side_force(build, gliding(build, 30.0, 0.2)))
    assert found[1].station_m[0, 0] > found[0].station_m[0, 0]
    assert found[1].body_N == pytest.approx(found[0].body_N)


def test_side_forces_carry_the_weight_as_the_trim_says():
    """What stability sums is what level flight balances: N + n H, to the table's interpolation."""
    p = performance(shipped())
    f = side_force(p.build, p.top.trim)
    total = (f.body_N + f.fins_N + f.rotors_N)[0, 0]
    trimmed = p.top.trim.normal_N + p.build.rotor_count * p.top.trim.rotor.inplane_force_N
    assert total == pytest.approx(trimmed[0, 0], rel=0.005)


def moved_pack(build: Build, forward_m: float) -> Build:
    bays = tuple(
        dataclasses.replace(bay, station_m=bay.station_m - forward_m) if bay.kind == "pack" else bay
        for bay in build.frame.bays
    )
    return dataclasses.replace(build, frame=dataclasses.replace(build.frame, bays=bays))


def test_moving_the_pack_as_told_gives_the_wanted_margin():
    build = framed(static_margin=0.4)
    s = stability(performance(build))
    after = stability(performance(moved_pack(build, float(s.pack_move_m[0, 0]))))
    assert after.static_margin[0, 0] == pytest.approx(0.4, abs=0.01)
    won = after.static_margin[0, 0] - s.static_margin[0, 0]
    assert s.margin_per_pack_m[0, 0] * s.pack_move_m[0, 0] == pytest.approx(won, abs=0.01)


def test_fins_of_the_area_needed_give_the_wanted_margin():
    """Scaled in place and proportions; the body's share of a larger fin's lift falls a little, and
    the state of flight changes, so to a tenth of what was changed."""
    build = framed(static_margin=0.5)
    s = stability(performance(build))
    scale = float(s.fin_area_m2[0, 0]) / fin_area(build.frame)
    assert scale > 1.0
    bodies = tuple(
        dataclasses.replace(
            b,
            shape=dataclasses.replace(
                b.shape, area_m2=b.shape.area_m2 * scale, span_m=b.shape.span_m * math.sqrt(scale)
            ),
        )
        if isinstance(b.shape, Fin)
        else b
        for b in build.frame.bodies
    )
    larger = dataclasses.replace(build, frame=dataclasses.replace(build.frame, bodies=bodies))
    after = stability(performance(larger)).static_margin[0, 0]
    before = s.static_margin[0, 0]
    assert after == pytest.approx(0.5, abs=0.25 * (0.5 - before))
    assert after - before > 0.75 * (0.5 - before)


def test_margin_counts_diameters_of_the_body():
    p = performance(shipped())
    s = stability(p)
    d = body_diameter(p.build.frame)
    assert d == pytest.approx(2 * max(p.build.frame.outline.radii_m))
    lever = s.pressure_station_m - balance(p.build).station_m
    assert s.lever_m[0, 0] == pytest.approx(lever[0, 0], abs=1.5e-3)  # balance off the axis
    assert s.static_margin[0, 0] == pytest.approx(s.lever_m[0, 0] / d)


def test_a_flat_frame_has_a_place_but_no_diameters_and_no_fins():
    p = performance(shipped("longspur-7"))
    s = stability(p)
    assert np.isfinite(s.pressure_station_m).all() and np.isfinite(s.lever_m).all()
    for none in (s.static_margin, s.fin_area_m2, s.pack_move_m):
        assert np.isnan(none).all()
    assert s.front_share[0, 0] > 1.0


def test_extra_thrust_holds_the_moment():
    """Front and back motors, apart by their fronts, make just the moment of the side force."""
    p = performance(shipped("longspur-7"))
    s = stability(p)
    f = s.forces
    moment = (f.body_N + f.rotors_N)[0, 0] * s.lever_m[0, 0]
    front = max(r.front_m for r in p.build.frame.rotors)
    extra = (s.front_share[0, 0] - 1.0) * p.top.trim.thrust_N[0, 0]
    assert p.build.rotor_count * extra * front == pytest.approx(abs(moment), rel=1e-9)


def test_samples_share_their_place():
    build = shipped()
    inputs, _ = sampled_inputs(build, 8)
    p = performance(build)
    s = stability(performance(build, inputs, p.speeds_m_s))
    assert s.static_margin.shape == (8, 1)
    assert np.ptp(s.static_margin) > 0.0
    whole, frame = pressure_lever(p, slice(4, None))
    assert whole.shape == frame.shape == (1, len(p.speeds_m_s) - 4)
    assert mass_total(build) > 0.0
