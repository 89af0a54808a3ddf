"""Both of the site's frames as whole builds: what their pages promise, and the same equations."""

from __future__ import annotations

import dataclasses
import re

import numpy as np
import pytest

from site_builds import DOCS, library, shipped
from slipfit.charts.registry import CHARTS
from slipfit.figures.registry import FIGURES
from slipfit.flight.dash import NEARLY, dash
from slipfit.flight.envelope import envelope
from slipfit.flight.performance import performance
from slipfit.library import default_build
from slipfit.report import report
from slipfit.stability import stability

SLUGS = tuple(library().frames)
AIRFRAME = (  # figures of this layer, each of which the pages of both frames must show
    "endurance_speed", "endurance_time", "climb_rate", "ground_speed_against", "upwind_range",
    "dash_distance", "dash_time", "chase_distance", "drag_cost_most", "balance_front",
    "hover_share", "inertia_axis", "inertia_right", "pressure_lever", "pitch_share_full",
    "arm_frequency", "blade_stress_full",
)  # fmt: skip
BODY_ONLY = ("static_margin", "fin_area_needed", "pack_move_needed")  # need fins on a body


def pages(slug: str) -> str:
    return "\n".join(p.read_text("utf-8") for p in sorted((DOCS / "frames" / slug).glob("*.md")))


@pytest.fixture(scope="module", params=SLUGS)
def whole(request):
    return report(default_build(library(), request.param))


def test_there_are_two_frames_of_two_kinds():
    assert set(SLUGS) == {"quillback-5", "longspur-7"}
    assert shipped("quillback-5").frame.outline.stations_m
    assert not shipped("longspur-7").frame.outline.stations_m


def test_a_default_build_fits_and_is_past_no_limit(whole):
    assert [v.id for v in whole.verdicts if v.severity == 2] == []


def test_every_figure_has_a_value_or_says_why_not(whole):
    body = bool(whole.build.frame.outline.stations_m)
    for id in (*AIRFRAME, *BODY_ONLY):
        figure = whole.figures[id]
        if id in BODY_ONLY and not body:
            assert figure.value is None
            assert "the frame has no" in figure.missing
        else:
            assert figure.value is not None and np.isfinite(figure.value), id
            assert figure.cause and figure.steps and figure.source, id
            for step in figure.steps:
                assert "nan" not in step.numbers and step.words


@pytest.mark.parametrize("slug", SLUGS)
def test_pages_show_every_airframe_figure_and_chart(slug):
    text = pages(slug)
    shown = set(re.findall(r"\{[=>]\s*(\w+)\s*\}", text))
    assert set(AIRFRAME) <= shown
    assert (
        {"drag_cost", "dash", "pressure", "campbell"}
        <= set(re.findall(r"\{chart (\w+)\}", text))
        <= set(CHARTS)
    )
    noted = set(re.findall(r"\{>\s*(\w+)\s*\}", text))
    known = {kind.id for kind in FIGURES}
    assert noted <= known


def test_quillback_shows_what_only_a_body_with_fins_has():
    assert set(BODY_ONLY) <= set(re.findall(r"\{=\s*(\w+)\s*\}", pages("quillback-5")))


def test_the_slick_frame_is_fast_and_the_flat_one_stays_up():
    """What their names promise, by the same code: no number here is tuned."""
    slick, flat = (performance(shipped(slug)) for slug in ("quillback-5", "longspur-7"))
    assert slick.top_speed_m_s[0, 0] > 2.0 * flat.top_speed_m_s[0, 0]
    assert envelope(flat).endurance_s[0, 0] > 2.0 * envelope(slick).endurance_s[0, 0]
    # drag areas flat out, per weight: a plate against the wind and a streamlined body
    area = {
        p.build.frame.slug: p.top.trim.axial_N[0, 0] / p.top.trim.speed_m_s[0, 0] ** 2
        for p in (slick, flat)
    }
    assert area["longspur-7"] > 5.0 * area["quillback-5"]
    # a faster frame needs a longer straight, though it has less in hand at rest
    runs = [dash(p).at(dash(p).distance_m, NEARLY)[0, 0] for p in (slick, flat)]
    assert runs[0] > runs[1]


def test_quillback_is_drawn_for_the_margin_that_it_asks_for():
    p = performance(shipped("quillback-5"))
    wanted = p.build.frame.static_margin
    assert stability(p).static_margin[0, 0] == pytest.approx(wanted, abs=0.1)


def test_a_frame_by_another_name_has_the_same_numbers(whole):
    """No case in the code knows a frame by its name."""
    build = whole.build
    other = dataclasses.replace(build.frame, slug="another-9", name="Another 9")
    again = report(dataclasses.replace(build, frame=other))
    for id in ("top_speed", "dash_distance", "pressure_station", "arm_frequency"):
        assert again.figures[id].value == whole.figures[id].value
