"""Inertia and how motors share the hover."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builds import altered, framed, shipped
from slipfit.build import Build
from slipfit.fit.bill import bill, bill_mass
from slipfit.flight.balance import hover_shares, inertia, rotor_place
from slipfit.frame.frame import Item, RotorMount
from slipfit.masses import balance, mass_items


def bare(*items: Item) -> Build:
    """A build of nothing but hardware."""
    build = framed(hardware=items, joints=())
    return dataclasses.replace(build, parts={})


def test_two_weights_on_a_stick_have_the_textbooks_inertia():
    build = bare(
        Item(name="a", mass_kg=0.2, station_m=0.1), Item(name="b", mass_kg=0.3, station_m=0.6)
    )
    I = inertia(build)  # noqa: E741
    assert balance(build).station_m == pytest.approx(0.4)
    assert I.axis_kg_m2 == pytest.approx(0.0, abs=1e-12)
    assert I.right_kg_m2 == I.front_kg_m2 == pytest.approx(0.2 * 0.09 + 0.3 * 0.04)


def test_a_tube_has_the_textbooks_inertia():
    """A thin tube: m r^2 about its axis, m (r^2/2 + l^2/12) across."""
    I = inertia(bare(Item(name="tube", mass_kg=0.5, station_m=0.2, ring_m=0.03, length_m=0.4)))  # noqa: E741
    assert I.axis_kg_m2 == pytest.approx(0.5 * 0.03**2)
    assert I.right_kg_m2 == pytest.approx(0.5 * (0.03**2 / 2 + 0.4**2 / 12))


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_inertia_of_a_frame_obeys_what_every_body_must(slug):
    """No moment exceeds the sum of the other two, and all are positive."""
    build = shipped(slug)
    I = inertia(build)  # noqa: E741
    a, b, c = I.axis_kg_m2, I.right_kg_m2, I.front_kg_m2
    assert min(a, b, c) > 0.0
    assert a <= b + c and b <= a + c and c <= a + b
    heavy = sum(i.mass_kg for i in mass_items(build))
    assert max(a, b, c) < heavy * 0.25**2


@given(
    st.lists(st.tuples(st.floats(-0.2, 0.2), st.floats(-0.2, 0.2)), min_size=3, max_size=8),
    st.floats(-0.03, 0.03),
    st.floats(-0.03, 0.03),
)
def test_shares_hold_the_weight_at_the_balance_point(places, right, front):
    spread = np.array(places) - np.mean(places, axis=0)
    if np.linalg.matrix_rank(spread, tol=1e-2) < 2:
        return  # rotors on a line cannot hold a weight beside it
    rotors = tuple(RotorMount(station_m=0.0, right_m=x, front_m=y) for x, y in places)
    build = bare(Item(name="weight", mass_kg=1.0, station_m=0.1, right_m=right, front_m=front))
    build = dataclasses.replace(build, frame=dataclasses.replace(build.frame, rotors=rotors))
    shares = hover_shares(build)
    assert shares.sum() == pytest.approx(len(places))
    assert shares @ np.array(places) == pytest.approx(len(places) * np.array([right, front]))


def test_a_balance_point_towards_a_motor_makes_that_motor_work():
    rotors = shipped().frame.rotors
    k = next(i for i, r in enumerate(rotors) if r.right_m > 0 and r.front_m > 0)
    build = framed(
        hardware=(Item(name="lead", mass_kg=0.3, station_m=0.1, right_m=0.05, front_m=0.05),)
    )
    shares = hover_shares(build)
    assert int(np.argmax(shares)) == k
    assert rotor_place(build, k) == "front right"


def screw_items(build: Build) -> list[tuple[float, float, float, float]]:
    """Mass and place of every item of screws."""
    return [
        (item.mass_kg, item.station_m, item.right_m, item.front_m)
        for item in mass_items(build)
        if item.name.startswith("screws, ")
    ]


def test_screws_weigh_where_their_joint_says():
    """8 M3 x 6 buttons of 0.42 g, once with the frame's hardware and once on a ring elsewhere."""
    joint = next(j for j in shipped("longspur-7").frame.joints if j.id == "standoffs-top")
    build = bare(Item(name="a", mass_kg=0.2, station_m=0.1, front_m=0.03, count=2))
    amid = dataclasses.replace(
        build,
        frame=dataclasses.replace(
            build.frame, joints=(dataclasses.replace(joint, station_m=0.0, ring_m=0.0),)
        ),
    )
    ((mass, *place),) = screw_items(amid)
    assert mass == pytest.approx(8 * 0.42e-3, rel=0.01)
    assert place == pytest.approx([0.1, 0.0, 0.03])
    assert inertia(amid).right_kg_m2 == pytest.approx(0.0, abs=1e-12)
    ring = dataclasses.replace(joint, station_m=0.0, right_m=0.02, ring_m=0.05)
    there = dataclasses.replace(build, frame=dataclasses.replace(build.frame, joints=(ring,)))
    assert screw_items(there)[0][1:] == (0.0, 0.02, 0.0)
    own = inertia(there).axis_kg_m2
    m, M = mass, 0.4
    beside = m * M / (m + M) * (0.02**2 + 0.03**2)
    assert own == pytest.approx(m * 0.05**2 + beside)


def test_a_motor_s_screws_weigh_at_the_motors():
    build = shipped()
    motors = [i for i in mass_items(build) if i.kind == "motor"]
    found = [s for s in screw_items(build) if s[1] == motors[0].station_m and s[2]]
    assert len(found) == len(motors) == 4
    assert sorted(s[2:] for s in found) == sorted((i.right_m, i.front_m) for i in motors)
    assert sum(s[0] for s in found) == pytest.approx(16 * 0.857e-3, rel=1e-3)


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_the_bill_of_materials_weighs_what_the_build_does(slug):
    build = shipped(slug)
    lines = bill(build)
    assert bill_mass(lines) == pytest.approx(sum(i.mass_kg for i in mass_items(build)), rel=1e-12)
    assert all(line.mass_kg for line in lines if line.group == "screws")


def test_a_taller_esc_takes_longer_and_heavier_screws():
    usual = shipped()
    esc = usual.parts["esc"]
    taller = altered("esc", height_m=esc.height_m + 5e-3)
    assert taller.parts["esc"].mass_kg == esc.mass_kg
    gained = sum(i.mass_kg for i in mass_items(taller)) - sum(i.mass_kg for i in mass_items(usual))
    # 20 to 25 mm: a plain shank of 3 mm beyond 18 mm of thread
    assert gained == pytest.approx(4 * 7850 * np.pi / 4 * 3e-3**2 * 5e-3, rel=1e-9)
