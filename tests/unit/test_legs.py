"""Legs of a flight: from files, from words, and in links."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builds import DOCS, library, shipped
from slipfit.api import call, use_site
from slipfit.buildfile import build_toml, read_build_toml
from slipfit.errors import InputError
from slipfit.frame.leg import DEFAULT_LEGS, LEG_KINDS, Leg, legs_from_text, legs_text, named_like
from slipfit.frame.reading import read_frame
from slipfit.library import build_of_link, link_of_build, state_of_build
from slipfit.link import read_link
from slipfit.markup import to_html
from slipfit.page.legs_view import leg_sentence
from slipfit.parts.source import FileError

WORDS = "hover 8 s, cruise 400 m 30 m/s, pass 600 m 65 m/s x3, turn 5 s 90 deg, reserve 20 %"


def test_words_are_read_by_their_units():
    hover, cruise, passes, turn, reserve = legs_from_text(WORDS)
    assert hover == Leg(kind="hover", time_s=8.0)
    assert cruise == Leg(kind="cruise", length_m=400.0, speed_m_s=30.0)
    assert passes == Leg(kind="pass", length_m=600.0, speed_m_s=65.0, count=3)
    assert turn.angle_rad == pytest.approx(math.pi / 2)
    assert reserve.charge == pytest.approx(0.2)


@pytest.mark.parametrize(
    "text",
    [
        "hover for 8 s; pass 600 m at 234 km/h ×3; turn 5 s",
        "hover 8s\npass 600m 234km/h 3x\nturn 5s",
        "Hover 8 s, Pass 0,6 km 65 m/s x 3, turn 5 s",
    ],
)
def test_words_may_be_written_as_people_write(text):
    assert [leg.kind for leg in legs_from_text(text)] == ["hover", "pass", "turn"]
    assert legs_from_text(text)[1].length_m == pytest.approx(600.0)
    assert legs_from_text(text)[1].speed_m_s == pytest.approx(65.0)
    assert legs_from_text(text)[1].count == 3


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("hover 8 s, cruis 3 s", r"leg 2 must begin with its kind, got 'cruis'; did you mean 'cru"),
        ("hover", r"leg 1, hover: time must be given for a hover"),
        ("hover 8", r"leg 1, hover: '8' was not understood; values carry units"),
        ("hover -3 s", r"leg 1, hover: time must be 0.5 to 7200 s, got -3 s"),
        ("hover 8 s 3 s", r"leg 1, hover: time must be given once"),
        ("hover 8 parsec", r"leg 1, hover: '8 parsec' must be a time, length, speed"),
        ("cruise 30 s 400 m", r"a cruise must have either time or length"),
        ("return 60 m/s", r"a return must have either time or length"),
        ("land 4 m 3 s", r"length has no place in a land, which takes time"),
        ("pass 600 km", r"length must be 1 to 100000 m, got 600 km; did you mean 600 m\?"),
        ("pass 400 m x400", r"count must be 1 to 40, got 400; did you mean 40\?"),
        ("pass 400 m, pass 300 m", r"only one pass may be without a count"),
        ("reserve 20 %, hover 3 s", r"a reserve must be the last leg"),
        ("reserve 20 %", r"a flight must have a leg besides its reserve"),
        ("", r"a flight must have 1 to 24 legs, got 0"),
        (",".join(["turn 3 s"] * 25), r"a flight must have 1 to 24 legs, got 25"),
        ("hover 8 s " * 200, r"a flight must be at most 1200 characters, got 2000"),
    ],
)
def test_words_that_mean_nothing_are_said(text, said):
    with pytest.raises(InputError, match=said):
        legs_from_text(text)


@given(st.text(max_size=120))
def test_any_text_is_read_or_refused_in_words(text):
    try:
        legs = legs_from_text(text)
    except InputError as error:
        assert error.message
    else:
        assert all(leg.kind in LEG_KINDS for leg in legs)


@given(
    time=st.floats(0.5, 7200.0),
    length=st.floats(1.0, 1e5),
    speed=st.floats(1.0, 140.0),
    count=st.integers(1, 40),
    charge=st.floats(0.0, 0.9),
)
def test_words_say_what_legs_are(time, length, speed, count, charge):
    legs = (
        Leg(kind="hover", time_s=time),
        Leg(kind="pass", length_m=length, speed_m_s=speed, count=count),
        Leg(kind="reserve", charge=charge),
    )
    again = legs_from_text(legs_text(legs))
    assert again[0].time_s == pytest.approx(time, rel=1e-8)
    assert again[1].length_m == pytest.approx(length, rel=1e-8)
    assert again[1].speed_m_s == pytest.approx(speed, rel=1e-8)
    assert again[1].count == count
    assert again[2].charge == pytest.approx(charge, rel=1e-8, abs=1e-12)


def test_frame_without_legs_flies_the_usual_ones():
    text = (DOCS / "frames/quillback-5/frame.toml").read_text(encoding="utf-8")
    without = text[: text.index("[[leg]]")] + text[text.index("[defaults]") :]
    assert read_frame(without, "quillback-5").legs == DEFAULT_LEGS
    assert read_frame(text, "quillback-5").legs[-1].charge == pytest.approx(0.2)


def test_wrong_leg_of_a_frame_is_named_with_its_line():
    text = (DOCS / "frames/quillback-5/frame.toml").read_text(encoding="utf-8")
    wrong = text.replace('kind = "land"\ntime = "12 s"', 'kind = "land"\nlength = "12 m"')
    with pytest.raises(FileError, match=r"frame.toml:\d+: \[leg 8\]: time must be given for a"):
        read_frame(wrong, "quillback-5")
    early = text.replace('kind = "hover" ', 'kind = "reserve"\ncharge = "20 %"\n#', 1)
    early = early.replace('name = "lift-off"                   # as shown\ntime = "8 s"', "#", 1)
    with pytest.raises(FileError, match=r"\[\[leg\]\]: a reserve must be the last leg"):
        read_frame(early, "quillback-5")


def test_link_carries_a_readers_flight_and_opens_again():
    legs = legs_from_text(WORDS)
    build = dataclasses.replace(shipped(), legs=legs)
    link = link_of_build(build)
    assert "legs=hover_8s," in link.replace("hover_8_s", "hover_8s")
    state, messages = read_link(link)
    assert messages == ()
    assert legs_text(state.legs) == legs_text(legs)
    assert "legs=" not in link_of_build(dataclasses.replace(build, legs=build.frame.legs))


def test_link_with_a_broken_flight_opens_the_rest():
    state, messages = read_link("#b1;quillback-5;legs=hover_8s,fly_3s;pack=k6-1600")
    assert state.legs == ()
    assert state.parts == {"pack": "k6-1600"}
    assert len(messages) == 1
    assert "leg 2 must begin with its kind, got 'fly'" in messages[0]
    assert "the frame's own is flown" in messages[0]
    _, twice = read_link("#b1;quillback-5;legs=hover_8s;legs=hover_9s")
    assert "'legs' stands twice in the link; the first is kept." in twice


def test_build_file_keeps_the_flight():
    state = state_of_build(dataclasses.replace(shipped(), legs=legs_from_text(WORDS)))
    again = read_build_toml(build_toml(state))
    assert legs_text(again.legs) == legs_text(state.legs)
    with pytest.raises(FileError, match=r"build.toml:1: legs: leg 1, hover: time must be given"):
        read_build_toml('legs = "hover"\nframe = "quillback-5"\n[parts]\n')


def _on_site():
    from assets import site_files

    use_site(site_files(DOCS))
    return link_of_build(shipped())


def test_form_of_the_flight_makes_a_link_or_keeps_what_was_typed():
    link = _on_site()
    answer = call("legs", {"link": link, "fields": {"legs": WORDS}})
    assert "legs=" in answer["result"]["link"]
    back = call("legs", {"link": answer["result"]["link"], "fields": {"legs": " "}})
    assert back["result"]["link"] == link
    wrong = call("legs", {"link": link, "fields": {"legs": "hover 8 s, pass 40"}})["result"]
    assert wrong["errors"] == [
        {"field": "legs", "message": wrong["errors"][0]["message"]},
    ]
    assert "leg 2, pass: '40' was not understood" in wrong["errors"][0]["message"]
    assert "hover 8 s, pass 40" in str(wrong["tree"])


def test_legs_are_said_in_words():
    said = [leg_sentence(leg, "metric") for leg in shipped().frame.legs]
    assert said[2] == "Flat out: one pass of 400 m at full throttle".replace(" m", "\u202fm", 1)
    assert said[4].endswith(", as many as the pack gives")
    assert said[6].endswith("at the speed of best range")


# --- names -------------------------------------------------------------------------------------

NAMED = (
    Leg(kind="hover", name="lift-off", time_s=8.0),
    Leg(kind="pass", name="mark one", length_m=400.0, count=1),
    Leg(kind="turn", name="round the buoy", time_s=5.0),
    Leg(kind="pass", name="chase", length_m=600.0, speed_m_s=65.0),
    Leg(kind="turn", name="back to the line", time_s=5.0),
    Leg(kind="land", time_s=12.0),
)


def names_of(text: str) -> list[str]:
    return [leg.name for leg in named_like(legs_from_text(text), NAMED)]


def test_flight_that_was_not_changed_keeps_every_name():
    assert named_like(legs_from_text(legs_text(NAMED)), NAMED) == NAMED


@pytest.mark.parametrize(
    ("text", "names"),
    [
        # one leg changed: it alone loses its name
        (
            "hover 8 s, pass 400 m x1, turn 5 s, pass 500 m 65 m/s, turn 5 s, land 12 s",
            ["lift-off", "mark one", "round the buoy", "", "back to the line", ""],
        ),
        # written in another unit and another way: the same leg
        ("hover 8s, pass 0.6 km at 234 km/h, land 12 s", ["lift-off", "chase", ""]),
        # the first turn left out: the second keeps its own name
        (
            "hover 8 s, pass 400 m x1, pass 600 m 65 m/s, turn 5 s, land 12 s",
            ["lift-off", "mark one", "chase", "back to the line", ""],
        ),
        # moved to another place
        ("pass 600 m 65 m/s, turn 5 s, hover 8 s", ["chase", "back to the line", "lift-off"]),
        # more of them than the author wrote: a name is given once
        ("hover 8 s, hover 8 s, land 3 s", ["lift-off", "", ""]),
        ("cruise 90 s", [""]),
    ],
)
def test_legs_that_were_not_changed_keep_their_names(text, names):
    assert names_of(text) == names


@given(st.lists(st.sampled_from(NAMED), min_size=1, max_size=9))
def test_a_name_is_never_given_twice_nor_to_another_leg(legs):
    bare = [dataclasses.replace(leg, name="") for leg in legs]
    found = named_like(bare, NAMED)
    assert [legs_text((leg,)) for leg in found] == [legs_text((leg,)) for leg in legs]
    given_names = [leg.name for leg in found if leg.name]
    assert len(set(given_names)) == len(given_names)
    by_words = {legs_text((leg,)): {n.name for n in NAMED if n.kind == leg.kind} for leg in NAMED}
    assert all(leg.name in {"", *by_words[legs_text((leg,))]} for leg in found)


def test_form_keeps_the_authors_names_on_the_page_and_through_the_link():
    link = _on_site()
    frame = shipped().frame
    text = legs_text(frame.legs)
    assert call("legs", {"link": link, "fields": {"legs": text}})["result"]["link"] == link
    changed = text.replace("hover 8 s", "hover 9 s", 1)
    assert changed != text
    answer = call("legs", {"link": link, "fields": {"legs": changed}})["result"]
    build, messages = build_of_link(library(), answer["link"], frame.slug)
    assert messages == ()
    assert build.legs is not None
    assert [leg.name for leg in build.legs] == ["", *(leg.name for leg in frame.legs[1:])]
    page = call("page", {"link": answer["link"], "slots": ["flight"]})["result"]
    shown = to_html(page["slots"]["flight"])
    for leg in frame.legs[1:]:
        assert leg.name == "" or leg_sentence(leg, "metric") in shown
