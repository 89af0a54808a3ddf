"""Inertia and how motors share the hover."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builds import framed, shipped
from slipfit.build import Build, balance, mass_items
from slipfit.flight.balance import hover_shares, inertia, rotor_place
from slipfit.frame.frame import Item, RotorMount


def bare(*items: Item) -> Build:
    """A build of nothing but hardware."""
    build = framed(hardware=items)
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
