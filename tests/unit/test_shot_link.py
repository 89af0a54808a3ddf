"""The reader's shot: in the link, in the build file, in the form, and in the build."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builds import DOCS, library, shipped
from slipfit import api, page
from slipfit.buildfile import build_toml, read_build_toml
from slipfit.frame.frame import Shot
from slipfit.frame.reading import read_frame
from slipfit.library import build_of_link, link_of_build
from slipfit.link import LinkShot, LinkState, link_of, read_link
from slipfit.markup import plain_text
from slipfit.parts.source import FileError

SHOT = LinkShot(chase_speed_m_s=55.0, subject_length_m=4.5, depression_rad=0.5, size=0.3, place=0.5)


def opened(link: str):
    build, messages = build_of_link(library(), link, "quillback-5")
    assert messages == ()
    return build


@given(
    st.builds(
        LinkShot,
        chase_speed_m_s=st.none() | st.floats(1.0, 150.0),
        subject_length_m=st.none() | st.floats(0.05, 500.0),
        depression_rad=st.none() | st.floats(0.02, 1.57),
        size=st.none() | st.floats(0.01, 1.0),
        place=st.none() | st.integers(0, 10_000).map(lambda n: n / 10_000),
    )
)
def test_shot_survives_the_link_and_the_build_file(shot):
    for state in (
        read_link(link_of("quillback-5", {}, None, shot))[0],
        read_build_toml(build_toml(LinkState(frame_slug="quillback-5", shot=shot))),
    ):
        assert state.shot.given().keys() == shot.given().keys()
        for name, value in shot.given().items():
            assert getattr(state.shot, name) == pytest.approx(value, rel=1e-9, abs=1e-9)


def test_frame_s_own_shot_is_not_in_the_link():
    assert "chase=" not in link_of_build(shipped()) and "size=" not in link_of_build(shipped())
    assert shipped().framing == shipped().frame.shot
    assert shipped().chase == shipped().frame.chase_speed_m_s


def test_link_changes_what_it_names_and_nothing_else():
    build = opened("#b1;quillback-5;depression=30deg;chase=50m/s")
    assert build.chase == 50.0
    assert build.framing == dataclasses.replace(build.frame.shot, depression_rad=math.pi / 6)
    again = opened(link_of_build(build))
    assert again.chase == pytest.approx(build.chase)
    assert again.framing.depression_rad == pytest.approx(build.framing.depression_rad)


def test_a_swap_and_a_day_keep_the_shot():
    link = link_of_build(opened("#b1;quillback-5;size=25%25;chase=50m/s"))
    swapped = api.call("swap", {"link": link, "kind": "camera", "part": "c19n"})
    dated = api.call("day", {"link": swapped["result"]["link"], "fields": {"air": "-2 C"}})
    build = opened(dated["result"]["link"])
    assert (build.chase, build.framing.size) == (50.0, 0.25)
    assert build.parts["camera"].id == "c19n"


# ------------------------------------------------------------------------------ the form


@pytest.fixture(autouse=True)
def site():
    api.use_site({f"{p.relative_to(DOCS)}": p.read_text("utf-8") for p in files()})


def files():
    return sorted([*DOCS.glob("frames/*/frame.toml"), *DOCS.glob("parts/*.toml")])


def asked(system: str = "metric", link: str = "#b1;quillback-5", **fields: str):
    stood = {"chase": "", "subject": "", "depression": "", "size": "", "place": ""}
    typed = {**stood, **fields}
    return api.call("shot", {"link": link, "fields": typed, "system": system})["result"]


def test_form_changes_the_shot_and_takes_bare_numbers_in_the_unit_shown():
    build = opened(asked(chase="180", depression="25", size="20 %")["link"])
    assert build.chase == pytest.approx(50.0)
    assert math.degrees(build.framing.depression_rad) == pytest.approx(25.0)
    assert build.framing.size == pytest.approx(0.2)
    assert opened(asked("imperial", chase="100")["link"]).chase == pytest.approx(44.704)


def test_an_emptied_field_goes_back_to_the_frame_s_own():
    link = link_of_build(opened("#b1;quillback-5;size=25%25;chase=50m/s"))
    build = opened(asked(link=link)["link"])
    assert build.framing == build.frame.shot
    assert build.chase == build.frame.chase_speed_m_s


def test_form_that_is_sent_as_it_stood_changes_nothing():
    build = shipped()
    keys = ("chase", "subject", "depression", "size", "place")
    text = page.link_editor(page.SHOT, build, "metric")
    values = [v for v in _values(text)]
    assert len(values) == len(keys)
    answer = asked(**dict(zip(keys, values, strict=True)))
    assert answer["link"] == link_of_build(build)


def _values(tree):
    if isinstance(tree, str):
        return
    if tree[0] == "input":
        yield tree[1]["value"]
    for child in tree[2:]:
        yield from _values(child)


@pytest.mark.parametrize(
    ("fields", "key", "message"),
    [
        ({"depression": "400 deg"}, "depression", "must be 1.00268 to 90.0002 deg, got 400 deg"),
        ({"size": "0 %"}, "size", "size must be 0.5 to 100 %, got 0 %"),
        ({"chase": "fast"}, "chase", "chase must be a number with a unit"),
        ({"subject": "-3 m"}, "subject", "must be 0.05 to 500 m, got -3 m"),
        ({"place": "nan"}, "place", "place must be a number with a unit"),
    ],
)
def test_what_cannot_be_is_told_beside_its_field(fields, key, message):
    answer = asked(**fields)
    assert answer["errors"][0]["field"] == key
    assert message in answer["errors"][0]["message"]
    assert message in plain_text(answer["tree"])


def test_uptilt_of_400_degrees_is_refused_in_the_form_of_the_day():
    answer = api.call("day", {"link": "#b1;quillback-5", "fields": {"uptilt": "400 deg"}})
    (error,) = answer["result"]["errors"]
    assert error["field"] == "uptilt"
    assert "must be -91.6732 to 91.6732 deg, got 400 deg" in error["message"]


# ------------------------------------------------------------------------------ the frame's file

TEXT = (DOCS / "frames/quillback-5/frame.toml").read_text("utf-8")


def test_shot_may_be_left_out():
    start, end = TEXT.index("[shot]"), TEXT.index("[wire]")
    assert read_frame(TEXT[:start] + TEXT[end:], "quillback-5").shot == Shot()


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            'depression = "20 deg"',
            'depression = "400 deg"',
            r"\[shot\]: depression must be 1.00268",
        ),
        ('size = "12 %"', "size = 12", r"\[shot\]: size must be 0.5 to 100 %, got 12"),
        ('subject = "ice yacht"', "subject = 4", r"\[shot\]: subject must be text in quotes"),
        ('place = "33 %"', 'plase = "33 %"', r"\[shot\]: no key 'plase'; did you mean 'place'?"),
        (
            'window_start = "0 mm"',
            'window_start = "90 mm"',
            r"\[camera_seat\]: window_start must be at most window_end",
        ),
    ],
)
def test_each_mistake_in_the_frame_s_file_is_told(old, new, message):
    assert old in TEXT
    with pytest.raises(FileError, match=message):
        read_frame(TEXT.replace(old, new, 1), "quillback-5")
