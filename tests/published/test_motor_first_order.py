"""Published values: first-order motor model, copper, magnets (tests/data/electric_drive.csv).

Flag of the MOT rows: computed from M. Drela's equations for a synthetic motor.
"""

from __future__ import annotations

import numpy as np
import pytest

from published import printed
from slipfit.physics import motor
from tables import figures, rows

F = figures("electric_drive.csv")
RPM = np.pi / 30.0
KV, R, I0, V, AMPS = 1950 * RPM, 0.050, 1.5, 22.2, 40.0
STATE = motor.motor_from_supply(V, AMPS, KV, R, I0)


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("MOT-KT", motor.torque_constant(KV)),
        ("MOT-RPM", float(STATE.omega_rad_s) / RPM),
        ("MOT-Q", float(STATE.torque_Nm)),
        ("MOT-PSH", float(STATE.shaft_power_W)),
        ("MOT-PEL", float(STATE.electrical_power_W)),
        ("MOT-ETA", float(STATE.efficiency)),
        ("MOT-IOPT", motor.best_efficiency_current(V, R, I0)),
        ("MOT-ETAMAX", motor.best_efficiency(V, R, I0)),
    ],
)
def test_motor_matches_drela_first_order_example(figure, value):
    assert value == printed(F[figure])


HOT_R = motor.winding_resistance(R, 373.15)
HOT_KV = motor.hot_kv(KV, 353.15)
HOT = motor.motor_from_supply(V, AMPS, HOT_KV, HOT_R, I0)


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("MOT2-R", HOT_R),
        ("MOT2-KV", HOT_KV / RPM),
        ("MOT2-RPM", float(HOT.omega_rad_s) / RPM),
        ("MOT2-Q", float(HOT.torque_Nm)),
        ("MOT2-ETA", float(HOT.efficiency)),
        ("ESC-FE", motor.electrical_frequency(39_390 * RPM, 14)),
    ],
)
def test_hot_motor_matches_drela_first_order_example(figure, value):
    assert value == printed(F[figure])


def test_torque_lag_matches_drela_second_order_example():
    # formula of the reference from memory; tau = 2 us at the first-order speed
    omega = 39_390 * RPM
    extra = motor.back_emf(omega, KV, 2e-6) - motor.back_emf(omega, KV)
    assert extra == printed(F["MOT2-LAG"])


@pytest.mark.parametrize("row", rows("motor_copper_resistance.csv"))
def test_winding_resistance_matches_iec_60028_table(row):
    T = float(row["T_C"]) + 273.15
    assert motor.winding_resistance(1.0, T) == printed(row["R_over_R20_alpha_0.00393"])
    # the (235 + t) rule of IEC 60034 is another rounding of the same copper
    rule = float(row["R_over_R20_IEC60034_235rule"])
    assert motor.winding_resistance(1.0, T) == pytest.approx(rule, rel=0.002)


def test_insulation_classes_match_iec_60085():
    table = {r["IEC60085_class"]: float(r["max_C"]) for r in rows("motor_insulation_classes.csv")}
    assert {k: T - 273.15 for k, T in motor.INSULATION_CLASSES.items()} == pytest.approx(
        {k: table[k] for k in motor.INSULATION_CLASSES}
    )
    assert set(table) - set(motor.INSULATION_CLASSES) == {"250"}


def test_magnet_grades_match_makers_tables():
    table = {
        r["suffix"].removeprefix("(none)"): float(r["max_working_C"])
        for r in rows("motor_magnet_grades.csv")
    }
    assert {k: T - 273.15 for k, T in motor.MAGNET_GRADES.items()} == pytest.approx(table)
    coefficient = float(rows("motor_magnet_grades.csv")[0]["alpha_Br_pct_per_K"])
    assert motor.REMANENCE_COEFFICIENT_PER_K == pytest.approx(coefficient / 100)
