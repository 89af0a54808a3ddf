"""Uncertain inputs: what a sample is, and that none of it moves the nominal build."""

from __future__ import annotations

import dataclasses
from dataclasses import fields

import numpy as np
import pytest

import slipfit.flight.inputs as inputs_module
from fit_builds import FRAME
from site_builds import altered, framed, library, on_day, shipped, swapped
from slipfit.flight.inputs import (
    LEAST_DRAG_SPREAD,
    MEASURED_BLADE_SPREAD,
    PRINTED_PITCH_SPREAD,
    SIGMAS_PER_HALF_WIDTH,
    VARIABLES,
    Inputs,
    blade_of,
    drag_spread,
    motor_of,
    nominal_inputs,
    pack_age,
    pack_of,
    prop_of,
    sampled_inputs,
)
from slipfit.flight.performance import performance
from slipfit.masses import mass_spread, mass_total
from slipfit.parts.origin import Origin


def test_variables_are_the_fields_of_the_inputs_each_once() -> None:
    assert [v.field for v in VARIABLES] == [f.name for f in fields(Inputs)]
    labels = [v.label for v in VARIABLES]
    assert len(set(labels)) == len(labels) and all(labels)


def test_nominal_inputs_are_the_values_on_the_parts() -> None:
    build = shipped()
    n = nominal_inputs(build)
    assert n.mass_kg == mass_total(build)
    assert n.kv_rad_s_V == motor_of(build).kv_rad_s_V
    assert n.drag_factor == n.thrust_factor == n.power_factor == n.pitch_factor == 1.0


@pytest.mark.parametrize("count", [64, 512])
def test_samples_have_their_middle_at_the_nominal_and_their_spread_as_stated(count: int) -> None:
    """A half-width of the 10-90 % range is 1.2816 sigma. The grid is even, so that percentiles are
    met to the width of a grid step there, 3 % of the half-width with 64 samples."""
    build = shipped()
    inputs, scores = sampled_inputs(build, count)
    assert scores.shape == (count, len(VARIABLES))
    nominal = nominal_inputs(build)
    for variable in VARIABLES:
        drawn, value = getattr(inputs, variable.field), getattr(nominal, variable.field)
        spread = variable.spread(build)
        assert drawn.shape == (count, 1)
        assert np.all(drawn > 0.0)
        low, middle, high = np.quantile(drawn, [0.1, 0.5, 0.9]) / value
        step = 2.0 / count * spread
        assert middle == pytest.approx(1.0, abs=step + 1e-12)
        assert np.log(low) == pytest.approx(-spread, abs=step + 1e-12)
        assert np.log(high) == pytest.approx(spread, abs=step + 1e-12)


def test_scores_of_different_inputs_do_not_hang_together() -> None:
    """Inputs are independent: with a correlation c between two that count, the variance of their
    sum is off by c at most; a tenth of it moves a range by 5 %, less than spreads are known to."""
    _, scores = sampled_inputs(shipped(), 64)
    together = np.corrcoef(scores.T) - np.eye(len(VARIABLES))
    assert np.max(np.abs(together)) < 0.1


def test_few_samples_are_still_samples() -> None:
    inputs, scores = sampled_inputs(shipped(), 2)
    assert np.isfinite(scores).all()
    assert inputs.mass_kg.shape == (2, 1)


def test_samples_are_the_same_at_every_call() -> None:
    first, second = sampled_inputs(shipped(), 16), sampled_inputs(shipped(), 16)
    assert np.array_equal(first[1], second[1])
    assert np.array_equal(first[0].mass_kg, second[0].mass_kg)


def test_samples_without_spread_are_the_nominal_build(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same path of arrays as any sample, the same answers as the single build, to rounding;
    top speed and best range are searched for on grids of their own, 1e-6 of a grid step."""
    certain = tuple(dataclasses.replace(v, spread=lambda b: 0.0) for v in VARIABLES)
    monkeypatch.setattr(inputs_module, "VARIABLES", certain)
    build = shipped()
    inputs, _ = sampled_inputs(build, 3)
    one = performance(build)
    same = performance(build, inputs, one.speeds_m_s)
    for name in ("top_speed_m_s", "cruise_speed_m_s"):
        assert getattr(same, name) == pytest.approx(
            np.full((3, 1), getattr(one, name)[0, 0]), rel=1e-9
        ), name
    for name in ("curve", "hover", "top", "cruise"):
        mine, theirs = getattr(same, name), getattr(one, name)
        for field in ("motor_current_A", "pack_power_W", "duty", "esc_loss_W"):
            expected = np.broadcast_to(
                getattr(theirs.drive, field), getattr(mine.drive, field).shape
            )
            assert getattr(mine.drive, field) == pytest.approx(expected, rel=1e-9), (name, field)
        assert mine.trim.residual_N.shape[0] == 3
    assert same.standing.omega_rad_s == pytest.approx(
        np.full((3, 1), one.standing.omega_rad_s[0, 0]), rel=1e-9
    )
    assert same.can_hover.all()


def test_measured_parts_are_surer_than_printed_ones() -> None:
    def spread(build: object, field: str) -> float:
        variable = next(v for v in VARIABLES if v.field == field)
        return variable.spread(build)

    motor = motor_of(shipped())
    sure = {**motor.origins, "resistance_ohm": Origin("measured", 0.01)}
    guess = {**motor.origins, "resistance_ohm": Origin("estimated", 0.3)}
    assert spread(altered("motor", origins=sure), "motor_resistance_ohm") == 0.01
    assert spread(altered("motor", origins=guess), "motor_resistance_ohm") == 0.3
    for prop in library().shelf.of("prop"):
        build = swapped(prop=prop.id)
        measured = bool(prop_of(build).r_R)
        expected = MEASURED_BLADE_SPREAD if measured else PRINTED_PITCH_SPREAD
        assert spread(build, "pitch_factor") == expected


def test_a_build_of_many_items_is_surer_than_any_of_them() -> None:
    build = shipped()
    assert 0.0 < mass_spread(build) < 0.05
    heavy = altered("pack", mass_kg=1.0, origins={"mass_kg": Origin("estimated", 0.2)})
    assert mass_spread(heavy) > 0.1  # one guess that outweighs all


def test_drag_spread_has_a_floor_and_follows_the_body_that_rules() -> None:
    build = shipped()
    assert drag_spread(build) >= LEAST_DRAG_SPREAD
    assert drag_spread(framed(bodies=())) == LEAST_DRAG_SPREAD
    window = [b for b in build.frame.bodies if b.model == "window"]
    assert window, "the demo frame has a camera window"
    assert drag_spread(framed(bodies=tuple(window))) == pytest.approx(0.45, rel=1e-12)
    assert drag_spread(dataclasses.replace(build, frame=FRAME)) < 0.3


def test_a_blade_table_takes_the_place_of_the_style() -> None:
    styled = next(p for p in library().shelf.of("prop") if not p.r_R)
    blade = blade_of(styled)
    assert blade.radius_m == pytest.approx(styled.diameter_m / 2)
    table = dataclasses.replace(
        styled, r_R=(0.2, 0.4, 0.6, 1.0), c_R=(0.2, 0.2, 0.2, 0.1), beta_rad=(0.6, 0.5, 0.4, 0.25)
    )
    measured = blade_of(table)
    assert np.interp(0.6, measured.r_R, measured.pitch_angle_rad) == pytest.approx(0.4)
    assert SIGMAS_PER_HALF_WIDTH == pytest.approx(1.2816)  # the 90 % point of the normal


# --- age of the pack ---------------------------------------------------------------------------


def test_a_pack_of_150_flights_holds_less_and_resists_more() -> None:
    old, new = nominal_inputs(on_day(pack_flights=150)), nominal_inputs(shipped())
    assert pack_age(on_day(pack_flights=150)) == pytest.approx((0.84434, 1.28161), abs=1e-5)
    assert old.capacity_C == pytest.approx(0.84434 * new.capacity_C, rel=1e-5)
    assert old.cell_resistance_ohm == pytest.approx(1.28161 * new.cell_resistance_ohm, rel=1e-5)
    for variable in VARIABLES:
        if variable.field not in ("capacity_C", "cell_resistance_ohm"):
            assert getattr(old, variable.field) == getattr(new, variable.field)


def test_age_widens_the_ranges_of_capacity_and_resistance() -> None:
    spread = {v.field: v.spread for v in VARIABLES}
    new, old = shipped(), on_day(pack_flights=150)
    origins = pack_of(new).origins
    for field, ratio in zip(("capacity_C", "cell_resistance_ohm"), pack_age(old), strict=True):
        own = origins[field].spread
        assert spread[field](new) == own
        # 60 % of what was lost or has come, beside the part's own
        share = 0.6 * abs(1 - ratio) / ratio
        assert spread[field](old) == pytest.approx((own**2 + share**2) ** 0.5, rel=1e-12)


def test_the_default_pack_is_new_and_moves_nothing() -> None:
    assert library().frames["quillback-5"].day.pack_flights == 0
    assert pack_age(shipped()) == (1.0, 1.0)
    n = nominal_inputs(shipped())
    assert n.capacity_C == pack_of(shipped()).capacity_C
    assert n.cell_resistance_ohm == pack_of(shipped()).cell_resistance_ohm
