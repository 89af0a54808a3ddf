"""Boards, cameras, leads and antennas."""

import dataclasses
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fit_builds import FRAME, PACK_BAY, PARTS
from slipfit.errors import InputError, ValidityError
from slipfit.fit.antenna import half_wave
from slipfit.fit.bays import bay_fit, hollow_of, lead_outer_diameter, lead_room_of
from slipfit.fit.board import EDGE_ROOM_M, SPACER_M, board_fit, column_height
from slipfit.fit.boxes import ALL_TURNS
from slipfit.fit.camera import cage_fit, class_name, uptilt_reach
from slipfit.frame.frame import Bay
from slipfit.frame.reading import read_frame
from slipfit.parts.source import FileError

ROOT = Path(__file__).parents[2]

lengths = st.floats(0.01, 0.06)


@given(lengths, lengths, lengths, lengths)
def test_a_board_may_be_turned(length, width, long, wide):
    fit, other = board_fit(length, width, long, wide), board_fit(width, length, long, wide)
    ways = min(long - length, wide - width), min(long - width, wide - length)
    assert fit.gap_m == pytest.approx(ways[fit.turned])
    assert fit.turned == (ways[0] < EDGE_ROOM_M and ways[1] > ways[0])
    clear = fit.gap_m >= EDGE_ROOM_M
    assert clear == (other.gap_m >= EDGE_ROOM_M)  # whichever side is called its length
    assert clear or fit.gap_m == pytest.approx(other.gap_m)


def test_a_boards_tighter_side_is_named():
    fit = board_fit(0.040, 0.036, 0.042, 0.037)
    assert (fit.side, fit.turned) == ("width", False)
    assert fit.gap_m == pytest.approx(1e-3)
    turned = board_fit(0.036, 0.040, 0.042, 0.037)
    assert (turned.side, turned.turned) == ("length", True)
    assert turned.gap_m == pytest.approx(1e-3)
    assert not board_fit(0.020, 0.037, 0.042, 0.040).turned  # 3 mm are enough to leave it so


def test_a_column_counts_a_spacer_under_each_board():
    assert column_height([0.008, 0.007]) == pytest.approx(0.015 + 2 * SPACER_M)


def test_a_camera_takes_the_narrowest_cage_that_holds_it():
    assert cage_fit(0.019, (0.019, 0.022)).cage_m == 0.019
    assert cage_fit(0.0195, (0.019, 0.022)).cage_m == 0.022
    assert cage_fit(0.019, (0.019,)).washer_m == 0.0
    narrow = cage_fit(0.014, (0.019, 0.022))
    assert narrow.washer_m == pytest.approx(2.5e-3)
    assert cage_fit(0.024, (0.019, 0.022)).gap_m == pytest.approx(-2e-3)
    with pytest.raises(InputError, match="widths_m must name at least one width, got none"):
        cage_fit(0.019, ())


@given(lengths, lengths, st.floats(0.0, 0.02), st.floats(0.001, 0.06))
def test_no_deeper_and_no_higher_camera_reaches_more(depth, height, more, behind):
    """And at its largest uptilt its corner just meets what stands behind, or is short of it all
    the way."""
    seat = dataclasses.replace(
        FRAME.camera_seat, uptilt_low_rad=0.2, uptilt_high_rad=1.5, behind_m=behind
    )
    camera = dataclasses.replace(PARTS["camera"], depth_m=depth, height_m=height)
    low, high = uptilt_reach(seat, camera)
    assert low == 0.2 and high <= 1.5
    for deeper in ({"depth_m": depth + more}, {"height_m": height + more}):
        assert uptilt_reach(seat, dataclasses.replace(camera, **deeper))[1] <= high + 1e-9
    turns = np.linspace(0.0, high - low, 50)
    reached = depth / 2 * np.cos(turns) + height / 2 * np.sin(turns)
    if depth / 2 <= behind:
        assert reached.max() <= behind + 1e-9
        assert high == 1.5 or reached[-1] == pytest.approx(behind)
    else:
        assert high == low


def test_classes_have_names():
    assert class_name(0.0192) == "micro"
    assert class_name(0.030) == ""


def test_leads_ask_for_room_where_they_leave():
    pack = PARTS["pack"]
    assert lead_room_of(PACK_BAY, pack) == pytest.approx([0.018, 0, 0])
    side = type(pack)(**{**vars(pack), "lead_side": "side", "lead_gauge": 12})
    # Gauge 12 is 2.053 mm bare (ASTM B258).
    assert lead_room_of(PACK_BAY, side) == pytest.approx([0, 2.1 * 2.053e-3, 0], rel=1e-3)
    assert lead_outer_diameter(10) > lead_outer_diameter(12)


def test_bays_of_every_shape_become_hollows():
    tube = hollow_of(
        Bay(id="t", kind="pack", shape="tube", length_m=0.1, diameter_m=0.05, station_m=0.1)
    )
    assert tube.round
    assert tube.straight
    tapered = hollow_of(
        Bay(id="t", kind="pack", shape="tapered", length_m=0.1, width_m=0.05, height_m=0.04,
            end_width_m=0.03, end_height_m=0.02, station_m=0.1)
    )  # fmt: skip
    assert (tapered.nose.width_m, tapered.tail.height_m) == (0.05, 0.02)
    assert not tapered.straight


def test_a_whole_shelf_is_judged_at_once():
    fit = bay_fit(PACK_BAY, [PARTS["pack"]] * 3, ALL_TURNS)
    assert fit.state.shape == (3,)
    assert fit.largest_m.shape == (3, 3)


def test_half_wave_of_a_band():
    # 300 m/s 10^6 over 2.4 GHz is 125 mm; half of it, 5 % shorter, 59 mm.
    assert half_wave(2.4e9) == pytest.approx(0.0593, abs=1e-4)
    assert half_wave(9e8) / half_wave(2.4e9) == pytest.approx(2.4e9 / 9e8)
    with pytest.raises(ValidityError, match=r"band_Hz must be 1e\+06 to 1e\+11"):
        half_wave(math.nan)


def test_a_corner_radius_is_read_and_must_leave_the_bay_its_sides():
    text = (ROOT / "docs/frames/quillback-5/frame.toml").read_text(encoding="utf-8")
    size = 'size = "102 x 38 x 36 mm"'
    assert size in text
    frame = read_frame(text.replace(size, f'{size}\ncorner = "4 mm"'), "q")
    bay = frame.bay_for("pack")
    assert bay is not None
    assert hollow_of(bay).nose.corner_m == pytest.approx(0.004)
    with pytest.raises(FileError, match=r"corner must be at most half .* 18 mm, got 20 mm"):
        read_frame(text.replace(size, f'{size}\ncorner = "20 mm"'), "q")
