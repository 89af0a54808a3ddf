"""The shot: triangles solved by hand, limits, the frame in its own picture, and that figures, chart
and drawing say the same."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from site_builds import altered, framed, library, shipped, swapped, without
from slipfit.build import Build
from slipfit.charts.shot import shot_chart
from slipfit.drawings.shot import draw_shot
from slipfit.errors import ValidityError
from slipfit.figures.evaluate import figures
from slipfit.figures.figure import Figure
from slipfit.flight.performance import Performance, performance
from slipfit.library import default_build
from slipfit.numerics import pchip
from slipfit.physics.lens import LENSES
from slipfit.shot import (
    View,
    axis_elevation,
    below_axis,
    camera_of,
    ground_ahead,
    ground_width,
    hover_bottom,
    props_in_frame,
    range_for_share,
    shell_in_frame,
    shot_of,
    throw_distance,
    tilt_at,
    uptilt_for,
    view_of,
)

DEG = math.pi / 180
SQUARE = View(  # a pinhole that sees 90 degrees each way: half its sides is one focal length
    lens=LENSES["pinhole"], half_width=1.0, half_height=1.0, pixels_across=1000, pixels_down=1000
)
ROUND = View(  # a fisheye that sees 180 degrees across and 90 degrees from top to bottom
    lens=LENSES["fisheye"],
    half_width=math.pi / 2,
    half_height=math.pi / 4,
    pixels_across=1000,
    pixels_down=500,
)


# ------------------------------------------------------------------------------ by hand


@pytest.mark.parametrize(
    ("tilt", "uptilt", "depression", "elevation", "below", "ahead"),
    [
        # Upright, the lens 45° up: what lies 45° down is seen at a right angle to the axis.
        (0.0, 45.0, 45.0, 45.0, 90.0, 1.0),
        # Leaning 45° with 45° of uptilt: the axis is level, so the subject lies 30° below it.
        (45.0, 45.0, 30.0, 0.0, 30.0, math.sqrt(3.0)),
        # Lying flat with 60° of uptilt: the axis points 30° down, straight at the subject.
        (90.0, 60.0, 30.0, -30.0, 0.0, math.sqrt(3.0)),
        # Lying flat with the lens along the nose: the axis is level.
        (90.0, 90.0, 45.0, 0.0, 45.0, 1.0),
    ],
)
def test_triangles_at_0_45_and_90_degrees(tilt, uptilt, depression, elevation, below, ahead):
    theta = axis_elevation(uptilt * DEG, tilt * DEG)
    assert theta / DEG == pytest.approx(elevation, abs=1e-12)
    beta = below_axis(theta, depression * DEG)
    assert beta / DEG == pytest.approx(below, abs=1e-12)
    assert uptilt_for(tilt * DEG, depression * DEG, beta) / DEG == pytest.approx(uptilt)
    assert ground_ahead(1.0, depression * DEG) == pytest.approx(ahead)


def test_pinhole_rows_are_tangents_and_fisheye_rows_are_angles():
    assert SQUARE.row(45 * DEG) == pytest.approx(1.0)
    assert SQUARE.row(math.atan(0.5)) == pytest.approx(0.5)
    assert ROUND.row(22.5 * DEG) == pytest.approx(0.5)
    for view in (SQUARE, ROUND):
        assert view.half_angle_rad == pytest.approx(45 * DEG)
        assert view.row(0.0) == 0.0
        assert view.row(-0.3) == pytest.approx(-view.row(0.3))
        assert view.below_axis(view.row(0.3)) == pytest.approx(0.3)
    assert SQUARE.row(100 * DEG) == math.inf and SQUARE.row(-100 * DEG) == -math.inf


def test_distance_for_a_size_by_hand():
    # 45° to each side: something 2 m wide fills the picture from 1 m away.
    assert range_for_share(SQUARE, 2.0, 1.0, 0.0) == pytest.approx(1.0)
    # Half of it from 2 m; and at the lower edge, 45° below the axis, from 2 m / cos 45°.
    assert range_for_share(SQUARE, 2.0, 0.5, 0.0) == pytest.approx(2.0)
    assert range_for_share(SQUARE, 2.0, 0.5, 45 * DEG) == pytest.approx(2.0 * math.sqrt(2.0))
    # A fisheye of 90° to each side: half of it is 45°, so 2 m wide from 1 m away.
    assert range_for_share(ROUND, 2.0, 0.5, 0.0) == pytest.approx(1.0)


def test_a_size_that_no_distance_gives_has_no_distance():
    assert math.isnan(range_for_share(dataclasses.replace(ROUND, half_width=1.8), 2.0, 1.0, 0.0))


def test_a_size_must_be_a_share_of_the_picture():
    with pytest.raises(ValidityError, match="share must be 1e-06 to 1 .*, got 1.5"):
        range_for_share(SQUARE, 2.0, 1.5, 0.0)


def test_ground_by_hand():
    # From 10 m up, straight down, 45° and behind; along the horizon it never comes.
    assert ground_ahead(10.0, 90 * DEG) == pytest.approx(0.0, abs=1e-12)
    assert ground_ahead(10.0, 135 * DEG) == pytest.approx(-10.0)
    assert math.isnan(ground_ahead(10.0, 0.0)) and math.isnan(ground_ahead(10.0, -0.2))
    # Looking straight down from 10 m with 45° to each side: 20 m wide.
    assert ground_width(SQUARE, 10.0, -90 * DEG, 0.0) == pytest.approx(20.0)
    # Looking 45° down: the middle row meets the ground 10 √2 m away, so 2 × 10 √2 m wide.
    assert ground_width(SQUARE, 10.0, -45 * DEG, 0.0) == pytest.approx(20.0 * math.sqrt(2.0))
    assert math.isnan(ground_width(SQUARE, 10.0, 0.0, 0.0))


def test_throw_by_hand():
    # 1 s of fall is 4.903 m: from there at 30 m/s it lands 30 m on.
    assert throw_distance(9.80665 / 2, 30.0) == pytest.approx(30.0)
    assert throw_distance(0.0, 80.0) == 0.0
    assert throw_distance(4 * 9.80665 / 2, 30.0) == pytest.approx(60.0)
    with pytest.raises(ValidityError, match="height_m must be 0 to 1e"):
        throw_distance(-1.0, 30.0)


# ------------------------------------------------------------------------------ builds


@pytest.fixture(scope="module")
def usual() -> Performance:
    return performance(shipped())


@pytest.fixture(scope="module")
def flat() -> Performance:
    return performance(default_build(library(), "longspur-7"))


def with_uptilt(p: Performance, degrees: float) -> Performance:
    """The same flight with the camera turned: what the camera sees does not change the flight."""
    return dataclasses.replace(p, build=dataclasses.replace(p.build, uptilt_rad=degrees * DEG))


def with_shot(p: Performance, speed: float | None = None, **wishes: float) -> Performance:
    shot = dataclasses.replace(p.build.framing, **wishes)
    return dataclasses.replace(
        p, build=dataclasses.replace(p.build, shot=shot, chase_speed_m_s=speed)
    )


def value(figure: Figure) -> float:
    assert figure.value is not None, f"{figure.id}: {figure.missing}"
    return figure.value


def test_tilt_is_that_of_the_curve_and_between_its_points_smooth(usual, flat):
    for p in (usual, flat):
        nodes, tilt = p.speeds_m_s, p.curve.trim.tilt_rad[0]
        assert tilt_at(p, nodes[None, :-1])[0] == pytest.approx(tilt[:-1], abs=1e-12)
        between = 0.5 * (nodes[1:] + nodes[:-1])
        other = np.array([pchip(nodes, tilt, v) for v in between])
        assert tilt_at(p, between[None, :])[0] == pytest.approx(other, abs=0.35 * DEG)


def test_tilt_beyond_top_speed_has_no_value(usual):
    top = float(usual.top_speed_m_s[0, 0])
    assert np.isnan(tilt_at(usual, np.array([[top + 0.1]])))
    assert np.isfinite(tilt_at(usual, np.array([[top - 0.1]])))


@pytest.mark.parametrize("place", [0.0, 1 / 3, 0.5, 0.9])
@pytest.mark.parametrize("depression", [2.0, 20.0, 60.0])
def test_uptilt_that_is_asked_for_gives_the_shot_that_is_wanted(usual, flat, place, depression):
    for p in (usual, flat):
        wanted = with_shot(p, depression_rad=depression * DEG, place=place, size=0.1)
        uptilt = value(figures(wanted)["shot_uptilt"])
        shot = shot_of(with_uptilt(wanted, uptilt / DEG))
        assert (1.0 - shot.row[0, 0]) / 2.0 == pytest.approx(place, abs=1e-9)
        if 0.0 < place < 1.0:
            assert shot.share[0, 0] == pytest.approx(0.1, rel=1e-9)
        assert math.hypot(shot.behind_m, shot.above_m) == pytest.approx(shot.range_m)
        assert math.atan2(shot.above_m, shot.behind_m) / DEG == pytest.approx(depression)


def test_at_the_ends_of_the_span_the_subject_is_on_the_picture_s_edge(flat):
    shot = shot_of(flat)
    for speed, row in ((shot.slowest_m_s, 1.0), (shot.fastest_m_s, -1.0)):
        theta = axis_elevation(flat.build.uptilt_rad, tilt_at(flat, speed))
        found = shot.view.row(below_axis(theta, shot.wanted.depression_rad))
        assert float(found[0, 0]) == pytest.approx(row, abs=2e-3)
    assert shot.slowest_m_s < shot.speed_m_s < shot.fastest_m_s


def test_more_uptilt_moves_the_span_to_higher_speeds(flat):
    spans = [shot_of(with_uptilt(flat, up)) for up in (0.0, 12.0, 30.0)]
    slowest = [float(s.slowest_m_s[0, 0]) for s in spans]
    fastest = [float(s.fastest_m_s[0, 0]) for s in spans]
    assert slowest == sorted(slowest) and fastest == sorted(fastest)
    assert slowest[0] == 0.0


def test_a_wider_lens_is_flown_nearer_and_pixels_follow_the_share(usual):
    narrow = dataclasses.replace(usual, build=swapped(camera="c19n"))
    wide, long = figures(usual), figures(narrow)
    assert value(long["shot_behind"]) > 1.2 * value(wide["shot_behind"])
    for found, build in ((wide, shipped()), (long, narrow.build)):
        pixels = camera_of(build).pixels_across
        assert value(found["shot_pixels"]) == pytest.approx(value(found["shot_size"]) * pixels)


def test_hover_shows_what_the_uptilt_leaves(usual):
    half = view_of(camera_of(shipped())).half_angle_rad
    assert hover_bottom(shipped()) == pytest.approx(shipped().uptilt_rad - half)
    found = figures(usual)["shot_hover"]
    assert value(found) > 0.0 and "nothing but sky" in found.cause
    assert "ground too" in figures(with_uptilt(usual, 30.0))["shot_hover"].cause


def test_pass_lasts_as_long_as_the_course_at_the_subject_s_speed(usual):
    course = [leg.length_m for leg in shipped().frame.legs if leg.kind == "pass"][-1]
    found = figures(with_shot(usual, 50.0))["shot_pass_time"]
    assert value(found) == pytest.approx(course / 50.0)


# ------------------------------------------------------------------------------ no answer


@pytest.mark.parametrize(
    ("uptilt", "speed", "wishes", "figure", "reason"),
    [
        (-40.0, None, {}, "shot_place", "the subject is out of the picture, above it"),
        (89.0, 10.0, {}, "shot_size", "the subject is out of the picture, below it"),
        (70.0, 149.0, {}, "shot_axis", "this build does not reach the subject's speed"),
        (85.0, 10.0, {}, "shot_horizon", "the horizon is out of the picture, below it"),
        (20.0, None, {}, "shot_horizon", "the horizon is out of the picture, above it"),
        (85.0, 10.0, {}, "shot_ground_near", "the picture shows no ground"),
        (-90.0, None, {}, "shot_fastest", "the subject is out of the picture at every speed"),
    ],
)
def test_what_has_no_answer_says_why(usual, uptilt, speed, wishes, figure, reason):
    p = with_uptilt(with_shot(usual, speed, **wishes), uptilt)
    found = figures(p)[figure]
    assert found.value is None
    assert reason in found.missing


def test_without_a_camera_there_is_no_shot_and_everything_says_so():
    p = performance(without("camera"))
    found = figures(p)
    for id in ("shot_axis", "shot_uptilt", "shot_hover", "shot_props", "throw_distance"):
        assert found[id].value is None
        assert found[id].missing == "there is no camera in the build"
    assert "no camera" in shot_chart(p, None).caption
    assert "no camera" in draw_shot(p).caption
    assert value(found["kinetic_energy"]) > 0.0


def test_without_a_chase_speed_the_speed_of_best_range_stands_in(usual):
    p = with_shot(usual, 0.0)
    assert shot_of(p).speed_m_s == pytest.approx(usual.cruise_speed_m_s)


def test_an_uptilt_that_the_cage_cannot_do_is_told(usual):
    found = figures(with_shot(usual, depression_rad=70 * DEG))["shot_uptilt"]
    assert "outside what the cage can do" in found.cause
    assert "the camera now stands at" in figures(usual)["shot_uptilt"].cause


# ------------------------------------------------------------------------------ its own picture


def at_uptilt(build: Build, degrees: float) -> Build:
    return dataclasses.replace(build, uptilt_rad=degrees * DEG)


def test_propellers_come_into_the_picture_of_a_wider_lens():
    flat = default_build(library(), "longspur-7")
    assert props_in_frame(flat) == 0.0
    wider = [
        altered("camera", of=flat, horizontal_fov_rad=fov * DEG, lens="fisheye")
        for fov in (78.0, 110.0, 140.0)
    ]
    seen = [props_in_frame(build) for build in wider]
    assert seen == sorted(seen) and seen[0] == 0.0 < seen[-1] <= 0.5
    small = dataclasses.replace(flat.parts["prop"], diameter_m=0.05)
    bare = dataclasses.replace(wider[-1], parts={**wider[-1].parts, "prop": small})
    assert props_in_frame(bare) < seen[-1]


def test_a_point_straight_ahead_reaches_to_the_middle_of_the_picture():
    build = at_uptilt(default_build(library(), "longspur-7"), 0.0)
    seat = build.frame.camera_seat
    rotor = dataclasses.replace(
        build.frame.rotors[0], station_m=seat.station_m, right_m=0.0, front_m=seat.front_m + 0.5
    )
    ahead = dataclasses.replace(build, frame=dataclasses.replace(build.frame, rotors=(rotor,)))
    assert props_in_frame(ahead) == pytest.approx(0.5)


def test_shell_is_seen_beside_its_window_and_the_more_the_smaller_that_is():
    seat = shipped().frame.camera_seat
    reaches = []
    for start in (0.0, 0.004, 0.012, 0.020):
        window = dataclasses.replace(seat, window_start_m=start, window_end_m=0.070)
        reaches.append(shell_in_frame(framed(camera_seat=window)))
    assert reaches == sorted(reaches)
    assert reaches[0] == 0.0 and 0.3 < reaches[-1] < 0.5


def test_shell_needs_a_window_and_a_frame_without_a_shell_shows_none():
    seat = dataclasses.replace(shipped().frame.camera_seat, window_start_m=0.0, window_end_m=0.0)
    build = framed(camera_seat=seat)
    assert math.isnan(shell_in_frame(build))
    assert shell_in_frame(default_build(library(), "longspur-7")) == 0.0


def test_a_longer_lens_shows_less_of_the_shell():
    build = at_uptilt(shipped(), 80.0)
    fov = 60 * DEG
    narrow = altered("camera", of=build, horizontal_fov_rad=fov, lens="pinhole")
    assert shell_in_frame(narrow) < shell_in_frame(build)


# ------------------------------------------------------------------------------ one story


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_drawing_says_what_the_figures_say(slug):
    p = performance(default_build(library(), slug))
    found, drawing = figures(p), draw_shot(p)
    stage = drawing.stages[drawing.stage]
    assert p.build.uptilt_rad - stage.turn_rad == pytest.approx(value(found["shot_axis"]))
    words = stage.words_metric
    for id in ("shot_place", "shot_horizon"):
        assert found[id].text("metric") in words
    (ground,) = (o for o in drawing.outlines if o.role == "ground")
    (subject,) = (o for o in drawing.outlines if o.role == "subject")
    (sight,) = (o for o in drawing.outlines if o.role == "sight")
    behind, above = value(found["shot_behind"]), value(found["shot_above"])
    assert sight.points[1] == pytest.approx((behind, above))
    assert [y for _, y in ground.points] == pytest.approx([above, above])
    middle = sum(x for x, _ in subject.points) / len(subject.points)
    assert middle == pytest.approx(behind)
    texts = {d.text_metric for d in drawing.dimensions}
    assert texts == {found["shot_behind"].text("metric"), found["shot_above"].text("metric")}
    assert drawing.stages[0].turn_rad == 0.0 and "In hover" in drawing.stages[0].words_metric


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_drawing_s_axis_and_edges_lie_where_the_camera_looks(slug):
    p = performance(default_build(library(), slug))
    shot, scene = shot_of(p), draw_shot(p).turning[0]
    (axis,) = (o for o in scene.outlines if o.role == "axis")
    (field,) = (o for o in scene.outlines if o.role == "field")

    def elevation(point):
        return math.atan2(-point[1], point[0])

    assert elevation(axis.points[1]) == pytest.approx(p.build.uptilt_rad)
    lower, upper = elevation(field.points[1]), elevation(field.points[-1])
    assert upper - lower == pytest.approx(2 * shot.view.half_angle_rad)
    assert 0.5 * (upper + lower) == pytest.approx(p.build.uptilt_rad)


def test_frame_in_the_drawing_stands_on_its_tail_and_is_drawn_to_scale(usual):
    scene, larger = draw_shot(usual).turning
    shell = next(o for o in scene.outlines if o.role == "shell")
    ys = [y for _, y in shell.points]
    outline = usual.build.frame.outline
    assert max(ys) - min(ys) == pytest.approx(outline.stations_m[-1] - outline.stations_m[0])
    assert min(ys) < 0.0 < max(ys)  # the nose above the lens, the tail below it
    again = next(o for o in larger.outlines if o.role == "shell")
    ratio = again.points[0][1] / shell.points[0][1]
    for (x, y), (u, v) in zip(shell.points, again.points, strict=True):
        assert (u, v) == pytest.approx((ratio * x, ratio * y))


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_chart_says_what_the_figures_say(slug):
    p = performance(default_build(library(), slug))
    found, chart = figures(p), shot_chart(p, None)
    speed = float(shot_of(p).speed_m_s[0, 0])
    axis, place = (np.array([np.nan if v is None else v for v in s.values]) for s in chart.series)
    x = np.array(chart.x)
    assert np.interp(speed, x, axis) == pytest.approx(value(found["shot_axis"]), abs=0.5 * DEG)
    assert np.interp(speed, x, place) == pytest.approx(value(found["shot_place"]), abs=0.01)
    inside = (x > value(found["shot_slowest"])) & (x < value(found["shot_fastest"]))
    assert np.isfinite(place)[inside].all() and not np.isfinite(place)[~inside][:-1].any()
    marks = {mark.label: mark.x for mark in chart.marks}
    assert marks["subject"] == pytest.approx(speed)
    assert axis[0] == pytest.approx(p.build.uptilt_rad)


def test_a_build_that_cannot_fly_has_a_drawing_and_a_chart_that_say_so():
    p = performance(altered("pack", mass_kg=9.0))
    drawing, chart = draw_shot(p), shot_chart(p, None)
    assert [stage.turn_rad for stage in drawing.stages] == [0.0]
    assert "cannot hold its weight" in chart.caption
    assert all(v is None for series in chart.series for v in series.values)
