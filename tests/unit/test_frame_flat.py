"""What a flat frame's file may say: bays that lie across, no fairing, arms, masses of prints."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import numpy as np
import pytest

from site_builds import library, shipped
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.drawings.registry import DRAWINGS
from slipfit.fit.bays import TURNS
from slipfit.fit.placing import placed, upright
from slipfit.flight.airframe import body_causes
from slipfit.frame.reading import read_frame
from slipfit.masses import mass_items
from slipfit.parts.source import FileError

TEXT = (Path(__file__).parents[2] / "docs/frames/longspur-7/frame.toml").read_text("utf-8")


def problems(old: str, new: str) -> str:
    assert old in TEXT
    with pytest.raises(FileError) as caught:
        read_frame(TEXT.replace(old, new, 1), "longspur-7")
    return str(caught.value)


def test_it_reads_and_weighs_what_its_volumes_say():
    frame = read_frame(TEXT, "longspur-7")
    top = next(item for item in frame.hardware if item.name == "top plate")
    assert top.mass_kg == pytest.approx(13.6e-6 * 1550)
    cage = next(item for item in frame.hardware if item.name == "camera cage")
    assert cage.mass_kg == pytest.approx(12e-6 * 1210 * (0.55 + 0.45 * 0.4))
    spreads = {item.name: item.spread for item in mass_items(shipped("longspur-7"))}
    assert spreads["top plate"] == 0.10 and spreads["standoff"] == 0.05


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('mass = "1.2 g"\n', "", "mass must be given, or volume and material, and not both"),
        ('mass = "1.2 g"', 'mass = "1.2 g"\nvolume = "1 cm3"', "and not both"),
        ('volume = "13.6 cm3"                 # of one, as cut\nmaterial = "carbon cloth"',
         'volume = "13.6 cm3"', "material must be given beside volume"),
        ('material = "TPU"', 'material = "rubber"', "material must be one of"),
        ('lies = "across"', 'lies = "flat"', "lies must be one of"),
        ('thickness = "6 mm"                  # along', 'thickness = "6 mm"\nwall = "4 mm"  #',
         "wall must be at most half of the arm's thinner side, 3 mm, got 4 mm"),
        ('length = "120 mm"\n', "", "length must be given"),
        ('sheltered = "95 %"', 'sheltered = "120 %"', "sheltered must be 0 to 100 %"),
        ('volume = "13.6 cm3"', 'volume = "13.6"', "volume must carry a unit of volume"),
    ],
)  # fmt: skip
def test_slips_are_named(old, new, message):
    assert message in problems(old, new)


def test_arms_may_be_left_out():
    start, rest = TEXT.split("[[arm]]", 1)
    without = start + rest[rest.index("# ----") :]
    assert read_frame(without, "longspur-7").arms == ()


def test_a_motor_in_the_open_has_no_fairing_to_clash_with():
    ids = {v.id for v in fit_verdicts(shipped("longspur-7"))}
    assert not {"motor_fairing", "motor_depth"} & ids
    assert {"motor_fairing", "motor_depth"} <= {v.id for v in fit_verdicts(shipped())}


def test_a_bay_across_is_judged_as_it_lies():
    """The pack lies flat along its bay, which lies from front to back; a longer one clashes."""
    build = shipped("longspur-7")
    (pack,) = [v for v in fit_verdicts(build) if v.id == "pack_bay"]
    assert pack.state == "clear" and "lying flat along the bay" in pack.sentence("metric")
    long = library().shelf.part("pack", "k6-3800")
    (verdict,) = [
        v
        for v in fit_verdicts(dataclasses.replace(build, parts={**build.parts, "pack": long}))
        if v.id == "pack_bay"
    ]
    assert verdict.state == "clashes" and "in length" in verdict.sentence("metric")


def test_a_part_in_a_bay_across_lies_on_its_floor_and_is_drawn_there():
    build = shipped("longspur-7")
    bay = build.frame.bay_for("pack")
    assert bay is not None
    stood = upright(bay)
    assert (stood.station_m, stood.front_m) == (-bay.front_m, -bay.station_m)
    assert upright(stood) is stood
    place = placed(bay, build.parts["pack"], TURNS["pack"])
    # in the upright bay the floor is at the back: the part's back is the bay's, padding off
    floor = stood.front_m - bay.height_m / 2 + bay.padding_m
    assert place.front.low_m == pytest.approx(floor)
    side = DRAWINGS["side"](build, None)
    (drawn,) = [o for o in side.outlines if o.name.startswith(build.parts["pack"].name)]
    xs, ys = ([p[k] for p in drawn.points] for k in (0, 1))
    assert max(xs) == pytest.approx(-floor)  # right above the top plate
    assert max(xs) - min(xs) == pytest.approx(build.parts["pack"].height_m)
    assert max(ys) - min(ys) == pytest.approx(build.parts["pack"].length_m)
    assert side.nose_up and "nose upwards" in side.caption
    assert not DRAWINGS["side"](shipped(), None).nose_up
    assert "seen from behind" in DRAWINGS["section"](build, None).caption


def test_what_is_sheltered_drags_less_along_the_axis_and_as_much_across():
    build = shipped("longspur-7")
    plate = next(b for b in build.frame.bodies if b.name == "bottom plates")
    in_the_open = dataclasses.replace(plate, sheltered=0.0)
    u, w = np.array([20.0]), np.array([5.0])
    hidden, across = body_causes([plate], u, w, build.air)
    bare, across_bare = body_causes([in_the_open], u, w, build.air)
    assert sum(hidden.values()) == pytest.approx(0.05 * sum(bare.values()))
    assert across == pytest.approx(across_bare)
