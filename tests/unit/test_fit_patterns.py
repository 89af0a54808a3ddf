"""Hole patterns of part and seat: by position, whatever their digits."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fit_builds import motor_pattern, stack_pattern
from slipfit.errors import InputError
from slipfit.fit.patterns import best_match, hole_miss, screw_diameter, why_not_the_same
from slipfit.parts.pattern import HolePattern

sides = st.floats(0.008, 0.05)
patterns = st.builds(
    HolePattern, convention=st.sampled_from(["motor", "stack"]), a_m=sides, b_m=sides
)


@given(patterns)
def test_a_pattern_meets_itself(pattern):
    assert hole_miss(pattern, pattern) == pytest.approx(0.0, abs=1e-9)


@given(patterns, patterns)
def test_missing_is_mutual(one, other):
    assert hole_miss(one, other) == pytest.approx(hole_miss(other, one), abs=1e-9)


@given(patterns, patterns)
def test_turning_the_part_by_a_quarter_changes_nothing(one, other):
    turned = HolePattern(convention=one.convention, a_m=one.b_m, b_m=one.a_m)
    assert hole_miss(turned, other) == pytest.approx(hole_miss(one, other), abs=1e-9)


def brute_force(part, seat):
    """The least, over all turns by 0.01 degrees, of the worst distance to a nearest hole."""
    best = math.inf
    for k in range(18_000):
        c, s = math.cos(k * math.pi / 18_000), math.sin(k * math.pi / 18_000)
        turned = [(c * x - s * y, s * x + c * y) for x, y in part.holes_m()]
        worst = max(min(math.hypot(x - u, y - v) for u, v in seat.holes_m()) for x, y in turned)
        best = min(best, worst)
    return best


@pytest.mark.parametrize(
    ("part", "seat"),
    [
        (motor_pattern(16, 16), motor_pattern(19, 19)),
        (motor_pattern(16, 19), motor_pattern(16, 16)),
        (motor_pattern(16, 16), stack_pattern(16)),
        (stack_pattern(20), stack_pattern(30.5)),
        (motor_pattern(12, 12), stack_pattern(20)),
    ],
)
def test_the_miss_is_that_of_the_best_turn(part, seat):
    assert hole_miss(part, seat) == pytest.approx(brute_force(part, seat), abs=2e-6)


@given(sides)
def test_a_motor_pattern_meets_the_stack_pattern_with_the_same_holes(side):
    motor = HolePattern(convention="motor", a_m=side * math.sqrt(2), b_m=side * math.sqrt(2))
    stack = HolePattern(convention="stack", a_m=side, b_m=side)
    assert hole_miss(motor, stack) == pytest.approx(0.0, abs=1e-9)


@given(sides)
def test_and_never_the_one_with_the_same_digits(side):
    motor = HolePattern(convention="motor", a_m=side, b_m=side)
    stack = HolePattern(convention="stack", a_m=side, b_m=side)
    assert hole_miss(motor, stack) == pytest.approx(side * (math.sqrt(2) - 1) / 2)
    assert "of a motor is the distance between opposite holes" in why_not_the_same(motor, stack)


def test_why_is_said_in_millimetres():
    why = why_not_the_same(stack_pattern(16), motor_pattern(16, 16))
    assert why == (
        "16x16 of a motor is the distance between opposite holes (neighbours 11.314 mm apart); "
        "16x16 of a stack is the side of the square (opposite holes 22.627 mm apart)"
    )
    assert why_not_the_same(stack_pattern(20), stack_pattern(20)) == ""
    assert why_not_the_same(stack_pattern(20), motor_pattern(16, 16)) == ""


def test_the_seats_nearest_pattern_is_taken():
    match = best_match(motor_pattern(16, 19), [motor_pattern(19, 19), motor_pattern(16, 19)])
    assert (match.seat, match.miss_m) == (motor_pattern(16, 19), 0.0)
    with pytest.raises(InputError, match="patterns must name at least one hole pattern, got none"):
        best_match(motor_pattern(16, 19), [])


def test_screws_by_name():
    assert screw_diameter("M2.5") == pytest.approx(2.5e-3)
