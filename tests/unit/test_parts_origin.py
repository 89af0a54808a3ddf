"""Origins of values, and the holes of patterns."""

from __future__ import annotations

import math

import pytest

from slipfit.errors import InputError
from slipfit.parts.origin import Origin
from slipfit.parts.pattern import HolePattern, pattern_from_text


@pytest.mark.parametrize(
    ("kind", "spread"), [("measured", 0.02), ("data sheet", 0.05), ("estimated", 0.20)]
)
def test_origin_has_the_usual_spread_of_its_kind(kind, spread):
    assert Origin(kind).spread == spread
    assert Origin(kind).guessed == (kind == "estimated")
    assert Origin(kind, 0.07).spread == 0.07


def test_origin_names_the_nearest_kind():
    with pytest.raises(InputError, match=r"no origin 'measurd'; did you mean 'measured'\?"):
        Origin("measurd")


@pytest.mark.parametrize("spread", [-0.01, 2.1, float("inf")])
def test_origin_spread_stays_within_reason(spread):
    with pytest.raises(InputError, match=r"spread must be 0 to 2 \(0 to 200 %\), got"):
        Origin("measured", spread)


def distances(pattern: HolePattern) -> list[float]:
    first, *rest = pattern.holes_m()
    return sorted(math.dist(first, hole) for hole in rest)


# tests/data/fit_bolt_patterns.csv: hole circle and distance of neighbours for both conventions
@pytest.mark.parametrize(
    ("text", "convention", "circle_mm", "neighbour_mm"),
    [
        ("9x9", "motor", 9, 6.364),
        ("12x12", "motor", 12, 8.485),
        ("16x16", "motor", 16, 11.314),
        ("19x19", "motor", 19, 13.435),
        ("16x19", "motor", 19, 12.42),
        ("16x16", "stack", 22.627, 16),
        ("20x20", "stack", 28.284, 20),
        ("25.5x25.5", "stack", 36.062, 25.5),
        ("30.5x30.5", "stack", 43.134, 30.5),
    ],
)
def test_hole_patterns_follow_the_two_conventions(text, convention, circle_mm, neighbour_mm):
    pattern = pattern_from_text("test", "holes", text, convention)
    assert pattern.circle_m * 1e3 == pytest.approx(circle_mm, abs=5e-4)
    assert distances(pattern)[0] * 1e3 == pytest.approx(neighbour_mm, abs=5e-3)
    assert pattern.text() == text


@pytest.mark.parametrize("text", ["30,5 x 30,5 mm", "30.5×30.5", " 30.5x30.5mm "])
def test_hole_patterns_may_be_written_loosely(text):
    assert pattern_from_text("test", "holes", text, "stack").text() == "30.5x30.5"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("16", r"test: holes must be two distances in millimetres such as '16x19' .*, got '16'"),
        ("16x16 in", r"must be two distances in millimetres .*, got '16x16 in'"),
        ("1x16", r"test: holes must have holes 4 to 120 mm apart, got 1 mm"),
        ("x" * 200, r"must be two distances"),
    ],
)
def test_hole_patterns_say_what_is_wrong(text, message):
    with pytest.raises(InputError, match=message):
        pattern_from_text("test", "holes", text, "motor")
