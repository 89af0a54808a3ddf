"""The share link and the build file: round trips, hostile text, and every message."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from slipfit.buildfile import build_toml, read_build_toml
from slipfit.frame.reading import frame_from_folder
from slipfit.link import LONGEST, LinkDay, LinkState, link_of, parts_of_state, read_link
from slipfit.parts.key import keys_of
from slipfit.parts.kinds import KINDS, kind_of
from slipfit.parts.origin import Origin
from slipfit.parts.part import Part
from slipfit.parts.reading import part_from_texts
from slipfit.parts.shelf import shelf_from_folder
from slipfit.parts.source import FileError

ROOT = Path(__file__).parents[2]
SHELF = shelf_from_folder(ROOT / "docs/parts")
FRAME = frame_from_folder(ROOT / "docs/frames/quillback-5")
DAY = LinkDay(air_temperature_K=265.15, pack_temperature_K=298.15, height_m=300.0, uptilt_rad=1.2)


def own(kind: str, id: str, **changes: object) -> Part:
    return dataclasses.replace(SHELF.part(kind, id), id="own", **changes)


def same(one: Part, other: Part) -> bool:
    """Equal but for the last digits of converted values."""
    for key in keys_of(type(one)).values():
        a, b = getattr(one, key.field), getattr(other, key.field)
        if isinstance(a, float) or (isinstance(a, tuple) and a):
            if a != pytest.approx(b, rel=1e-10):
                return False
        elif a != b:
            return False
    return one.name == other.name


def test_link_of_shelf_parts_is_short_and_readable():
    assert link_of(FRAME.slug, FRAME.defaults) == (
        "#b1;quillback-5;motor=m28-1950;prop=p525-80-2;pack=k6-1600;esc=e60;stack=f30;"
        "camera=c19;video=v33;gps=g20;receiver=r24"
    )


def test_longest_ids_of_the_shelf_and_a_day_stay_below_200_characters():
    ids = {k.id: max((p.id for p in SHELF.of(k.id)), key=len) for k in KINDS}
    day = LinkDay(
        air_temperature_K=254.65,
        pack_temperature_K=301.15,
        height_m=1420.0,
        uptilt_rad=math.radians(65.5),
    )
    link = link_of(FRAME.slug, ids, day)
    assert link.endswith(";air=-18.5C;packs=28C;height=1420m;uptilt=65.5deg")
    assert len(link) < 200


def test_age_of_the_pack_is_a_number_in_link_and_file():
    link = link_of("quillback-5", {}, LinkDay(pack_flights=150))
    assert link == "#b1;quillback-5;pack_flights=150"
    state, messages = read_link(link)
    assert (state.day.given(), messages) == ({"pack_flights": 150}, ())
    text = build_toml(state)
    assert "[day]\npack_flights = 150\n" in text
    assert read_build_toml(text).day == LinkDay(pack_flights=150)


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        ("pack_flights=-3", "pack_flights must be a whole number, got '-3'"),
        ("pack_flights=1500", "pack_flights must be 0 to 600, got 1500; did you mean 150?"),
        ("pack_flights=old", "pack_flights must be a whole number, got 'old'"),
    ],
)
def test_age_that_is_none_is_said(piece, said):
    state, messages = read_link(f"#b1;quillback-5;{piece}")
    assert state.day == LinkDay()
    assert messages == (f"In the link, {said}; the frame's own is used.",)


def test_link_and_day_come_back():
    parts = {kind: SHELF.part(kind, id) for kind, id in FRAME.defaults.items()}
    state, messages = read_link(link_of(FRAME.slug, parts, DAY))
    assert messages == ()
    assert state.frame_slug == "quillback-5"
    assert state.parts == FRAME.defaults
    assert state.day.given() == pytest.approx(DAY.given(), rel=1e-12)
    assert parts_of_state(state, FRAME.defaults, SHELF) == (parts, ())


@pytest.mark.parametrize(
    ("kind", "id"), [(k.id, part.id) for k in KINDS for part in SHELF.of(k.id)]
)
def test_every_part_of_the_shelf_survives_as_an_own_part(kind, id):
    part = own(kind, id)
    state, messages = read_link(link_of("f", {kind: part}))
    assert messages == ()
    back = state.parts[kind]
    assert isinstance(back, Part)
    assert same(part, back)
    for field, origin in part.origins.items():
        assert back.origins[field].kind == origin.kind
        assert back.origins[field].spread == pytest.approx(origin.spread)


def test_own_part_is_readable_in_the_link():
    part, _ = part_from_texts(
        "gps",
        {"name": "the one from 2023 (ümlaut), 100 %", "mass": "8.25 g", "size": "20 x 21 x 8 mm"},
    )
    assert part is not None
    assert link_of("f", {"gps": part}) == (
        "#b1;f;gps=own,name:the_one_from_2023_%28%C3%BCmlaut%29%2C_100_%25,mass:8.25g,"
        "length:20mm,width:21mm,height:8mm"
    )


def test_origins_travel_with_own_parts():
    part = own("pack", "k6-1500", cell_resistance_ohm=0.0031)
    origins = {**part.origins, "cell_resistance_ohm": Origin("estimated", 0.5)}
    part = dataclasses.replace(part, origins=origins)
    link = link_of("f", {"pack": part})
    assert "cell_resistance:3.1mohm@estimated/0.5" in link
    back = read_link(link)[0].parts["pack"]
    assert isinstance(back, Part)
    assert back.cell_resistance_ohm == pytest.approx(0.0031)
    assert back.origins["cell_resistance_ohm"] == Origin("estimated", 0.5)


def test_estimates_are_made_again_instead_of_written():
    part, _ = part_from_texts(
        "motor", {"stator": "28 x 8 mm", "kv": "1950", "mount_pattern": "16x16"}
    )
    assert part is not None
    link = link_of("f", {"motor": part})
    assert "resistance" not in link
    assert read_link(link)[0].parts["motor"] == part


def test_blade_table_travels():
    part, faults = part_from_texts(
        "prop",
        {
            "diameter": "5 in", "pitch": "5 in", "blade_count": "2", "style": "slim",
            "r_R": "0.2 0.5 0.8 1", "c_R": "0.1+0.2+0.2+0.1", "beta_deg": "40 30.25 20 0.00001",
        },
    )  # fmt: skip
    assert faults == ()
    assert part is not None
    back = read_link(link_of("f", {"prop": part}))[0].parts["prop"]
    assert isinstance(back, Part)
    assert same(part, back)


NAMES = (
    st.text(min_size=1, max_size=60)
    .map(lambda t: " ".join(t.split()))
    .filter(lambda t: t and t.isprintable())
)


@settings(max_examples=150, deadline=None)
@given(
    name=NAMES,
    cells=st.integers(1, 14),
    capacity_C=st.floats(500, 1e5),
    length_m=st.floats(0.02, 0.5),
    width_m=st.floats(0.005, 0.2),
    resistance_ohm=st.floats(5e-4, 0.1),
    connector=st.sampled_from(keys_of(kind_of("pack").cls)["connector"].words),
    air_K=st.none() | st.floats(230, 320),
)
def test_round_trip(name, cells, capacity_C, length_m, width_m, resistance_ohm, connector, air_K):
    part = dataclasses.replace(
        own("pack", "k6-1600"),
        name=name, cell_count=cells, capacity_C=capacity_C, length_m=length_m, width_m=width_m,
        cell_resistance_ohm=resistance_ohm, connector=connector, mass_kg=10.0,
    )  # fmt: skip
    state = LinkState(
        frame_slug="f", parts={"pack": part, "esc": "e60"}, day=LinkDay(air_temperature_K=air_K)
    )
    for back, messages in (
        read_link(link_of(state.frame_slug, state.parts, state.day)),
        (read_build_toml(build_toml(state)), ()),
    ):
        assert messages == ()
        assert back.frame_slug == "f"
        assert back.parts["esc"] == "e60"
        again = back.parts["pack"]
        assert isinstance(again, Part)
        assert same(part, again)
        if air_K is None:
            assert back.day.air_temperature_K is None
        else:
            assert back.day.air_temperature_K == pytest.approx(air_K, rel=1e-9)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
def test_reading_never_raises_on_any_text(text):
    for link in (text, "#b1;" + text, f"#b1;f;pack=own,{text}", f"#b1;f;air={text};uptilt={text}"):
        state, messages = read_link(link)
        assert isinstance(state, LinkState)
        assert all(m.isprintable() and len(m) <= 400 for m in messages)
        assert len(messages) <= 13


PIECES = st.sampled_from(
    ["motor=", "pack=own", ",", ";", "=", ":", "@", "%", "%FF", "%00", "kv:", "1950rpm/V", "9" * 50,
     "1e999", "-", "own", "air=", "C", "nan", "inf", "_", "\u202e", "size:75x36x32mm", "r_R:", "+",
     "\ud800"]
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.lists(PIECES, max_size=60))
def test_reading_never_raises_on_pieces_of_links(pieces):
    state, messages = read_link("#b1;f;" + "".join(pieces))
    assert state.frame_slug == "f"
    assert all(m.isprintable() for m in messages)


@pytest.mark.parametrize(
    ("link", "message"),
    [
        ("#b2;x;motor=a", "The link is of a newer kind ('b2') than this site reads ('b1'); the "
         "frame's own build is shown."),
        ("#hello", "The link must begin with 'b1', got 'hello'; the frame's own build is shown."),
        ("#b1", "The link must name a frame after its version, got nothing."),
        ("#b1;Quill Back", "The link must name a frame after its version, got 'QuillBack'."),
        ("#b1;f;motr=m28", "'motr' in the link is not known; did you mean 'motor'?"),
        ("#b1;f;zzz=m28", "'zzz' in the link is not known."),
        ("#b1;f;motor", "'motor' in the link must be a name, '=' and a value."),
        ("#b1;f;esc=e60;esc=e50", "'esc' stands twice in the link; the first is kept."),
        ("#b1;f;air=1C;air=2C", "'air' stands twice in the link; the first is kept."),
        ("#b1;f;esc=<script>alert(1)</script>",
         "The link's esc must be a part's id, got '<script>alert(1)</script…'."),
        ("#b1;f;air=-300C",
         "In the link, air must be -50 to 55 C, got -300C; the frame's own is used."),
        ("#b1;f;pack=own", "The link's own pack has no numbers; the frame's own part is shown."),
        ("#b1;f;gps=own,mass:8g,length:20mm,width:20mm,height:8mm,colour:red",
         "The link's own GPS module is left out: no key 'colour'."),
        ("#b1;f;gps=own,mass:8g,length:20mm,width:20mm,height:8m",
         "The link's own GPS module is left out: height must be 2 to 60 mm, got 8m; did you mean "
         "8 mm."),
        ("#b1;f;gps=own,mass:8g@guess,length:20mm,width:20mm,height:8mm",
         "The link's own GPS module is left out: no origin 'guess'. There are: 'data sheet', "
         "'estimated', 'measured'."),
        ("#b1;f;gps=own,mass:8g@measured/x,length:20mm,width:20mm,height:8mm",
         "The link's own GPS module is left out: spread must be a ratio such as 0.03, got 'x'."),
        ("#b1;f;gps=own,name:%07,mass:8g,length:20mm,width:20mm,height:8mm",
         "The link's own GPS module is left out: name must be at most 400 printable characters, "
         "got 1 with control characters."),
    ],
)  # fmt: skip
def test_what_is_not_understood_is_said(link, message):
    _, messages = read_link(link)
    assert messages == (message,)


def test_the_rest_of_a_damaged_link_still_opens():
    state, messages = read_link("#b1;f;motor=???;prop=p1;air=warm;height=300m;x")
    assert state == LinkState(frame_slug="f", parts={"prop": "p1"}, day=LinkDay(height_m=300.0))
    assert len(messages) == 3


def test_a_link_may_be_a_whole_address_wrapped_or_encoded_once_too_often():
    state, _ = read_link("#b1;f;esc=e60;air=-8C")
    for text in (
        "https://example.org/frames/f/#b1;f;esc=e60;air=-8C",
        "#b1;f;esc=\n  e60;air=-8C ",
        "#b1%3Bf%3Besc%3De60%3Bair%3D-8C",
        "b1;f;esc=e60;air=-8C",
    ):
        assert read_link(text) == (state, ())


def test_sizes_are_limited():
    _, messages = read_link("#b1;f;" + "motor=a;" * LONGEST)
    assert messages[0] == "The link was longer than 6000 characters; the rest of it was left out."
    assert messages[1] == "The link had more than 40 pieces; the rest were left out."
    many = ",".join(f"k{i}:1" for i in range(100))
    _, messages = read_link(f"#b1;f;gps=own,{many}")
    assert "it must have at most 40 numbers" in messages[0]
    _, messages = read_link("#b1;f;" + ";".join(f"x{i}=1" for i in range(38)))
    assert len(messages) == 13
    assert messages[-1] == "… and 26 more things were not understood."


def test_not_even_a_wrong_type_raises():
    assert read_link(None) == (  # type: ignore[arg-type]
        LinkState(), ("The link was not text; the frame's own build is shown.",)
    )  # fmt: skip
    assert read_link("") == (LinkState(), ())


def test_a_link_never_ends_in_a_full_stop():
    part, _ = part_from_texts("gps", {"mass": "8 g", "size": "20 x 20 x 8 mm", "note": "mine."})
    assert part is not None
    parts = {"receiver": "r24", "gps": dataclasses.replace(part, name="A. B.")}
    assert link_of("f", parts)[-1].isalnum()
    parts = {"gps": dataclasses.replace(part, name="x", note="")}
    assert read_link(link_of("f", parts))[1] == ()
    last = own("receiver", "r24", note="ends here.")
    link = link_of("f", {"receiver": last})
    assert link[-1].isalnum()
    back = read_link(link)[0].parts["receiver"]
    assert isinstance(back, Part)
    assert same(last, back)


def test_parts_the_shelf_does_not_have_fall_back_to_the_frame():
    state, _ = read_link("#b1;quillback-5;motor=m28-1951;gps=zzzzz")
    parts, messages = parts_of_state(state, FRAME.defaults, SHELF)
    assert parts["motor"].id == "m28-1950"
    assert messages == (
        "The shelf has no motor 'm28-1951'; did you mean 'm28-1950'? The frame's own is shown.",
        "The shelf has no GPS module 'zzzzz'. The frame's own is shown.",
    )


def test_build_file_is_what_a_person_would_write():
    part, _ = part_from_texts(
        "gps", {"name": 'the "old" one', "mass": "8", "size": "20 x 20 x 8 mm"}
    )
    assert part is not None
    state = LinkState(
        frame_slug="quillback-5",
        parts={"motor": "m28-1950", "gps": part},
        day=LinkDay(air_temperature_K=265.15),
    )
    assert build_toml(state) == (
        'frame = "quillback-5"\n\n[parts]\nmotor = "m28-1950"\ngps = "own"\n\n[day]\n'
        'air = "-8 C"\n\n'
        '[own.gps]\nname = "the \\"old\\" one"\nmass = "8 g"\nlength = "20 mm"\nwidth = "20 mm"\n'
        'height = "8 mm"\n'
    )


@pytest.mark.parametrize("kind", [k.id for k in KINDS])
def test_build_file_keeps_own_parts_with_their_origins(kind):
    for shelf_part in SHELF.of(kind):
        part = own(kind, shelf_part.id)
        state = LinkState(frame_slug="f", parts={kind: part})
        back = read_build_toml(build_toml(state)).parts[kind]
        assert isinstance(back, Part)
        assert same(part, back)
        assert back.origins == part.origins


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "b.toml: frame must be given: the name of a frame's folder, in quotes"),
        ('frme = "q"\n', "b.toml:1: no key 'frme'; did you mean 'frame'?"),
        ('frame = "q"\n[parts]\nmotr = "m"\n',
         "b.toml:3: [parts]: no kind of part 'motr'; did you mean 'motor'?"),
        ('frame = "q"\n[parts]\nmotor = 3\n',
         "b.toml:3: [parts]: motor must be a part's id in quotes, got 3"),
        ('frame = "q"\n[parts]\nmotor = "own"\n',
         "b.toml:3: [parts]: motor is your own, so [own.motor] must be given"),
        ('frame = "q"\n[parts]\ngps = "g20"\n[own.gps]\nmass = "8 g"\nsize = "20 x 20 x 8 mm"\n',
         "b.toml:3: [parts]: gps must be \"own\" where [own.gps] is given, got 'g20'"),
        ('frame = "q"\n[own.gps]\nmass = 8\nsize = "20 x 20 x 8 mm"\n',
         "b.toml:3: [own.gps]: mass must carry a unit, such as '8 g' with quotes, got 8"),
        ('frame = "q"\n[own.gsp]\nmass = 8\n',
         "b.toml:2: [own]: no kind of part 'gsp'; did you mean 'gps'?"),
        ('frame = "q"\nown = 3\n', "b.toml:2: [own] must hold tables such as [own.pack]"),
        ('frame = "q"\n[own]\ngps = 3\n', "b.toml:3: [own.gps] must be a table"),
        ('frame = "q"\nday = 3\n', "b.toml:2: [day] must be a table"),
        ('frame = "q"\n[day]\nair = "-80 C"\n',
         "b.toml:3: [day]: air must be -50 to 55 C, got -80 C"),
        ('frame = "q"\n[day]\nuptillt = "1 deg"\n',
         "b.toml:3: [day]: no key 'uptillt'; did you mean 'uptilt'?"),
    ],
)  # fmt: skip
def test_build_file_says_what_is_wrong(text, message):
    with pytest.raises(FileError) as caught:
        read_build_toml(text, "b.toml")
    assert any(problem.startswith(message) for problem in caught.value.problems)
