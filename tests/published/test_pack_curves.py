"""Published values: open-circuit voltage and resistance of two parameter sets (tests/data/pack_*).

Flag: computed with a porous-electrode model from the published sets Ai2020 and Marquis2019.
"""

from __future__ import annotations

import numpy as np
import pytest

from published import printed
from slipfit.physics import pack
from tables import rows

OCV = rows("pack_ocv_soc.csv", param_set="Ai2020")
RATIO = rows("pack_resistance_ratio.csv")
KNOTS = {str(charge) for charge, _ in pack._OCV}


@pytest.mark.parametrize("row", [r for r in OCV if r["SoC_pct"] in KNOTS])
def test_cell_ocv_matches_ai2020_at_its_knots(row):
    assert pack.cell_ocv(float(row["SoC_pct"]) / 100) == printed(row["OCV_V"])


def test_cell_ocv_follows_ai2020_between_knots():
    charge, voltage = (np.array([float(r[c]) for r in OCV]) for c in ("SoC_pct", "OCV_V"))
    # 31 of 101 rows are knots; the rest must lie within what the docstring promises
    assert np.abs(pack.cell_ocv(charge / 100) - voltage).max() <= 1.2e-3


def test_cell_resistance_ratio_fits_marquis2019_in_the_cold():
    cold = [r for r in RATIO if r["param_set"] == "Marquis2019" and float(r["T_C"]) < 25.0]
    T = np.array([float(r["T_C"]) + 273.15 for r in cold])
    theirs = np.array([float(r["R10s_ratio_to_25C"]) for r in cold])
    residual = np.log(pack.cell_resistance_ratio(T) / theirs)
    assert np.sqrt(np.mean(residual**2)) <= 0.065  # scatter over charge alone is 0.05


@pytest.mark.parametrize("T_C", ["-10", "0", "10", "40", "55"])
def test_cell_resistance_ratio_lies_between_the_two_sets(T_C):
    at = [float(r["R10s_ratio_to_25C"]) for r in RATIO if r["T_C"] == T_C]
    assert min(at) < pack.cell_resistance_ratio(float(T_C) + 273.15) < max(at)


@pytest.mark.parametrize("percent", ["10", "20", "80", "90", "95"])
def test_cell_resistance_over_charge_is_the_mean_of_both_sets(percent):
    ratios = []
    for name in ("Ai2020", "Marquis2019"):
        at = {
            r["SoC_pct"]: float(r["R1s_x_Q_mohmAh"])
            for r in rows("pack_resistance_ratio.csv", param_set=name, T_C="25")
        }
        ratios.append(at[percent] / at["50"])
    assert pack.cell_resistance_ratio(298.15, float(percent) / 100) == pytest.approx(
        np.mean(ratios), abs=0.003
    )


def test_polarisation_grows_as_the_ten_second_pulse_of_ai2020():
    row = rows("pack_resistance_ratio.csv", param_set="Ai2020", T_C="25", SoC_pct="50")[0]
    theirs = float(row["R10s_x_Q_mohmAh"]) / float(row["R1s_x_Q_mohmAh"])
    v1, v10 = (pack.polarisation_voltage(0.0, 1.0, 1.0, t) for t in (1.0, 10.0))
    assert 1.0 + v10 - v1 == pytest.approx(theirs, abs=0.02)  # one element stands for diffusion


def test_full_cell_voltages_match_pack_limits():
    limits = {r["item"]: r["value"] for r in rows("pack_limits.csv")}
    assert pack.cell_ocv(1.0) == pytest.approx(float(limits["full charge"]))
    high = float(limits["full charge, high-voltage LiPo"])  # flag: memory
    assert pack.cell_ocv(1.0, high) == pytest.approx(high, abs=1e-6)
