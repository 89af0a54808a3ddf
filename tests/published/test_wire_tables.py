"""Published values: wire gauges, rated currents, temperature rise, connector classes."""

from __future__ import annotations

import pytest

from published import printed
from slipfit.physics import connector, wire
from tables import figures, rows

AWG = rows("wire_awg.csv")


@pytest.mark.parametrize("row", AWG)
def test_awg_geometry_matches_astm_b258_table(row):
    n = float(row["AWG"])
    assert wire.awg_diameter(n) * 1e3 == printed(row["d_mm"])
    assert wire.awg_area(n) * 1e6 == printed(row["area_mm2"])


@pytest.mark.parametrize("row", AWG)
def test_awg_resistance_matches_table(row):
    r = wire.awg_resistance(float(row["AWG"])) * 1e3
    assert r == printed(row["R20_ohm_per_km_solid"])
    if row["R20_seen_table_ohm_per_km"]:
        # a printed table of another source; its resistivity is rounded to 1.723e-8 ohm m
        assert r == pytest.approx(float(row["R20_seen_table_ohm_per_km"]), rel=7e-4)


def test_temperature_rise_matches_worked_example():
    heat = wire.wire_temperature_rise(30.0, 12, 0.0045, 15.0)
    assert float(heat.rise_K) == printed(figures("electric_drive.csv")["WIRE-RISE"])


@pytest.mark.parametrize("row", rows("wire_ac4313_1b.csv"))
def test_rated_current_matches_ac_43_13_1b(row):
    n = float(row["AWG"])
    for column, limit in (("I_105C_A", 378.15), ("I_150C_A", 423.15), ("I_200C_A", 473.15)):
        assert wire.rated_current_ac4313(n, limit) == printed(row[column])


@pytest.mark.parametrize("row", rows("wire_mil_w_5088b.csv"))
def test_rated_current_matches_mil_w_5088b(row):
    rated = wire.rated_current_mil5088(float(row["AWG"]))
    assert rated == printed(row["A_105C_conductor_50C_ambient"])


def test_connector_classes_match_table():
    # flag: memory
    table = {
        float(r["pin_dia_mm"]): (float(r["continuous_A"]), float(r["burst_A"]))
        for r in rows("connector_classes.csv")
    }
    ours = {
        round(c.pin_diameter_m * 1e3, 6): (c.continuous_A, c.burst_A) for c in connector.CONNECTORS
    }
    assert ours == table
