"""Screws of a build: lengths from the stack-up, engagement, what gives first, torque."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builds import DOCS, altered, framed, shipped, swapped, without
from slipfit.build import Build
from slipfit.checks.fit_screws import judge_screws, screw_name, screw_verdict
from slipfit.checks.limit import judge
from slipfit.checks.limit_screw_torque import LIMIT, weakest
from slipfit.errors import InputError
from slipfit.fit.screws import END_GAP_M, ScrewFit, screw_fit, screw_fits
from slipfit.flight.performance import performance
from slipfit.frame.joint import Joint, Layer
from slipfit.frame.reading import read_frame
from slipfit.parts.source import FileError
from slipfit.physics.fastener import FRICTIONS, HOLDS, LENGTHS_M, thread_of
from slipfit.units import THIN

JOINT = Joint(
    id="plate", label="plate on a standoff", screw="M3", into="aluminium", count=4,
    grip=(Layer(name="plate", length_m=2e-3),), depth=Layer(name="depth", length_m=7e-3),
)  # fmt: skip
TEXT = (DOCS / "frames/quillback-5/frame.toml").read_text(encoding="utf-8")


def plain(text: str) -> str:
    """With ordinary spaces."""
    return text.replace(THIN, " ")


def fitted(joint: Joint, build: Build | None = None) -> ScrewFit:
    fit = screw_fit(build or shipped(), joint)
    assert fit is not None
    return fit


def joined(**values: object) -> ScrewFit:
    """The joint above with some of its fields changed."""
    return fitted(dataclasses.replace(JOINT, **values))


def test_a_thin_plate_on_a_deep_standoff_takes_the_shortest_screw_that_engages_enough():
    fit = joined()
    assert screw_name(fit) == "M3 × 6 mm"
    assert fit.engagement_m == pytest.approx(4e-3)
    assert fit.end_gap_m == pytest.approx(3e-3)
    assert fit.state == "clear"


def test_a_motor_too_shallow_for_the_screw_clashes_by_what_reaches_too_far():
    fit = fitted(shipped().frame.joints[0], altered("motor", mount_depth_m=3.4e-3))
    assert (fit.state, fit.kind) == ("clashes", "motor")
    assert fit.gap_m == pytest.approx(-0.5e-3)  # 4.4 + 3.4 - 0.3 - 8
    verdict = screw_verdict(fit)
    told = plain(verdict.sentence_metric)
    assert told.startswith("Screws clash by 0.5 mm: motor on its pod, M3 × 8 mm")
    assert "washers of 0.5 mm (0.02 in)" in plain(verdict.fix)


def test_a_thread_shallower_than_the_least_engagement_is_said_to_be_that():
    fit = joined(depth=Layer(name="depth", length_m=2e-3))
    assert fit.state == "clashes"
    assert plain(screw_verdict(fit).fix) == "a thread of 2.7 mm (0.11 in) or deeper would hold"


@given(
    st.floats(0.5, 30.0), st.floats(1.0, 12.0), st.sampled_from(sorted(HOLDS)),
    st.sampled_from(["M2", "M2.5", "M3", "M4"]), st.sampled_from([0.0, 5.0]),
)  # fmt: skip
def test_the_length_is_stocked_and_the_verdict_agrees_with_the_geometry(
    grip, depth, into, size, room
):
    fit = joined(
        grip=(Layer(name="plate", length_m=grip * 1e-3),), screw=size, into=into,
        depth=Layer(name="depth", length_m=depth * 1e-3), room_m=room * 1e-3,
    )  # fmt: skip
    assert fit.length_m in LENGTHS_M
    reach = fit.depth_m + room * 1e-3 - (END_GAP_M if room == 0 else 0)
    too_far = fit.length_m - fit.grip_m > reach + 1e-9
    held = min(max(fit.length_m - fit.grip_m, 0.0), fit.depth_m)
    assert fit.engagement_m == pytest.approx(held)
    if fit.state == "clashes":
        # No stocked length engages the least and ends in time.
        for length in LENGTHS_M:
            ends = length - fit.grip_m <= reach + 1e-9
            assert not (ends and min(length - fit.grip_m, fit.depth_m) >= fit.least_m + 1e-9)
        assert fit.gap_m < 0
    else:
        assert not too_far
        assert fit.engagement_m >= fit.least_m - 1e-9
        assert (fit.state == "clear") == (fit.engagement_m >= fit.wanted_m - 1e-9)


@pytest.mark.parametrize("friction", sorted(FRICTIONS))
@pytest.mark.parametrize("into", sorted(HOLDS))
def test_a_torque_that_is_worked_out_never_strips_even_on_a_slippery_surface(into, friction):
    fit = joined(into=into, friction=friction)
    assert fit.low_Nm < fit.torque_Nm < fit.high_Nm
    assert fit.margin >= 1 / 0.75 - 1e-9
    slippery = fit.torque_Nm / (FRICTIONS[friction].low * thread_of("M3").diameter_m)
    assert slippery <= 0.5 * fit.hold_N + 1e-6
    assert slippery <= 0.75 * fit.screw_N + 1e-6


def test_an_insert_tears_out_of_a_print_before_its_brass_strips():
    fit = joined(into="insert in PETG", depth=Layer(name="depth", length_m=5.7e-3))
    brass = joined(into="aluminium", depth=Layer(name="depth", length_m=5.7e-3))
    assert fit.hold_N == pytest.approx(0.5 * math.pi * 4.6e-3 * fit.engagement_m * 25e6)
    assert fit.hold_N < brass.hold_N / 3


def test_an_asked_torque_is_kept_and_its_clamp_follows():
    fit = joined(torque_Nm=0.3)
    assert fit.torque_Nm == 0.3
    assert fit.preload_N == pytest.approx(0.3 / (0.2 * 3e-3))


def test_more_torque_than_the_standoff_holds_is_a_verdict():
    small = altered("motor", mount_screw="M2")
    verdict = judge(LIMIT, performance(small))
    assert verdict is not None
    assert verdict.state == "past"
    told = plain(verdict.sentence_metric)
    assert told.startswith("Screw torque is past its limit: 60 N·cm of 34 N·cm (1.74 ×)")
    assert "motor on its pod: the M2 screw gives first" in verdict.fix
    fine = judge(LIMIT, performance(shipped()))
    assert fine is not None
    assert fine.state == "inside"
    assert weakest(without("motor")) is not None


def test_a_taller_esc_asks_for_a_longer_screw():
    low, high = (
        {f.joint.id: f for f in screw_fits(b)}["stack"]
        for b in (shipped(), altered("esc", height_m=0.012))
    )
    assert high.grip_m - low.grip_m == pytest.approx(0.012 - 0.0065)
    assert high.length_m > low.length_m


def test_a_narrow_camera_s_washer_lengthens_its_screws():
    fits = {f.joint.id: f for f in screw_fits(swapped(camera="c14"))}
    assert dict(fits["camera"].layers)["washer"] == pytest.approx(2.5e-3)


def test_joints_of_missing_parts_are_left_out_and_the_worst_joint_is_told():
    assert "motors" not in {f.joint.id for f in screw_fits(without("motor"))}
    assert judge_screws(framed(joints=())) is None
    verdict = judge_screws(altered("motor", mount_depth_m=3.4e-3))
    assert verdict is not None
    assert (verdict.state, verdict.kind) == ("clashes", "motor")


def problems(old: str, new: str) -> str:
    assert old in TEXT
    with pytest.raises(FileError) as caught:
        read_frame(TEXT.replace(old, new, 1), "quillback-5", "frame.toml")
    return str(caught.value)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"ESC" = "esc.height"', '"ESC" = "esc.hight"',
         r"[joint] 'stack': grip: ESC: no length 'hight' of a esc; did you mean 'height'?"),
        ('"ESC" = "esc.height"', '"ESC" = "ecs.height"',
         "[joint] 'stack': grip: ESC: no kind of part 'ecs'; did you mean 'esc'?"),
        ('"wall of the socket" = "3 mm"', '"wall of the socket" = 3',
         "[joint] 'arms': grip: wall of the socket must be a length such as '4 mm'"),
        ('"wall of the socket" = "3 mm"', '"wall of the socket" = "3 m"',
         "[joint] 'arms': grip: wall of the socket must be above 0 and at most 200 mm, got 3 m"),
        ('into = "insert in PA"', 'into = "insert in PE"',
         "[joint] 'arms': into must be one of its words, got 'insert in PE'; did you mean"),
        ('depth = "motor.mount_depth"', "",
         "[joint] 'motors': depth must be a length such as '4 mm' or a part's"),
        ('id = "arms"', 'id = "motors"', "[joint] 'motors': id must be used once"),
        ('id = "arms"', 'id = "The arms"', "id must be small letters, digits and hyphens"),
        ('[joint.grip]\n"base of the pod" = "4.4 mm"', "",
         "[joint] 'motors': grip must be a table [joint.grip] of 1 to 12 lengths"),
    ],
)  # fmt: skip
def test_each_mistake_in_a_joint_is_told_with_its_line(old, new, said):
    told = problems(old, new)
    assert said in told
    assert told.startswith("frame.toml:")


def test_an_unknown_thread_names_the_nearest():
    with pytest.raises(InputError, match=r"no thread 'M3.5'; did you mean"):
        thread_of("M3.5")
