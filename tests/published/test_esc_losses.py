"""Published values: worked example of ESC losses (tests/data/electric_drive.csv, ESC-*).

Flag: computed from standard half-bridge expressions with synthetic values; 40 A, 25.2 V, 48 kHz.
"""

from __future__ import annotations

import numpy as np
import pytest

from published import printed
from slipfit.physics import esc
from tables import figures

F = figures("electric_drive.csv")
LOSSES = esc.esc_losses(40.0, 25.2, 0.8, 1.0e-3, 48e3)


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("ESC-COND", LOSSES.conduction_W),
        ("ESC-SW", LOSSES.switching_W),
        ("ESC-DT", LOSSES.dead_time_W),
        ("ESC-GATE", LOSSES.gate_W),
        ("ESC-RR", LOSSES.recovery_W),
        ("ESC-COSS", LOSSES.output_capacitance_W),
        ("ESC-TOT", LOSSES.total_W),
    ],
)
def test_esc_losses_match_worked_example(figure, value):
    assert float(value) == printed(F[figure])


def test_commutation_frequency_matches_worked_example():
    assert esc.commutation_frequency(39_390 * np.pi / 30, 14) == printed(F["ESC-COMM"])
