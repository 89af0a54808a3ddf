"""Parts beside each other: exact gaps of boxes and prisms, and what the verdicts make of them."""

from __future__ import annotations

import dataclasses
import math
import types

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fit_builds import BUILD, FRAME, with_frame, with_part, without
from site_builds import library
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.drawings.registry import DRAWINGS
from slipfit.fit.solids import (
    FRONT,
    RIGHT,
    STATION,
    Solid,
    free_of_parts,
    gap_between,
    gaps,
    openings,
    pairs_of,
    solids,
)
from slipfit.frame.frame import KeepOut
from slipfit.frame.outline import outline_of
from slipfit.library import default_build

MM = 1e-3


def box(low, high, group="a"):
    """A box between two corners in mm: station, right, front."""
    return Solid(
        kind="", name="", group=group,
        low=tuple(v * MM for v in low), high=tuple(v * MM for v in high),
    )  # fmt: skip


def prism(points, left, right, group="a"):
    """A prism over an outline in station and front, in m."""
    stations, fronts = zip(*points, strict=True)
    return Solid(
        kind="", name="", group=group, outline=tuple(points),
        low=(min(stations), left, min(fronts)), high=(max(stations), right, max(fronts)),
    )  # fmt: skip


def rectangle(station, front, length, height, turn):
    """Corners of a rectangle about a place, turned in the plane of station and front."""
    c, s = math.cos(turn), math.sin(turn)
    return [
        (station + c * u * length - s * v * height, front + s * u * length + c * v * height)
        for u, v in ((-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5))
    ]


places = st.floats(-0.05, 0.05)
sizes = st.floats(0.001, 0.05)


@st.composite
def prisms(draw):
    outline = rectangle(
        draw(places), draw(places), draw(sizes), draw(sizes), draw(st.floats(0, math.pi))
    )
    left = draw(places)
    return prism(outline, left, left + draw(sizes))


@st.composite
def boxes(draw):
    low = [draw(places) for _ in range(3)]
    return Solid(
        kind="", name="", group="a", low=tuple(low), high=tuple(v + draw(sizes) for v in low)
    )


anything = st.one_of(prisms(), boxes())


def sides(solid):
    return [
        types.SimpleNamespace(low=low, high=high)
        for low, high in zip(solid.low, solid.high, strict=True)
    ]


def moved(solid, way):
    """The solid, moved."""
    return dataclasses.replace(
        solid,
        low=tuple(a + b for a, b in zip(solid.low, way, strict=True)),
        high=tuple(a + b for a, b in zip(solid.high, way, strict=True)),
        outline=tuple((x + way[STATION], z + way[FRONT]) for x, z in solid.outline),
    )


def turned(solid, angle):
    """The solid as a prism, turned about the line to the right."""
    c, s = math.cos(angle), math.sin(angle)
    outline = [(c * x - s * z, s * x + c * z) for x, z in solid.section]
    return prism(outline, solid.low[RIGHT], solid.high[RIGHT])


DIRECTIONS = 36_000


def widest_slit(first, second, directions=DIRECTIONS):
    """The gap in the plane as the widest slit between the two over many directions."""
    angles = np.arange(directions) * 2 * np.pi / directions
    ways = np.stack([np.cos(angles), np.sin(angles)])
    slit = (np.array(second.section) @ ways).min(axis=0) - (np.array(first.section) @ ways).max(
        axis=0
    )
    return float(slit.max())


@pytest.mark.parametrize(
    ("low", "high", "gap", "axis"),
    [
        ((12, 0, 0), (20, 10, 10), 2, STATION),
        ((0, -9, 0), (10, -4, 10), 4, RIGHT),
        ((0, 0, 10), (10, 10, 20), 0, FRONT),
        ((13, 14, 0), (20, 20, 10), 5, RIGHT),  # 3, 4, 5
        ((12, 13, 16), (20, 20, 20), 7, FRONT),  # 2, 3, 6, 7
        ((8.5, 0, 0), (20, 10, 10), -1.5, STATION),
        ((2, 4, 2), (8, 9, 8), -6, RIGHT),  # inside: out at the nearest face, with all of itself
    ],
)
def test_boxes_along_the_axes(low, high, gap, axis):
    found = gap_between(box((0, 0, 0), (10, 10, 10)), box(low, high))
    assert found.gap_m == pytest.approx(gap * MM, abs=1e-15)
    assert found.axis == axis


def test_a_square_on_its_corner_reaches_out_by_half_its_diagonal():
    """20 mm square, turned by 45°: its corner stands 14.142 mm from its middle."""
    square = prism(rectangle(0.0, 0.0, 0.020, 0.020, math.pi / 4), 0.0, 0.010)
    beside = box((16, 0, -20), (30, 10, 20), "b")
    assert gap_between(square, beside).gap_m == pytest.approx(0.016 - math.sqrt(2) * 0.010)
    over = box((12, 0, -20), (30, 10, 20), "b")
    assert gap_between(square, over).gap_m == pytest.approx(0.012 - math.sqrt(2) * 0.010)
    # Its side looks to the corner of a box at 20, 20: 28.284 mm less 10 mm.
    corner = box((20, 0, 20), (30, 10, 30), "b")
    assert gap_between(square, corner).gap_m == pytest.approx(0.020 * math.sqrt(2) - 0.010)
    # And 8 mm further to the right it is that and 8 mm, squared.
    aside = box((20, 18, 20), (30, 30, 30), "b")
    assert gap_between(square, aside).gap_m == pytest.approx(
        math.hypot(0.020 * math.sqrt(2) - 0.010, 0.008)
    )


@given(anything, anything)
@settings(max_examples=150, deadline=None)
def test_a_gap_in_the_plane_is_the_widest_slit(first, second):
    level = dataclasses.replace(
        second,
        low=(second.low[0], first.low[RIGHT], second.low[2]),
        high=(second.high[0], first.high[RIGHT], second.high[2]),
    )
    assume(first.high[RIGHT] - first.low[RIGHT] > 0)
    deep = prism(first.section, -9.0, 9.0), prism(level.section, -9.0, 9.0)
    found = gap_between(*deep).gap_m
    slit = widest_slit(*deep)
    # The widest slit may stand on an edge, half a step away: missed by that times the reach.
    reach = max(math.hypot(x - u, z - w) for x, z in first.section for u, w in second.section)
    assert slit - 1e-9 <= found <= slit + math.pi / DIRECTIONS * reach


@given(anything, anything)
@settings(max_examples=100, deadline=None)
def test_a_gap_is_the_same_from_either_side(first, second):
    there, back = gap_between(first, second), gap_between(second, first)
    assert there.gap_m == pytest.approx(back.gap_m, abs=1e-12)


@given(anything, anything, st.tuples(places, places, places))
@settings(max_examples=100, deadline=None)
def test_moving_both_changes_nothing(first, second, way):
    found = gap_between(moved(first, way), moved(second, way)).gap_m
    assert found == pytest.approx(gap_between(first, second).gap_m, abs=1e-9)


@given(anything, anything, st.floats(-math.pi, math.pi))
@settings(max_examples=150, deadline=None)
def test_turning_both_about_the_line_to_the_right_changes_nothing(first, second, angle):
    found = gap_between(turned(first, angle), turned(second, angle)).gap_m
    assert found == pytest.approx(gap_between(first, second).gap_m, abs=1e-9)


@given(anything, anything, st.floats(0.1, 10))
@settings(max_examples=100, deadline=None)
def test_scaling_both_scales_the_gap(first, second, k):
    def scaled(solid):
        return dataclasses.replace(
            solid,
            low=tuple(k * v for v in solid.low),
            high=tuple(k * v for v in solid.high),
            outline=tuple((k * x, k * z) for x, z in solid.outline),
        )

    found = gap_between(scaled(first), scaled(second)).gap_m
    assert found == pytest.approx(k * gap_between(first, second).gap_m, rel=1e-9, abs=1e-8)


@given(boxes(), boxes(), st.tuples(*[st.floats(0.0, 1.0)] * 6))
@settings(max_examples=100, deadline=None)
def test_a_smaller_part_is_never_nearer(first, second, shares):
    ends = [
        sorted(low + share * (high - low) for share in pair)
        for low, high, pair in zip(
            first.low, first.high, zip(shares[::2], shares[1::2], strict=True), strict=True
        )
    ]
    less = dataclasses.replace(
        first, low=tuple(end[0] for end in ends), high=tuple(end[1] for end in ends)
    )
    assert gap_between(less, second).gap_m >= gap_between(first, second).gap_m - 1e-9


@given(anything, anything, st.tuples(*[st.floats(-0.3, 0.3)] * 3))
@settings(max_examples=100, deadline=None)
def test_moving_one_out_by_its_overlap_frees_it(first, second, shares):
    # Its middle within the other one, so that they overlap.
    way = [
        (a.low + a.high) / 2 + share * (a.high - a.low) - (b.low + b.high) / 2
        for a, b, share in zip(sides(first), sides(second), shares, strict=True)
    ]
    second = moved(second, way)
    found = gap_between(first, second)
    assume(found.gap_m < 0)
    ways = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]
    for solid in (first, second):
        for (x, z), (u, w) in zip(
            solid.section, (*solid.section[1:], solid.section[0]), strict=True
        ):
            edge = math.hypot(u - x, w - z)
            ways += [((w - z) / edge, 0, (x - u) / edge), ((z - w) / edge, 0, (u - x) / edge)]
    after = [
        gap_between(first, moved(second, tuple(-found.gap_m * v for v in way))).gap_m
        for way in ways
    ]
    assert max(after) == pytest.approx(0.0, abs=1e-8)


@given(st.lists(anything, min_size=2, max_size=6), st.floats(0, 0.01))
@settings(max_examples=60, deadline=None)
def test_only_near_pairs_are_measured_and_the_nearest_is_among_them(found, within):
    named = [dataclasses.replace(solid, group=str(k)) for k, solid in enumerate(found)]
    every = {(a.group, b.group): gap_between(a, b).gap_m for a, b in pairs_of(named)}
    some = {(g.first.group, g.second.group): g.gap_m for g in gaps(pairs_of(named), within)}
    assert some.items() <= every.items()
    assert min(some.values()) == min(every.values())
    assert {pair for pair, gap in every.items() if gap < within} <= set(some)


# ---------------------------------------------------------------- builds


def verdict(build, id):
    found = [v for v in fit_verdicts(build) if v.id == id]
    return found[0] if found else None


def plain(text):
    return text.replace("\N{NARROW NO-BREAK SPACE}", " ")


def test_a_builds_solids_are_its_parts_at_their_sizes():
    found = {solid.kind: solid for solid in solids(BUILD)}
    assert set(found) == {"pack", "gps", "video", "receiver", "camera", "esc", "stack"}
    pack = found["pack"]
    size = [h - low for low, h in zip(pack.low, pack.high, strict=True)]
    assert size == pytest.approx([0.075, 0.038, 0.035])
    assert pack.low[STATION] == pytest.approx(0.141)  # 1 mm of foam from the bay's end
    esc, stack = found["esc"], found["stack"]
    assert esc.low[FRONT] == pytest.approx(-0.011 + 0.002)
    assert stack.low[FRONT] == pytest.approx(esc.high[FRONT] + 0.002)
    camera = found["camera"]  # its lens at 60°: 22 mm deep, 19 mm high
    reach = 0.022 * math.sin(math.radians(60)) + 0.019 * math.cos(math.radians(60))
    assert camera.high[STATION] - camera.low[STATION] == pytest.approx(reach)


def test_in_a_flat_frame_boards_lie_and_places_across_turn():
    build = default_build(library(), "longspur-7")
    found = {solid.kind: solid for solid in solids(build)}
    for kind in ("esc", "stack"):
        board = build.parts[kind]
        assert found[kind].high[STATION] - found[kind].low[STATION] == pytest.approx(board.height_m)
        assert found[kind].high[FRONT] - found[kind].low[FRONT] == pytest.approx(board.length_m)
    assert found["stack"].high[STATION] < found["esc"].low[STATION]  # nearer to the nose
    pack = build.parts["pack"]
    assert found["pack"].high[FRONT] - found["pack"].low[FRONT] == pytest.approx(pack.length_m)
    # On its floor, half a millimetre of grip pad above the plate, at the front end of its place.
    assert found["pack"].high[STATION] == pytest.approx(-0.5 * MM)
    assert found["pack"].high[FRONT] == pytest.approx(68.5 * MM)


def test_the_stack_that_stood_in_the_pack_of_quillback_is_found():
    """Its seat was drawn 3 mm into the pack bay: a board 42 mm long about 128 mm ends at 149 mm,
    the pack begins half a millimetre of foam behind 147 mm."""
    build = default_build(library(), "quillback-5")
    assert verdict(build, "parts_apart").state == "clear"
    seat = dataclasses.replace(build.frame.stack_seat, station_m=0.128)
    before = with_frame(build, stack_seat=seat)
    found = verdict(before, "parts_apart")
    assert (found.state, found.kind) == ("clashes", "pack")
    assert found.amount == pytest.approx(-1.5 * MM)
    assert plain(found.sentence_metric) == "Pack and ESC clash by 1.5 mm along the axis"
    assert plain(found.fix).startswith("2.5 mm (0.10 in) more between them along the axis")


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_frames_ship_with_parts_that_are_apart_and_clear_of_what_stays_free(slug):
    build = default_build(library(), slug)
    for id in ("parts_apart", "keep_outs", "usb_access", "card_access"):
        assert verdict(build, id).state == "clear"


@pytest.mark.parametrize("slug", ["quillback-5", "longspur-7"])
def test_the_places_of_a_frame_do_not_overlap(slug):
    """The rooms themselves, whatever lies in them: each filled to its walls."""
    frame = default_build(library(), slug).frame
    rooms = [filled(bay) for bay in frame.bays]
    seat = frame.stack_seat
    whole = dataclasses.replace(
        BUILD.parts["esc"], length_m=seat.max_length_m, width_m=seat.max_width_m,
        height_m=seat.max_height_m - 2 * MM,
    )  # fmt: skip
    build = dataclasses.replace(BUILD, frame=frame, parts={"esc": whole})
    rooms += [solid for solid in solids(build)]
    for a, b in pairs_of(rooms):
        assert gap_between(a, b).gap_m >= 0.0


def filled(bay):
    sides = (bay.length_m, bay.width_m, bay.height_m)
    if bay.lies == "across":
        sides = sides[::-1]
    middle = (bay.station_m, bay.right_m, bay.front_m)
    return Solid(
        kind="", name=bay.id, group=bay.id,
        low=tuple(m - s / 2 for m, s in zip(middle, sides, strict=True)),
        high=tuple(m + s / 2 for m, s in zip(middle, sides, strict=True)),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("apart_mm", "state"), [(1.0, "clear"), (0.9, "snug"), (0.0, "snug"), (-0.1, "clashes")]
)
def test_a_millimetre_between_parts_is_clear(apart_mm, state):
    """The ESC, 40 mm long in the middle of its seat, before a pack that begins at 141 mm."""
    seat = dataclasses.replace(FRAME.stack_seat, station_m=0.141 - 0.020 - apart_mm * MM)
    found = verdict(with_frame(stack_seat=seat), "parts_apart")
    assert found.state == state
    assert found.amount == pytest.approx(apart_mm * MM, abs=1e-12)


def test_one_kind_is_told_about_its_own_neighbours():
    seat = dataclasses.replace(FRAME.stack_seat, station_m=0.126)  # ESC 5 mm in the pack
    build = with_frame(stack_seat=seat)
    asked = {
        kind: {v.id: v for v in fit_verdicts(build, kind)}["parts_apart"]
        for kind in ("pack", "esc", "gps")
    }
    assert [asked[kind].kind for kind in asked] == ["pack", "esc", "gps"]
    assert asked["pack"].amount == asked["esc"].amount == pytest.approx(-5 * MM)
    assert asked["esc"].sentence_metric.startswith("ESC and pack clash")
    assert asked["gps"].state == "clear"


def test_boards_of_one_stack_and_a_lonely_part_are_not_judged_against_anything():
    parts = {kind: BUILD.parts[kind] for kind in ("esc", "stack")}
    assert verdict(dataclasses.replace(BUILD, parts=parts), "parts_apart") is None


def test_a_tilted_camera_may_meet_what_a_level_one_passes():
    """22 mm deep and 19 mm high, 2 mm from a module at its level: turned by 45° its corner is
    14.5 mm from the pivot and not 9.5 or 11."""
    bay = dataclasses.replace(
        FRAME.bays[1], length_m=0.020, width_m=0.020, height_m=0.0065, padding_m=0.0,
        tolerance_m=0.0, station_m=0.045 + 0.0095 + 0.002 + 0.010, front_m=0.0,
    )  # fmt: skip
    frame = dataclasses.replace(FRAME, bays=(bay,))
    parts = {kind: BUILD.parts[kind] for kind in ("camera", "gps")}
    level = dataclasses.replace(BUILD, frame=frame, parts=parts, uptilt_rad=0.0)
    assert verdict(level, "parts_apart").amount == pytest.approx(0.002)
    tilted = dataclasses.replace(level, uptilt_rad=math.radians(45))
    found = verdict(tilted, "parts_apart")
    assert found.state == "clashes"
    assert found.sentence_metric.startswith("GPS module and camera clash")


@pytest.mark.parametrize("id", ["side", "top"])
def test_parts_that_meet_are_hatched_in_the_drawing(id):
    seat = dataclasses.replace(FRAME.stack_seat, station_m=0.126)  # the ESC alone in the pack
    flat = dataclasses.replace(BUILD.parts["stack"], length_m=0.020)
    build = with_frame(stack_seat=seat)
    build = dataclasses.replace(build, parts={**build.parts, "stack": flat})
    drawing = DRAWINGS[id](build, None)
    hatched = {outline.name for outline in drawing.outlines if outline.role == "clash"}
    pack = "6S 1600 mAh: clear, but clashes with what lies beside it"
    assert hatched == ({pack, "60 A board"} if id == "side" else {pack})


@pytest.mark.parametrize("id", ["side", "top", "section"])
def test_what_stays_free_and_openings_are_drawn_to_scale(id):
    drawing = DRAWINGS[id](BUILD, None)
    (duct,) = [outline for outline in drawing.outlines if outline.role == "keep-out"]
    assert duct.name == "stays free: cable duct"
    size = [max(p[k] for p in duct.points) - min(p[k] for p in duct.points) for k in (0, 1)]
    assert size == pytest.approx({"side": (0.050, 0.004)}.get(id, (0.006, 0.004)))
    shown = [outline.name for outline in drawing.outlines if outline.role == "opening"]
    assert shown == ([] if id == "section" else ["side window", "card flap"])


# ---------------------------------------------------------------- keep-outs


def keep(**changes):
    """The build with one keep-out behind the tail end of its pack, which ends at 216 mm."""
    made = KeepOut(
        name="bolt", length_m=0.004, width_m=0.004, height_m=0.004, room_m=1 * MM,
        station_m=0.220, front_m=0.0,
    )  # fmt: skip
    return with_frame(keep_outs=(dataclasses.replace(made, **changes),))


@pytest.mark.parametrize(
    ("station_mm", "state", "gap_mm"),
    [(220, "clear", 2), (219, "clear", 1), (218.5, "snug", 0.5), (218, "snug", 0),
     (216, "clashes", -2)],
)  # fmt: skip
def test_a_keep_out_asks_for_its_own_room(station_mm, state, gap_mm):
    found = verdict(keep(station_m=station_mm * MM), "keep_outs")
    assert (found.state, found.kind) == (state, "pack")
    assert found.amount == pytest.approx(gap_mm * MM, abs=1e-12)
    assert found.sentence_metric.endswith("what stays free: bolt")


def test_a_keep_out_names_the_part_the_side_and_the_mend():
    found = verdict(keep(station_m=0.216), "keep_outs")
    assert plain(found.sentence_metric) == (
        "Pack clashes by 2.0 mm along the axis with what stays free: bolt"
    )
    assert (
        plain(found.fix)
        == "a pack that ends 3.0 mm (0.12 in) earlier along the axis would be clear"
    )


def test_a_clash_counts_before_a_snug_part_with_less_to_spare():
    wide = KeepOut(
        name="wide berth", length_m=0.004, width_m=0.004, height_m=0.004, room_m=0.050,
        station_m=0.290, front_m=0.0,
    )  # fmt: skip
    hit = dataclasses.replace(wide, name="bolt", room_m=0.0, station_m=0.217)
    found = verdict(with_frame(keep_outs=(wide, hit)), "keep_outs")
    assert (found.state, found.amount) == ("clashes", pytest.approx(-1 * MM))
    assert found.sentence_metric.endswith("bolt")
    alone = verdict(with_frame(keep_outs=(wide,)), "keep_outs")
    assert alone.state == "snug" and alone.kind == "receiver"


def test_every_kind_of_part_is_kept_out():
    for solid in solids(BUILD):
        middle = [(a + b) / 2 for a, b in zip(solid.low, solid.high, strict=True)]
        build = keep(station_m=middle[0], right_m=middle[1], front_m=middle[2])
        found = verdict(build, "keep_outs")
        assert (found.state, found.kind) == ("clashes", solid.kind)
        asked = [v for v in fit_verdicts(build, solid.kind) if v.id == "keep_outs"]
        assert asked[0].amount == found.amount


def test_without_keep_outs_or_parts_there_is_nothing_to_say():
    assert verdict(with_frame(keep_outs=()), "keep_outs") is None
    assert verdict(dataclasses.replace(BUILD, parts={}), "keep_outs") is None
    assert verdict(without("pack"), "keep_outs").kind != "pack"


def test_keep_outs_and_openings_are_boxes_and_flat():
    (duct,) = free_of_parts(FRAME)
    assert duct.low == pytest.approx((0.165, -0.003, 0.022))
    assert duct.high == pytest.approx((0.215, 0.003, 0.026))
    window, flap = openings(FRAME)
    assert window.low == pytest.approx((0.100, 0.034, -0.002))
    assert window.high == pytest.approx((0.120, 0.034, 0.012))
    assert flap.low == pytest.approx((0.085, -0.012, 0.032))
    assert flap.high == pytest.approx((0.115, 0.012, 0.032))
    assert outline_of(FRAME.bodies) == FRAME.outline


def test_a_wider_part_than_its_bay_may_meet_its_neighbour_too():
    """A pack 25 mm too long stands in the tail: its own bay and the receiver's both say so."""
    build = with_part("pack", length_m=0.110)
    assert verdict(build, "pack_bay").state == "clashes"
    apart = verdict(build, "parts_apart")
    assert apart.amount == pytest.approx(0.247 - 0.251)
