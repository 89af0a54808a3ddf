"""Published values: hole patterns in two conventions (tests/data/fit_bolt_patterns.csv).

Hole places of motor 16x16 and 16x19 and of stack 20x20 and 30.5x30.5 were seen in open drawings;
the sizes of the other patterns are from memory, their circles and spacings computed.
"""

import pytest

from published import printed
from slipfit.fit.camera import CLASSES_M
from slipfit.fit.patterns import adjacent_m, hole_miss
from slipfit.parts.pattern import pattern_from_text
from tables import rows

PATTERNS = rows("fit_bolt_patterns.csv")


def pattern(row):
    return pattern_from_text("test", "pattern", row["pattern_mm"], row["convention"])


@pytest.mark.parametrize("row", PATTERNS, ids=lambda r: f"{r['convention']} {r['pattern_mm']}")
def test_hole_pattern_matches_bolt_pattern_table(row):
    found = pattern(row)
    circle = row["circle_mm"].split(" / ")[-1]  # of the outermost holes
    assert found.circle_m * 1e3 == printed(circle)
    assert adjacent_m(found)[0] * 1e3 == printed(row["adjacent_mm"])


def test_motor_16x16_matches_holes_measured_in_an_open_drawing():
    # Seen: holes at radius 7.995 mm about the motor's centre; the drawing's own rounding, 0.005 mm.
    found = pattern_from_text("test", "pattern", "16x16", "motor")
    assert found.circle_m / 2 * 1e3 == printed("7.995", ulps=10)


def test_motor_16x19_matches_holes_of_an_open_cad_model():
    found = pattern_from_text("test", "pattern", "16x19", "motor")
    reach = sorted(max(abs(x), abs(y)) * 1e3 for x, y in found.holes_m())
    assert reach == [printed("8"), printed("8"), printed("9.5"), printed("9.5")]


def test_no_motor_pattern_matches_the_stack_pattern_of_the_same_digits():
    motors = {r["pattern_mm"]: pattern(r) for r in PATTERNS if r["convention"] == "motor"}
    stacks = {r["pattern_mm"]: pattern(r) for r in PATTERNS if r["convention"] == "stack"}
    assert set(motors) & set(stacks) == {"16x16"}
    # Circles of 16 and 22.627 mm: the holes lie half of the difference apart.
    assert hole_miss(motors["16x16"], stacks["16x16"]) * 1e3 == printed("3.314")


@pytest.mark.parametrize("row", rows("fit_camera_widths.csv"), ids=lambda r: r["class"])
def test_camera_class_matches_width_table(row):
    assert CLASSES_M[row["class"]] * 1e3 == printed(row["width_mm"])


def test_camera_classes_are_those_of_the_table():
    assert set(CLASSES_M) == {row["class"] for row in rows("fit_camera_widths.csv")}
