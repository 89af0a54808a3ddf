"""Lenses: limits, symmetries, round trips, and what cannot be."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from slipfit.errors import ValidityError
from slipfit.parts.reading import part_from_texts, read_parts
from slipfit.parts.source import FileError
from slipfit.physics.lens import LENSES, field_of_view_equidistant, field_of_view_pinhole

ANGLES = {"pinhole": 1.4, "fisheye": 2.5}
BODY = {"mass": "9 g", "width": "19 mm", "height": "19 mm", "depth": "22 mm"}
BODY["lens_diameter"] = "14 mm"


@pytest.mark.parametrize("lens", LENSES.values(), ids=lambda lens: lens.id)
def test_picture_of_an_angle_leads_back_to_it(lens):
    angle = np.linspace(0.0, ANGLES[lens.id], 41)
    assert lens.off_axis(lens.image_radius(angle)) == pytest.approx(angle, abs=1e-14)


@pytest.mark.parametrize("lens", LENSES.values(), ids=lambda lens: lens.id)
@given(st.floats(-0.6, 0.6), st.floats(-0.6, 0.6), st.floats(0.1, 50.0))
def test_direction_of_a_point_is_seen_at_that_point(lens, right, down, far):
    x, y = lens.image_point(np.array(right), np.array(down), np.array(1.0))
    back = np.array(lens.direction(x, y))
    assert back == pytest.approx(np.array([right, down, 1.0]) / np.linalg.norm([right, down, 1.0]))
    again = lens.image_point(np.array(right * far), np.array(down * far), np.array(far))
    assert np.array(again) == pytest.approx(np.array([x, y]), abs=1e-15)


def test_narrow_lenses_agree():
    assert field_of_view_pinhole(1e-3, 0.1) == pytest.approx(
        field_of_view_equidistant(1e-3, 0.1), rel=1e-4
    )


def test_straight_ahead_is_the_middle_and_behind_is_not_seen():
    for lens in LENSES.values():
        assert lens.image_point(np.array(0.0), np.array(0.0), np.array(3.0)) == (0.0, 0.0)
        x, _ = lens.image_point(np.array(0.0), np.array(0.0), np.array(-1.0))
        assert np.isnan(x)


def test_what_lies_beside_a_pinhole_is_not_seen_and_a_fisheye_sees_it():
    beside = np.array(1.0), np.array(0.0), np.array(0.0)
    assert np.isnan(LENSES["pinhole"].image_point(*beside)[0])
    assert LENSES["fisheye"].image_point(*beside)[0] == pytest.approx(np.pi / 2)


@pytest.mark.parametrize("fov", [field_of_view_pinhole, field_of_view_equidistant])
@pytest.mark.parametrize("focal", [0.0, -2e-3, float("nan")])
def test_a_focal_length_must_be_above_zero(fov, focal):
    with pytest.raises(ValidityError, match="focal_length_m must be > 0, got"):
        fov(5e-3, focal)


@pytest.mark.parametrize("fov", [field_of_view_pinhole, field_of_view_equidistant])
def test_a_sensor_must_be_wider_than_nothing(fov):
    with pytest.raises(ValidityError, match="extent_m must be > 0, got 0"):
        fov(0.0, 2e-3)


# ------------------------------------------------------------------------------ the camera part


def camera(**more):
    part, faults = part_from_texts("camera", {**BODY, **more})
    assert faults == ()
    return part


def test_field_of_view_is_taken_as_printed_or_follows_from_sensor_and_lens():
    assert np.degrees(camera(horizontal_fov="90 deg").horizontal_fov_rad) == pytest.approx(90.0)
    given_lens = camera(sensor_width="5.57 mm", focal_length="2.8 mm", lens="pinhole")
    assert np.degrees(given_lens.horizontal_fov_rad) == pytest.approx(89.692, abs=5e-4)
    assert "horizontal_fov_rad" in given_lens.guessed
    both = camera(sensor_width="5.57 mm", focal_length="2.8 mm", horizontal_fov="80 deg")
    assert np.degrees(both.horizontal_fov_rad) == pytest.approx(80.0)


def test_without_any_of_it_a_usual_field_is_guessed_and_said():
    part = camera()
    assert np.degrees(part.horizontal_fov_rad) == pytest.approx(125.0)
    assert "horizontal_fov_rad" in part.guessed


@pytest.mark.parametrize(
    ("more", "lens"),
    [
        ({"horizontal_fov": "99 deg"}, "pinhole"),
        ({"horizontal_fov": "100 deg"}, "fisheye"),
        ({"horizontal_fov": "140 deg", "lens": "pinhole"}, "pinhole"),
        ({"sensor_width": "5.57 mm", "focal_length": "2.8 mm"}, "pinhole"),
        ({"sensor_width": "5.57 mm", "focal_length": "2.1 mm"}, "fisheye"),
    ],
)
def test_a_lens_nobody_named_goes_by_its_angle(more, lens):
    assert camera(**more).lens_model.id == lens


def test_a_fisheye_found_by_its_angle_has_the_field_of_a_fisheye():
    part = camera(sensor_width="5.57 mm", focal_length="2.1 mm")
    assert part.horizontal_fov_rad == pytest.approx(5.57 / 2.1)


@pytest.mark.parametrize(
    ("more", "key", "message"),
    [
        ({"focal_length": "0 mm"}, "focal_length", "focal_length must be 0.3 to 200 mm, got 0 mm"),
        ({"focal_length": "-2 mm"}, "focal_length", "must be 0.3 to 200 mm, got -2 mm"),
        ({"lens": "telescope"}, "lens", "lens must be one of its words, got 'telescope'"),
        ({"pixels_across": "0"}, "pixels_across", "pixels_across must be 16 to 20000, got 0"),
        (
            {"horizontal_fov": "179 deg", "lens": "pinhole"},
            "horizontal_fov",
            "horizontal_fov must be at most 170 deg for the lens 'pinhole', got 179 deg",
        ),
        (
            {"sensor_width": "20 mm", "focal_length": "1 mm", "lens": "fisheye"},
            "horizontal_fov",
            "horizontal_fov must be at most 300 deg for the lens 'fisheye', got 1146 deg",
        ),
    ],
)
def test_what_no_camera_has_is_told(more, key, message):
    part, faults = part_from_texts("camera", {**BODY, **more})
    assert part is None
    assert faults[0][0] == key
    assert message in faults[0][1]


def test_a_camera_file_names_the_line():
    text = '[[camera]]\nid = "c"\nname = "c"\nmass = "9 g"\nsize = "19 x 19 x 22 mm"\n'
    text += 'lens_diameter = "14 mm"\nfocal_length = "0 mm"\n'
    with pytest.raises(FileError, match=r"cameras.toml:7: \[camera\] 'c': focal_length must be"):
        read_parts(text, "cameras.toml")
