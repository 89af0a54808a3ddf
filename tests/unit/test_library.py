"""A site's frames and shelf: everything that is wrong is said at once, and links open to builds."""

from __future__ import annotations

import dataclasses

import pytest

from site_builds import DOCS, SLUG, altered, library, on_day, shipped, swapped
from slipfit.build import Build
from slipfit.errors import InputError
from slipfit.library import (
    Library,
    build_of,
    build_of_link,
    default_build,
    library_from_texts,
    link_of_build,
    state_of_build,
)
from slipfit.link import LinkDay, LinkState
from slipfit.parts.kinds import KINDS
from slipfit.parts.source import FileError

FRAME_PATH = f"frames/{SLUG}/frame.toml"


def texts() -> dict[str, str]:
    return {
        path.relative_to(DOCS).as_posix(): path.read_text(encoding="utf-8")
        for path in [*DOCS.glob(f"frames/{SLUG}/frame.toml"), *DOCS.glob("parts/*.toml")]
    }


def problems_of(changed: dict[str, str]) -> list[str]:
    with pytest.raises(FileError) as error:
        library_from_texts({**texts(), **changed})
    return list(error.value.problems)


def line_of(text: str, start: str) -> int:
    return next(k for k, line in enumerate(text.splitlines(), 1) if line.startswith(start))


# ------------------------------------------------------------------------------ reading


def test_every_frame_of_the_site_has_a_default_build() -> None:
    known = library()
    assert SLUG in known.frames
    for slug in known.frames:
        build = default_build(known, slug)
        assert set(build.parts) == set(build.frame.defaults)
        assert build.day == build.frame.day
        assert build.uptilt_rad == build.frame.uptilt_rad
    assert {kind.id for kind in KINDS} >= set(shipped().parts)


def test_a_library_needs_no_frames_and_other_files_are_left_alone() -> None:
    only = {path: text for path, text in texts().items() if path.startswith("parts/")}
    found = library_from_texts({**only, "frames/readme.toml": "x = 1", "mkdocs.toml": "?"})
    assert found.frames == {} and len(found.shelf) >= 30


def test_all_that_is_wrong_in_all_files_is_said_at_once() -> None:
    frame = texts()[FRAME_PATH].replace('bore = "36 mm"', 'boar = "36 mm"')
    packs = texts()["parts/packs.toml"].replace('capacity = "1600 mAh"', 'capacity = "1600"')
    said = problems_of({FRAME_PATH: frame, "parts/packs.toml": packs})
    assert any(p.startswith("parts/packs.toml:") and "capacity must" in p for p in said)
    assert any(p.startswith(f"{FRAME_PATH}:") and "did you mean 'bore'" in p for p in said)


def test_a_default_that_the_shelf_does_not_have_is_named_with_file_and_line() -> None:
    frame = texts()[FRAME_PATH].replace('motor = "m28-1950"', 'motor = "m28-195"')
    line = line_of(frame, 'motor = "m28-195"')
    (said,) = problems_of({FRAME_PATH: frame})
    assert said.startswith(
        f"{FRAME_PATH}:{line}: [defaults]: motor must be a part of the shelf, got 'm28-195'; "
        f"did you mean 'm28-1950'?"
    )


def test_defaults_are_not_judged_by_a_shelf_that_cannot_be_read() -> None:
    said = problems_of({"parts/packs.toml": "[[pack]]\nid = 'x'\n"})
    assert all(p.startswith("parts/packs.toml:") for p in said)


def test_an_id_used_in_two_files_is_said() -> None:
    said = problems_of({"parts/more.toml": texts()["parts/gps.toml"]})
    assert said and all("id must be used once, but it stands in parts/" in p for p in said)


def test_a_frame_that_there_is_not_names_the_nearest() -> None:
    with pytest.raises(InputError, match="no frame 'quillback-6'; did you mean 'quillback-5'"):
        library().frame("quillback-6")
    with pytest.raises(InputError, match=f"no frame '{'x' * 40}'"):
        library().frame("x" * 1000)


# ------------------------------------------------------------------------------ links


def same_build(a: Build, b: Build) -> None:
    assert a.frame is b.frame
    assert {k: p.id for k, p in a.parts.items()} == {k: p.id for k, p in b.parts.items()}
    assert a.day == b.day
    assert a.uptilt_rad == b.uptilt_rad


@pytest.mark.parametrize(
    "build",
    [
        shipped(),
        swapped(motor="m28-1700", pack="k6-2200"),
        on_day(air_temperature_K=303.15),
        on_day(height_m=1500.0, pack_temperature_K=283.15),
        dataclasses.replace(shipped(), uptilt_rad=0.75),
    ],
    ids=["as shipped", "swapped", "a warm day", "in the hills", "uptilt"],
)
def test_a_link_opens_to_its_build(build: Build) -> None:
    link = link_of_build(build)
    opened, messages = build_of_link(library(), link, SLUG)
    assert messages == ()
    assert link_of_build(opened) == link
    assert opened.day.air_temperature_K == pytest.approx(build.day.air_temperature_K, abs=1e-9)
    assert opened.uptilt_rad == pytest.approx(build.uptilt_rad, rel=1e-9)
    assert {k: p.id for k, p in opened.parts.items()} == {k: p.id for k, p in build.parts.items()}


def test_the_usual_day_is_not_written() -> None:
    link = link_of_build(shipped())
    assert "air=" not in link and "height=" not in link and "uptilt=" not in link
    assert len(link) < 200


def test_an_own_part_travels_in_the_link() -> None:
    own = altered("pack", id="own", name="the old one", mass_kg=0.3)
    opened, messages = build_of_link(library(), link_of_build(own), SLUG)
    assert messages == ()
    assert opened.parts["pack"].own and opened.parts["pack"].name == "the old one"
    assert opened.parts["pack"].mass_kg == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("link", "message"),
    [
        ("#b1;quillback-6", "This site has no frame 'quillback-6'."),
        ("#b1;quillback-5;motor=m28-195", "The shelf has no motor 'm28-195'"),
        ("#b7;quillback-5", "newer kind"),
        ("#hello", "must begin with 'b1'"),
    ],
)
def test_what_a_link_cannot_have_is_said_and_the_rest_opens(link: str, message: str) -> None:
    opened, messages = build_of_link(library(), link, SLUG)
    assert any(message in said for said in messages), messages
    same_build(opened, shipped())


@pytest.mark.parametrize("link", ["", "#", "\x00", "#b1", "#b1;", "x" * 100_000])
def test_no_text_makes_it_raise(link: str) -> None:
    opened, _ = build_of_link(library(), link, SLUG)
    same_build(opened, shipped())


def test_the_day_of_a_link_for_another_site_is_kept() -> None:
    opened, _ = build_of_link(library(), "#b1;unknown-frame;air=30C", SLUG)
    assert opened.day.air_temperature_K == pytest.approx(303.15)


def test_a_state_is_what_a_link_says_of_a_build() -> None:
    state = state_of_build(swapped(pack="k6-2200"))
    assert state.frame_slug == SLUG and state.parts["pack"] == "k6-2200"
    assert state.day == LinkDay()
    build, messages = build_of(library(), state)
    assert messages == ()
    same_build(build, swapped(pack="k6-2200"))


def test_a_state_of_an_unknown_frame_is_refused() -> None:
    empty = Library(frames={}, shelf=library().shelf)
    with pytest.raises(InputError, match="no frame 'quillback-5'"):
        build_of(empty, LinkState(frame_slug=SLUG))
