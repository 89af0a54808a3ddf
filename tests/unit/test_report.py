"""The report: what it holds, what it says aloud, and the stable keys of its JSON."""

from __future__ import annotations

import json
import math
import re
from typing import Any

import pytest

from site_builds import DOCS, altered, framed, library, on_day, shipped, swapped, without
from slipfit import __version__
from slipfit.build import Build
from slipfit.charts.registry import CHARTS
from slipfit.checks.verdict import SEVERITY
from slipfit.errors import InputError
from slipfit.figures.registry import FIGURES
from slipfit.library import default_build, link_of_build
from slipfit.masses import mass_total
from slipfit.parts.kinds import KINDS
from slipfit.report import Report, report, report_json

# The keys that scripts may rely on. A key may be added here, never renamed or taken away; each is
# described on the page "The command line" for authors.
TOP_KEYS = {
    "slipfit",
    "frame",
    "link",
    "in_short",
    "options",
    "parts",
    "figures",
    "verdicts",
    "rules",
    "charts",
}
KEYS = {
    "frame": {"slug", "name"},
    "parts": {"kind", "id", "name", "mass_kg", "count", "guessed"},
    "figures": {"label", "value", "low", "high", "text", "cause", "source"},
    "verdicts": {"id", "family", "state", "kind", "amount", "sentence", "basis", "fix"},
    "rules": {"id", "state", "amount", "sentence", "basis"},
    "charts": {"caption", "x", "series", "marks"},
    "series": {"id", "label", "values", "low", "high"},
    "marks": {"label", "x"},
}
# Ids that were published first; they stay for as long as there are scripts.
FIRST_FIGURES = {
    "top_speed", "hover_throttle", "thrust_to_weight", "motor_current_full",
    "motor_current_static", "motor_current_hover", "pack_current_full", "pack_current_hover",
    "pack_voltage_full", "pack_voltage_per_cell_full", "hover_time", "cruise_speed",
    "cruise_range", "cruise_current", "rpm_full", "tip_mach_full", "prop_efficiency_full",
    "advance_ratio_full", "tilt_full", "power_full", "drag_full", "esc_loss_full", "mass_total",
    "balance_station", "esc_ratio",
}  # fmt: skip
FIRST_LIMITS = {
    "esc_current", "esc_burst", "esc_cells", "motor_current", "pack_current", "cell_voltage",
    "tip_mach", "hover_margin",
}  # fmt: skip


@pytest.fixture(scope="module")
def usual() -> Report:
    return report(shipped(), ranges=True)


def as_json(made: Report) -> dict[str, Any]:
    """By way of text, without NaN: as a script reads it."""
    data: dict[str, Any] = json.loads(json.dumps(report_json(made), allow_nan=False))
    return data


# ------------------------------------------------------------------------------ JSON


def test_keys_of_the_json_are_those_that_scripts_rely_on(usual: Report) -> None:
    data = as_json(usual)
    assert set(data) == TOP_KEYS
    assert set(data["frame"]) == KEYS["frame"]
    for name in ("parts", "verdicts"):
        assert data[name]
        assert all(set(entry) == KEYS[name] for entry in data[name]), name
    for name in ("figures", "charts"):
        assert data[name]
        assert all(set(entry) == KEYS[name] for entry in data[name].values()), name
    for verdicts in data["rules"].values():
        assert all(set(entry) == KEYS["rules"] for entry in verdicts)
    for chart in data["charts"].values():
        assert all(set(series) == KEYS["series"] for series in chart["series"])
        assert all(set(mark) == KEYS["marks"] for mark in chart["marks"])


def test_ids_that_were_published_are_still_there(usual: Report) -> None:
    data = as_json(usual)
    assert set(data["figures"]) == {kind.id for kind in FIGURES} >= FIRST_FIGURES
    assert set(data["charts"]) == set(CHARTS) >= {"level_flight", "drag_split"}
    assert {v["id"] for v in data["verdicts"] if v["family"] == "limit"} >= FIRST_LIMITS
    assert data["slipfit"] == __version__


def test_every_key_is_described_for_authors() -> None:
    text = (DOCS / "authors/command-line.md").read_text("utf-8")
    described = set(re.findall(r"`([a-z_]+)`", text.split("### Of a report")[1].split("###")[0]))
    for keys in (TOP_KEYS, *KEYS.values()):
        assert keys <= described, keys - described


def test_values_are_si_and_texts_are_for_people(usual: Report) -> None:
    data = as_json(usual)
    mass = data["figures"]["mass_total"]
    assert mass["value"] == pytest.approx(mass_total(shipped()))  # kg
    assert mass["text"].endswith("\u202fg")
    assert mass["low"] < mass["value"] < mass["high"]
    speed = data["figures"]["top_speed"]
    assert speed["text"] == f"{speed['value'] * 3.6:.0f}\u202fkm/h"


def test_parts_of_the_json_are_those_of_the_build(usual: Report) -> None:
    data, build = as_json(usual), shipped()
    assert [part["kind"] for part in data["parts"]] == [
        kind.id for kind in KINDS if kind.id in build.parts
    ]
    counts = {part["kind"]: part["count"] for part in data["parts"]}
    assert counts["motor"] == counts["prop"] == build.rotor_count
    assert counts["pack"] == counts["esc"] == 1


# ------------------------------------------------------------------------------ one build, once


def test_ranges_do_not_move_the_values(usual: Report) -> None:
    plain = report(shipped())
    assert not plain.ranges and usual.ranges
    for id, figure in plain.figures.items():
        assert figure.value == usual.figures[id].value, id
        assert figure.low is None
    assert [v.id for v in plain.verdicts] == [v.id for v in usual.verdicts]
    assert [v.state for v in plain.verdicts] == [v.state for v in usual.verdicts]


def test_the_same_build_gives_the_same_report(usual: Report) -> None:
    assert as_json(report(shipped(), ranges=True)) == as_json(usual)


def test_the_link_opens_to_the_reports_build(usual: Report) -> None:
    assert usual.link == link_of_build(shipped())
    assert usual.build.frame.slug == "quillback-5"


@pytest.mark.parametrize("slug", list(library().frames))
def test_every_frame_of_the_site_has_a_whole_report(slug: str) -> None:
    data = as_json(report(default_build(library(), slug), ranges=True))
    assert data["figures"]["top_speed"]["value"] is not None
    assert data["in_short"].count("flies") == 1


# ------------------------------------------------------------------------------ part lines


def test_a_part_line_shows_the_worst_said_of_its_part() -> None:
    made = report(swapped(pack="k6-2200"))
    line = next(line for line in made.part_lines if line.kind == "pack")
    about = [v for v in made.verdicts if v.kind == "pack"]
    assert line.worst is not None
    assert line.worst.severity == max(v.severity for v in about) == 2
    assert line.part_id == "k6-2200"


def test_a_part_line_says_where_numbers_are_guessed() -> None:
    made = report(swapped(motor="m28-2150"))  # neither resistance nor no-load current is given
    assert next(line for line in made.part_lines if line.kind == "motor").guessed
    known = report(shipped())
    assert not next(line for line in known.part_lines if line.kind == "motor").guessed


# ------------------------------------------------------------------------------ in short


def test_in_short_says_what_a_person_would(usual: Report) -> None:
    said = usual.in_short["metric"]
    speed, hover = usual.figures["top_speed"], usual.figures["hover_time"]
    assert f"flies {speed.range_text('metric')} flat out" in said
    assert f"hovers {hover.range_text('metric')} on one pack" in said
    assert "933 g" in said.replace("\u202f", " ") or "weighs" in said
    assert "mph" in usual.in_short["imperial"] and "km/h" not in usual.in_short["imperial"]
    assert said.endswith(".")


def test_in_short_begins_with_the_worst() -> None:
    made = report(swapped(pack="k6-1750w"))  # too wide for the bay
    clash = next(v for v in made.verdicts if v.state == "clashes")
    assert made.in_short["metric"].startswith(clash.sentence_metric)
    tight = report(swapped(esc="e40"))
    assert SEVERITY[next(v for v in tight.verdicts if v.id == "esc_current").state] >= 1


@pytest.mark.parametrize(
    ("build", "why"),
    [
        (altered("pack", mass_kg=9.0), "full throttle does not hold the weight in hover"),
        (
            altered("pack", cell_resistance_ohm=0.3),
            "the pack cannot give the power that hover asks for",
        ),
        (altered("pack", cell_count=1), "full throttle does not hold the weight in hover"),
        (altered("motor", kv_rad_s_V=1.0), None),
    ],
    ids=["heavy", "faded pack", "one cell", "motor that hardly turns"],
)
def test_a_build_that_cannot_fly_is_reported_whole(build: Build, why: str | None) -> None:
    """Warnings are errors here, and NaN has no JSON: neither may come of a bad build."""
    made = report(build, ranges=True)
    data = as_json(made)
    assert "cannot fly" in data["in_short"]
    for id in ("top_speed", "hover_time", "motor_current_full", "cruise_range"):
        assert data["figures"][id]["value"] is None, id
        assert data["figures"][id]["text"] == "no value"
        assert data["figures"][id]["cause"]
        assert why is None or data["figures"][id]["cause"] == why
    assert data["figures"]["mass_total"]["value"] > 0.0
    for id, drawing in made.drawings.items():
        assert drawing is not None, id
    for verdict in made.verdicts:
        assert math.isfinite(verdict.amount), verdict.id


@pytest.mark.parametrize("kind", ["motor", "prop", "pack", "esc"])
def test_a_build_without_a_part_that_flies_it_is_refused(kind: str) -> None:
    with pytest.raises(InputError, match=f"a build must have a {kind} before it can be flown"):
        report(without(kind))


@pytest.mark.parametrize("kind", ["camera", "video", "gps", "receiver", "stack"])
def test_a_build_without_another_part_is_reported(kind: str) -> None:
    data = as_json(report(without(kind)))
    assert data["figures"]["top_speed"]["value"] is not None
    assert kind not in {part["kind"] for part in data["parts"]}
    assert not [v for v in data["verdicts"] if v["kind"] == kind]


@pytest.mark.parametrize(
    "build",
    [
        framed(bodies=()),
        framed(bodies=shipped().frame.bodies[:1]),
        framed(hardware=()),
        on_day(height_m=5000.0, air_temperature_K=318.15),
        on_day(air_temperature_K=233.15, pack_temperature_K=253.15),
        altered("pack", cell_count=14),
    ],
    ids=["no bodies", "one body", "no hardware", "hot and high", "bitter cold", "fourteen cells"],
)
def test_odd_builds_are_reported_whole(build: Build) -> None:
    data = as_json(report(build, ranges=True))
    assert data["figures"]["mass_total"]["value"] > 0.0
