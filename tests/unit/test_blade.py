"""Blades from a style, a table, or the text of a CSV file, and their refusals."""

import numpy as np
import pytest

from slipfit.errors import InputError
from slipfit.physics.blade import STYLES, blade_from_csv, blade_from_style, blade_from_table

CSV = """r_R,c_R,beta_deg,t_c
0.15,0.15,40,0.16
0.4,0.2,25,0.1
0.7,0.2,16,0.08
0.95,0.12,12,0.06
"""


@pytest.mark.parametrize("style", STYLES)
def test_style_has_a_stated_planform_and_constant_pitch(style):
    blade = blade_from_style(0.127, 0.1, 3, style)
    pitch_m = 2 * np.pi * blade.r_R * blade.radius_m * np.tan(blade.pitch_angle_rad)
    assert pitch_m == pytest.approx(np.full_like(pitch_m, 0.1))
    assert (blade.chord_m > 0).all()
    assert 0.04 < blade.solidity / blade.blade_count < 0.11
    assert 3.0 < blade.aspect_ratio < 8.0
    assert STYLES[style].label and STYLES[style].about


def test_chord_scale_scales_the_solidity():
    a, b = (blade_from_style(0.127, 0.1, 2, "slim", s) for s in (1.0, 1.3))
    assert b.solidity == pytest.approx(1.3 * a.solidity)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((-0.1, 0.1, 2, "slim"), r"diameter_m must be > 0, got -0\.1"),
        ((0.1, 0.3, 2, "slim"), r"pitch_m / diameter_m must be 0 to 2\.5, got 3"),
        ((0.1, 0.1, 9, "slim"), r"blade_count must be 1 to 8, got 9"),
        ((0.1, 0.1, 2, "slym"), r"got 'slym'; did you mean 'slim'\?"),
        ((0.1, 0.1, 2, "slim", 4.0), r"chord_scale must be 0\.4 to 2\.5, got 4"),
    ],
)
def test_style_refusals(arguments, message):
    with pytest.raises(InputError, match=message):
        blade_from_style(*arguments)


def test_csv_is_the_table_that_it_holds():
    blade = blade_from_csv(CSV, 0.2, 2)
    assert blade.r_R.tolist() == [0.15, 0.4, 0.7, 0.95, 1.0]
    assert blade.chord_m[:2] == pytest.approx([0.015, 0.02])
    assert np.rad2deg(blade.pitch_angle_rad[2]) == pytest.approx(16.0)
    assert blade.thickness_ratio[-1] == 0.06
    assert blade.hub_r_R == 0.15


def test_csv_may_lack_thickness_and_carry_notes_and_blank_lines():
    text = "\ufeff# measured at home\n\n" + "\n".join(
        line.rsplit(",", 1)[0] for line in CSV.splitlines()
    )
    blade = blade_from_csv(text, 0.2, 2)
    assert (np.diff(blade.thickness_ratio) <= 0.0).all()


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", r"g\.csv:1: a header must name the columns r_R, c_R, beta_deg, got nothing"),
        (
            CSV.replace("beta_deg", "betadeg"),
            r"g\.csv:1: column must be known, got 'betadeg'; did you mean 'beta_deg'\?",
        ),
        (CSV.replace(",t_c", ",r_R", 1), r"g\.csv:1: column r_R must be there once, got 2"),
        (
            CSV.replace("0.4,0.2", "0.4,wide"),
            r"g\.csv:3: c_R must be a number 0\.0001 to 1, got 'wide'",
        ),
        (CSV.replace(",16,", ",nan,"), r"g\.csv:4: beta_deg must be a number -90 to 90, got 'nan'"),
        (
            CSV.replace("0.7,", "0.3,"),
            r"g\.csv:4: r_R must rise from row to row, got 0\.3 after 0\.4",
        ),
        (CSV.replace("0.4,0.2,25,0.1", "0.4,0.2"), r"g\.csv:3: row must have 4 values, got 2"),
        ("\n".join(CSV.splitlines()[:4]), r"g\.csv:4: 4 or more stations must be given, got 3"),
    ],
)
def test_csv_refusals_name_line_column_rule_and_value(text, message):
    with pytest.raises(InputError, match=message):
        blade_from_csv(text, 0.2, 2, file="g.csv")


def test_csv_reports_all_wrong_values_at_once():
    with pytest.raises(InputError) as caught:
        blade_from_csv(CSV.replace("0.15,0.15", "0.15,x").replace(",12,", ",120,"), 0.2, 2)
    assert len(caught.value.message.splitlines()) == 2


def test_table_refusals():
    r, c, b = [0.2, 0.4, 0.7, 0.9], [0.1] * 4, [0.3] * 4
    with pytest.raises(InputError, match=r"r_R must rise, got 0\.4 after 0\.4"):
        blade_from_table([0.2, 0.4, 0.4, 0.9], c, b, 0.2, 2)
    with pytest.raises(InputError, match=r"columns must be of one length"):
        blade_from_table(r, c[:3], b, 0.2, 2)
    with pytest.raises(InputError, match=r"section must be a known family, got 'plank'"):
        blade_from_table(r, c, b, 0.2, 2, section="plank")


def test_equal_blades_are_equal():
    a, b = (blade_from_style(0.127, 0.1, 3, "wide") for _ in range(2))
    assert a == b
    assert hash(a) == hash(b)
    assert a != blade_from_style(0.127, 0.1, 2, "wide")
    assert a != "blade"
