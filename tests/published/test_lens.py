"""Published values: fields of view of common sensors and lenses (tests/data/camera_fov.csv).

The table prints sensor sides and focal lengths in mm and angles in degrees.
"""

import numpy as np
import pytest

from published import printed
from slipfit.physics.lens import (
    LENSES,
    field_of_view_equidistant,
    field_of_view_pinhole,
)
from tables import rows

TABLE = rows("camera_fov.csv")
NAMES = [f"{row['sensor']}, {row['f_mm']} mm" for row in TABLE]
FULL_FRAME_DIAGONAL = "43.2666"  # mm, computed: the root of 36² + 24²


def sides(row: dict[str, str]) -> tuple[float, float, float, float]:
    """Width, height, diagonal and focal length in m."""
    width, height, focal = (float(row[key]) * 1e-3 for key in ("w_mm", "h_mm", "f_mm"))
    return width, height, float(np.hypot(width, height)), focal


@pytest.mark.parametrize("row", TABLE, ids=NAMES)
def test_pinhole_field_of_view_matches_the_table(row):
    width, height, diagonal, focal = sides(row)
    assert np.degrees(field_of_view_pinhole(width, focal)) == printed(row["HFOV_deg"])
    assert np.degrees(field_of_view_pinhole(height, focal)) == printed(row["VFOV_deg"])
    assert np.degrees(field_of_view_pinhole(diagonal, focal)) == printed(row["DFOV_deg"])


@pytest.mark.parametrize("row", TABLE, ids=NAMES)
def test_equidistant_field_of_view_matches_the_table(row):
    _, _, diagonal, focal = sides(row)
    expected = printed(row["DFOV_equidistant_fisheye_deg"])
    assert np.degrees(field_of_view_equidistant(diagonal, focal)) == expected


def test_full_frame_diagonal():
    _, _, diagonal, _ = sides(TABLE[-1])
    assert diagonal * 1e3 == printed(FULL_FRAME_DIAGONAL)


@pytest.mark.parametrize("row", TABLE, ids=NAMES)
def test_height_seen_follows_from_the_width_seen(row):
    """As for a camera whose horizontal field is printed and whose picture has a known shape."""
    width, height, _, focal = sides(row)
    lens = LENSES["pinhole"]
    edge = lens.image_radius(field_of_view_pinhole(width, focal) / 2) * height / width
    assert np.degrees(2 * lens.off_axis(edge)) == printed(row["VFOV_deg"])
