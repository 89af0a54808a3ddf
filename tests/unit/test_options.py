"""Options of a frame: what belongs to them, and that links, files, notes and pages know them."""

from __future__ import annotations

import dataclasses
import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assets import site_files
from site_builds import DOCS, library, shipped
from slipfit.api import call, use_site
from slipfit.build import Build
from slipfit.buildfile import build_toml, read_build_toml
from slipfit.effects import option_effects
from slipfit.errors import InputError
from slipfit.flight.performance import performance
from slipfit.frame.frame import Frame
from slipfit.frame.options import frame_with, settings_of, settings_text
from slipfit.frame.reading import read_frame
from slipfit.library import build_of, build_of_link, link_of_build, state_of_build
from slipfit.link import read_link
from slipfit.markup import to_html
from slipfit.masses import mass_total
from slipfit.notes import Facts, condition_problem, holds, value_text
from slipfit.page.options_view import options_form, worth_list
from slipfit.parts.source import FileError
from slipfit.report import report, report_json
from slipfit.structure import turning
from slipfit.units import THIN

SLUGS = ("quillback-5", "longspur-7")
TEXT = (DOCS / "frames/quillback-5/frame.toml").read_text(encoding="utf-8")
SPINNER = 'name = "spinner"\noption = "spinners on"'
IDS = {slug: [o.id for o in library().frames[slug].options] for slug in SLUGS}
choices = st.sampled_from(SLUGS).flatmap(
    lambda slug: st.tuples(st.just(slug), st.sets(st.sampled_from(IDS[slug])))
)


def with_options(*on: str, slug: str = "quillback-5") -> Build:
    build = shipped(slug)
    return dataclasses.replace(build, frame=frame_with(build.frame, on))


def test_settings_are_written_as_a_person_says_them():
    assert settings_of("") == {}
    assert settings_of("spinners on") == {"spinners": True}
    assert settings_of("spinners off,  pod-tails on") == {"spinners": False, "pod-tails": True}
    for wrong in ("spinners", "Spinners on", "spinners on, spinners off", "spinners no", ","):
        with pytest.raises(InputError):
            settings_of(wrong)


def test_frame_ships_with_its_defaults_and_without_what_belongs_to_other_settings():
    frame = library().frames["quillback-5"]
    assert frame.on == ("pod-tails",)
    assert [b.option for b in frame.bodies if b.option] == ["spinners off, pod-tails on"]
    assert [i.name for i in frame.hardware if i.option] == ["motor pod"]
    assert settings_text(frame) == "without spinners, with pod tails"


def test_masses_follow():
    """Four spinners of 3 g; four pods that are 3 g lighter without their tails."""
    usual = mass_total(shipped())
    assert mass_total(with_options("pod-tails", "spinners")) - usual == pytest.approx(12e-3)
    assert mass_total(with_options()) - usual == pytest.approx(-12e-3)


def test_what_turns_gains_the_spinner_and_nothing_else():
    usual, capped = turning(shipped()), turning(with_options("pod-tails", "spinners"))
    assert capped.hardware_kg_m2 == pytest.approx(3e-3 * 0.0105**2)
    assert usual.hardware_kg_m2 == 0.0
    assert capped.prop_kg_m2 == usual.prop_kg_m2
    assert capped.total_kg_m2 / usual.total_kg_m2 == pytest.approx(1.034, abs=1e-3)


@given(choices, st.data())
@settings(max_examples=30, deadline=None)
def test_only_the_last_choice_counts(choice, data):
    slug, on = choice
    frame = library().frames[slug]
    before = data.draw(st.sets(st.sampled_from(IDS[slug])))
    again = frame_with(frame_with(frame, before), on)
    assert again == frame_with(frame, on)
    assert set(again.on) == on
    assert frame_with(again, frame.on) == frame


@given(choices)
@settings(max_examples=20, deadline=None)
def test_link_and_build_file_bring_the_options_back(choice):
    slug, on = choice
    build = with_options(*on, slug=slug)
    opened, messages = build_of_link(library(), link_of_build(build), slug)
    assert messages == ()
    assert opened.frame == build.frame
    filed, messages = build_of(library(), read_build_toml(build_toml(state_of_build(build))))
    assert messages == ()
    assert filed.frame == build.frame


def test_link_says_only_what_is_not_as_shipped():
    assert "with" not in link_of_build(shipped())
    assert link_of_build(with_options("spinners")).endswith(";with=spinners;without=pod-tails")
    state, messages = read_link("#b1;quillback-5;with=pod-tails,spinners")
    assert (state.options, messages) == ({"pod-tails": True, "spinners": True}, ())


def test_option_that_the_frame_lacks_is_said_and_the_rest_opens():
    link = "#b1;quillback-5;with=spinner;without=pod-tails,mast"
    build, messages = build_of_link(library(), link, "quillback-5")
    assert build.frame.on == ()
    assert messages == (
        "Quillback 5 has no option 'spinner'; did you mean 'spinners'? "
        "There are: 'pod-tails', 'spinners'.",
        "Quillback 5 has no option 'mast'. There are: 'pod-tails', 'spinners'.",
    )
    _, messages = read_link("#b1;quillback-5;with=Spinners,a,a;without=a")
    assert messages == (
        "'with' in the link must list options, got 'Spinners'.",
        "The option 'a' stands twice in the link; the first is kept.",
    )


def test_build_file_says_what_is_wrong_with_its_options():
    with pytest.raises(FileError) as caught:
        read_build_toml('frame = "quillback-5"\n[options]\nspinners = "on"\n', "b.toml")
    assert caught.value.problems == (
        "b.toml:3: [options]: spinners must be true or false, got 'on'",
    )


def test_conditions_of_notes_ask_for_options():
    frame = shipped().frame
    facts = Facts(build=shipped(), figures={}, verdicts=())
    assert holds("option.pod-tails is on and option.spinners is off", facts)
    assert not holds("option.spinners is on", facts)
    assert value_text("option.spinners", facts, "metric") == "off"
    assert condition_problem("option.spinners is on", frame) == ""
    assert condition_problem("option.spinners is yes", frame).startswith(
        "'option.spinners' is never 'yes'"
    )
    assert "no name 'option.mast'" in condition_problem("option.mast is on", frame)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (SPINNER, SPINNER.replace("spinners on", "spinner on"),
         "[hardware] 'spinner': no [[option]] 'spinner'; did you mean 'spinners'?"),
        (SPINNER, SPINNER.replace("spinners on", "spinners"),
         "[hardware] 'spinner': option must be written as 'spinners on', got 'spinners'"),
        ('id = "pod-tails"', 'id = "spinners"', "[option] 'spinners': id must be used once"),
        ('id = "spinners"', 'id = "Spinners"',
         "[option] 'Spinners': id must be small letters, digits and hyphens, got 'Spinners'"),
        ("default = true\n", "", "[option] 'pod-tails': default must be given (as shipped)"),
    ],
)  # fmt: skip
def test_mistakes_are_named_at_their_line(old, new, message):
    assert old in TEXT
    with pytest.raises(FileError) as caught:
        read_frame(TEXT.replace(old, new, 1), "quillback-5")
    assert any(message in problem for problem in caught.value.problems)


def test_something_must_always_be_there():
    bodies = TEXT.replace('name = "shell"\nmodel', 'name = "shell"\noption = "spinners on"\nmodel')
    lone = bodies.split("[[body]]")
    kept = (
        "[[body]]".join([lone[0], lone[1]])
        + bodies[bodies.index("# ---", bodies.index("[[body]]")) :]
    )
    with pytest.raises(FileError) as caught:
        read_frame(kept, "quillback-5")
    assert "[[body]] must be given once that belongs to no option" in str(caught.value)


def test_worth_is_what_those_builds_do():
    usual, spinners, tails = option_effects(shipped())
    assert [e.label for e in (usual, spinners, tails)] == [
        "as it is", "with spinners", "without pod tails",
    ]  # fmt: skip
    alone = performance(with_options("pod-tails", "spinners"))
    assert spinners.values["top_speed"] == pytest.approx(float(alone.top_speed_m_s[0, 0]))
    assert spinners.values["top_speed"] > usual.values["top_speed"] > tails.values["top_speed"]
    assert spinners.values["mass_total"] - usual.values["mass_total"] == pytest.approx(12e-3)
    said = to_html(worth_list((usual, spinners, tails), "metric"))
    assert "<strong>With spinners</strong>: +" in said
    assert f"3{THIN}% more inertia of what turns, +12{THIN}g." in said
    assert "Without pod tails</strong>: −" in said
    assert "mph flat out" in to_html(worth_list((usual, spinners), "imperial"))


def test_worth_of_a_build_that_cannot_fly_is_said():
    usual, spinners, _ = option_effects(shipped())
    grounded = dataclasses.replace(
        spinners, values={**spinners.values, "top_speed": None, "hover_time": None}
    )
    assert "it could not fly" in to_html(worth_list((usual, grounded), "metric"))


def test_a_box_for_each_option_stands_as_the_build_does():
    html = to_html(options_form(with_options("spinners").frame))
    assert html.count('type="checkbox"') == 2
    assert 'name="spinners" value="on" checked=""' in html
    assert 'name="pod-tails" value="on" checked=""' not in html
    assert "Built with spinners, without pod tails." in html
    bare = dataclasses.replace(shipped().frame, options=(), on=(), whole=None)
    assert "has no options" in to_html(options_form(bare))


def test_api_changes_options_and_pages_show_them():
    use_site(site_files(DOCS))
    link = link_of_build(shipped())
    both = call("options", {"link": link, "fields": {"spinners": "on", "pod-tails": "on"}})
    assert both["result"]["link"] == f"{link};with=spinners"
    back = call("options", {"link": both["result"]["link"], "fields": {"pod-tails": "on"}})
    assert back["result"]["link"] == link
    asked = {"link": both["result"]["link"], "slots": ["options", "worth"],
             "conditions": ["option.spinners is on"]}  # fmt: skip
    page = call("page", asked)["result"]
    assert set(page["slots"]) == {"options"}
    assert page["shown"] == {"option.spinners is on": True}
    late = call("page", {**asked, "late": True})["result"]["slots"]
    assert "Without spinners" in to_html(late["worth"])
    report = call("report", {"link": both["result"]["link"]})["result"]
    assert report["options"] == {"spinners": True, "pod-tails": True}


def test_frame_without_options_is_left_alone():
    start = TEXT.index("[[option]]")
    text = TEXT[:start] + TEXT[TEXT.index("# ---", start) :]
    pieces = text.split("\n\n")
    text = "\n\n".join(p for p in pieces if 'option = "' not in p or 'name = "motor pod"' in p)
    text = "\n".join(line for line in text.split("\n") if not line.startswith("option = "))
    frame = read_frame(text, "plain")
    assert isinstance(frame, Frame)
    assert (frame.options, frame.on, frame.whole) == ((), (), None)
    assert frame_with(frame, ("spinners",)) is frame
    assert np.isfinite(performance(dataclasses.replace(shipped(), frame=frame)).top_speed_m_s)


@pytest.mark.parametrize("slug", SLUGS)
def test_every_setting_gives_a_whole_report(slug):
    for count in range(len(IDS[slug]) + 1):
        for on in itertools.combinations(IDS[slug], count):
            found = report(with_options(*on, slug=slug))
            data = report_json(found)
            assert data["options"] == {id: id in on for id in IDS[slug]}
            assert data["figures"]["top_speed"]["value"] > 30.0
            assert all(found.drawings[id].outlines for id in ("side", "top", "section"))
