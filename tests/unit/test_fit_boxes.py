"""Boxes in bays: exactness, by other means than the code's own."""

import itertools

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from slipfit.errors import InputError
from slipfit.fit.boxes import (
    ALL_TURNS,
    ALONG,
    FLAT,
    FLAT_ALONG,
    SIDES,
    STATES,
    Hollow,
    Opening,
    box_fit,
    circle,
    straight_hollow,
)

lengths = st.floats(0.01, 0.2)
ratios = st.floats(0.0, 1.0)


@st.composite
def openings(draw):
    width, height = draw(lengths), draw(lengths)
    return Opening(width_m=width, height_m=height, corner_m=draw(ratios) * min(width, height) / 2)


@st.composite
def hollows(draw):
    """Straight, narrowing to either end, or a loft wide at one end and high at the other."""
    opening = draw(openings())
    if draw(st.booleans()):
        return straight_hollow(draw(lengths), opening)
    return Hollow(length_m=draw(lengths), nose=opening, tail=draw(openings()))


boxes = st.tuples(lengths, lengths, lengths)


def inside(hollow, start_m, size_m, slack_m=0.0):
    """True when all corners of a centred box lie in the convex hull of the two openings.

    Tested by support functions over many directions, which the code never uses.
    """
    theta = np.linspace(0, np.pi / 2, 721)

    def support(opening):
        a = opening.width_m / 2 - opening.corner_m
        b = opening.height_m / 2 - opening.corner_m
        return a * np.cos(theta) + b * np.sin(theta) + opening.corner_m

    along, across, up = size_m
    if start_m < -slack_m or start_m + along > hollow.length_m + slack_m:
        return False
    corner = across / 2 * np.cos(theta) + up / 2 * np.sin(theta)
    for x in (start_m, start_m + along):
        t = x / hollow.length_m
        wall = (1 - t) * support(hollow.nose) + t * support(hollow.tail)
        if (corner > wall + slack_m / 2).any():
            return False
    return True


def can_go_in(hollow, size_m, slack_m=0.0):
    """Brute force: every start on a fine grid."""
    along = size_m[0]
    if along > hollow.length_m + slack_m:
        return False
    starts = np.linspace(0.0, max(hollow.length_m - along, 0.0), 401)
    return any(inside(hollow, start, size_m, slack_m) for start in starts)


@given(hollows(), boxes)
@settings(max_examples=150, deadline=None)
def test_a_box_clashes_exactly_when_brute_force_finds_no_place(hollow, box):
    fit = box_fit(hollow, box, turns=(FLAT_ALONG,))
    gap = float(fit.gaps_m.min())
    # Away from the border by more than the brute-force grid resolves.
    if gap > 1e-6:
        assert inside(hollow, float(fit.start_m), box, slack_m=1e-9)
    elif gap < -2e-3:
        assert not can_go_in(hollow, box, slack_m=1e-9)
    assert STATES[fit.state] == ("clear" if gap >= 0 else "clashes")


@given(hollows(), boxes, st.floats(0.1, 10.0))
@settings(max_examples=100, deadline=None)
def test_scaling_everything_scales_the_gaps(hollow, box, k):
    def scaled(opening):
        return Opening(
            width_m=k * opening.width_m, height_m=k * opening.height_m,
            corner_m=min(k * opening.corner_m, k * min(opening.width_m, opening.height_m) / 2),
        )  # fmt: skip

    larger = Hollow(
        length_m=k * hollow.length_m, nose=scaled(hollow.nose), tail=scaled(hollow.tail)
    )
    turn = (FLAT_ALONG,)
    a = box_fit(hollow, box, turns=turn)
    b = box_fit(larger, k * np.array(box), turns=turn)
    finite = np.isfinite(a.gaps_m)
    assume(hollow.round == larger.round)
    assert b.gaps_m[finite] == pytest.approx(k * a.gaps_m[finite], abs=2e-8 * max(k, 1.0))


@given(openings(), lengths, boxes)
@settings(max_examples=100, deadline=None)
def test_turning_bay_and_box_together_changes_nothing(opening, length, box):
    rolled = Opening(width_m=opening.height_m, height_m=opening.width_m, corner_m=opening.corner_m)
    a = box_fit(straight_hollow(length, opening), box, turns=(FLAT_ALONG,))
    b = box_fit(straight_hollow(length, rolled), (box[0], box[2], box[1]), turns=(FLAT_ALONG,))
    assert b.gaps_m[[0, 2, 1, 3]] == pytest.approx(a.gaps_m)
    assert b.largest_m[[0, 2, 1]] == pytest.approx(a.largest_m)


@given(hollows(), boxes)
@settings(max_examples=60, deadline=None)
def test_the_order_of_a_parts_sizes_does_not_matter_when_all_turns_are_allowed(hollow, box):
    found = [box_fit(hollow, turned, turns=ALL_TURNS) for turned in itertools.permutations(box)]
    assert len({int(fit.state) for fit in found}) == 1
    if found[0].state:  # of clear turns the first is taken, whatever its gap
        worst = [float(fit.gaps_m.min()) for fit in found]
        assert worst == pytest.approx([worst[0]] * 6, abs=1e-9)


@given(hollows(), boxes, st.integers(0, 2), st.floats(0.5, 1.0))
@settings(max_examples=100, deadline=None)
def test_a_smaller_part_never_fits_worse(hollow, box, axis, ratio):
    smaller = np.array(box)
    smaller[axis] *= ratio
    turn = (FLAT_ALONG,)
    before, after = box_fit(hollow, box, turns=turn), box_fit(hollow, smaller, turns=turn)
    assert float(after.gaps_m.min()) >= float(before.gaps_m.min()) - 1e-9


@given(hollows(), boxes, st.floats(0, 0.002), st.floats(0, 0.002))
@settings(max_examples=100, deadline=None)
def test_the_largest_part_is_clear_and_a_larger_one_is_not(hollow, box, padding, tolerance):
    turn = (FLAT_ALONG,)
    fit = box_fit(hollow, box, turns=turn, padding_m=padding, tolerance_m=tolerance)
    for axis in range(3):
        largest = float(fit.largest_m[axis])
        if largest < 1e-3:
            continue

        def room(size_m, axis=axis):
            size = np.array(box)
            size[axis] = size_m
            again = box_fit(hollow, size, turns=turn, padding_m=padding, tolerance_m=tolerance)
            return int(again.state), float(again.gaps_m.min()) - tolerance

        assert room(largest - 2e-8)[0] == 0, SIDES[axis]
        # A larger one has no room left, but for the nanometre that counts as arithmetic: at a
        # rounded corner's tangent, a micrometre of width costs next to nothing.
        assert room(largest + 1e-4)[1] <= 1e-9, SIDES[axis]


@given(hollows(), boxes, st.floats(0, 0.002))
@settings(max_examples=100, deadline=None)
def test_the_mended_part_is_clear_and_no_side_grew(hollow, box, padding):
    fit = box_fit(hollow, box, turns=(FLAT_ALONG,), padding_m=padding)
    if not fit.mended_m.any():
        return
    assert (fit.mended_m <= np.array(box) + 1e-12).all()
    # 10 nm less, so that rounding cannot decide.
    again = box_fit(hollow, fit.mended_m - 1e-8, turns=(FLAT_ALONG,), padding_m=padding)
    assert STATES[again.state] == "clear"


def test_a_box_just_as_large_as_its_bay_is_clear_by_nothing():
    bay = straight_hollow(0.080, Opening(width_m=0.040, height_m=0.035))
    fit = box_fit(bay, (0.080, 0.040, 0.035), turns=ALONG)
    assert (STATES[fit.state], float(fit.clearance_m)) == ("clear", 0.0)


def test_tolerance_makes_the_same_box_snug_and_padding_makes_it_clash():
    bay = straight_hollow(0.080, Opening(width_m=0.040, height_m=0.035))
    box = (0.080, 0.040, 0.035)
    snug = box_fit(bay, box, turns=ALONG, tolerance_m=0.5e-3)
    assert (STATES[snug.state], float(snug.clearance_m)) == ("snug", 0.0)
    padded = box_fit(bay, box, turns=ALONG, padding_m=0.5e-3)
    assert STATES[padded.state] == "clashes"
    assert float(padded.clearance_m) == pytest.approx(-1e-3)


def test_a_pack_too_wide_is_named_by_its_width():
    bay = straight_hollow(0.090, Opening(width_m=0.038, height_m=0.038))
    fit = box_fit(bay, (0.075, 0.0404, 0.030), turns=ALONG)
    assert SIDES[fit.side] == "width"
    assert float(fit.clearance_m) == pytest.approx(-2.4e-3)
    assert float(fit.largest_m[1]) == pytest.approx(0.038)


def test_a_box_in_a_tube_is_judged_by_its_diagonal():
    # 30 and 40 mm: a diagonal of 50 mm.
    box = (0.060, 0.030, 0.040)
    exact = box_fit(straight_hollow(0.080, circle(0.050)), box, turns=ALONG)
    assert (SIDES[exact.side], float(exact.clearance_m)) == ("corners", 0.0)
    narrow = box_fit(straight_hollow(0.080, circle(0.048)), box, turns=ALONG)
    assert STATES[narrow.state] == "clashes"
    assert float(narrow.clearance_m) == pytest.approx(-2e-3)
    # Pythagoras: 48^2 - 40^2 = 26.533^2.
    assert float(narrow.largest_m[1]) == pytest.approx(1e-3 * (48**2 - 40**2) ** 0.5)
    assert narrow.mended_m[1:] == pytest.approx([0.030 * 0.96, 0.040 * 0.96])


def test_a_box_in_a_cone_reaches_to_where_the_cone_is_its_diagonal():
    # 50 mm narrowing to 30 mm over 100 mm: a 40 mm diagonal reaches half of the way.
    cone = Hollow(length_m=0.100, nose=circle(0.050), tail=circle(0.030))
    fit = box_fit(cone, (0.060, 0.024, 0.032), turns=(FLAT_ALONG,))
    assert STATES[fit.state] == "clashes"
    assert float(fit.largest_m[0]) == pytest.approx(0.050)
    assert float(fit.start_m) == 0.0
    back = Hollow(length_m=0.100, nose=circle(0.030), tail=circle(0.050))
    assert float(box_fit(back, (0.040, 0.024, 0.032), turns=ALONG).start_m) == pytest.approx(0.060)


def test_a_loft_wide_at_one_end_and_high_at_the_other_holds_a_box_in_its_middle():
    loft = Hollow(
        length_m=0.080,
        nose=Opening(width_m=0.050, height_m=0.030),
        tail=Opening(width_m=0.030, height_m=0.050),
    )
    fit = box_fit(loft, (0.020, 0.0375, 0.0375), turns=(FLAT_ALONG,))
    # At 3/8 and 5/8 of the way the loft is 42.5 x 37.5 and 37.5 x 42.5 mm: exactly enough.
    assert STATES[fit.state] == "clear"
    assert float(fit.gaps_m.min()) == pytest.approx(0.0, abs=1e-8)
    assert float(fit.start_m) == pytest.approx(0.030, abs=1e-6)


def test_lead_room_is_asked_for_where_the_leads_leave():
    bay = straight_hollow(0.090, Opening(width_m=0.040, height_m=0.035))
    end = box_fit(bay, (0.075, 0.036, 0.032), turns=ALONG, room_m=(0.020, 0, 0))
    assert (SIDES[end.side], STATES[end.state]) == ("length", "clashes")
    assert float(end.clearance_m) == pytest.approx(-5e-3)
    side = box_fit(bay, (0.075, 0.036, 0.032), turns=ALONG, room_m=(0, 0.0035, 0))
    assert STATES[side.state] == "clear"
    assert float(side.gaps_m[1]) == pytest.approx(0.5e-3)


def test_leads_turn_with_the_part():
    # Across a wide, short bay the room beyond the part's length lies across as well.
    bay = straight_hollow(0.040, Opening(width_m=0.100, height_m=0.040))
    fit = box_fit(bay, (0.075, 0.036, 0.032), turns=FLAT, room_m=(0.020, 0, 0))
    assert fit.turns[fit.turn].words == "lying flat across the bay"
    assert float(fit.gaps_m[0]) == pytest.approx(0.005)


def test_the_first_clear_turn_is_taken():
    bay = straight_hollow(0.2, Opening(width_m=0.2, height_m=0.2))
    assert int(box_fit(bay, (0.05, 0.04, 0.03)).turn) == 0


def test_a_turn_that_fits_is_found():
    bay = straight_hollow(0.080, Opening(width_m=0.033, height_m=0.040))
    fit = box_fit(bay, (0.075, 0.036, 0.032), turns=ALONG)
    assert STATES[fit.state] == "clear"
    assert fit.turns[fit.turn].words == "on its side along the bay"


def test_a_shelf_at_once_equals_one_by_one():
    rng = np.random.default_rng(7)
    shelf = rng.uniform(0.01, 0.09, (60, 3))
    bay = Hollow(length_m=0.09, nose=circle(0.06), tail=circle(0.05))
    at_once = box_fit(bay, shelf, padding_m=5e-4)
    for k, box in enumerate(shelf):
        one = box_fit(bay, box, padding_m=5e-4)
        assert (one.state, one.side, one.turn) == (
            at_once.state[k], at_once.side[k], at_once.turn[k]
        )  # fmt: skip
        assert one.gaps_m == pytest.approx(at_once.gaps_m[k])
        assert one.largest_m == pytest.approx(at_once.largest_m[k])


def test_bays_that_cannot_be_are_refused():
    with pytest.raises(InputError, match=r"width_m and height_m must be > 0, got 0 and 0.03"):
        Opening(width_m=0.0, height_m=0.03)
    with pytest.raises(InputError, match=r"corner_m must be 0 to 0.015 .*, got 0.02"):
        Opening(width_m=0.03, height_m=0.04, corner_m=0.02)
    with pytest.raises(InputError, match=r"length_m must be > 0, got 0"):
        straight_hollow(0.0, circle(0.03))
    with pytest.raises(InputError, match=r"boxes_m must be lengths, widths and heights > 0"):
        box_fit(straight_hollow(0.1, circle(0.03)), (0.01, -0.02, 0.01))
    with pytest.raises(InputError, match=r"boxes_m must be"):
        box_fit(straight_hollow(0.1, circle(0.03)), (0.01, float("nan"), 0.01))
