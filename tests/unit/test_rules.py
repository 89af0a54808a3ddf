"""Rules: the shipped table against the figures it was copied from, verdicts on builds, and what a
table must hold."""

from __future__ import annotations

import dataclasses
import math
import re

import numpy as np
import pytest

from published import printed
from site_builds import shipped
from slipfit import rules as rules_module
from slipfit.checks.rule import rule_verdicts
from slipfit.errors import InputError
from slipfit.figures.evaluate import figures
from slipfit.flight.performance import Performance, performance
from slipfit.markup import plain_text
from slipfit.page.rules_view import WHO_DECIDES, rules_list
from slipfit.rules import COLUMNS, kinetic_energy, rules, rules_from_text, standings
from slipfit.units import THIN
from tables import rows

BY_ID = {rule.id: rule for rule in rules()}
# Row of tests/data/regulation.csv -> rule of the shipped table.
COPIED = {
    "FAA-SPEED": "us-speed",
    "FAA-ALT": "us-height",
    "FAA-CAT1": "us-over-people-1",
    "FAA-CAT2": "us-over-people-2",
    "FAA-CAT3": "us-over-people-3",
    "FAA-MAX": "us-mass",
    "FAA-REG": "us-registration",
    "EU-80J": "eu-registration",
    "EU-A1-MASS": "eu-a1-mass",
    "EU-A1-SPEED": "eu-a1-speed",
    "EU-C1-MASS": "eu-c1-mass",
    "EU-C2-MASS": "eu-c2-mass",
    "EU-HEIGHT": "eu-height",
    "EU-MAX": "eu-mass",
}
HEAD = ",".join(COLUMNS)
ROW = "x-speed,Nowhere,speed,50,km/h,under,speed of a kite,tie it down,Kite Act 1,2026-11,seen"


@pytest.fixture(scope="module")
def usual() -> Performance:
    return performance(shipped())


def test_limits_match_the_published_figures():
    table = {row["id"]: row for row in rows("regulation.csv")}
    assert set(COPIED) < set(table)
    for source, id in COPIED.items():
        assert BY_ID[id].limit == printed(table[source]["SI"]), id


def test_a_hundred_miles_per_hour_is_the_same_limit_a_little_lower():
    """The rule prints both; the table of figures says how far apart they are."""
    (row,) = rows("regulation.csv", id="FAA-SPEED-MPH")
    assert 1.0 - float(row["SI"]) / BY_ID["us-speed"].limit == pytest.approx(0.0012, abs=5e-5)


def test_sections_stand_in_the_table_as_they_were_read():
    for source, id in COPIED.items():
        (row,) = rows("regulation.csv", id=source)
        if row["rule"] == "same":  # as the row before it
            (row,) = rows("regulation.csv", id=source.replace("SPEED", "MASS"))
        ours = BY_ID[id].rule.split(", Implementing")[0]
        sections = re.findall(r"[A-Z.]*\d[\w./()]*", ours)
        assert sections
        assert all(section in row["rule"] for section in sections), id


@pytest.mark.parametrize(
    ("bound", "value", "state"),
    [
        ("at most", 44.0, "inside"),
        ("at most", 45.1, "near"),
        ("at most", 50.0, "near"),
        ("at most", 50.01, "past"),
        ("under", 49.99, "near"),
        ("under", 50.0, "past"),
    ],
)
def test_state_of_a_value(bound, value, state):
    rule = dataclasses.replace(BY_ID["us-speed"], limit=50.0, bound=bound)
    assert rule.state(value) == state


# ------------------------------------------------------------------------------ builds


def test_kinetic_energy_is_half_m_v_squared(usual):
    found = figures(usual)
    mass, speed = found["mass_total"].value, found["top_speed"].value
    assert found["kinetic_energy"].value == pytest.approx(0.5 * mass * speed**2)
    assert kinetic_energy(usual, np.zeros((1, 1))) == 0.0
    assert found["reaction_distance"].value == pytest.approx(speed * 1.0)
    thrown = speed * math.sqrt(2 * found["shot_above"].value / 9.80665)
    assert found["throw_distance"].value == pytest.approx(thrown)


def test_builds_are_held_against_every_rule_with_a_number_at_its_worst(usual):
    places = rule_verdicts(usual)
    assert [place.place for place in places] == ["United States", "European Union"]
    judged = {v.id: v for place in places for v in place.verdicts}
    numbered = {rule.id for rule in rules() if rule.measure != "none"}
    assert judged.keys() == numbered
    most = {measure: stands[0].value for measure, stands in standings(usual).items()}
    for id, verdict in judged.items():
        rule = BY_ID[id]
        assert verdict.amount == pytest.approx(most[rule.measure] / rule.limit)
        assert verdict.state == rule.state(most[rule.measure])
        assert rule.rule in verdict.basis and rule.read in verdict.basis
        assert bool(verdict.fix) == (verdict.state != "inside")
    others = [text for place in places for text in place.others]
    assert len(others) == len(rules()) - len(numbered)


def test_the_chase_is_past_and_the_height_is_inside(usual):
    judged = {v.id: v for place in rule_verdicts(usual) for v in place.verdicts}
    assert judged["us-speed"].state == "past"
    assert judged["eu-a1-mass"].state == "past"
    assert judged["us-height"].state == judged["eu-height"].state == "inside"
    sentence = judged["us-speed"].sentence("metric")
    for words in ("at most 161~km/h", "At top speed", "beside the subject", "best range"):
        assert words.replace("~", THIN) in sentence
    assert f"at most 100{THIN}mph" in judged["us-speed"].sentence("imperial")


def test_a_build_that_cannot_fly_is_still_weighed(usual):
    heavy = dataclasses.replace(shipped().parts["pack"], mass_kg=9.0)
    build = dataclasses.replace(shipped(), parts={**shipped().parts, "pack": heavy})
    judged = {v.id: v for place in rule_verdicts(performance(build)) for v in place.verdicts}
    assert judged["eu-c2-mass"].state == "past"
    assert "us-speed" not in judged and "eu-registration" not in judged


def test_page_names_places_sections_and_who_decides(usual):
    text = plain_text(rules_list(rule_verdicts(usual), "metric"))
    assert text.startswith(WHO_DECIDES)
    for rule in rules():
        assert rule.place in text and rule.rule in text and rule.read in text
    for word in ("change", "differ", "waivers", "local code", "owner", "event", "operator"):
        assert word in WHO_DECIDES


# ------------------------------------------------------------------------------ tables


def test_another_table_is_all_that_another_place_needs(tmp_path, monkeypatch):
    shipped_table = (rules_module.resources.files("slipfit") / "data/rules.csv").read_text("utf-8")
    (tmp_path / "data").mkdir()
    (tmp_path / "data/rules.csv").write_text(shipped_table, "utf-8")
    (tmp_path / "data/rules-nowhere.csv").write_text(f"# source: x\n{HEAD}\n{ROW}\n", "utf-8")
    monkeypatch.setattr(rules_module.resources, "files", lambda _: tmp_path)
    rules.cache_clear()
    try:
        (added,) = (rule for rule in rules() if rule.place == "Nowhere")
        assert added.limit == pytest.approx(50 / 3.6)
        assert len(rules()) == len(BY_ID) + 1
        (tmp_path / "data/rules-twice.csv").write_text(f"{HEAD}\n{ROW}\n", "utf-8")
        rules.cache_clear()
        with pytest.raises(InputError, match="id must be used once, got x-speed more than once"):
            rules()
    finally:
        rules.cache_clear()


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (",speed,", ",sped,", r"r\.csv:2: no measure 'sped'; did you mean 'speed'"),
        (",50,km/h,", ",50,furlong,", r"r\.csv:2: value must carry a unit of speed"),
        (",50,km/h,", ",,km/h,", r"r\.csv:2: value must be a number"),
        (",50,km/h,", ",0,km/h,", r"r\.csv:2: value must be > 0, got 0"),
        (",under,", ",below,", r"r\.csv:2: no bound 'below'"),
        ("Kite Act 1", "", r"r\.csv:2: rule must be given, got nothing"),
        ("2026-11", " ", r"r\.csv:2: read must be given"),
        (",seen", "", r"r\.csv:2: a row must have 11 entries, got 10"),
    ],
)
def test_each_mistake_in_a_table_is_told_with_its_line(old, new, message):
    assert old in ROW
    with pytest.raises(InputError, match=message):
        rules_from_text(f"{HEAD}\n{ROW.replace(old, new, 1)}\n", "r.csv")


def test_columns_must_be_those():
    with pytest.raises(InputError, match=r"r\.csv:1: columns must be id,place,"):
        rules_from_text("id,place\n", "r.csv")
    with pytest.raises(InputError, match=r"r\.csv:2: columns must be"):
        rules_from_text("# a comment", "r.csv")
