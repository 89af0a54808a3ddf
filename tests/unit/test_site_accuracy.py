"""The page that sets the rotor beside its measurements: every set named, points drawn."""

from __future__ import annotations

import re

import accuracy
from validation import SETS, naca_640, nasa_81232


def test_the_page_names_every_set_and_draws_measured_points_and_ranges():
    page = accuracy.page()
    for one in SETS:
        assert f"| {one.title} | {sum(len(run.x) for run in one.runs())} |" in page
    figures = re.findall(r"<figure.*?</figure>", page, re.DOTALL)
    mach = next(f for f in figures if "TM-81232" in f)
    points = sum(len(run.x) for run in nasa_81232())
    assert mach.count('class="sf-point"') == 2 * points  # in two widths
    large = [f for f in figures if "four blades at" in f]
    assert len(large) == len(naca_640())
    for figure in figures:
        assert figure.count('class="sf-band"') >= 2
        assert "nan" not in figure
