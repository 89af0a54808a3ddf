"""Quillback 5 as a whole, against what the trade knows of such frames.

Every number here is common practice, no source.
"""

from __future__ import annotations

import pytest

from site_builds import shipped, swapped
from slipfit.flight.inputs import motor_of, pack_of, prop_of
from slipfit.masses import mass_total
from slipfit.parts.gps import Gps
from slipfit.report import Report, report
from slipfit.units import quantity_from_text


@pytest.fixture(scope="module")
def usual() -> Report:
    return report(shipped(), ranges=True)


def inch(value: float) -> float:
    return quantity_from_text("test", "length", f"{value} in", "length")


def test_it_is_built_as_the_trade_builds_such_a_frame() -> None:
    """The build that the numbers below are said of. Common practice, no source."""
    build = shipped()
    motor, prop, pack = motor_of(build), prop_of(build), pack_of(build)
    assert (motor.stator_diameter_m, motor.stator_height_m) == pytest.approx((0.028, 0.008))
    assert motor.kv_rad_s_V == pytest.approx(quantity_from_text("t", "kv", "1950 rpm/V", "kv"))
    assert (prop.diameter_m, prop.pitch_m) == pytest.approx((inch(5.25), inch(8)))
    assert prop.blade_count == 2
    assert pack.cell_count == 6 and 5400.0 <= pack.capacity_C <= 6480.0  # 1.5 to 1.8 Ah


def test_it_weighs_about_950_g() -> None:
    """0.95 kg within 5 %: common practice, no source."""
    assert mass_total(shipped()) == pytest.approx(0.95, rel=0.05)


def test_it_draws_about_40_A_per_motor_flat_out_and_an_ESC_of_50_A_bears_it(usual: Report) -> None:
    """34 to 46 A per motor flat out in level flight on 6 cells, so that the ESC wants 50 A per
    channel at least: common practice, no source."""
    current = usual.figures["motor_current_full"].value
    assert current is not None
    assert 34.0 <= current <= 46.0
    fifty = next(v for v in report(swapped(esc="e50")).verdicts if v.id == "esc_current")
    assert fifty.state in ("inside", "near")


def test_an_ESC_of_40_A_is_near_or_past_its_limit() -> None:
    """Common practice, no source: fast frames of this size burn small boards."""
    small = next(v for v in report(swapped(esc="e40")).verdicts if v.id == "esc_current")
    assert small.state in ("near", "past")


def test_it_takes_a_30_mm_stack_and_a_20_mm_gps_module(usual: Report) -> None:
    """A 30.5 mm stack; 20 x 20 mm in a bay of 25 x 25 x 9 mm. Common practice, no source."""
    build = shipped()
    (pattern, *_) = build.frame.stack_seat.patterns
    assert (pattern.convention, pattern.a_m, pattern.b_m) == ("stack", 0.0305, 0.0305)
    bay = build.frame.bay_for("gps")
    assert bay is not None
    assert (bay.length_m, bay.width_m, bay.height_m) == pytest.approx((0.025, 0.025, 0.009))
    gps = build.parts["gps"]
    assert isinstance(gps, Gps) and (gps.length_m, gps.width_m) == pytest.approx((0.020, 0.020))
    states = {v.id: v.state for v in usual.verdicts}
    assert states["gps_bay"] == states["stack_holes"] == states["esc_holes"] == "clear"


@pytest.mark.parametrize("pack", ["k6-1500", "k6-1600", "k6-1800"])
def test_packs_of_1500_to_1800_mAh_fit(pack: str) -> None:
    """Common practice, no source: 6 cells of 1.5 to 1.8 Ah suit such a frame."""
    states = {v.id: v.state for v in report(swapped(pack=pack)).verdicts}
    assert states["pack_bay"] in ("clear", "snug")


@pytest.mark.parametrize(
    ("ids", "check"),
    [
        ({"pack": "k6-1750w"}, "pack_bay"),
        ({"pack": "k6-2200"}, "pack_bay"),
        ({"esc": "e45-20"}, "esc_holes"),
    ],
)
def test_parts_that_do_not_fit_clash(ids: dict[str, str], check: str) -> None:
    states = {v.id: v.state for v in report(swapped(**ids)).verdicts}
    assert states[check] == "clashes"


def test_as_shipped_nothing_clashes_and_nothing_is_past_a_limit(usual: Report) -> None:
    """A demo that fails its own checks would teach the wrong thing."""
    wrong = [v.sentence_metric for v in usual.verdicts if v.severity == 2]
    assert wrong == []


def test_it_is_faster_than_the_yachts_it_follows(usual: Report) -> None:
    """Its summary says above 60 m/s; the low end of the range must hold that, too."""
    assert usual.figures["top_speed"].low > 60.0


def test_ranges_are_honest_about_a_model_without_measurements(usual: Report) -> None:
    """Nothing is measured at these tip speeds, so a range narrower than 5 % of the value would
    promise what nobody knows, and one wider than 60 % of it would say nothing."""
    for id in ("top_speed", "motor_current_full", "hover_time"):
        figure = usual.figures[id]
        width = (figure.high - figure.low) / figure.value
        assert 0.05 < width < 0.6, (id, width)
