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


# --- age (tests/data/pack_age.csv; the law seen in two programs, the rest weaker) ----------------

AGE = {r["item"]: float(r["value"]) for r in rows("pack_age.csv")}


@pytest.mark.parametrize(
    ("cycles", "depth", "volts"), [(80, 1.0, 3.7), (400, 0.8, 3.85), (900, 0.5, 4.0)]
)
def test_cycles_follow_the_published_law(cycles, depth, volts):
    moved = 2 * AGE["capacity of the law's cell"] * depth * cycles
    found = {}
    for what in ("fade of capacity", "growth of resistance"):
        at = {k.removeprefix(f"{what}: "): v for k, v in AGE.items() if k.startswith(what)}
        square, best, flat, deep = at.values()
        found[what] = square * (volts - best) ** 2 + flat + deep * depth
    assert pack.cycled_capacity(cycles, depth, volts) == pytest.approx(
        1 - found["fade of capacity"] * np.sqrt(moved), rel=1e-12
    )
    assert pack.cycled_resistance(cycles, depth, volts) == pytest.approx(
        1 + found["growth of resistance"] * moved, rel=1e-12
    )


def test_cells_of_the_law_pass_the_standards_endurance_test_and_not_by_far():
    cycles = AGE["cycles of the accelerated endurance test"]
    kept = pack.cycled_capacity(cycles, 1.0, 3.7)
    assert AGE["least capacity after the accelerated endurance test"] / 100 <= kept <= 0.85
    early = pack.cycled_capacity(cycles / 5, 1.0, 3.7)
    assert AGE["least capacity in the first fifth of it for conditional approval"] / 100 <= early


def test_a_fifth_is_gone_after_as_many_flights_as_people_count():
    low, high = (
        AGE[f"flights of small multirotors at high current to 80 % of capacity, {end}"]
        for end in ("from", "to")
    )
    few, many = (pack.cycled_capacity(pack.CYCLES_OF_A_FLIGHT * n) for n in (low, high))
    assert many < 0.8 < few
    middle = pack.cycled_capacity(pack.CYCLES_OF_A_FLIGHT * 0.5 * (low + high))
    assert middle == pytest.approx(0.8, abs=0.002)


def test_spread_of_age_holds_careful_flying_but_not_the_greatest_current_throughout():
    def loss(cycles: float) -> float:
        return 1 - float(pack.cycled_capacity(pack.CYCLES_OF_A_FLIGHT * AGE[cycles]))

    most = (1 + pack.AGE_SPREAD) * loss("cycles to 80 % at the greatest current throughout")
    least = (1 - pack.AGE_SPREAD) * loss("cycles to 80 % at half of it with short bursts")
    assert (
        least < 0.2 < (1 + pack.AGE_SPREAD) * loss("cycles to 80 % at half of it with short bursts")
    )
    assert most < 0.2  # such flying is outside, as the page on packs says


def test_a_year_in_storage_takes_less_than_the_spread_of_150_flights():
    def law(what: str, volts: float, kelvin: float) -> float:
        slope, flat, heat = (
            AGE[f"storage, {what}: {term}"]
            for term in ("factor of the voltage", "constant", "activation")
        )
        return (slope * volts + flat) * np.exp(-heat / kelvin) * 365**0.75

    assert law("capacity", 3.85, 293.15) == pytest.approx(0.020, abs=0.001)
    assert law("resistance", 3.85, 293.15) == pytest.approx(0.045, abs=0.001)
    assert law("capacity", 4.2, 298.15) == pytest.approx(0.046, abs=0.001)
    fade = 1 - pack.cycled_capacity(pack.CYCLES_OF_A_FLIGHT * 150)
    assert law("capacity", 3.85, 293.15) < pack.AGE_SPREAD * fade
