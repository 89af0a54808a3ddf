"""Blade sections: joints, limits, Mach number, and the shipped table against its script."""

import importlib.util
import json
from pathlib import Path

import numpy as np
import pytest

from slipfit import data
from slipfit.errors import InputError
from slipfit.physics.polar import Station, polar_at, section_coefficients
from slipfit.physics.section import (
    ALPHA_RAD,
    lift_slope_factor,
    section_names,
    section_table,
    separated_drag,
    separation_point_kirchhoff,
    viterna_drag,
    viterna_lift,
    wave_drag,
)

ROOT = Path(__file__).parents[2]
MANY = np.deg2rad(np.linspace(-179.9, 179.9, 2001))


@pytest.mark.parametrize("name", section_names())
def test_lift_and_drag_cover_the_circle(name):
    table = section_table(name)
    shape = (len(table.thickness_ratio), len(table.reynolds), len(ALPHA_RAD))
    assert table.lift.shape == table.drag.shape == shape
    assert np.isfinite(table.lift).all()
    assert (table.drag > 0.0).all()
    assert (np.abs(table.lift) < 2.6).all()
    assert table.reynolds[0] == pytest.approx(1e4)
    assert table.reynolds[-1] == pytest.approx(1e6)
    assert (np.diff(table.reynolds) > 0.0).all()
    square = table.drag[..., [90, 270]]  # a plate of finite length square to the flow
    assert (square > 1.1).all()
    assert (square < 1.4).all()


@pytest.mark.parametrize("name", section_names())
def test_coefficients_are_continuous_over_the_circle(name):
    cl, cd = section_coefficients(name, MANY, 8e4, float(section_table(name).thickness_ratio[0]))
    assert np.abs(np.diff(cl)).max() < 0.06
    assert np.abs(np.diff(cd)).max() < 0.05


def test_symmetric_sections_are_symmetric():
    cl, cd = section_coefficients("naca-0012", MANY, 2e5, 0.12)
    assert cl == pytest.approx(-cl[::-1], abs=0.03)
    assert cd == pytest.approx(cd[::-1], abs=0.03)


def test_camber_moves_zero_lift_and_thickness_costs_drag():
    zero = [
        np.rad2deg(
            float(polar_at(n, np.array([0.08]), np.zeros(1), np.zeros(1)).zero_lift_rad[0, -3])
        )
        for n in ("cambered-3", "cambered-5")
    ]
    assert -4.5 < zero[0] < -2.0
    assert -6.5 < zero[1] < zero[0] - 1.0
    drag = [section_coefficients("cambered-3", 0.0, 5e5, t)[1] for t in (0.06, 0.10, 0.14)]
    assert drag[0] < drag[1] < drag[2]


def test_lift_slope_is_that_of_wind_tunnels():
    """0.1025 a degree at a million: the fit to many tunnels of W. J. McCroskey, NASA TM 100019
    (1987); from memory. Thin-section theory has 0.110."""
    cl, _ = section_coefficients("naca-0012", np.deg2rad([-2.0, 2.0]), 1e6, 0.12)
    assert np.diff(cl)[0] / 4.0 == pytest.approx(0.1025, rel=0.05)


def test_viterna_meets_its_joint_and_the_plate():
    a = np.deg2rad(np.array([15.0, 40.0, 90.0]))
    cl, cd = viterna_lift(a, a[0], 1.05, 1.25), viterna_drag(a, a[0], 0.08, 1.25)
    assert cl[[0, 2]] == pytest.approx([1.05, 0.0])
    assert cd[[0, 2]] == pytest.approx([0.08, 1.25])


def test_separated_drag_leaves_attached_flow_alone():
    a = np.deg2rad(np.array([5.0, 11.9]))
    assert (
        separated_drag(np.full(2, 0.01), np.ones(2), a, np.array([1.0, 0.7])).tolist() == [0.01] * 2
    )


def test_attached_share_falls_from_one_to_none_through_the_stall():
    x = np.deg2rad(np.array([2.0, 8.0, 30.0]))
    cl = 2 * np.pi * np.sin(x) * np.array([1.0, 0.85, 0.2])
    attached = separation_point_kirchhoff(cl, x)
    assert attached[0] == pytest.approx(1.0)
    assert 0.6 < attached[1] < 0.8
    assert attached[2] == 0.0


@pytest.mark.parametrize("thickness", [0.06, 0.10])
def test_stall_angle_is_near_greatest_lift(thickness):
    polar = polar_at("cambered-3", np.array([thickness]), np.zeros(1), np.zeros(1), False)
    alpha = np.arange(0.0, 24.0, 0.25)
    cl, _ = section_coefficients("cambered-3", np.deg2rad(alpha), 1e5, thickness)
    stall = np.rad2deg(np.interp(5.0, polar.log10_reynolds, polar.stall_rad[0]))
    first = alpha[4:-1][np.argmax(np.diff(cl[4:]) < 0.0)]
    assert stall == pytest.approx(first, abs=2.5)


def test_lift_slope_rises_with_mach_and_falls_past_divergence():
    mach = np.linspace(0.0, 1.0, 101)
    factor = np.asarray(lift_slope_factor(mach, 0.8))
    assert factor[0] == 1.0
    assert factor[30] == pytest.approx(1 / np.sqrt(1 - 0.3**2), rel=1e-3)
    peak = mach[int(np.argmax(factor))]
    assert 0.75 < peak < 0.85
    assert factor[-1] < 1.2


def test_wave_drag_starts_at_the_critical_mach_number():
    critical = 0.75 - (0.1 / 80) ** (1 / 3)
    assert wave_drag(critical - 1e-9, 0.75) == 0.0
    assert wave_drag(critical + 1e-3, 0.75) > 0.0
    slope = (wave_drag(0.7501, 0.75) - wave_drag(0.7499, 0.75)) / 2e-4
    assert slope == pytest.approx(0.1, rel=1e-3)  # what defines drag divergence


def test_mach_number_raises_lift_and_then_drag():
    cl, cd = section_coefficients(
        "cambered-3", np.deg2rad(2.0), 5e5, 0.06, np.array([0.1, 0.6, 0.9])
    )
    assert cl[1] > 1.15 * cl[0]
    assert cl[2] < cl[1]
    assert cd[1] < 1.35 * cd[0]  # there is more lift
    assert cd[2] > 3.0 * cd[0]


def test_lookup_slope_is_the_derivative():
    polar = polar_at("sda1075", np.array([0.12]), np.array([0.2]), np.array([0.3]))
    alpha = np.deg2rad(np.linspace(-30.0, 40.0, 57))
    station = Station(polar, np.zeros(57, dtype=np.intp), np.full(57, 7e4), np.full(57, 0.5))
    station.compress(np.full(57, 0.4))
    h = 1e-6
    difference = (station.lift(alpha + h)[0] - station.lift(alpha - h)[0]) / (2 * h)
    assert station.lift(alpha)[1] == pytest.approx(difference, rel=1e-4, abs=1e-4)


def test_unknown_family_names_the_nearest():
    with pytest.raises(InputError, match=r"got 'clark-x'; did you mean 'clark-y'\?"):
        section_table("clark-x")


def test_table_without_header_is_refused(monkeypatch, tmp_path):
    path = tmp_path / "bare.npz"
    np.savez(path, header=np.array(json.dumps({"source": "x", "made": "y"})), cl=np.zeros(3))
    monkeypatch.setattr(data, "_content", lambda file: path.read_bytes())
    with pytest.raises(
        InputError, match=r"bare\.npz must say its licence .*, got \['made', 'source'\]"
    ):
        data.table_from_npz("bare")
    monkeypatch.setattr(data, "_content", lambda file: b"# source: x\na,b\n1,2\n")
    with pytest.raises(InputError, match=r"bare\.csv must say its licence"):
        data.table_from_csv("bare")


def test_csv_table_gives_numbers_and_text(monkeypatch):
    text = b"# source: s\n# licence: l\n# made: m\na,b\n1.5,x\n,y\n"
    monkeypatch.setattr(data, "_content", lambda file: text)
    table = data.table_from_csv("any")
    assert table.header["made"] == "m"
    assert table.columns["a"][0] == 1.5
    assert np.isnan(table.columns["a"][1])
    assert table.columns["b"].tolist() == ["x", "y"]


def test_shipped_table_is_small_and_says_how_it_was_made():
    table = data.table_from_npz("sections")
    assert "tools/make_sections.py" in table.header["made"]
    assert "n_crit 4" in table.header["made"]
    assert (Path(data.__file__).parent / "sections.npz").stat().st_size < 300_000


def test_script_makes_the_shipped_table_again():
    pytest.importorskip("neuralfoil")
    spec = importlib.util.spec_from_file_location("make_sections", ROOT / "tools/make_sections.py")
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    shipped = data.table_from_npz("sections").columns
    shapes = tool.families()
    for name, k in (("cambered-3", 2), ("clark-y", 3), ("sda1075", 0)):
        cl, cd = tool.polar(shapes[name][1][k])
        assert shipped[f"{name}/cl"][k] == pytest.approx(cl, abs=2e-4)
        assert shipped[f"{name}/cd"][k] == pytest.approx(cd, abs=2e-5)
