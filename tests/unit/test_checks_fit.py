"""Fit verdicts: what they say aloud, and that they say it of the right thing."""

import dataclasses
import math
import re

import pytest

from fit_builds import (
    BUILD,
    FRAME,
    PACK_BAY,
    motor_pattern,
    stack_pattern,
    with_frame,
    with_part,
    without,
)
from slipfit.checks.fit_checks import FIT_CHECKS, fit_verdicts
from slipfit.checks.verdict import FIT_STATES
from slipfit.fit.bays import TURNS
from slipfit.frame.frame import Outline
from slipfit.parts.kinds import KINDS
from slipfit.parts.origin import Origin


def verdict(build, id):
    (found,) = [v for v in fit_verdicts(build) if v.id == id]
    return found


def with_bay(build=BUILD, **changes):
    """The build with its pack bay changed."""
    bay = dataclasses.replace(PACK_BAY, **changes)
    return with_frame(build, bays=(bay, *FRAME.bays[1:]))


def test_every_check_says_something_of_a_whole_build_and_all_is_clear():
    found = fit_verdicts(BUILD)
    assert [v.id for v in found] == [check.id for check in FIT_CHECKS]
    assert {v.state for v in found} == {"clear"}
    assert not any(v.fix for v in found)


def test_ids_are_used_once_and_kinds_are_known():
    ids = [check.id for check in FIT_CHECKS]
    assert len(set(ids)) == len(ids)
    known = {kind.id for kind in KINDS}
    assert {check.kind for check in FIT_CHECKS} <= known
    assert set(TURNS) <= known


BROKEN = {
    "pack_bay": with_part("pack", width_m=0.0404),
    "esc_holes": with_part("esc", pattern=stack_pattern(20)),
    "esc_board": with_part("esc", length_m=0.050),
    "stack_holes": with_part("stack", pattern=stack_pattern(25.5)),
    "stack_board": with_part("stack", width_m=0.045, length_m=0.045),
    "stack_height": with_part("esc", height_m=0.012),
    "motor_holes": with_part("motor", mount_pattern=motor_pattern(12, 12)),
    "motor_fairing": with_part("motor", can_diameter_m=0.036),
    "motor_depth": with_part("motor", can_length_m=0.016),
    "prop_tips": with_part("prop", diameter_m=0.1778),
    "prop_body": with_part("prop", diameter_m=0.1778),
    "prop_bore": with_part("prop", bore_m=0.0015),
    "camera_cage": with_part("camera", width_m=0.022),
    "camera_room": with_part("camera", depth_m=0.026),
    "camera_uptilt": dataclasses.replace(BUILD, uptilt_rad=math.radians(85)),
    "gps_bay": with_part("gps", height_m=0.011),
    "video_bay": with_part("video", length_m=0.040),
    "receiver_bay": with_part("receiver", width_m=0.018),
    "receiver_antenna": with_part("receiver", antenna_length_m=0.35),
    "parts_apart": with_frame(stack_seat=dataclasses.replace(FRAME.stack_seat, station_m=0.124)),
    "keep_outs": with_frame(keep_outs=(dataclasses.replace(FRAME.keep_outs[0], front_m=0.017),)),
    "usb_access": with_frame(accesses=FRAME.accesses[1:]),
    "card_access": with_part("video", card_side="end"),
    "screws": with_part("motor", mount_depth_m=0.0034),
}


@pytest.mark.parametrize("check", FIT_CHECKS, ids=lambda check: check.id)
def test_every_check_can_clash_and_says_by_how_much_and_what_would_mend_it(check):
    found = verdict(BROKEN[check.id], check.id)
    assert (found.state, found.severity) == ("clashes", 2)
    assert found.amount < 0
    assert found.fix
    if check.id == "camera_uptilt":
        degrees = re.search(r"clashes by (\d+\.\d)° in", found.sentence_metric)
        assert float(degrees[1]) == pytest.approx(-math.degrees(found.amount), abs=0.051)
        return
    metric = re.search(r"(\d+\.\d)\N{NARROW NO-BREAK SPACE}mm", found.sentence_metric)
    imperial = re.search(r"(\d+\.\d\d)\N{NARROW NO-BREAK SPACE}in", found.sentence_imperial)
    assert float(metric[1]) == pytest.approx(-found.amount * 1e3, abs=0.051)
    assert float(imperial[1]) == pytest.approx(-found.amount / 0.0254, abs=0.0051)


@pytest.mark.parametrize("check", FIT_CHECKS, ids=lambda check: check.id)
def test_every_verdict_is_whole(check):
    for build in (BUILD, BROKEN[check.id]):
        for found in fit_verdicts(build):
            assert found.family == "fit"
            assert found.state in FIT_STATES
            assert found.subject and found.basis.endswith(".")
            for sentence in (found.sentence_metric, found.sentence_imperial):
                assert sentence[0].isupper() and not sentence.endswith(".")
            assert "mm" not in found.sentence_imperial.replace("common", "").split("x")[0] or (
                # patterns and screws are called by their millimetres everywhere
                "holes" in found.id or found.id == "screws"
            )
            assert not found.fix.endswith(".")


@pytest.mark.parametrize("check", FIT_CHECKS, ids=lambda check: check.id)
def test_a_missing_part_is_passed_over(check):
    found = [v for v in fit_verdicts(without(check.kind)) if v.id == check.id]
    # A check of many parts at once goes on about the others.
    assert {v.kind for v in found} <= set(check.also if check.about else ())


def test_a_frame_without_a_bay_or_a_body_has_nothing_to_say_of_them():
    bare = with_frame(bays=(), outline=Outline())
    ids = {v.id for v in fit_verdicts(bare)}
    assert not ids & {
        "pack_bay", "gps_bay", "video_bay", "receiver_bay", "receiver_antenna"
    }  # fmt: skip


def test_verdicts_of_one_kind():
    assert [v.id for v in fit_verdicts(BUILD, "motor")] == [
        "motor_holes", "motor_fairing", "motor_depth", "screws",
    ]  # fmt: skip


def test_a_pack_too_wide_says_so_in_both_systems():
    found = verdict(BROKEN["pack_bay"], "pack_bay")
    # 40.5 mm less 1 mm of padding on each side leaves 38.5 mm.
    said = found.sentence_metric.replace("\N{NARROW NO-BREAK SPACE}", " ")
    assert said == "Pack clashes by 1.9 mm in width, lying flat along the bay"
    said = found.sentence_imperial.replace("\N{NARROW NO-BREAK SPACE}", " ")
    assert said == "Pack clashes by 0.07 in in width, lying flat along the bay"
    fix = found.fix.replace("\N{NARROW NO-BREAK SPACE}", " ")
    assert fix == "a pack up to 38.0 mm (1.50 in) wide would be clear"


def plain(text):
    return text.replace("\N{NARROW NO-BREAK SPACE}", " ")


def test_thinner_padding_is_offered_where_it_is_all_that_clashes():
    found = verdict(with_part("pack", width_m=0.0392), "pack_bay")
    assert plain(found.fix).endswith("or this one on padding of 0.7 mm (0.03 in)")


def test_a_pack_on_both_counts_too_large_is_told_both():
    found = verdict(with_part("pack", length_m=0.090, width_m=0.041), "pack_bay")
    assert plain(found.fix) == (
        "a pack up to 79.5 mm (3.13 in) long and 38.0 mm (1.50 in) wide would be clear"
    )


def test_a_pack_in_a_tube_is_told_either_way_out():
    found = verdict(with_bay(shape="tube", diameter_m=0.0520, padding_m=0.0), "pack_bay")
    assert found.state == "snug"  # 38 and 35 mm: a diagonal of 51.7 mm
    assert "across its corners" in found.sentence_metric
    assert re.fullmatch(r"a pack up to .* wide, or up to .* high would be clear", found.fix)


def test_snug_is_less_than_the_tolerance_and_not_less_than_nothing():
    assert verdict(with_part("pack", height_m=0.0350), "pack_bay").state == "clear"
    assert verdict(with_part("pack", height_m=0.0351), "pack_bay").state == "snug"
    assert verdict(with_part("pack", height_m=0.0355), "pack_bay").state == "snug"
    assert verdict(with_part("pack", height_m=0.0356), "pack_bay").state == "clashes"


def test_leads_at_the_side_make_a_pack_wider_and_leave_the_end_free():
    end = with_part("pack", length_m=0.090, width_m=0.034)
    assert verdict(end, "pack_bay").state == "clashes"
    side = with_part("pack", build=end, lead_side="side", lead_gauge=12)
    found = verdict(side, "pack_bay")
    assert found.state == "snug" or found.state == "clear"
    assert "its leads lie along its side" in found.basis


def test_screws_must_pass():
    thin = verdict(with_part("motor", mount_screw="M2"), "motor_holes")
    assert thin.state == "clear"
    assert "play to fill" in thin.sentence_metric
    thick = verdict(with_part("motor", mount_screw="M4"), "motor_holes")
    assert thick.state == "clashes"
    assert "too thick for the seat's holes: M4 on an M3 seat" in thick.sentence_metric
    board = verdict(with_part("esc", screw="M2"), "esc_holes")
    assert board.state == "clashes"
    assert "too thick for the part's holes" in board.sentence_metric


def test_a_motor_pattern_on_a_stack_seat_is_told_why_its_digits_mislead():
    seat = dataclasses.replace(FRAME.stack_seat, patterns=(stack_pattern(16),))
    build = with_part("esc", with_frame(stack_seat=seat), pattern=motor_pattern(16, 16))
    found = verdict(build, "esc_holes")
    assert found.state == "clashes"
    assert found.amount == pytest.approx(-3.314e-3, abs=1e-6)
    assert "The digits are alike and the holes are not" in found.basis


def test_an_estimated_size_is_said_to_be_one():
    guessed = with_part("motor", origins={"can_length_m": Origin("estimated")})
    assert "can length is estimated" in verdict(guessed, "motor_depth").basis
    assert "estimated" not in verdict(guessed, "motor_fairing").basis


def test_the_higher_board_answers_for_the_stack():
    assert verdict(BROKEN["stack_height"], "stack_height").kind == "esc"
    assert verdict(with_part("stack", height_m=0.012), "stack_height").kind == "stack"


def test_the_propeller_that_would_fit_is_named_and_does():
    clash = verdict(BROKEN["prop_body"], "prop_body")
    millimetres = float(re.search(r"up to ([\d.]+)", clash.fix)[1])
    assert verdict(with_part("prop", diameter_m=(millimetres - 0.1) / 1e3), "prop_body").state == (
        "clear"
    )
    assert verdict(with_part("prop", diameter_m=(millimetres + 0.1) / 1e3), "prop_body").state == (
        "snug"
    )


def test_a_narrow_camera_takes_washers():
    found = verdict(with_part("camera", width_m=0.014), "camera_cage")
    assert found.state == "clear"
    assert "washer of 2.5" in found.sentence_metric
    assert "nano class" in found.sentence_metric


def tilted(degrees, **camera):
    """The build with its camera at an uptilt, in a cage from 0 to 80° with 15 mm behind its pivot;
    of a camera 24 mm deep and 18 mm high the corner lies exactly as far from the pivot."""
    seat = dataclasses.replace(
        FRAME.camera_seat, uptilt_low_rad=0.0, uptilt_high_rad=math.radians(80), behind_m=0.015
    )
    sizes = {"depth_m": 0.024, "height_m": 0.018, **camera}
    build = with_part("camera", with_frame(camera_seat=seat), **sizes)
    return dataclasses.replace(build, uptilt_rad=math.radians(degrees))


@pytest.mark.parametrize(
    ("degrees", "state", "margin"),
    [(40, "clear", 40), (78, "clear", 2), (79, "snug", 1), (80, "snug", 0), (81, "clashes", -1),
     (2, "clear", 2), (0, "snug", 0), (-3, "clashes", -3)],
)  # fmt: skip
def test_an_uptilt_is_judged_by_its_margin_in_degrees(degrees, state, margin):
    found = verdict(tilted(degrees), "camera_uptilt")
    assert found.state == state
    assert math.degrees(found.amount) == pytest.approx(margin, abs=1e-9)
    word = f"by {-margin}.0°" if margin < 0 else f"{margin}.0° left"
    assert word in found.sentence_metric
    assert "to 80.0°)" in found.sentence_metric
    assert bool(found.fix) == (state != "clear")
    if found.fix:
        assert found.fix == "an uptilt of 2.0° to 78.0° would be clear"


def test_a_deeper_camera_reaches_less_uptilt():
    """28 mm deep and 20 high, its corner meets what stands 15 mm behind the pivot at
    atan(10/14) - acos(15/sqrt(296))."""
    found = verdict(tilted(6, depth_m=0.028, height_m=0.020), "camera_uptilt")
    reach = math.degrees(math.atan2(10, 14) - math.acos(15 / math.sqrt(296)))
    assert reach == pytest.approx(6.2, abs=0.05)
    assert found.state == "snug"
    assert math.degrees(found.amount) == pytest.approx(reach - 6)
    assert f"6.0° of 0.0° to {reach:.1f}°" in found.sentence_metric
    assert "stops the back of this camera" in found.basis
    assert found.fix == f"an uptilt of 2.0° to {reach - 2:.1f}° would be clear"
    deep = verdict(tilted(6, depth_m=0.030, height_m=0.018), "camera_uptilt")
    assert deep.state == "clashes"
    assert "a camera up to 24.0\N{NARROW NO-BREAK SPACE}mm" in deep.fix
    high = verdict(tilted(6, depth_m=0.0299, height_m=0.031), "camera_uptilt")
    assert high.fix == "a camera that is less high and less deep turns further"


def test_a_camera_that_does_not_go_in_has_no_uptilt_to_judge():
    found = {v.id: v.state for v in fit_verdicts(tilted(6, depth_m=0.031))}
    assert "camera_uptilt" not in found
    assert found["camera_room"] == "clashes"


def test_a_cage_with_nothing_behind_turns_any_camera():
    seat = dataclasses.replace(tilted(40).frame.camera_seat, behind_m=0.0)
    build = with_frame(tilted(40, depth_m=0.05), camera_seat=seat)
    assert verdict(build, "camera_uptilt").state == "clear"
