"""Published values: momentum theory of the disk, and the gradient of Pitt and Peters.

One annulus with tip loss, the rotor's constant for hover and profile drag switched off is the
uniform disk of the theory: its thrust must induce exactly what the theory says, whatever the blades
do to make it.
"""

import numpy as np
import pytest

from published import printed
from rotors import SEA_AIR, numbers
from slipfit.physics import rotor
from slipfit.physics.blade import blade_from_style
from slipfit.physics.polar import Station
from slipfit.physics.rotor import inflow_gradient_pitt_peters, rotor_loads
from tables import rows


@pytest.fixture
def ideal(monkeypatch):
    """A rotor of one annulus without losses: (speed ratio, incidence) -> induced over hover's."""
    monkeypatch.setattr(rotor, "_HOVER_DEFICIT", 0.0)
    monkeypatch.setattr(rotor, "_loss", lambda a, s, c: (np.ones_like(s), np.zeros_like(s)))
    monkeypatch.setattr(Station, "drag", lambda self, alpha, cl: np.zeros_like(cl))
    blade = blade_from_style(0.2, 0.12, 3, "plain")
    x = blade.hub_r_R + 0.5 * (1 - blade.hub_r_R)
    ring = 2 * np.pi * x * (1 - blade.hub_r_R) * blade.radius_m**2

    def ratio(speed_ratio, axial_share, inplane_share, start=8.0):
        speed = speed_ratio * start
        for _ in range(200):
            loads = rotor_loads(
                blade, 900.0, axial_share * speed, inplane_share * speed, SEA_AIR, annuli=1
            )
            hover = np.sqrt(np.abs(loads.thrust_N) / (2 * SEA_AIR.density_kg_m3 * ring))
            speed = 0.5 * (speed + speed_ratio * hover)
        assert (loads.thrust_N > 0.0).all()
        return loads.induced_speed_m_s / hover

    return ratio


def test_induced_speed_matches_momentum_theory_edgewise_and_in_climb(ideal):
    columns = ("vi/vh edgewise (alpha=0)", "vi/vh axial climb")
    table = [row for row in rows("rotor_momentum_universal.csv") if float(row["V/vh"]) <= 2]
    speed = numbers(table, "V/vh")[0]
    for column, axial, inplane in zip(columns, (0.0, 1.0), (1.0, 0.0), strict=True):
        ours = ideal(speed, axial, inplane)
        for value, row in zip(ours, table, strict=True):
            assert value == printed(row[column], ulps=2)  # the solver ends within a digit


def test_induced_speed_matches_glauert_in_oblique_flow(ideal):
    table = [r for r in rows("rotor_glauert_inflow.csv") if float(r["lambda_total"]) < 0.09]
    CT, mu, angle = numbers(table, "CT", "V/(OmegaR)", "disk_incidence_deg(90=axial climb)")
    angle = np.deg2rad(angle)
    ours = ideal(mu / np.sqrt(CT / 2), np.sin(angle), np.cos(angle))
    for value, row in zip(ours, table, strict=True):
        assert value == printed(row["vi_over_vh"], ulps=2)


@pytest.mark.parametrize("row", rows("rotor_inflow_gradient.csv"), ids=lambda r: r["chi_deg"])
def test_inflow_gradient_matches_pitt_and_peters(row):
    column = "Pitt-Peters kx=15pi/32*tan(chi/2)"
    ours = inflow_gradient_pitt_peters(np.deg2rad(float(row["chi_deg"])))
    assert ours == printed(row[column] if row["chi_deg"] != "0" else "0.000000")


@pytest.mark.parametrize("row", rows("rotor_pitt_peters_L.csv"), ids=lambda r: r["chi_deg"])
def test_inflow_gradient_is_the_ratio_of_the_pitt_peters_matrix(row):
    ours = inflow_gradient_pitt_peters(np.deg2rad(float(row["chi_deg"])))
    assert ours * float(row["L11"]) == pytest.approx(float(row["L31"]), abs=5e-7)
