"""The language of build notes: what conditions mean, what is told when they are wrong."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builds import altered, library, shipped, swapped, without
from slipfit.build import Build
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.checks.verdict import Verdict
from slipfit.figures.figure import Figure
from slipfit.library import default_build
from slipfit.notes import (
    Facts,
    NoteError,
    condition,
    condition_problem,
    holds,
    known_names,
    minutes,
    name_of,
    names_in,
    tools,
    value_text,
)
from slipfit.parts.kinds import KINDS
from slipfit.units import PERCENT, SPEED, THIN

FIGURES = {
    "top_speed": Figure(id="top_speed", label="top speed", display=SPEED, value=75.0),
    "hover_throttle": Figure(
        id="hover_throttle", label="throttle in hover", display=PERCENT, value=None
    ),
    "esc_ratio": Figure(id="esc_ratio", label="ESC", display=PERCENT, value=0.8),
}
PAST = Verdict(
    id="esc_current", family="limit", state="past", kind="esc", subject="ESC", amount=1.2,
    sentence_metric="", sentence_imperial="",
)  # fmt: skip
FRAME = shipped().frame
BUILD = altered(
    "pack", cell_count=6, capacity_C=5760.0, mass_kg=0.256, full_cell_V=4.2,
    connector="3.5 mm bullet pair",
)  # fmt: skip
SHELF = {kind.id: [part.id for part in library().shelf.of(kind.id)] for kind in KINDS}


def facts(build: Build | None = None) -> Facts:
    build = build or BUILD
    return Facts(build=build, figures=FIGURES, verdicts=(*fit_verdicts(build), PAST))


def plain(text: str) -> str:
    return text.replace(THIN, " ")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("pack.cell_count >= 6", True),
        ("pack.cell_count ≥ 8", False),
        ("pack.cell_count = 6", True),
        ("pack.cell_count is 6", True),
        ("pack.cell_count is not 6", False),
        ("pack.capacity > 1.5 Ah", True),
        ("pack.capacity < 1600 mAh", False),
        ("pack.capacity <= 1600 mAh", True),
        ("top_speed > 250 km/h", True),
        ("top_speed > 170 mph", False),
        ("motor.mount_screw is M3", True),
        ("motor.mount_pattern is 19x19", True),
        ('pack.connector is "3.5 mm bullet pair"', True),
        ("pack.connector is 5.5 mm bullet pair", False),
        ("motor is m28-1950", True),
        ("motor is own", False),
        ("pack_bay is clear", True),
        ("esc_current is past", True),
        ("esc_current is not past", False),
        ("motor.stator_diameter > motor.stator_height", True),
        ("prop.bore = motor.shaft_diameter", True),
        ("day.air_temperature < 0 C", True),
        ("day.air_temperature < 30 F", True),
        ("esc_ratio >= 80 %", True),
        ("esc_ratio >= 0.81", False),
        ("wire.pack_gauge is 12", True),
        ("joint.motors.length >= 8 mm", True),
        ("joint.motors.length > 8 mm", False),
        ("joint.motors.screw is M3", True),
        ("joint.motors.state is clear", True),
        ("pack.full_voltage > 25 V", True),
        ("rotor_count is 4", True),
        ("not pack.cell_count > 6", True),
        ("pack.cell_count > 6 or motor.mount_screw is M3", True),
        ("pack.cell_count > 6 and motor.mount_screw is M3", False),
        ("not (pack.cell_count > 6 or motor.mount_screw is M2) and rotor_count is 4", True),
        ("pack.cell_count > 6 and rotor_count is 4 or rotor_count is 4", True),
        ("pack.cell_count > 6 and (rotor_count is 4 or rotor_count is 4)", False),
        ("pack.parallel_count is 1 and(pack.cell_count>=6)", True),
    ],
)
def test_conditions_mean_what_they_say(text, expected):
    assert condition_problem(text, FRAME, SHELF) == ""
    assert holds(text, facts()) is expected


def test_a_missing_value_fails_every_comparison_and_can_be_asked_for():
    for sign in ("<", "<=", "=", ">=", ">"):
        assert not holds(f"hover_throttle {sign} 50 %", facts())
    assert holds("hover_throttle is missing", facts())
    assert holds("top_speed is not missing", facts())
    bare = facts(without("gps"))
    assert holds("gps is missing and gps.mass is missing and gps_bay is missing", bare)
    assert not holds("gps.mass < 1 kg", bare)


def test_a_part_s_number_can_be_guessed_and_a_part_can_be_the_reader_s():
    guessed = facts(swapped(motor="m28-2150"))
    assert holds("motor.resistance is guessed and motor is guessed", guessed)
    assert holds("motor.kv is not guessed", guessed)
    own = facts(altered("pack", id="own"))
    assert holds("pack is own", own)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("pack.cell_cout > 6", "no name 'pack.cell_cout'; did you mean 'pack.cell_count'?"),
        ("pac.cell_count > 6", "no name 'pac.cell_count'; did you mean 'pack'?"),
        ("top_sped > 60 m/s", "no name 'top_sped'; did you mean 'top_speed'?"),
        ("joint.motor.length > 8 mm", "no name 'joint.motor.length'; did you mean 'joint.motors"),
        ("pack.capacity > 1500", "pack.capacity must carry a unit of charge"),
        ("pack.capacity > 1500 A", "pack.capacity must carry a unit of charge"),
        ("pack.cell_count > 6 V", "pack.cell_count must carry a unit of ratio"),
        ("top_speed > pack.mass", "'top_speed' is a speed and 'pack.mass' a mass: they"),
        ("pack_bay > 2", "'pack_bay' must be compared with 'is' and a word (clear, snug, clashes)"),
        ("pack_bay is past", "'pack_bay' is never 'past'"),
        ("pack_bay is clashing", "'pack_bay' is never 'clashing'; did you mean 'clashes'?"),
        ("motor.mount_screw is M6", "'motor.mount_screw' is never 'M6'"),
        ("motor is m28-1951", "'motor' is never 'm28-1951'; did you mean 'm28-1950'?"),
        ("pack.cell_count", "'pack.cell_count' must be compared, with < <= = >= > or 'is'"),
        ("pack.cell_count >", "a name must stand here, got ''"),
        ("pack.cell_count > 6 but", "pack.cell_count must carry a unit of ratio"),
        ("(rotor_count is 4", "a bracket that opens must close"),
        ("rotor_count is 4)", "'and', 'or' or the end must stand before ')'"),
        ("and rotor_count is 4", "a name must stand here, got 'and'"),
        ("", "a condition must be given, such as pack.cell_count >= 8"),
        ("(" * 40 + "rotor_count is 4" + ")" * 40, "brackets must be at most 20 deep"),
        ("rotor_count is 4 or " * 30 + "rotor_count is 4", "a condition must be at most 400"),
        ("hover_throttle is guessed", "hover_throttle must be a number"),
    ],
)
def test_each_mistake_is_told_with_the_nearest_name(text, said):
    assert condition_problem(text, FRAME, SHELF).startswith(said)


@given(st.text(alphabet='pack.cell_count<>=()andornot is8V "', max_size=60))
def test_reading_any_text_ends_in_a_condition_or_a_sentence(text):
    try:
        made = condition(text)
    except NoteError as error:
        assert error.message
    else:
        assert names_in(made)
        condition_problem(text, FRAME, SHELF)


@given(
    st.recursive(
        st.sampled_from(["rotor_count is 4", "rotor_count is 3"]),
        lambda inner: st.one_of(
            inner.map(lambda a: f"not ({a})"),
            st.tuples(inner, inner).map(lambda p: f"({p[0]}) and ({p[1]})"),
            st.tuples(inner, inner).map(lambda p: f"({p[0]}) or ({p[1]})"),
        ),
        max_leaves=6,
    )
)
def test_joined_conditions_agree_with_logic(text):
    logic = text.replace("rotor_count is 4", "True").replace("rotor_count is 3", "False")
    assert holds(text, facts()) is eval(logic)


@pytest.mark.parametrize(
    ("name", "metric", "imperial"),
    [
        ("pack.cell_count", "6", "6"),
        ("pack.mass", "256 g", "9.0 oz"),
        ("motor.mount_pattern", "19 × 19 mm", "19 × 19 mm"),
        ("motor.mount_screw", "M3", "M3"),
        ("motor.kv", "1950 rpm/V", "1950 rpm/V"),
        ("pack.full_voltage", "25.2 V", "25.2 V"),
        ("pack.empty_voltage", "19.8 V", "19.8 V"),
        ("capacitor.voltage", "35 V", "35 V"),
        ("camera.washer", "0.0 mm", "0.00 in"),
        ("camera.largest_uptilt", "85°", "85°"),
        ("joint.motors.screw", "M3 × 8 mm", "M3 × 8 mm"),
        ("joint.motors.torque", "60 N·cm", "5.3 lbf·in"),
        ("joint.motors.key", "2.5 mm", "2.5 mm"),
        ("day.air_temperature", "−8 °C", "18 °F"),
        ("top_speed", "270 km/h", "168 mph"),
        ("hover_throttle", "no value", "no value"),
        ("esc_current", "past", "past"),
        ("uptilt", "70°", "70°"),
        ("wire.motor_gauge", "18", "18"),
    ],
)
def test_values_are_shown_in_either_system(name, metric, imperial):
    assert plain(value_text(name, facts(), "metric")) == metric
    assert plain(value_text(name, facts(), "imperial")) == imperial


def test_every_known_name_reads_and_shows_in_every_frame_s_own_build():
    for slug, frame in library().frames.items():
        known = facts(default_build(library(), slug))
        for id in known_names(frame):
            name = name_of(id, frame)
            value = name.read(known)
            assert value is None or isinstance(value, float if name.dimension != "word" else str)
            assert name.shown(known, "metric")


def test_a_capacitor_beyond_what_is_sold_is_none():
    tall = altered("pack", cell_count=24)
    assert value_text("capacitor.voltage", facts(tall), "metric") == "none"
    assert holds("capacitor.voltage is missing", facts(tall))


def test_times_add_up_over_what_is_shown():
    text = "40 min|1 h when pack.cell_count >= 8|20 min when not (pack.cell_count >= 8)"
    assert minutes(text, facts()) == pytest.approx(60.0)
    eight = facts(altered("pack", cell_count=8))
    assert minutes(text, eight) == pytest.approx(100.0)


def test_tools_are_named_once_with_the_keys_of_the_screws():
    text = "calliper|key motors|keys|calliper|saw when pack.cell_count >= 8"
    assert [plain(t) for t in tools(text, facts())] == [
        "calliper", "2.5 mm hex key", "1.5 mm hex key", "2 mm hex key",
    ]  # fmt: skip


def test_a_joint_whose_part_is_missing_shows_none():
    bare = facts(without("motor"))
    assert value_text("joint.motors.screw", bare, "metric") == "none"
    assert holds("joint.motors.length is missing", bare)
    assert tools("key motors|calliper", bare) == ("calliper",)


def test_facts_are_worked_out_once():
    known = facts()
    assert known.screws is known.screws
    assert dataclasses.is_dataclass(known)


def test_a_deep_camera_s_largest_uptilt_is_said_and_asked_about():
    """14 mm behind its pivot and 12 mm high, with 18 mm of room: atan(12/14) - acos(18/18.44) above
    the least, -10 degrees."""
    library_ = library()
    usual = shipped("longspur-7")
    deep = dataclasses.replace(
        usual, parts={**usual.parts, "camera": library_.shelf.part("camera", "c22")}
    )
    assert value_text("camera.largest_uptilt", facts(usual), "metric") == "40°"
    assert value_text("camera.largest_uptilt", facts(deep), "metric") == "18°"
    assert holds("camera.largest_uptilt < 20 deg and camera_uptilt is clear", facts(deep))
    none = facts(without("camera"))
    assert value_text("camera.largest_uptilt", none, "metric") == "none"
