"""What the trade says of such frames must follow from the computed values, not from a sentence.

Common practice, no source: a slick tail-sitter wants ESCs of 50 A or more a channel on six cells
and clearly more on eight; eight cells are used with caution; steeper pitch draws more and heats
everything.
"""

from __future__ import annotations

import dataclasses
from functools import lru_cache

import pytest

from site_builds import altered, shipped, swapped
from slipfit.build import Build
from slipfit.checks.limits import LIMITS
from slipfit.effects import CHANGES, effects
from slipfit.flight.flight import flight_of
from slipfit.flight.performance import performance
from slipfit.parts.esc import Esc
from slipfit.report import Report, report


def esc_of(amperes: float, build: Build, cells: int = 8) -> Build:
    """The build with an ESC of a rating, its other numbers as usual for that."""
    part = build.parts["esc"]
    assert isinstance(part, Esc)
    return altered(
        "esc", of=build, continuous_A=amperes, burst_A=1.15 * amperes, max_cells=cells,
        fet_resistance_ohm=0.05 / amperes,
    )  # fmt: skip


def eight_cells() -> Build:
    """Two more of the same cells."""
    mass = shipped().parts["pack"].mass_kg * 8 / 6
    return altered("pack", cell_count=8, mass_kg=mass)


@lru_cache(maxsize=16)
def told(what: str) -> Report:
    make = {
        "shipped": shipped,
        "six on 40": lambda: esc_of(40.0, shipped()),
        "six on 50": lambda: esc_of(50.0, shipped()),
        "six on 60": lambda: esc_of(60.0, shipped()),
        "six on 80": lambda: esc_of(80.0, shipped()),
        "eight on 50": lambda: esc_of(50.0, eight_cells()),
        "eight on 60": lambda: esc_of(60.0, eight_cells()),
        "eight on 80": lambda: esc_of(80.0, eight_cells()),
        "steeper": lambda: swapped(prop="p525-95-2"),
    }[what]
    return report(make())


def verdict(what: str, id: str):
    return next(v for v in told(what).verdicts if v.id == id)


def test_six_cells_want_more_than_forty_amperes():
    assert verdict("six on 40", "esc_current").state == "past"
    assert verdict("six on 40", "esc_burst").state == "past"


def test_six_cells_hold_fifty_amperes_flat_out_and_want_more_for_bursts():
    assert verdict("six on 50", "esc_current").state in ("inside", "near")
    assert verdict("six on 50", "esc_burst").amount > 1.0
    assert verdict("six on 80", "esc_burst").amount < 1.0


def test_eight_cells_want_clearly_more():
    for id in ("esc_current", "esc_burst"):
        six, eight = (verdict(f"{cells} on 60", id) for cells in ("six", "eight"))
        assert eight.amount > 1.15 * six.amount
    assert verdict("eight on 50", "esc_current").state == "past"
    assert verdict("eight on 80", "esc_current").state == "inside"


def test_the_ratio_is_that_of_the_currents():
    found = told("six on 50")
    said = verdict("six on 50", "esc_current")
    assert said.amount == pytest.approx(found.figures["motor_current_full"].value / 50.0)
    assert "50.0" in said.sentence_metric
    assert "a claim of its maker" in said.basis


def test_eight_cells_call_for_caution():
    states = {v.id: v.state for v in told("eight on 80").verdicts if v.family == "limit"}
    assert states["tip_mach"] != "inside"
    assert states["flight_voltage"] == "past"
    assert sum(state != "inside" for state in states.values()) >= 4


SENSIBLE = ("m28-1950", "m28-1700", "m28-1300")


def eight_with(motor: str) -> Build:
    """Eight cells of a shelf's pack for them, as large as the six that the frame ships with, on an
    80 A ESC."""
    build = swapped(pack="k8-1300", motor=motor)
    pack = build.parts["pack"]
    ratio = shipped().parts["pack"].capacity_C / pack.capacity_C
    build = altered(
        "pack", of=build, capacity_C=ratio * pack.capacity_C, mass_kg=ratio * pack.mass_kg,
        cell_resistance_ohm=pack.cell_resistance_ohm / ratio,
    )  # fmt: skip
    return esc_of(80.0, build)


@pytest.mark.parametrize("motor", SENSIBLE)
def test_in_short_of_sensible_builds_on_eight_cells_is_a_caution(motor):
    found = report(eight_with(motor))
    short, limits = found.in_short["metric"], [v for v in found.verdicts if v.family == "limit"]
    worst = max(v.severity for v in limits)
    assert worst >= 1  # never all kept: tips near the speed of sound, or more
    assert "every limit is kept" not in short
    said = next(v for v in limits if v.severity == worst)
    assert said.sentence_metric in short
    assert next(v for v in limits if v.id == "tip_mach").state != "inside"


def test_eight_cells_are_the_less_a_caution_the_fewer_turns_a_volt_gives():
    builds = {motor: report(eight_with(motor)) for motor in SENSIBLE}
    for id in ("esc_current", "esc_burst", "flight_voltage", "pack_current"):
        amounts = [next(v for v in r.verdicts if v.id == id).amount for r in builds.values()]
        assert amounts == sorted(amounts, reverse=True), id
    past = [sum(v.severity == 2 for v in r.verdicts) for r in builds.values()]
    assert past[0] > past[-1] == 0
    assert (
        builds["m28-1300"]
        .in_short["metric"]
        .startswith("Nothing clashes and nothing is past a limit. Tip Mach is near its limit")
    )


def test_in_short_says_the_worst_first_with_its_ratio():
    short = told("six on 40").in_short["metric"]
    worst = verdict("six on 40", "esc_current")
    assert short.startswith(worst.sentence_metric)
    assert f"({worst.amount:.2f} ×)" in short
    assert "must change" in short
    assert "Nothing clashes" in told("shipped").in_short["metric"]


def test_steeper_pitch_draws_more_and_heats_everything():
    flat, steep = told("shipped"), told("steeper")
    for id in ("motor_current_full", "pack_current_full", "winding_first_pass", "esc_loss_full"):
        assert steep.figures[id].value > flat.figures[id].value
    boards = [flight_of(performance(b)) for b in (shipped(), swapped(prop="p525-95-2"))]
    run = [f.at_end(f.first_run(), f.board_K)[0] for f in boards]
    packs = [f.at_end(f.first_run(), f.condition.pack_K)[0] for f in boards]
    assert run[1] > run[0]
    assert packs[1] > packs[0]
    assert verdict("steeper", "esc_current").amount > verdict("shipped", "esc_current").amount
    assert steep.in_short["metric"] != flat.in_short["metric"]


@pytest.mark.parametrize(
    "build", [shipped(), eight_with("m28-1300")], ids=["six cells", "eight cells"]
)
def test_an_inch_more_pitch_of_the_same_blade_draws_more_and_heats_everything(build):
    steeper = dict(CHANGES)["an inch more pitch"](build)
    assert steeper is not None
    flat, steep = report(build), report(steeper)
    for id in (
        "top_speed", "motor_current_full", "motor_current_static", "pack_current_full",
        "power_full", "esc_loss_full", "winding_first_pass",
    ):  # fmt: skip
        assert steep.figures[id].value > flat.figures[id].value, id
    # after the same first pass, everything that the current goes through is warmer
    flights = [flight_of(r.performance) for r in (flat, steep)]
    for what in ("winding_K", "case_K", "pack_K"):
        after = [f.at_end(f.first_run(), getattr(f.condition, what))[0] for f in flights]
        assert after[1] > after[0], what
    boards = [f.at_end(f.first_run(), f.board_K)[0] for f in flights]
    assert boards[1] > boards[0]
    for id in ("esc_current", "esc_burst", "motor_current", "pack_current"):
        before, then = (next(v for v in r.verdicts if v.id == id).amount for r in (flat, steep))
        assert then > before, id


def test_effects_say_the_same():
    lines = {effect.label: effect for effect in effects(shipped())}
    usual = lines["as it is"].values
    assert set(lines) == {
        "as it is", "two more cells", "an inch more pitch", "300 mAh more", "300 mAh less",
        "the pack after 150 flights", "a day 20 K colder, pack and all",
    }  # fmt: skip
    for label in ("two more cells", "an inch more pitch"):
        for id in ("top_speed", "motor_current_full", "winding_first_pass"):
            assert lines[label].values[id] > usual[id], (label, id)
    assert lines["300 mAh more"].values["flight_time"] > usual["flight_time"]
    assert lines["300 mAh less"].values["flight_time"] < usual["flight_time"]
    old = lines["the pack after 150 flights"].values
    for id in ("top_speed", "motor_current_full", "winding_first_pass", "flight_time"):
        assert old[id] < usual[id], id
    cold = lines["a day 20 K colder, pack and all"].values
    assert cold["winding_first_pass"] < usual["winding_first_pass"]
    assert cold["top_speed"] < usual["top_speed"]  # the pack gives less, the air is denser
    worst = lines["two more cells"].worst
    assert worst is not None
    assert worst.id == "esc_cells"
    assert worst.state == "past"


def test_effects_are_what_those_builds_are():
    lines = {effect.label: effect.values for effect in effects(shipped())}
    p = performance(eight_cells())
    assert lines["two more cells"]["top_speed"] == pytest.approx(p.top_speed_m_s[0, 0], rel=1e-3)
    flight = flight_of(p)
    assert lines["two more cells"]["flight_time"] == pytest.approx(flight.ends_s[0], rel=1e-2)
    day = dataclasses.replace(shipped().day, pack_flights=150)
    p = performance(dataclasses.replace(shipped(), day=day))
    old = lines["the pack after 150 flights"]
    assert old["top_speed"] == pytest.approx(p.top_speed_m_s[0, 0], rel=1e-3)


def test_a_change_that_no_part_can_have_is_left_out():
    full = altered("pack", cell_count=14, mass_kg=0.6)
    labels = [effect.label for effect in effects(esc_of(80.0, full, 16))]
    assert "two more cells" not in labels
    old = dataclasses.replace(shipped(), day=dataclasses.replace(shipped().day, pack_flights=150))
    assert not any("flights" in effect.label for effect in effects(old))
    cold = dataclasses.replace(
        shipped(), day=dataclasses.replace(shipped().day, pack_temperature_K=255.15)
    )
    assert not any("colder" in effect.label for effect in effects(cold))


def test_every_limit_names_its_basis():
    for limit in LIMITS:
        assert len(limit.basis) > 20, limit.id
    said = {v.id: v for v in told("shipped").verdicts if v.family == "limit"}
    for id in ("winding", "esc_heat", "pack_heat", "flight_voltage", "connector_current",
               "pack_lead", "motor_lead"):  # fmt: skip
        assert id in said
        assert said[id].basis


def test_thin_connector_is_past_and_the_fix_carries_the_flight():
    thin = report(altered("pack", connector="3.5 mm bullet pair"))
    said = next(v for v in thin.verdicts if v.id == "connector_current")
    assert said.state == "past"
    assert said.fix.startswith("a 5.5 mm bullet pair on pack and frame")
    assert verdict("shipped", "connector_current").state == "inside"


def test_thin_leads_are_past_and_the_fix_names_a_gauge():
    frame = shipped().frame
    wire = dataclasses.replace(frame.wire, pack_gauge=20, motor_gauge=26)
    thin = report(dataclasses.replace(shipped(), frame=dataclasses.replace(frame, wire=wire)))
    for id in ("pack_lead", "motor_lead"):
        said = next(v for v in thin.verdicts if v.id == id)
        assert said.state == "past"
        assert "AWG or thicker" in said.fix
