"""Published values: ISO metric threads, loads of ISO 898-1, stripping, torque
(tests/data/fastener_*.csv)."""

from __future__ import annotations

import pytest

from published import printed
from slipfit.physics import fastener as f
from tables import rows

THREADS = rows("fastener_threads_iso.csv")
LOADS = rows("fastener_strength_torque.csv")
STRIPS = rows("fastener_thread_strip.csv")
# The names of the tapped materials in the table, and ours.
MATERIALS = {
    "aluminium_6061_T6": "aluminium", "aluminium_7075_T6": "hard aluminium",
    "steel_Rm400": "steel nut", "POM": "POM", "PA_printed": "printed PA",
    "PETG_printed": "printed PETG", "PLA_printed": "printed PLA",
}  # fmt: skip


def by_thread(row):
    return row["thread"]


def rounded(text):
    """Half a unit of the last digit that is not a zero: the standard rounds to tens or hundreds."""
    return 0.5 * 10 ** (len(text) - len(text.rstrip("0")))


@pytest.mark.parametrize("row", THREADS, ids=by_thread)
def test_thread_profile_matches_iso_68_1(row):
    d, P = float(row["d"]) * 1e-3, float(row["pitch"]) * 1e-3
    thread = f.thread_of(row["thread"])
    assert thread.diameter_m * 1e3 == printed(row["d"])
    assert thread.pitch_m * 1e3 == printed(row["pitch"])
    assert f.thread_pitch_diameter(d, P) * 1e3 == printed(row["d2_basic"])
    assert f.thread_minor_diameter(d, P) * 1e3 == printed(row["D1_basic"])
    assert f.thread_root_diameter(d, P) * 1e3 == printed(row["d3_basic"])
    assert f.thread_stress_area(d, P) * 1e6 == printed(row["As_mm2"])


@pytest.mark.parametrize("row", THREADS, ids=by_thread)
def test_clearance_holes_match_iso_273(row):
    thread = f.thread_of(row["thread"])
    assert thread.clearance_fine_m * 1e3 == printed(row["clr_fine"])
    assert thread.clearance_medium_m * 1e3 == printed(row["clr_medium"])
    assert thread.clearance_coarse_m * 1e3 == printed(row["clr_coarse"])


@pytest.mark.parametrize("row", THREADS, ids=by_thread)
def test_shear_areas_match_the_standard_s_formulas_at_worst_sizes(row):
    t = f.thread_of(row["thread"])
    nut = f.nut_shear_area(t.pitch_m, t.screw_major_min_m, t.nut_pitch_max_m, 1e-3)
    screw = f.screw_shear_area(t.pitch_m, t.nut_minor_max_m, t.screw_pitch_min_m, 1e-3)
    assert nut * 1e6 == printed(row["An_internal_shear_mm2_per_mm"])
    assert screw * 1e6 == printed(row["As_external_shear_mm2_per_mm"])
    area = f.thread_stress_area(t.diameter_m, t.pitch_m)
    assert f.engagement_same_strength(area, screw / 1e-3) * 1e3 == printed(
        row["Le_same_strength_mm"]
    )


@pytest.mark.parametrize("row", LOADS, ids=lambda r: f"{r['thread']} {r['class'].split()[0]}")
def test_loads_and_torques_match_iso_898_1(row):
    t, strength = f.thread_of(row["thread"]), f.STRENGTHS[row["class"].split()[0]]
    area = f.thread_stress_area(t.diameter_m, t.pitch_m)
    proof, breaks = f.proof_load(area, strength.proof_Pa), f.proof_load(area, strength.tensile_Pa)
    assert strength.proof_Pa / 1e6 == printed(row["Sp_MPa"])
    assert strength.tensile_Pa / 1e6 == printed(row["Rm_min_MPa"])
    assert proof == printed(row["proof_N_computed"])
    assert breaks == printed(row["Fu_N_computed"])
    if seen := row["proof_N_ISO898-1_seen"]:
        assert proof == printed(seen, ulps=rounded(seen))
    if seen := row["Fu_N_ISO898-1_seen"]:
        assert breaks == printed(seen, ulps=rounded(seen))
    assert 0.75 * proof == printed(row["preload_75pct_N"])
    for K in ("0.20", "0.15"):
        torque = f.tightening_torque(float(K), 0.75 * proof, t.diameter_m)
        assert torque == printed(row[f"T_K{K}_Nm"])


@pytest.mark.parametrize("row", STRIPS, ids=lambda r: f"{r['thread']} {r['tapped_material']}")
def test_stripping_matches_the_table(row):
    t, hold = f.thread_of(row["thread"]), f.HOLDS[MATERIALS[row["tapped_material"]]]
    per_mm = f.nut_shear_area(t.pitch_m, t.screw_major_min_m, t.nut_pitch_max_m, 1e-3)
    force = f.strip_force(per_mm, hold.shear_Pa)
    assert hold.shear_Pa / 1e6 == printed(row["shear_MPa_(memory)"])
    assert force == printed(row["strip_N_per_mm_engagement"])
    assert 3 * force == printed(row["strip_N_at_3mm"])
    screw = f.proof_load(f.thread_stress_area(t.diameter_m, t.pitch_m), 800e6)
    assert screw / force == printed(row["Le_mm_to_break_8.8_screw"])
    half = 0.5 * force * 1.5 * t.diameter_m * 1e3
    assert f.tightening_torque(0.2, half, t.diameter_m) == printed(
        row["T_Nm_at_50pct_strip_Le1.5d_K0.2"]
    )


@pytest.mark.parametrize(
    ("condition", "ours"),
    [("dry steel", "dry"), ("machine oil on steel", "oiled"), ("zinc", "zinc"),
     ("302 on 302 stainless", "stainless")],
)  # fmt: skip
def test_ranges_of_the_nut_factor_match_the_supplier_s_table(condition, ours):
    (row,) = rows("fastener_nut_factor.csv", condition=condition)
    low, high = row["K"].split("-")
    friction = f.FRICTIONS[ours]
    assert (friction.low, friction.high) == (printed(low), printed(high))
    assert friction.low < friction.usual < friction.high


def test_usual_nut_factors_match_the_service_manual_s_rules():
    for condition, ours in (("dry rule", "dry"), ("lubricated rule", "oiled")):
        (row,) = rows("fastener_nut_factor.csv", condition=condition)
        assert f.FRICTIONS[ours].usual == printed(row["K"])
