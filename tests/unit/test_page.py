"""What a reader sees: words, ranges, verdicts, forms and slots, from an invented report."""

import dataclasses
import re
from collections import Counter
from pathlib import Path

import pytest

from slipfit import units
from slipfit.errors import InputError
from slipfit.figures.figure import Figure
from slipfit.markup import TAGS, plain_text, to_html
from slipfit.page import (
    DAY,
    Choice,
    change_text,
    changed_texts,
    choices_dialog,
    explain_dialog,
    known_slot,
    link_editor,
    ordered,
    own_part_dialog,
    slots,
)
from slipfit.page.marks import whisker
from slipfit.parts.kinds import kind_of
from slipfit.parts.reading import part_from_texts
from stand_in_report import CLASH, NEAR, PAST, TOP_SPEED, WINDING, StandIn

ROOT = Path(__file__).resolve().parents[2]
REPORT = StandIn()
EVERY_SLOT = [
    "value:top_speed", "note:top_speed", "note:hover_time", "note:winding", "chart:level_flight",
    "chart:drag_split", "chart:masses", "drawing:side", "checks:fit", "checks:limits", "shelf",
    "short", "day",
]  # fmt: skip


def walk(tree):
    if isinstance(tree, list):
        yield tree
        for child in tree[2:]:
            yield from walk(child)


def elements(tree, tag=None, class_=None):
    return [
        node
        for node in walk(tree)
        if (tag is None or node[0] == tag)
        and (class_ is None or class_ in node[1].get("class", "").split())
    ]


def text_of(slot, system="metric"):
    return plain_text(slots(REPORT, [slot], system)[slot]).replace("\u202f", " ")


def test_slots_come_back_under_the_names_that_were_asked_for():
    filled = slots(REPORT, EVERY_SLOT, "metric")
    assert list(filled) == EVERY_SLOT
    assert all("is not known here" not in plain_text(tree) for tree in filled.values())


def test_a_value_stands_in_the_units_of_the_reader():
    assert text_of("value:top_speed") == "285 km/h"
    assert text_of("value:top_speed", "imperial") == "177 mph"


def test_a_margin_note_says_value_range_and_cause():
    words = text_of("note:top_speed")
    for part in ("Top speed", "285 km/h", "271–298 km/h", "Limited by the pack's sag"):
        assert part in words


def test_a_margin_note_without_an_answer_says_why():
    words = text_of("note:hover_time")
    assert "no value" in words
    assert "Cannot hover: too heavy by 12 %" in words


def test_buttons_that_need_a_script_carry_the_class_that_hides_them_without():
    for tree in slots(REPORT, EVERY_SLOT, "metric").values():
        for parent in walk(tree):
            if parent[0] == "button" and "sf-scripted" not in parent[1].get("class", ""):
                hidden = [
                    node
                    for node in elements(tree, class_="sf-scripted")
                    if any(child is parent for child in walk(node))
                ]
                assert hidden, to_html(parent)


def test_whisker_is_longer_for_a_less_certain_figure():
    def length(low, high):
        figure = dataclasses.replace(TOP_SPEED, low=low, high=high)
        (line,) = elements(whisker(figure), class_="sf-whisker-line")
        start, end = map(float, re.findall(r"-?\d+\.\d", line[1]["d"]))
        return end - start

    assert length(75.0, 83.0) < length(70.0, 90.0) < length(50.0, 120.0) <= 156.1


def test_whisker_keeps_its_place_while_the_range_is_still_to_come():
    tree = whisker(dataclasses.replace(TOP_SPEED, low=None, high=None))
    assert elements(tree, class_="sf-whisker-rail")
    assert not elements(tree, class_="sf-whisker-line")


def test_whisker_is_missing_where_there_is_no_value():
    assert whisker(dataclasses.replace(TOP_SPEED, value=None)) is None


@pytest.mark.parametrize(
    ("display", "before", "after", "system", "text"),
    [
        (units.SPEED, 79.2, 75.8666, "metric", "−12 km/h"),
        (units.TEMPERATURE, 293.15, 298.15, "metric", "+5°C"),
        (units.TEMPERATURE, 293.15, 298.15, "imperial", "+9°F"),
        (units.SPEED, 79.2, 79.21, "metric", ""),
        (units.ANGLE, 0.0, 0.1, "metric", "+6°"),
    ],
)
def test_change_is_a_difference_and_not_a_value(display, before, after, system, text):
    assert change_text(display, before, after, system).replace("\u202f", "").replace(
        " ", ""
    ) == text.replace(" ", "")


def test_verdicts_stand_worst_first_with_word_rule_and_remedy():
    tree = slots(REPORT, ["checks:fit"], "metric")["checks:fit"]
    assert [node[1]["data-check"] for node in elements(tree, "li")] == [
        "pack_bay", "gps_bay", "stack_holes",
    ]  # fmt: skip
    first = plain_text(elements(tree, "li")[0])
    assert first.startswith("clashes")
    assert CLASH.basis in first
    assert CLASH.fix in first


def test_each_state_has_a_line_pattern_of_its_own():
    tree = slots(REPORT, ["checks:fit"], "metric")["checks:fit"]
    marks = {to_html(node) for node in elements(tree, "svg")}
    assert len(marks) == 3


def test_shelf_names_its_worst_even_when_closed():
    tree = slots(REPORT, ["shelf"], "metric")["shelf"]
    (summary,) = elements(tree, "summary")
    assert "Pack clashes" in plain_text(summary)
    assert "partly guessed" in plain_text(tree)
    assert "4 × 52" in plain_text(tree)
    assert "together 483" in plain_text(tree)
    assert [node[1]["data-open-choices"] for node in elements(tree, "button")] == [
        "motor", "prop", "pack", "esc", "gps",
    ]  # fmt: skip


def test_choices_put_workable_parts_first_and_the_least_trouble_before_the_most():
    choices = [
        Choice(key="a", name="a far too wide", mass_kg=0.2, worst=CLASH),
        Choice(
            key="b",
            name="b hardly too wide",
            mass_kg=0.2,
            worst=dataclasses.replace(CLASH, amount=-0.0001),
        ),
        Choice(key="c", name="c near", mass_kg=0.2, worst=NEAR),
        Choice(key="d", name="d good", mass_kg=0.2, current=True),
        Choice(key="e", name="e past", mass_kg=0.2, worst=PAST),
    ]
    tree = choices_dialog("pack", "pack", ordered(choices), "metric")
    names = [plain_text(node)[0] for node in elements(tree, class_="sf-choice")]
    assert names[:2] == ["d", "c"]
    assert names.index("b") < names.index("a")
    assert "5 on the shelf, 2 workable" in plain_text(tree)
    offered = [node[1].get("data-swap-part") for node in elements(tree, "button")]
    assert [part for part in offered if part] == [name for name in names if name != "d"]


def test_explanation_shows_steps_sources_and_the_three_inputs_that_move_it_most():
    words = plain_text(explain_dialog(TOP_SPEED, "metric")).replace("\u202f", " ")
    assert "31.2 N = 31.2 N at 79.2 m/s" in words
    assert "drag of the body±10 km/h" in words
    assert "pack resistance±6 km/h" in words
    assert "air density" not in words


def test_explanation_of_a_temperature_gives_a_difference_of_temperature():
    words = plain_text(explain_dialog(WINDING, "imperial"))
    assert "±16" in words


@pytest.mark.parametrize("kind", ["motor", "prop", "pack", "esc", "stack", "camera", "receiver"])
def test_own_part_form_asks_for_what_is_needed_first(kind):
    tree = own_part_dialog(kind_of(kind), {})
    fields = elements(tree, class_="sf-field")
    needed = ["needed" in plain_text(field) for field in fields[1:]]
    assert needed == sorted(needed, reverse=True)
    assert any(needed)


def test_own_part_form_keeps_what_was_typed_and_puts_the_error_beside_it():
    tree = own_part_dialog(
        kind_of("motor"),
        {"kv": "1950", "resistance": "62 mohm"},
        {"kv": "kv must carry a unit"},
    )
    (field,) = [f for f in elements(tree, "input") if f[1]["name"] == "kv"]
    assert field[1]["value"] == "1950"
    assert field[1]["aria-invalid"] == "true"
    error_id = field[1]["aria-describedby"].split()[0]
    (error,) = [node for node in walk(tree) if node[1].get("id") == error_id]
    assert plain_text(error) == "Must carry a unit"
    (kept,) = [f for f in elements(tree, "input") if f[1]["name"] == "resistance"]
    assert kept[1]["value"] == "62 mohm"
    (rest,) = elements(tree, "details")
    assert "open" in rest[1]
    assert "One entry needs a look." in plain_text(tree)


def test_own_part_form_says_what_is_guessed():
    tree = own_part_dialog(kind_of("motor"), {})
    (field,) = [f for f in elements(tree, "input") if f[1]["name"] == "resistance"]
    assert "placeholder" not in field[1]
    words = plain_text(tree)
    assert "If empty, guessed from the stator's size and the speed constant." in words
    assert "If empty, the usual 14." in words


def test_own_part_form_shows_the_values_guessed_from_what_was_typed():
    typed = {
        "stator_diameter": "28 mm", "stator_height": "8 mm", "kv": "1950", "mount_pattern": "19x19",
        "mass": "55 g",
    }  # fmt: skip
    guess, faults = part_from_texts("motor", typed)
    assert faults == ()
    tree = own_part_dialog(kind_of("motor"), typed, guess=guess)
    (field,) = [f for f in elements(tree, "input") if f[1]["name"] == "resistance"]
    assert re.fullmatch(r"[\d.]+ mΩ", field[1]["placeholder"])
    assert f"guessed {field[1]['placeholder']}, from the stator" in plain_text(tree)


def test_day_form_keeps_what_was_typed():
    tree = link_editor(DAY, REPORT.build, "metric", {"air": "-90 C"}, {"air": "too cold"})
    (field,) = [f for f in elements(tree, "input") if f[1]["name"] == "air"]
    assert field[1]["value"] == "-90 C"
    assert "too cold" in plain_text(tree)
    assert "air at −8" in plain_text(tree)


def test_day_form_sends_only_what_was_changed_with_the_unit_it_stood_beside():
    typed = {"air": "18\u202f°F", "packs": "70", "height": "-3.5", "uptilt": "20 deg"}
    assert changed_texts(DAY, REPORT.build, "imperial", typed) == {
        "packs": "70 F",
        "height": "-3.5 ft",
        "uptilt": "20 deg",
    }


def test_ids_are_unique_on_a_page_with_everything():
    filled = slots(REPORT, EVERY_SLOT, "metric")
    ids = Counter(
        node[1]["id"] for tree in filled.values() for node in walk(tree) if "id" in node[1]
    )
    assert ids
    assert max(ids.values()) == 1


def test_no_element_carries_a_style_or_a_handler():
    for tree in slots(REPORT, EVERY_SLOT, "imperial").values():
        for node in walk(tree):
            assert not [name for name in node[1] if name == "style" or name.startswith("on")]


@pytest.mark.parametrize(
    ("slot", "message"),
    [
        ("note:top_sped", r"no note 'top_sped'; did you mean 'top_speed'\?"),
        ("chart:level", r"no chart 'level'"),
        ("checks:fits", r"no checks 'fits'; did you mean 'fit'\?"),
        ("cart:x", r"no place 'cart'; did you mean 'chart'\?"),
    ],
)
def test_a_misspelt_slot_is_named_with_the_nearest(slot, message):
    assert re.match(message, known_slot(REPORT, slot))


def test_a_known_slot_has_nothing_to_say():
    assert [known_slot(REPORT, slot) for slot in EVERY_SLOT] == [""] * len(EVERY_SLOT)


def test_an_unknown_place_or_system_is_refused():
    with pytest.raises(InputError, match="page: no place 'cart'; did you mean 'chart'"):
        slots(REPORT, ["cart:x"], "metric")
    with pytest.raises(InputError, match="system must be 'metric' or 'imperial', got 'ancient'"):
        slots(REPORT, ["shelf"], "ancient")


def test_text_is_only_ever_text():
    hostile = Figure(
        id="top_speed", label="<script>x</script>", display=units.SPEED, value=1.0, cause='"><img>'
    )
    report = StandIn(figures={"top_speed": hostile})
    html = to_html(slots(report, ["note:top_speed"], "metric")["note:top_speed"])
    assert "<script" not in html
    assert "<img" not in html


def test_the_script_may_place_what_the_views_write_and_no_more_tags_than_the_core():
    script = (ROOT / "site_src" / "js" / "place.js").read_text("utf-8")

    def listed(name):
        return set(re.search(rf"{name} = new Set\(`([^`]*)`", script)[1].split())

    assert listed("TAGS") == TAGS
    trees = [*slots(REPORT, EVERY_SLOT, "metric").values(), explain_dialog(TOP_SPEED, "metric")]
    trees += [
        own_part_dialog(kind_of("motor"), {}, {"kv": "no"}),
        link_editor(DAY, REPORT.build, "metric"),
    ]
    trees += [choices_dialog("pack", "pack", [Choice(key="a", name="a", mass_kg=1.0)], "metric")]
    used = {name for tree in trees for node in walk(tree) for name in node[1]}
    used = {name for name in used if not name.startswith(("aria-", "data-"))}
    assert used <= listed("ATTRIBUTES")
