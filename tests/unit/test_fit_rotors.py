"""Clearances of propellers, by other means than the code's own."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from site_builds import shipped
from slipfit.checks.fit_prop import judge_prop_body
from slipfit.errors import InputError
from slipfit.fit.rotors import (
    body_gap,
    body_half_height,
    largest_clear_diameter,
    nearest_body,
    nearest_box,
    nearest_tips,
    section_polygon,
    section_reach,
    tip_gaps,
)
from slipfit.fit.solids import Solid, beside_rotors
from slipfit.frame.frame import Outline, RotorMount


def rotor(station=0.1, right=0.1, front=0.1):
    return RotorMount(station_m=station, right_m=right, front_m=front)


def round_body(stations, radii):
    return Outline(
        stations_m=tuple(stations), radii_m=tuple(radii), half_widths_m=tuple(radii),
        half_heights_m=tuple(radii),
    )  # fmt: skip


SQUARE = [rotor(0.1, x, y) for x, y in ((0.1, 0.1), (0.1, -0.1), (-0.1, -0.1), (-0.1, 0.1))]
BODY = round_body([0.0, 0.1, 0.2, 0.3], [0.0, 0.03, 0.03, 0.01])


def test_tips_in_a_square_are_apart_by_its_side_less_a_diameter():
    near = nearest_tips(SQUARE, 0.15, 0.006)
    assert near.gap_m == pytest.approx(0.05)
    gaps, pairs = tip_gaps(SQUARE, 0.15, 0.006)
    assert len(pairs) == 6
    assert gaps.max() == pytest.approx(0.2 * math.sqrt(2) - 0.15)


def test_disks_over_each_other_are_apart_by_their_stations():
    stack = [rotor(0.10), rotor(0.14)]
    assert nearest_tips(stack, 0.15, 0.006).gap_m == pytest.approx(0.034)


def test_disks_that_overlap_clash_by_the_least_shift():
    assert nearest_tips(SQUARE, 0.21, 0.006).gap_m == pytest.approx(-0.006)  # along the axis
    assert nearest_tips(SQUARE, 0.203, 0.006).gap_m == pytest.approx(-0.003)  # in the plane


def test_a_staggered_pair_is_apart_by_both():
    pair = [rotor(0.1, 0.0, 0.0), rotor(0.146, 0.18, 0.0)]
    assert nearest_tips(pair, 0.15, 0.006).gap_m == pytest.approx(0.05)  # 30 and 40 mm


def test_one_rotor_has_no_tips_to_meet():
    assert nearest_tips([rotor()], 0.15, 0.006) is None


def test_many_diameters_at_once():
    gaps, _ = tip_gaps(SQUARE, np.array([0.1, 0.15]), np.array([0.006, 0.006]))
    assert gaps.shape == (2, 6)
    assert gaps.min(axis=-1) == pytest.approx([0.1, 0.05])


@given(st.floats(0.05, 0.3), st.floats(0, math.tau))
def test_turning_all_rotors_about_the_axis_changes_nothing(diameter, turn):
    c, s = math.cos(turn), math.sin(turn)
    turned = [
        rotor(r.station_m, c * r.right_m - s * r.front_m, s * r.right_m + c * r.front_m)
        for r in SQUARE
    ]
    before, after = nearest_tips(SQUARE, diameter, 0.006), nearest_tips(turned, diameter, 0.006)
    assert after.gap_m == pytest.approx(before.gap_m, abs=1e-12)
    at_body = [nearest_body(rotors, BODY, diameter, 0.006).gap_m for rotors in (SQUARE, turned)]
    assert at_body[1] == pytest.approx(at_body[0], abs=1e-9)


def test_a_tip_beside_a_straight_body_is_apart_by_the_radii():
    side = rotor(0.15, 0.12, 0.0)
    assert body_gap(BODY, side, 0.15, 0.006) == pytest.approx(0.12 - 0.075 - 0.03)
    assert body_gap(BODY, side, 0.20, 0.006) == pytest.approx(-0.01)


def test_a_tip_ahead_of_the_nose_is_apart_along_the_axis():
    ahead = rotor(-0.05, 0.05, 0.0)
    assert body_gap(BODY, ahead, 0.2, 0.006) == pytest.approx(0.047)


def test_a_tip_aft_of_a_blunt_tail_and_outside_it_is_apart_by_both():
    aft = rotor(0.333, 0.125, 0.0)
    # 30 mm behind the base, and 40 mm outside its radius of 10 mm.
    assert body_gap(BODY, aft, 0.15, 0.006) == pytest.approx(0.05)


elliptic = st.builds(
    lambda a, b, full: Outline(
        stations_m=(0.0, 0.1, 0.3),
        radii_m=tuple(k * math.sqrt(full * 4 * a * b / math.pi) for k in (0.2, 1.0, 0.5)),
        half_widths_m=tuple(k * a for k in (0.2, 1.0, 0.5)),
        half_heights_m=tuple(k * b for k in (0.2, 1.0, 0.5)),
    ),
    st.floats(0.02, 0.06),
    st.floats(0.02, 0.06),
    st.sampled_from([math.pi / 4, 0.9, 1.0]),
)


def surface(outline):
    """Points on the body, along the edges of the polygon that drawings show."""
    found = []
    for station in np.linspace(outline.stations_m[0], outline.stations_m[-1], 121):
        corners = np.array(section_polygon(outline, station)) * (1, -1)
        ends = np.roll(corners, -1, axis=0)
        for t in np.linspace(0.0, 1.0, 8, endpoint=False):
            edge = corners * (1 - t) + ends * t
            found.append(np.column_stack([np.full(len(edge), station), edge]))
    return np.concatenate(found)


@given(elliptic, st.floats(-0.05, 0.35), st.floats(0.0, math.tau), st.floats(0.1, 0.2))
@settings(max_examples=60, deadline=None)
def test_distance_from_an_oval_body_matches_points_on_its_surface(outline, station, at, away):
    side = rotor(station, away * math.cos(at), away * math.sin(at))
    diameter, thickness = 0.1, 0.006
    gap = body_gap(outline, side, diameter, thickness)
    assume(gap > 1e-3)
    x, right, front = surface(outline).T
    across = np.maximum(np.hypot(right - side.right_m, front - side.front_m) - diameter / 2, 0)
    along = np.maximum(np.abs(x - side.station_m) - thickness / 2, 0)
    # The points lie 2.5 mm of station and, on a box's flat side, 12 mm apart.
    assert np.hypot(across, along).min() == pytest.approx(gap, abs=4e-4)


@given(elliptic, st.floats(0.05, 0.3), st.floats(0.01, 0.05))
@settings(deadline=None)
def test_a_larger_propeller_is_never_farther_from_the_body(outline, diameter, more):
    small, large = (
        body_gap(outline, rotor(0.12), size, 0.006) for size in (diameter, diameter + more)
    )
    assert large <= small + 1e-12


def test_a_boxy_section_reaches_into_its_corners():
    box = Outline(
        stations_m=(0.0, 0.1), radii_m=(math.sqrt(4 * 0.03 * 0.03 / math.pi),) * 2,
        half_widths_m=(0.03, 0.03), half_heights_m=(0.03, 0.03),
    )  # fmt: skip
    diagonal = math.sqrt(0.5)
    assert section_reach(box, diagonal, diagonal)[0] == pytest.approx([0.03 * math.sqrt(2)] * 2)
    assert section_reach(BODY, diagonal, diagonal)[0] == pytest.approx(BODY.radii_m)


def test_no_body_gives_no_clearance():
    assert nearest_body(SQUARE, Outline(), 0.15, 0.006) is None
    assert section_polygon(Outline(), 0.1) == ()
    assert section_polygon(BODY, 0.4) == ()
    assert (body_half_height(BODY, 0.05), body_half_height(BODY, 0.4)) == (0.015, 0.0)


def test_an_outline_that_turns_back_is_refused():
    with pytest.raises(InputError, match="outline must have two or more rising stations"):
        body_gap(round_body([0.0, 0.2, 0.1], [0.0, 0.1, 0.1]), rotor(), 0.15, 0.006)


@given(st.floats(0.02, 0.5))
def test_the_largest_diameter_is_where_room_ends(limit):
    def room(diameter):
        return math.expm1(3 * (limit - diameter))

    found = largest_clear_diameter(room, 0.0, 0.6)
    assert found == pytest.approx(limit, abs=1e-6)
    assert room(found) >= 0
    assert largest_clear_diameter(room, 0.55, 0.6) == 0.0
    assert largest_clear_diameter(room, 0.0, 0.01) == 0.01


def box(low, high, name="box"):
    return Solid(kind="", name=name, group="", low=low, high=high)


@pytest.mark.parametrize(
    ("low", "high", "gap"),
    [
        ((-0.01, 0.2, -0.1), (0.01, 0.3, 0.1), 0.1),  # beside an edge
        ((-0.01, 0.13, 0.14), (0.01, 0.3, 0.3), math.hypot(0.13, 0.14) - 0.1),  # beside a corner
        ((0.033, -0.1, -0.1), (0.05, 0.1, 0.1), 0.03),  # below the disk, 6 mm thick
        ((0.033, 0.14, -0.1), (0.05, 0.3, 0.1), 0.05),  # below and beside: 30 and 40 mm
        ((-0.01, 0.09, -0.1), (0.01, 0.3, 0.1), -0.01),  # 10 mm in from the side
        ((0.001, 0.05, -0.1), (0.02, 0.3, 0.1), -0.002),  # 2 mm in from below
        ((-0.5, -0.02, -0.03), (0.5, 0.3, 0.3), -0.12),  # around the hub: 20 mm to its edge
    ],
)
def test_disk_and_box_by_hand(low, high, gap):
    """A disk of 200 mm at the origin."""
    near = nearest_box([rotor(0.0, 0.0, 0.0)], [box(low, high)], 0.2, 0.006)
    assert near.gap_m == pytest.approx(gap)


corner = st.floats(-0.3, 0.3)


@given(st.tuples(corner, corner, corner), st.tuples(*[st.floats(0.0, 0.2)] * 3))
@settings(max_examples=60, deadline=None)
def test_disk_and_box_are_as_far_apart_as_their_nearest_points(low, size):
    """Against a sweep over points of the box: the nearest is found within the sweep's step."""
    high = tuple(a + b for a, b in zip(low, size, strict=True))
    near = nearest_box([rotor(0.0, 0.0, 0.0)], [box(low, high)], 0.2, 0.006)
    x, y, z = (np.linspace(a, b, 41) for a, b in zip(low, high, strict=True))
    along = np.maximum(np.abs(x) - 0.003, 0.0).min()
    beside = np.maximum(np.hypot(y[:, None], z[None, :]) - 0.1, 0.0).min()
    step = math.hypot(size[1], size[2]) / 40 + size[0] / 40
    assert max(near.gap_m, 0.0) <= math.hypot(along, beside) + 1e-12
    assert math.hypot(along, beside) - max(near.gap_m, 0.0) <= step


def test_nearest_of_several_boxes_names_rotor_and_box():
    boxes = [box((0.0, 0.0, 0.0), (0.01, 0.01, 0.01), "pack"),
             box((0.09, -0.14, 0.3), (0.11, -0.1, 0.32), "mast")]  # fmt: skip
    near = nearest_box(SQUARE, boxes, 0.1, 0.006)
    assert (near.what, near.rotors) == ("pack", (0,))
    assert nearest_box(SQUARE, boxes[1:], 0.1, 0.006).rotors == (3,)
    assert nearest_box(SQUARE, [], 0.1, 0.006) is None
    assert nearest_box([], boxes, 0.1, 0.006) is None


def test_what_stands_beside_the_rotors_of_a_flat_frame():
    found = beside_rotors(shipped("longspur-7"))
    names = [solid.name for solid in found]
    assert names.count("arms") == names.count("motor leads on the arms") == 4
    assert {"top plate", "GPS mast", "camera and cage", "pack", "camera"} <= set(names)
    assert not {"motors", "feet", "standoffs", "receiver antennas"} & set(names)
    top = next(s for s in found if s.name == "top plate")
    assert top.low == pytest.approx((0.0, -0.024, -0.1))
    assert top.high == pytest.approx((0.002, 0.024, 0.1))


def test_a_body_hides_its_parts_and_shows_its_arms():
    names = {solid.name for solid in beside_rotors(shipped())}
    assert names == {"arms"}


def with_prop(slug, diameter_m):
    build = shipped(slug)
    prop = dataclasses.replace(build.parts["prop"], diameter_m=diameter_m)
    return dataclasses.replace(build, parts={**build.parts, "prop": prop})


def test_verdict_of_a_flat_frame_by_hand():
    """Leads at 25 mm below a disk 7 mm thick, and a plate whose edge lies 114 mm to the side of
    the rotor's axis and 4 mm behind it."""
    build = shipped("longspur-7")
    assert build.parts["prop"].hub_thickness_m == pytest.approx(0.007)
    usual = judge_prop_body(build)
    assert usual.state == "clear"
    assert usual.amount == pytest.approx(0.0215)
    assert "at the motor leads on the arms" in usual.sentence_metric
    large = judge_prop_body(with_prop("longspur-7", 0.2032))
    assert large.amount == pytest.approx(math.hypot(0.114, 0.004) - 0.1016)
    assert "at the top plate, front right propeller" in large.sentence_metric
    clash = judge_prop_body(with_prop("longspur-7", 0.25))
    assert clash.state == "clashes"
    assert "propellers up to 219.4" in clash.fix


def test_largest_clear_propeller_of_the_flat_frame_is_clear():
    """The plate's edge less the radius is then 2 % of the diameter."""
    diameter = math.hypot(0.114, 0.004) / 0.52
    assert diameter == pytest.approx(0.2194, abs=1e-4)
    assert judge_prop_body(with_prop("longspur-7", diameter - 1e-5)).state == "clear"
    assert judge_prop_body(with_prop("longspur-7", diameter + 1e-5)).state == "snug"


def test_streamlined_body_is_still_what_counts_on_a_tail_sitter():
    assert "at the body, " in judge_prop_body(shipped()).sentence_metric


def test_a_wide_pack_can_be_what_a_propeller_meets():
    build = shipped("longspur-7")
    pack = dataclasses.replace(build.parts["pack"], width_m=0.12, mass_kg=0.5)
    wide = dataclasses.replace(
        build,
        parts={**build.parts, "pack": pack, "prop": with_prop("longspur-7", 0.2).parts["prop"]},
    )
    verdict = judge_prop_body(wide)
    assert "at the pack, " in verdict.sentence_metric
