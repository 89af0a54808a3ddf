"""Goldstein's tip loss: the velocities it is made from, its limits, and the shipped polynomials.

Against the law of Biot and Savart, integrated along the helices themselves; against Prandtl's
factor (in W. F. Durand, *Aerodynamic Theory*, vol. IV, 1935), which is exact where the sheets of
the wake lie close together; against momentum theory for many blades; against Betz's condition.
"""

import importlib.util
from pathlib import Path

import numpy as np
import pytest

from slipfit.errors import InputError
from slipfit.physics.tip_loss import STEEPEST_SINE, goldstein_over_prandtl

ROOT = Path(__file__).resolve().parents[2]
spec = importlib.util.spec_from_file_location("make_tip_loss", ROOT / "tools/make_tip_loss.py")
made = importlib.util.module_from_spec(spec)
spec.loader.exec_module(made)


def biot_savart(blades, at, start, advance, turns=80):
    """Axial and tangential velocity at (at, 0, 0), by helices of circulation 1 from `start`."""
    angle = np.linspace(0.0, 2 * np.pi * turns, turns * 4000 + 1)
    axial = tangential = 0.0
    for k in range(blades):
        place = angle + 2 * np.pi * k / blades
        x, y, z = start * np.cos(place), start * np.sin(place), advance * angle
        along = np.array([-start * np.sin(place), start * np.cos(place), np.full_like(z, advance)])
        arm = np.array([at - x, -y, -z])
        field = np.cross(along, arm, axis=0) / np.sum(arm**2, axis=0) ** 1.5 / (4 * np.pi)
        axial += np.trapezoid(field[2], angle)
        tangential += np.trapezoid(field[1], angle)
        axial += start**2 / (2 * advance**3 * angle[-1] ** 2) / (4 * np.pi)  # beyond the last turn
    return abs(axial), abs(tangential)


@pytest.mark.parametrize("blades", [2, 3, 4])
@pytest.mark.parametrize("advance", [0.15, 0.4, 1.0])
@pytest.mark.parametrize(("at", "start"), [(0.4, 0.7), (0.65, 0.7), (0.75, 0.7), (0.9, 0.7)])
def test_velocity_of_helices_follows_biot_and_savart(blades, advance, at, start):
    """Wrench's closed form is an asymptotic one: held to 1 % of the greater component."""
    closed = np.abs(made.induced_by_helices(blades, np.array(at), np.array(start), advance))
    direct = np.array(biot_savart(blades, at, start, advance))
    print(f"\n{blades} blades, {advance}: closed {closed.round(4)}, integral {direct.round(4)}")
    assert closed == pytest.approx(direct, abs=0.01 * direct.max())


def test_the_circulation_of_many_blades_is_betzs():
    at, factor = made.goldstein(80, 0.25)
    inside = at < 0.9
    assert factor[inside] == pytest.approx(1.0, abs=0.005)


@pytest.mark.parametrize("blades", [2, 3, 4])
def test_small_advance_ratios_give_prandtls_factor(blades):
    advance = 0.04
    at, factor = made.goldstein(blades, advance)
    inside = (at > 0.3) & (at < 0.97)
    prandtl = made.prandtl(blades, at, advance / np.hypot(advance, at))
    assert factor[inside] == pytest.approx(prandtl[inside], rel=0.02)


def test_the_sheets_of_the_wake_move_back_as_a_screw():
    """Betz's condition was asked of the axial velocity; the tangential one must then follow."""
    at, factor = made.goldstein(2, 0.3)
    ends, _ = made.steps()
    _, tangential = made.induced_by_helices(2, at[:, None], ends[None, :], 0.3)
    wanted = 0.5 * 0.3 * at / (0.3**2 + at**2)
    circulation = factor * 4 * np.pi * at * wanted / 2
    found = (tangential[:, 1:] - tangential[:, :-1]) @ circulation
    assert np.abs(found)[2:-2] == pytest.approx(wanted[2:-2], rel=1e-3)


@pytest.mark.parametrize("blades", [2, 3, 6])
def test_the_shipped_polynomials_meet_what_is_computed(blades):
    for r_R, (sine, ratio) in zip(made.R_R, made.ratios(blades), strict=True):
        powers = goldstein_over_prandtl(blades, r_R)
        error = np.abs(np.polyval(powers[::-1], sine) - ratio).max()
        assert sine.max() > 0.9 * STEEPEST_SINE
        assert error <= (0.011 if r_R < 0.15 else 0.005)
    middle = goldstein_over_prandtl(blades, [0.5, 0.525, 0.55])
    assert middle[1] == pytest.approx(0.5 * (middle[0] + middle[2]))


def test_a_blade_count_without_a_table_is_refused():
    with pytest.raises(InputError, match="1 to 8, got 9"):
        goldstein_over_prandtl(9, 0.5)
