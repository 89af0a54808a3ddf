"""Limits, balances and refusals of the pack model."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from slipfit.errors import ValidityError
from slipfit.physics import pack

S = np.linspace(0.0, 1.0, 4001)


@pytest.mark.parametrize("full", [4.1, 4.2, 4.35, 4.45])
def test_cell_voltage_rises_with_charge(full):
    assert (np.diff(pack.cell_ocv(S, full)) > 0).all()


def test_high_voltage_cell_is_above_the_common_one_but_empty_alike():
    assert pack.cell_ocv(0.0, 4.35) == pack.cell_ocv(0.0) == 3.0
    assert (pack.cell_ocv(S[1:], 4.35) > pack.cell_ocv(S[1:])).all()
    # an eighth more charge in the same electrodes
    assert pack.cell_ocv(0.8, 4.35) == pytest.approx(pack.cell_ocv(0.9), abs=1e-9)


def test_resistance_rises_in_the_cold_and_near_empty():
    T = np.linspace(250.0, 335.0, 100)
    assert (np.diff(pack.cell_resistance_ratio(T)) < 0).all()
    assert 2.0 <= pack.cell_resistance_ratio(263.15) <= 3.0  # the expected factor at -10 degC
    assert (np.diff(pack.cell_resistance_ratio(298.15, S[S <= 0.5])) < 0).all()
    assert pack.cell_resistance_ratio(298.15, 0.5) == pytest.approx(1.0)


@given(U=st.floats(3, 60), R=st.floats(0, 0.2), share=st.floats(0, 0.999))
def test_power_and_current_forms_are_inverses(U, R, share):
    P = share * (pack.greatest_power(U, R) if R > 1e-6 else 1000.0)
    a = pack.pack_at_power(U, R, P)
    assert a.deliverable
    b = pack.pack_at_current(U, R, a.current_A)
    assert float(b.power_W) == pytest.approx(P, rel=1e-9, abs=1e-9)
    # what the cells give is what leaves and what heats
    assert U * float(a.current_A) == pytest.approx(P + float(a.heat_W), rel=1e-9, abs=1e-9)


def test_more_than_a_pack_can_give_is_a_mask_not_a_number():
    limit = pack.greatest_power(22.2, 0.03)
    state = pack.pack_at_power(22.2, 0.03, np.array([0.0, 0.999 * limit, 1.001 * limit]))
    assert state.deliverable.tolist() == [True, True, False]
    assert np.isnan(state.voltage_V[2])
    assert float(state.current_A[0]) == 0.0
    short = pack.pack_at_current(22.2, 0.03, 22.2 / 0.03 + 1.0)
    assert not short.deliverable


def test_charging_raises_the_voltage():
    assert float(pack.pack_at_power(22.2, 0.03, -100.0).voltage_V) > 22.2


@given(a=st.floats(0, 1), b=st.floats(0, 1), c=st.floats(0, 1))
def test_energy_adds_over_stretches(a, b, c):
    def e(start, end):
        return pack.usable_energy(5400.0, 6, start, end, 4.35, 20.0, 0.02)

    assert e(a, b) + e(b, c) == pytest.approx(e(a, c), abs=1e-6)


def test_energy_is_the_integral_of_voltage():
    x = np.linspace(0.2, 1.0, 40_001)
    sum_ = 5400.0 * 6 * np.trapezoid(pack.cell_ocv(x), x)
    assert pack.usable_energy(5400.0, 6) == pytest.approx(sum_, rel=1e-8)


def test_current_costs_its_drop():
    lost = pack.usable_energy(5400.0, 6) - pack.usable_energy(
        5400.0, 6, current_A=50.0, resistance_ohm=0.02
    )
    assert lost == pytest.approx(50.0 * 0.02 * 5400.0 * 0.8)


def test_polarisation_settles_and_decays():
    assert pack.polarisation_voltage(0.0, 100.0, 0.02, 0.0) == 0.0
    settled = pack.polarisation_voltage(0.0, 100.0, 0.02, 1e4)
    assert settled == pytest.approx(pack.POLARISATION_SHARE * 2.0)
    assert pack.polarisation_voltage(settled, 0.0, 0.02, 1e4) == pytest.approx(0.0, abs=1e-9)
    half = pack.polarisation_voltage(0.0, 100.0, 0.02, 5.0)
    assert pack.polarisation_voltage(half, 100.0, 0.02, 7.0) == pytest.approx(
        pack.polarisation_voltage(0.0, 100.0, 0.02, 12.0)
    )


def test_series_and_parallel():
    assert pack.pack_resistance(0.004, 6, 2) == pytest.approx(0.012)


def test_estimates_lie_where_the_notes_say():
    ohm_Ah = pack.estimated_cell_resistance(5400.0) * 1.5
    assert 0.002 <= ohm_Ah <= 0.005  # memory
    mass = pack.estimated_pack_mass(5400.0, 6)
    assert 0.20 <= mass <= 0.27  # common practice, no source
    whole = pack.NOMINAL_CELL_V * 6 * 1.5 / mass
    assert 110.0 <= whole <= 150.0  # Wh/kg, below the 150 of bare cells


def test_pack_broadcasts():
    ocv = pack.cell_ocv(S[:3], np.array([[4.2], [4.35]]))
    assert np.shape(ocv) == (2, 3)
    assert pack.pack_at_power(ocv * 6, 0.02, 500.0).current_A.shape == (2, 3)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: pack.cell_ocv(1.01), r"cell_ocv: charge must be 0 to 1 .*got 1.01"),
        (lambda: pack.cell_ocv(80.0), r"charge must be 0 to 1"),
        (lambda: pack.cell_ocv(0.5, 3.65), r"full_cell_V must be 4 to 4.45 \(lithium cobalt"),
        (lambda: pack.cell_resistance_ratio(240.0), r"temperature_K must be 248.15 to 338.15"),
        (lambda: pack.cell_resistance_ratio(-8.0), r"temperature_K must be 248.15"),
        (lambda: pack.usable_energy(5400.0, 6, 1.0, -0.1), r"charge_to must be 0 to 1"),
    ],
)
def test_pack_refuses_what_is_outside(call, message):
    with pytest.raises(ValidityError, match=message):
        call()


# --- age ---------------------------------------------------------------------------------------


def test_a_new_cell_is_exactly_as_new():
    assert pack.cycled_capacity(0.0) == 1.0
    assert pack.cycled_resistance(0.0) == 1.0
    assert pack.cycled_capacity(500.0, 0.0) == pack.cycled_resistance(500.0, 0.0) == 1.0


@given(N=st.floats(0, 1000), more=st.floats(1, 1000), D=st.floats(0.06, 1), V=st.floats(3.5, 4.1))
def test_cycles_only_take(N, more, D, V):
    early, late = (
        (pack.cycled_capacity(n, D, V), pack.cycled_resistance(n, D, V)) for n in (N, N + more)
    )
    assert 0.5 < late[0] < early[0] <= 1.0
    assert 1.0 <= early[1] < late[1] < 5.0


def test_four_times_the_cycles_take_twice_the_capacity_and_four_times_the_resistance():
    lost = [1 - pack.cycled_capacity(n) for n in (100.0, 400.0)]
    gained = [pack.cycled_resistance(n) - 1 for n in (100.0, 400.0)]
    assert lost[1] == pytest.approx(2 * lost[0], rel=1e-12)
    assert gained[1] == pytest.approx(4 * gained[0], rel=1e-12)


def test_shallow_cycles_leave_the_resistance():
    assert pack.cycled_resistance(1000.0, 0.02, 3.725) == 1.0


@pytest.mark.parametrize("values", [(-1.0,), (2001.0,), (10.0, -0.1), (10.0, 1.1)])
def test_age_outside_the_law_is_refused(values):
    for law in (pack.cycled_capacity, pack.cycled_resistance):
        with pytest.raises(ValidityError):
            law(*values)
