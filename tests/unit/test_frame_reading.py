"""A frame from its file: what it becomes, and every error text with its line."""

from __future__ import annotations

import math
import re
from pathlib import Path

import numpy as np
import pytest

from site_builds import shipped
from slipfit.frame.frame import BodyEntry
from slipfit.frame.outline import outline_of
from slipfit.frame.reading import default_problems, frame_from_folder, read_frame
from slipfit.frame.shape import shape_keys
from slipfit.masses import mass_total
from slipfit.parts.kinds import KINDS
from slipfit.parts.shelf import shelf_from_folder
from slipfit.parts.source import FileError
from slipfit.physics.body import MODELS
from slipfit.physics.body.streamlined import Streamlined

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "docs/frames/quillback-5"
TEXT = (FOLDER / "frame.toml").read_text(encoding="utf-8")


def line_of(text: str, piece: str, nth: int = 1) -> int:
    """Line of the n-th occurrence of a piece of text."""
    at = -1
    for _ in range(nth):
        at = text.index(piece, at + 1)
    return text[:at].count("\n") + 1


def problems(text: str, slug: str = "q") -> list[str]:
    with pytest.raises(FileError) as caught:
        read_frame(text, slug)
    return list(caught.value.problems)


def changed(old: str, new: str) -> str:
    assert old in TEXT
    return TEXT.replace(old, new, 1)


def test_quillback_is_read_in_si():
    frame = frame_from_folder(FOLDER)
    assert frame.slug == "quillback-5"
    assert frame.name == "Quillback 5"
    assert frame.day.air_temperature_K == pytest.approx(273.15 - 8)
    assert frame.day.charge == 1.0
    assert frame.uptilt_rad == pytest.approx(math.radians(70))
    assert len(frame.rotors) == 4
    assert {(r.right_m, r.front_m) for r in frame.rotors} == {
        (x, y) for x in (-0.075, 0.075) for y in (-0.075, 0.075)
    }
    assert frame.motor_seat.bore_m == pytest.approx(0.036)
    assert [p.text() for p in frame.motor_seat.patterns] == ["19x19", "16x16"]
    assert frame.stack_seat.patterns[0].circle_m == pytest.approx(0.0305 * math.sqrt(2))
    gps = frame.bay_for("gps")
    assert gps is not None
    assert (gps.length_m, gps.width_m, gps.height_m) == pytest.approx((0.025, 0.025, 0.009))
    assert frame.bay_for("camera") is None
    assert {kind.id for kind in KINDS} == set(frame.defaults)


def test_quillback_and_its_shelf_agree():
    frame = frame_from_folder(FOLDER)
    shelf = shelf_from_folder(ROOT / "docs/parts")
    assert default_problems(frame, shelf) == ()
    # product: about 0.95 kg in all, a shelf of at least 60 parts over the nine kinds
    assert 0.92 <= mass_total(shipped()) <= 0.98
    assert 60 <= len(shelf) <= 90
    assert all(len(shelf.of(kind.id)) >= 4 for kind in KINDS)


def test_names_of_parts_are_their_numbers():
    # a part is described by figures, never by what looks like a product's name
    shelf = shelf_from_folder(ROOT / "docs/parts")
    for kind in KINDS:
        for part in shelf.of(kind.id):
            assert re.search(r"\d", part.name), part.name
            assert not re.search(r"\b[A-Z]{2,}[0-9]|\b[A-Z][a-z]+[A-Z]", part.name), part.name


def test_every_key_of_the_demo_frame_is_explained():
    seen: set[str] = set()
    told: set[str] = set()
    before = ""
    for line in TEXT.splitlines():
        key = re.match(r"(\w+) = ", line)
        if key:
            seen.add(key[1])
            if "#" in line or before.startswith("#"):
                told.add(key[1])
        before = line
    assert seen - told == {kind.id for kind in KINDS}  # below [defaults], which says what they are


@pytest.mark.parametrize(
    ("old", "new", "piece", "message"),
    [
        ('bore = "36 mm"', 'bore = 36', "bore = 36",
         "[motor_seat]: bore must carry a unit, such as '36 mm' with quotes, got 36"),
        ('bore = "36 mm"', 'boar = "36 mm"', "boar",
         "[motor_seat]: no key 'boar'; did you mean 'bore'?"),
        ('air_temperature = "-8 C"', 'air_temperature = "-80 C"', "air_temperature",
         "[day]: air_temperature must be -50 to 55 C, got -80 C"),
        ('charge = "100 %"', 'charge = "130 %"', "charge",
         "[day]: charge must be 20 to 100 %, got 130 %"),
        ('patterns = ["30.5x30.5"]', 'patterns = ["30.5"]', 'patterns = ["30.5"]',
         "[stack_seat]: patterns must be two distances in millimetres such as '16x19'"),
        ('patterns = ["30.5x30.5"]', 'patterns = "30.5x30.5"', 'patterns = "30',
         "[stack_seat]: patterns must be a list in [ ] of at most 200, got '30.5x30.5'"),
        ('widths = ["19 mm"]', "widths = [19]", "widths",
         "[camera_seat]: widths must carry a unit of length"),
        ('kind = "pack"', 'kind = "packs"', 'kind = "packs"',
         "[bay] 'pack-bay': kind must be one of its words, got 'packs'; did you mean 'pack'?"),
        ('shape = "box"', 'shape = "tube"', "[[bay]]",
         "[bay] 'pack-bay': diameter must be given for a bay of shape 'tube'"),
        ('model = "fin"', 'model = "finn"', 'model = "finn"',
         "[body] 'fins': no body model 'finn'; did you mean 'fin'? There are: 'box', 'cylinder'"),
        ('area = "42 cm2"', 'area = "42 mm"', 'area = "42',
         "[body] 'fins': area must carry a unit of area"),
        ('base_diameter = "30 mm"', 'base_diameter = "90 mm"', "base_diameter",
         "[body] 'shell': Streamlined body: base_diameter_m must be 0 to 0.06597 m"),
        ('nose_length = "105 mm"', 'nose_lenght = "105 mm"', "nose_lenght",
         "[body] 'shell': no key 'nose_lenght'; did you mean 'nose_length'?"),
        ("junctions = 2 ", "junctions = 2.5 ", "junctions",
         "[body] 'arms': junctions must be a whole number, got 2.5"),
        ("across = true", "across = 1", "across = 1",
         "[body] 'video antenna': across must be true or false, got 1"),
        ('mass = "58 g"', 'mass = "58 kg"', 'mass = "58',
         "[hardware] 'window half of the shell': mass must be 0.1 to 20000 g, got 58 kg; "
         "did you mean 58 g?"),
        ('name = "arms"\n', "", '[[body]]\nmodel = "strut"',
         "[body 6]: name must be given, as text in quotes"),
        ('camera = "c19"', 'camra = "c19"', "camra",
         "[defaults]: no kind of part 'camra'; did you mean 'camera'?"),
        ('gps = "g20"', "gps = 20", "gps = 20",
         "[defaults]: gps must be a part's id in quotes"),
        ('uptilt_low = "35 deg"', 'uptilt_low = "88 deg"', "uptilt_low",
         "[camera_seat]: uptilt_low must be at most uptilt_high"),
        ('behind = "17 mm"', 'behind = "13 mm"', 'behind = "13',
         "[camera_seat]: behind must be at least half of max_depth, or left out"),
        ('uptilt = "70 deg"', 'uptillt = "70 deg"', "uptillt",
         "no key 'uptillt'; did you mean 'uptilt'?"),
    ],
)  # fmt: skip
def test_each_mistake_is_told_with_its_line(old, new, piece, message):
    text = changed(old, new)
    expected = f"frame.toml:{line_of(text, piece)}: {message}"
    assert any(problem.startswith(expected) for problem in problems(text)), problems(text)


def test_all_mistakes_are_told_at_once():
    text = changed('bore = "36 mm"', "bore = 36").replace('model = "fin"', 'model = "finn"')
    text = text.replace("[wire]", "[wires]")
    found = problems(text, "Not A Slug")
    assert len(found) == 5
    assert found[0] == (
        "frame.toml: the frame's folder must be named in small letters, digits and hyphens, "
        "got 'Not A Slug'"
    )
    assert "no key 'wires'; did you mean 'wire'?" in found[1]
    assert "[motor_seat]: bore must carry a unit" in found[2]
    assert found[3] == "frame.toml: [wire] must be given"
    assert "no body model 'finn'" in found[4]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("[day]\n[defaults]\n", "frame.toml: [motor_seat] must be given"),
        ("", "frame.toml: [defaults] must be given: one part's id for each kind of part"),
        ("day = 3\n", "frame.toml:1: [day] must be a table written [day]"),
        ("rotor = 3\n", "frame.toml:1: [rotor] must be written [[rotor]], one for each"),
        ("", "frame.toml: [[bay]] must be given 1 to 64 times, got 0"),
    ],
)
def test_what_a_frame_must_have(text, message):
    assert message in problems(text)


def test_a_frame_needs_a_pack_bay_and_each_bay_its_own_id():
    assert problems(changed('kind = "pack"', 'kind = "esc"')) == [
        f'frame.toml:{line_of(TEXT, "[[bay]]")}: [[bay]] must be given for the pack (kind = "pack")'
    ]
    twice = changed('id = "gps-bay"', 'id = "pack-bay"')
    assert problems(twice) == [
        f"frame.toml:{line_of(twice, '[[bay]]', 2)}: [bay] 'pack-bay': id must be used once"
    ]


def test_default_parts_are_looked_up_on_the_shelf():
    frame = read_frame(changed('gps = "g20"', 'gps = "g21"'), "q")
    (problem,) = default_problems(frame, shelf_from_folder(ROOT / "docs/parts"))
    assert problem.startswith("frame.toml: [defaults] gps: no gps 'g21'; did you mean 'g2")


@pytest.mark.parametrize("model", MODELS)
def test_every_shape_can_be_typed(model):
    keys = shape_keys(MODELS[model].shape)
    assert keys
    for key in keys.values():
        assert key.help, f"{model}.{key.name} has no help"
        assert not key.name.endswith(("_m", "_rad", "_m2"))


def body(**more: float) -> BodyEntry:
    shape = Streamlined(
        length_m=0.3, width_m=0.08, height_m=0.06, nose_length_m=0.1, base_diameter_m=0.02,
        boat_tail_half_angle_rad=math.radians(12), **more,
    )  # fmt: skip
    return BodyEntry(name="b", model="streamlined", shape=shape, station_m=0.2)


def test_outline_follows_the_shape():
    outline = outline_of([body()])
    assert outline.stations_m[0] == pytest.approx(0.05)  # middle less half the length
    assert outline.stations_m[-1] == pytest.approx(0.35)
    assert list(outline.stations_m) == sorted(outline.stations_m)
    assert outline.half_widths_m[0] == 0.0
    assert max(outline.half_widths_m) == pytest.approx(0.04)
    assert max(outline.half_heights_m) == pytest.approx(0.03)
    assert outline.radii_m[-1] == pytest.approx(0.01)
    # the nose is half an ellipsoid: (1 - s/L)^2 + (r/R)^2 = 1
    s = (np.array(outline.stations_m[:17]) - 0.05) / 0.1
    r = np.array(outline.half_widths_m[:17]) / 0.04
    assert (1 - s) ** 2 + r**2 == pytest.approx(np.ones(17))
    # the boat-tail is a cone of the stated half angle
    fall = outline.radii_m[-2] - outline.radii_m[-1]
    run = outline.stations_m[-1] - outline.stations_m[-2]
    assert math.degrees(math.atan(fall / run)) == pytest.approx(12)


def test_outline_of_a_flat_nose_begins_at_its_radius():
    outline = outline_of([body(flat_nose_diameter_m=0.03)])
    assert outline.radii_m[0] == pytest.approx(0.015)


def test_no_streamlined_body_on_the_axis_gives_no_outline():
    aside = BodyEntry(
        name="pod", model="streamlined", shape=body().shape, station_m=0.2, right_m=0.1
    )
    assert outline_of([aside]).stations_m == ()
    assert outline_of([aside, body()]).stations_m != ()
