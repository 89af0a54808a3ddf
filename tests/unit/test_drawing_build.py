"""Drawings of a build: to scale, and of the same geometry as the verdicts."""

import dataclasses

import numpy as np
import pytest

from fit_builds import BUILD, FRAME, PACK_BAY, with_frame, with_part, without
from slipfit.build import Build
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.drawings.registry import DRAWINGS
from slipfit.fit.bays import TURNS
from slipfit.fit.placing import placed
from slipfit.frame.frame import BodyEntry, Outline
from slipfit.physics.body.box import Box


def span(points, axis):
    values = [point[axis] for point in points]
    return max(values) - min(values)


def piece(drawing, name):
    (found,) = [o for o in drawing.outlines if o.name.startswith(name)]
    return found


def packed(**changes):
    """The build with its pack bay changed."""
    bay = dataclasses.replace(PACK_BAY, **changes)
    return with_frame(bays=(bay, *FRAME.bays[1:]))


@pytest.mark.parametrize("id", DRAWINGS)
def test_drawings_are_bounded_named_and_finite(id):
    for build in (BUILD, without("pack"), with_frame(outline=Outline(), bodies=())):
        drawing = DRAWINGS[id](build, 0.15)
        assert drawing.id == id
        assert drawing.title and drawing.caption
        points = np.array([p for o in drawing.outlines for p in o.points])
        assert np.isfinite(points).all()
        low, high = points.min(axis=0), points.max(axis=0)
        assert drawing.left < low[0] and drawing.top < low[1]
        assert drawing.right > high[0] and drawing.bottom > high[1]


@pytest.mark.parametrize("id", DRAWINGS)
def test_a_build_without_parts_is_drawn_empty(id):
    empty = Build(frame=FRAME, parts={}, day=FRAME.day, uptilt_rad=0.0)
    assert not [o for o in DRAWINGS[id](empty, None).outlines if o.role in ("part", "clash")]


def test_the_side_shows_the_pack_at_its_size_in_its_bay():
    side = DRAWINGS["side"](BUILD, None)
    pack = piece(side, BUILD.parts["pack"].name)
    assert pack.role == "part"
    assert span(pack.points, 0) == pytest.approx(0.075)
    assert span(pack.points, 1) == pytest.approx(0.035)
    bay = piece(side, "pack bay")
    assert span(bay.points, 0) == pytest.approx(0.100)
    xs = [p[0] for p in pack.points]
    assert min(p[0] for p in bay.points) <= min(xs)
    assert max(xs) + PACK_BAY.lead_room_m <= max(p[0] for p in bay.points)


def test_the_side_shows_propellers_edge_on_once_for_each_pair():
    disks = [o for o in DRAWINGS["side"](BUILD, None).outlines if o.role == "disk"]
    assert len(disks) == 2
    assert all(span(d.points, 1) == pytest.approx(0.13335) for d in disks)


def test_front_is_up_and_the_nose_to_the_left():
    side = DRAWINGS["side"](BUILD, None)
    video, gps = piece(side, "video unit"), piece(side, "20 mm module")
    assert max(p[1] for p in video.points) < 0 < min(p[1] for p in gps.points)
    body = piece(side, "body")
    assert min(p[0] for p in body.points) == pytest.approx(0.0)


def test_fins_and_arms_begin_at_the_body():
    side = DRAWINGS["side"](BUILD, None)
    fins = [o for o in side.outlines if o.role == "fin"]
    assert len(fins) == 4
    assert all(span(f.points, 1) == pytest.approx(0.055 * 2**-0.5) for f in fins)
    arms = [o for o in side.outlines if o.role == "arm"]
    assert [span(a.points, 1) for a in arms] == pytest.approx([0.085 - 0.033] * 2)


def test_the_balance_point_is_marked_where_it_is_given():
    (point,) = DRAWINGS["side"](BUILD, 0.151).points
    assert (point.role, point.x) == ("balance", 0.151)
    assert DRAWINGS["side"](BUILD, None).points == ()


@pytest.mark.parametrize(
    ("changes", "id"),
    [
        ({"width_m": 0.0404}, "section"),
        ({"height_m": 0.0400}, "side"),
        ({"length_m": 0.09}, "side"),
    ],
)
def test_a_clash_is_hatched_and_dimensioned_by_what_the_verdict_says(changes, id):
    build = with_part("pack", **changes)
    (verdict,) = [v for v in fit_verdicts(build) if v.id == "pack_bay"]
    drawing = DRAWINGS[id](build, None)
    assert piece(drawing, build.parts["pack"].name).role == "clash"
    (clash,) = [d for d in drawing.dimensions if d.clash]
    length = np.hypot(clash.x2 - clash.x1, clash.y2 - clash.y1)
    assert length == pytest.approx(-verdict.amount)  # drawn to scale
    assert clash.text_metric.endswith("over")


def lying(kind: str) -> Build:
    """The pack's bay lying across a frame without a body, and one of its parts changed so that it
    clashes."""
    bay = dataclasses.replace(PACK_BAY, lies="across", station_m=-0.03, front_m=0.01)
    build = with_frame(bays=(bay, *FRAME.bays[1:]), outline=Outline(), bodies=())
    if kind == "pack":
        return with_part("pack", build, width_m=0.0404)
    return with_part("stack", with_part("esc", build, height_m=0.012), length_m=0.047)


@pytest.mark.parametrize(
    ("check", "build", "views"),
    [
        ("esc_board", with_part("esc", length_m=0.050), {"side"}),
        ("stack_board", with_part("stack", width_m=0.046, length_m=0.046), {"top"}),
        ("stack_height", with_part("esc", height_m=0.012), {"side", "top"}),
        ("motor_fairing", with_part("motor", can_diameter_m=0.036), {"side", "top"}),
        ("motor_depth", with_part("motor", can_length_m=0.016), {"side"}),
        ("prop_body", with_part("prop", diameter_m=0.1778), {"top"}),
        ("camera_cage", with_part("camera", width_m=0.022), {"top"}),
        ("camera_room", with_part("camera", depth_m=0.026), {"side"}),
        ("camera_room", with_part("camera", height_m=0.022), {"side"}),
        ("gps_bay", with_part("gps", height_m=0.011), {"side", "top"}),
        ("video_bay", with_part("video", length_m=0.040), {"side"}),
        ("pack_bay", with_part("pack", width_m=0.0404), {"top"}),
        ("pack_bay", lying("pack"), {"top"}),
        ("stack_height", lying("stack"), {"side"}),
        ("stack_board", lying("stack"), {"side", "top"}),
    ],
)
def test_what_clashes_is_dimensioned_in_every_view_that_shows_it(check, build, views):
    """As long as the verdict says, on paper and in words."""
    (verdict,) = [v for v in fit_verdicts(build) if v.id == check]
    assert verdict.severity == 2
    words = f"{-verdict.amount * 1e3:.1f}\N{NARROW NO-BREAK SPACE}mm over"
    for view in ("side", "top"):
        found = [
            d
            for d in DRAWINGS[view](build, None).dimensions
            if d.clash
            and np.hypot(d.x2 - d.x1, d.y2 - d.y1) == pytest.approx(-verdict.amount)
            and d.text_metric == words
        ]
        assert bool(found) == (view in views), view


def test_a_build_that_is_clear_has_no_overlap_to_dimension():
    for view in DRAWINGS:
        assert not [d for d in DRAWINGS[view](BUILD, None).dimensions if d.clash]


def test_a_propeller_in_a_plate_is_dimensioned_from_the_plate_to_its_rim_or_through_it():
    """A box beside the disk, 4 mm inside its rim, and a plate 1 mm deep in its lower face."""
    rotor = FRAME.rotors[0]
    radius = BUILD.parts["prop"].diameter_m / 2
    thick = BUILD.parts["prop"].hub_thickness_m
    beside = BodyEntry(
        name="mast", model="box", station_m=rotor.station_m, right_m=rotor.right_m + radius + 0.001,
        front_m=rotor.front_m, shape=Box(length_m=0.05, width_m=0.010, height_m=0.010),
    )  # fmt: skip
    for entry, view, over in (
        (beside, "top", 0.004),
        (
            dataclasses.replace(
                beside, right_m=rotor.right_m,
                station_m=rotor.station_m + thick / 2 + 0.025 - 0.001,
            ),
            "side",
            0.001,
        ),
    ):  # fmt: skip
        build = with_frame(outline=Outline(), bodies=(entry,))
        (verdict,) = [v for v in fit_verdicts(build) if v.id == "prop_body"]
        assert verdict.amount == pytest.approx(-over)
        lengths = [
            np.hypot(d.x2 - d.x1, d.y2 - d.y1)
            for d in DRAWINGS[view](build, None).dimensions
            if d.clash
        ]
        assert any(length == pytest.approx(over) for length in lengths), lengths


def test_a_pack_too_long_lies_at_the_nose_end_and_overlaps_at_the_other():
    bay = dataclasses.replace(PACK_BAY, lead_room_m=0.0, padding_m=0.0, length_m=0.070)
    place = placed(bay, BUILD.parts["pack"], TURNS["pack"])
    assert place.station.low_m == pytest.approx(place.wall_station.low_m)
    assert place.wall_station.high_m - place.station.high_m == pytest.approx(-0.005)
    assert place.clearance_m == pytest.approx(-0.005)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"padding_m": 0.0},
        {"shape": "tube", "diameter_m": 0.060},
        {"shape": "tapered", "end_width_m": 0.050, "end_height_m": 0.045},
        {"shape": "tapered", "width_m": 0.050, "height_m": 0.045, "end_width_m": 0.040,
         "end_height_m": 0.037},
        {"lead_room_m": 0.0},
    ],
)  # fmt: skip
def test_a_part_that_fits_is_drawn_inside_its_walls(changes):
    bay = dataclasses.replace(PACK_BAY, **changes)
    place = placed(bay, BUILD.parts["pack"], TURNS["pack"])
    assert place.state != "clashes"
    for part, wall in (
        (place.station, place.wall_station),
        (place.right, place.wall_right),
        (place.front, place.wall_front),
    ):
        assert wall.low_m - 1e-9 <= part.low_m < part.high_m <= wall.high_m + 1e-9
    if place.leads:
        assert place.leads.high_m <= place.wall_station.high_m + 1e-9


def test_the_section_shows_both_gaps():
    section = DRAWINGS["section"](BUILD, None)
    texts = [d.text_metric.replace("\N{NARROW NO-BREAK SPACE}", " ") for d in section.dimensions]
    assert texts == ["0.5 mm", "0.5 mm"]
    shell = piece(section, "body")
    assert span(shell.points, 0) == pytest.approx(0.072, rel=2e-3)
    assert span(shell.points, 1) == pytest.approx(0.066, rel=2e-3)


def test_the_section_of_a_tube_dimensions_a_corner():
    section = DRAWINGS["section"](packed(shape="tube", diameter_m=0.054), None)
    (gap,) = section.dimensions
    # A diagonal of 51.662 mm in 54 mm less 1 mm of padding on each side: 0.169 mm at each corner.
    length = np.hypot(gap.x2 - gap.x1, gap.y2 - gap.y1)
    assert length == pytest.approx((0.052 - np.hypot(0.038, 0.035)) / 2)
    assert "at each corner" in section.caption


def test_a_rounded_bay_is_drawn_with_its_corners_and_the_pack_in_its_middle():
    build = packed(width_m=0.0415, height_m=0.0385, corner_m=0.006)
    section = DRAWINGS["section"](build, None)
    (lining,) = [o for o in section.outlines if o.name == "pack bay, inside its padding"]
    assert len(lining.points) > 4
    assert span(lining.points, 0) == pytest.approx(0.0395)
    pack = piece(section, build.parts["pack"].name)
    assert sum(p[0] for p in pack.points) == pytest.approx(0.0, abs=1e-12)
    (verdict,) = [v for v in fit_verdicts(build) if v.id == "pack_bay"]
    assert "across its corners" in verdict.sentence_metric
    assert "corners rounded by" in verdict.basis
    (gap,) = section.dimensions
    assert np.hypot(gap.x2 - gap.x1, gap.y2 - gap.y1) == pytest.approx(abs(verdict.amount) / 2)
    # Its far end lies on the inside of the padding, an arc of 5 mm about 14.75, 13.25 mm.
    away = np.hypot(gap.x2 - 0.01475, -gap.y2 - 0.01325)
    assert away == pytest.approx(0.005, abs=1e-6)


def test_leads_along_the_side_are_drawn_there_and_the_gap_counts_them():
    build = with_part("pack", lead_side="side", lead_gauge=14, width_m=0.034, height_m=0.030)
    (verdict,) = [v for v in fit_verdicts(build) if v.id == "pack_bay"]
    section = DRAWINGS["section"](build, None)
    leads = piece(section, "leads along")
    assert span(leads.points, 0) == pytest.approx(3.42e-3, abs=1e-5)
    assert section.dimensions[0].text_metric.startswith(f"{verdict.amount * 1e3:.1f}")


def test_boards_lie_across_a_frame_that_has_no_body():
    flat = with_frame(outline=Outline(), bodies=())
    board = piece(DRAWINGS["side"](flat, None), "60 A board")
    assert span(board.points, 0) == pytest.approx(0.0075)
    inside = piece(DRAWINGS["side"](BUILD, None), "60 A board")
    assert span(inside.points, 1) == pytest.approx(0.0075)


def test_the_camera_looks_along_its_uptilt():
    up = dataclasses.replace(BUILD, uptilt_rad=np.pi / 2)
    camera = piece(DRAWINGS["side"](up, None), "micro camera")
    assert span(camera.points, 0) == pytest.approx(0.022)  # its depth along the nose
    level = dataclasses.replace(BUILD, uptilt_rad=0.0)
    camera = piece(DRAWINGS["side"](level, None), "micro camera")
    assert span(camera.points, 1) == pytest.approx(0.022)


def test_the_view_from_the_nose_shows_disks_at_their_size_and_the_gap_of_the_nearest_tips():
    top = DRAWINGS["top"](BUILD, 0.15)
    disks = [o for o in top.outlines if o.role == "disk"]
    assert len(disks) == len(FRAME.rotors)
    prop = BUILD.parts["prop"]
    for disk, rotor in zip(disks, FRAME.rotors, strict=True):
        centre = np.mean(disk.points, axis=0)
        assert centre == pytest.approx((rotor.right_m, -rotor.front_m), abs=1e-9)
        assert span(disk.points, 0) == pytest.approx(prop.diameter_m, rel=1e-3)
    (gap,) = top.dimensions
    nearest = min(
        np.hypot(a.right_m - b.right_m, a.front_m - b.front_m)
        for a in FRAME.rotors
        for b in FRAME.rotors
        if a is not b
    )
    drawn = np.hypot(gap.x2 - gap.x1, gap.y2 - gap.y1)
    assert drawn == pytest.approx(nearest - prop.diameter_m)
    assert not gap.clash
    wide = DRAWINGS["top"](with_part("prop", diameter_m=nearest + 2e-3), 0.15)
    assert wide.dimensions[0].clash
    assert [o.role for o in wide.outlines].count("clash") == len(FRAME.rotors)


def test_the_view_from_the_nose_shows_a_pack_that_lies_across_at_its_length():
    bay = dataclasses.replace(PACK_BAY, lies="across")
    top = DRAWINGS["top"](with_frame(bays=(bay, *FRAME.bays[1:])), None)
    pack = piece(top, BUILD.parts["pack"].name)
    assert span(pack.points, 1) == pytest.approx(BUILD.parts["pack"].length_m)
    standing = piece(DRAWINGS["top"](BUILD, None), BUILD.parts["pack"].name)
    assert span(standing.points, 1) == pytest.approx(0.035)
    assert DRAWINGS["top"](BUILD, None).points == ()
    assert "from its nose" in DRAWINGS["top"](BUILD, None).title
    flat = with_frame(outline=Outline(), bodies=())
    assert "from above" in DRAWINGS["top"](flat, None).title
