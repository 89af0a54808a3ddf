"""The build file: what a link says, as a file that a person may write."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from site_builds import SLUG, altered, library, on_day, shipped, swapped
from slipfit.build import Build
from slipfit.buildfile import build_toml, read_build_toml
from slipfit.library import build_of, link_of_build, state_of_build
from slipfit.link import LinkDay, LinkState
from slipfit.parts.kinds import KINDS
from slipfit.parts.source import FileError

SHELF = {kind.id: [part.id for part in library().shelf.of(kind.id)] for kind in KINDS}


def typed(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda x: round(x, 6))


def problems_of(text: str) -> list[str]:
    with pytest.raises(FileError) as error:
        read_build_toml(text, "mine.toml")
    return list(error.value.problems)


def round_trip(build: Build) -> Build:
    opened, messages = build_of(library(), read_build_toml(build_toml(state_of_build(build))))
    assert messages == ()
    return opened


@pytest.mark.parametrize(
    "build",
    [
        shipped(),
        swapped(motor="m28-1700", esc="e65-8"),
        on_day(air_temperature_K=288.65, height_m=1234.5),
        altered("pack", id="own", name='my "old" one \\ µ', mass_kg=0.31),
    ],
    ids=["as shipped", "swapped", "a day", "own part"],
)
def test_a_build_comes_back_from_its_file(build: Build) -> None:
    opened = round_trip(build)
    assert link_of_build(opened) == link_of_build(build)
    for kind, part in build.parts.items():
        assert opened.parts[kind].name == part.name
        assert opened.parts[kind].mass_kg == pytest.approx(part.mass_kg, rel=1e-9)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    parts=st.fixed_dictionaries({}, optional={k: st.sampled_from(ids) for k, ids in SHELF.items()}),
    air_C=st.none() | typed(-45.0, 50.0),
    height_m=st.none() | typed(-400.0, 5500.0),
    uptilt_deg=st.none() | typed(-90.0, 90.0),
)
def test_any_state_comes_back_from_its_file(
    parts: dict[str, str], air_C: float | None, height_m: float | None, uptilt_deg: float | None
) -> None:
    """Numbers are written with the digits that people read, nine of them; what is typed is no finer
    than a millionth."""
    day = LinkDay(
        air_temperature_K=None if air_C is None else air_C + 273.15,
        height_m=height_m,
        uptilt_rad=None if uptilt_deg is None else uptilt_deg * 0.017453292519943295,
    )
    state = LinkState(frame_slug=SLUG, parts=parts, day=day)
    back = read_build_toml(build_toml(state))
    assert back.frame_slug == SLUG and back.parts == parts
    for field, value in vars(day).items():
        got = getattr(back.day, field)
        assert (got is None) == (value is None), field
        if value is not None:
            assert got == pytest.approx(value, rel=1e-8, abs=1e-8), field


def test_a_file_with_only_a_frame_is_the_default_build() -> None:
    build, messages = build_of(library(), read_build_toml(f'frame = "{SLUG}"\n'))
    assert messages == ()
    assert link_of_build(build) == link_of_build(shipped())


def test_the_day_is_only_written_where_it_differs() -> None:
    assert "[day]" not in build_toml(state_of_build(shipped()))
    assert "[day]\nair = " in build_toml(state_of_build(on_day(air_temperature_K=300.0)))


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("", None, "frame must be given: the name of a frame's folder, in quotes"),
        ("frame = 5", 1, "frame must be given"),
        ('fram = "quillback-5"', 1, "no key 'fram'; did you mean 'frame'?"),
        ('frame = "q"\n[parts]\nmoter = "m28-1950"', 3, "[parts]: no kind of part 'moter'; did"),
        (
            'frame = "q"\n[parts]\nmotor = 28',
            3,
            "[parts]: motor must be a part's id in quotes, got 28",
        ),
        ('frame = "q"\n[parts]\npack = "own"', 3, "[own.pack] must be given"),
        ('frame = "q"\n[day]\nair = "cold"', 3, "[day]: air must be a number with a unit"),
        ('frame = "q"\n[day]\nair = 5', 3, "[day]: air must"),
        ('frame = "q"\n[day]\nair = "80 C"', 3, "[day]: air must be"),
        ('frame = "q"\n[day]\nairr = "8 C"', 3, "[day]: no key 'airr'; did you mean 'air'?"),
        ('frame = "q"\n[own.wing]\nspan = "1 m"', 2, "[own]: no kind of part 'wing'"),
        ('frame = "q"\n[own.pack]\nmass = "heavy"', 3, "[own.pack]: mass must be a number"),
        ('frame = "q"\nparts = 3', 2, "[parts] must be a table"),
        ('frame = "q"\nown = 3', 2, "[own] must hold tables such as [own.pack]"),
        ('frame = "q"\n[own]\npack = 3', 3, "[own.pack] must be a table"),
        ("frame = q", 1, "must be TOML"),
    ],
)
def test_what_is_wrong_is_said_with_file_line_key_and_rule(
    text: str, line: int | None, said: str
) -> None:
    place = "mine.toml" if line is None else f"mine.toml:{line}"
    assert any(p.startswith(f"{place}: ") and said in p for p in problems_of(text)), problems_of(
        text
    )


def test_everything_that_is_wrong_is_said_at_once() -> None:
    said = problems_of('fram = "q"\n[parts]\nmoter = "x"\n[day]\nair = "cold"\n')
    assert len(said) == 4  # the key, the frame that is missing, the kind and the day


def test_a_huge_file_is_refused_before_it_is_read() -> None:
    (said,) = problems_of("# " + "x" * 3_000_000)
    assert "must be at most" in said
