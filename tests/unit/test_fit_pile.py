"""Several parts in one bay: each in the room that the others leave it."""

from __future__ import annotations

import dataclasses
import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fit_builds import BUILD, FRAME, with_frame
from site_builds import library
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.drawings.registry import DRAWINGS
from slipfit.fit.bays import TURNS, asked, fits_in, held, kept_fits
from slipfit.fit.boxes import ALL_TURNS, STATES
from slipfit.fit.placing import all_placed
from slipfit.fit.solids import gap_between, solids
from slipfit.frame.frame import PILED, Bay
from slipfit.frame.reading import read_frame
from slipfit.library import default_build
from slipfit.parts.source import FileError

MM = 1e-3
# 24 mm of height inside the lining: 16 of video unit, 2 of foam, 5 of receiver leave 1 mm.
BAY = Bay(
    id="pile", kind="video", also=("receiver",), pile_gap_m=2 * MM, label="pile", lies="across",
    length_m=44 * MM, width_m=42 * MM, height_m=25.5 * MM, padding_m=0.75 * MM,
    tolerance_m=0.4 * MM, station_m=0.015, front_m=-0.046,
)  # fmt: skip


def box(part, length, width, height):
    return dataclasses.replace(part, length_m=length * MM, width_m=width * MM, height_m=height * MM)


def build(video=(40, 34, 16), receiver=(21, 13, 5), **bay):
    """A build with a video unit and a receiver in one bay, sizes in mm."""
    parts = {
        "video": box(BUILD.parts["video"], *video),
        "receiver": box(BUILD.parts["receiver"], *receiver),
    }
    made = with_frame(bays=(dataclasses.replace(BAY, **bay),), keep_outs=(), accesses=())
    return dataclasses.replace(made, parts=parts)


def verdicts(found):
    return {v.kind: v for v in fit_verdicts(found) if v.id.endswith("_bay")}


def plain(text):
    return text.replace("\N{NARROW NO-BREAK SPACE}", " ")


def test_a_pile_leaves_what_its_parts_and_gaps_do_not_take():
    found = verdicts(build())
    assert {v.state for v in found.values()} == {"clear"}
    for v in found.values():
        assert v.amount == pytest.approx(1 * MM)
    assert plain(found["video"].sentence_metric) == (
        "Video unit is clear: 1.0 mm left in height, lying flat along the bay, together with the "
        "receiver"
    )
    assert "the receiver lies in it too, piled along its height, 2.0" in found["video"].basis


def test_a_pile_too_high_says_of_each_part_by_how_much_and_how_high_it_could_be():
    found = verdicts(build(receiver=(30, 20, 9)))
    for kind, words in (("video", "Video unit"), ("receiver", "Receiver")):
        v = found[kind]
        assert v.state == "clashes"
        assert v.amount == pytest.approx(-3 * MM)
        assert plain(v.sentence_metric).startswith(f"{words} clashes by 3.0 mm in height")
    # 24 - 16 - 2 - 0.4 of tolerance for the receiver, 24 - 9 - 2 - 0.4 for the video unit.
    assert plain(found["receiver"].fix).startswith("a receiver up to 5.6 mm (0.22 in) high")
    assert plain(found["video"].fix).startswith("a video unit up to 12.6 mm (0.50 in) high")


def test_a_part_on_its_own_has_the_bay_to_itself():
    alone = build(receiver=(30, 20, 9))
    alone = dataclasses.replace(alone, parts={"video": alone.parts["video"]})
    (found,) = verdicts(alone).values()
    assert found.state == "clear"
    assert "together" not in found.sentence_metric


def test_a_part_may_stand_where_that_lets_the_pile_in():
    """Both lying flat are 8 mm too high along the width; on edge they are not."""
    low = build((40, 34, 10), (30, 14, 6), piled="width", pile_gap_m=0.0)
    found = verdicts(low)
    assert found["video"].state == found["receiver"].state == "clear"
    assert found["video"].amount == pytest.approx(0.5 * MM)  # 40 mm in 42.5 mm is 2.5; 40.5 - 40
    assert any("side" in v.sentence_metric or "end" in v.sentence_metric for v in found.values())


def test_a_pile_along_the_length_gives_each_part_its_lead_room():
    made = build((20, 34, 16), (12, 13, 5), piled="length", lead_room_m=4 * MM, pile_gap_m=0.0)
    # 42.5 - 20 - 4 - 12 - 4
    for v in verdicts(made).values():
        assert v.amount == pytest.approx(2.5 * MM)


sizes = st.tuples(*[st.floats(2.0, 60.0)] * 3)
bays = st.builds(
    lambda size, piled, gap, padding, lead: dataclasses.replace(
        BAY, length_m=size[0] * MM, width_m=size[1] * MM, height_m=size[2] * MM, piled=piled,
        pile_gap_m=gap * MM, padding_m=padding * MM, lead_room_m=lead * MM,
    ),
    st.tuples(*[st.floats(10.0, 90.0)] * 3), st.sampled_from(PILED), st.floats(0, 5),
    st.floats(0, 2), st.floats(0, 8),
)  # fmt: skip


def pile(bay, *boxes):
    """Fits of boxes in mm that lie in a bay together, all ways up."""
    made = tuple(tuple(side * MM for side in box) for box in boxes)
    rooms = ((bay.lead_room_m, 0.0, 0.0),) * len(made)
    return kept_fits(bay, made, rooms, (ALL_TURNS,) * len(made))


def room_by_hand(bay, boxes):
    """The most room on the tightest side that any way of turning the parts leaves, in m."""
    inside = [side - 2 * bay.padding_m for side in (bay.length_m, bay.width_m, bay.height_m)]
    along = PILED.index(bay.piled)
    best = -1.0
    for turns in itertools.product(itertools.permutations(range(3)), repeat=len(boxes)):
        taken = [
            [box[k] * MM + (bay.lead_room_m if k == 0 else 0.0) for k in turn]
            for box, turn in zip(boxes, turns, strict=True)
        ]
        room = [
            side - (sum if axis == along else max)(part[axis] for part in taken)
            for axis, side in enumerate(inside)
        ]
        room[along] -= bay.pile_gap_m * (len(boxes) - 1)
        best = max(best, min(room))
    return best


@given(bays, sizes, sizes)
@settings(max_examples=80, deadline=None)
def test_a_pile_is_judged_in_its_best_ways(bay, first, second):
    """Clear exactly where some way of turning both is; else the tightest side of either is that
    of the way with the most room."""
    fits = pile(bay, first, second)
    by_hand = room_by_hand(bay, (first, second))
    least = min(float(fit.gaps_m.min()) for fit in fits)
    if by_hand >= bay.tolerance_m + 1e-8:
        assert {STATES[int(fit.state)] for fit in fits} == {"clear"}
    elif by_hand < bay.tolerance_m - 1e-8:
        assert least == pytest.approx(by_hand, abs=1e-8)


@given(bays, sizes, sizes)
@settings(max_examples=60, deadline=None)
def test_parts_of_a_pile_share_one_gap_along_it(bay, first, second):
    along = PILED.index(bay.piled)
    shared = [
        float(fit.gaps_m[fit.turns[int(fit.turn)].axes[along]]) for fit in pile(bay, first, second)
    ]
    assert shared[0] == pytest.approx(shared[1], abs=2e-9)


@given(bays, sizes, sizes, st.floats(0.2, 5.0))
@settings(max_examples=60, deadline=None)
def test_scaling_everything_scales_the_gaps(bay, first, second, k):
    fields = ("length_m", "width_m", "height_m", "pile_gap_m", "padding_m", "lead_room_m")
    larger = dataclasses.replace(
        bay, tolerance_m=k * bay.tolerance_m, **{name: k * getattr(bay, name) for name in fields}
    )
    scaled = pile(larger, *([k * side for side in box] for box in (first, second)))
    least = min(float(fit.clearance_m) for fit in scaled)
    assert least == pytest.approx(
        k * min(float(fit.clearance_m) for fit in pile(bay, first, second)), abs=1e-7
    )


@given(bays, sizes, sizes, st.integers(0, 2), st.floats(0.5, 1.0))
@settings(max_examples=60, deadline=None)
def test_a_smaller_part_never_makes_a_pile_worse(bay, first, second, axis, ratio):
    less = tuple(side * (ratio if k == axis else 1.0) for k, side in enumerate(first))
    rank = [max(int(fit.state) for fit in pile(bay, box, second)) for box in (less, first)]
    assert rank[0] <= rank[1]


@given(bays, sizes, sizes)
@settings(max_examples=60, deadline=None)
def test_the_largest_part_that_a_pile_takes_is_clear_and_a_larger_one_is_not(bay, first, second):
    fit, other = pile(bay, first, second)
    turn, beside = fit.turns[int(fit.turn)], other.turns[int(other.turn)]
    for axis in range(3):
        limit = float(fit.largest_m[axis])
        if limit <= 1e-6:
            continue
        states = []
        for size in (limit, limit + 1e-6):
            box = tuple(size if k == axis else side * MM for k, side in enumerate(first))
            again = kept_fits(
                bay, (box, tuple(side * MM for side in second)),
                ((bay.lead_room_m, 0.0, 0.0),) * 2, ((turn,), (beside,)),
            )  # fmt: skip
            states.append(STATES[int(again[0].state)])
        assert states[0] == "clear" and states[1] != "clear"


@given(bays, sizes, sizes)
@settings(max_examples=60, deadline=None)
def test_parts_of_a_pile_lie_inside_their_bay_and_beside_each_other(bay, first, second):
    made = build(first, second, **{f.name: getattr(bay, f.name) for f in dataclasses.fields(bay)})
    low, high = solids(made)
    bay = made.frame.bays[0]
    along = ("length", "width", "height").index(bay.piled)
    axis = (2, 1, 0)[along]  # of the frame, in a bay that lies across
    room = bay.lead_room_m * 2 + 1e-9  # leads that leave along the pile keep parts further apart
    apart = abs(gap_along(low, high, axis) - bay.pile_gap_m)
    assert apart <= room
    if all(v.state == "clear" for v in verdicts(made).values()):
        sides = (bay.height_m, bay.width_m, bay.length_m)
        middle = (bay.station_m, bay.right_m, bay.front_m)
        for solid in (low, high):
            for k in range(3):
                half = sides[k] / 2 - bay.padding_m + 1e-9
                assert middle[k] - half <= solid.low[k] < solid.high[k] <= middle[k] + half
        assert gap_between(low, high).gap_m >= bay.pile_gap_m - 1e-9


def gap_along(a, b, axis):
    return max(b.low[axis] - a.high[axis], a.low[axis] - b.high[axis])


def test_the_first_of_a_pile_lies_on_its_floor_and_the_next_a_gap_above():
    video, receiver = solids(build())
    floor = 0.015 + 12.75 * MM - 0.75 * MM  # towards the tail
    assert video.high[0] == pytest.approx(floor)
    assert video.low[0] == pytest.approx(floor - 16 * MM)
    assert receiver.high[0] == pytest.approx(floor - 18 * MM)
    assert receiver.low[0] == pytest.approx(floor - 23 * MM)


def test_a_pile_is_drawn_whole_and_only_its_top_is_dimensioned():
    made = build(receiver=(30, 20, 9))
    drawing = DRAWINGS["side"](made, None)
    parts = [o for o in drawing.outlines if o.role == "clash"]
    assert len(parts) == 2
    (gap,) = [d for d in drawing.dimensions if d.clash]
    assert plain(gap.text_metric) == "3.0 mm over"


def test_longspur_carries_its_receiver_on_its_video_unit():
    found = default_build(library(), "longspur-7")
    bay = found.frame.bay_for("receiver")
    assert bay is found.frame.bay_for("video")
    parts = held(found.frame, bay, found.parts)
    assert list(parts) == ["video", "receiver"]
    assert len(fits_in(bay, parts)) == len(all_placed(bay, parts)) == 2
    assert {v.state for v in fit_verdicts(found) if v.id in ("video_bay", "receiver_bay")} == {
        "clear"
    }
    long = library().shelf.part("receiver", "r433")
    swapped = dataclasses.replace(found, parts={**found.parts, "receiver": long})
    (v,) = [v for v in fit_verdicts(swapped) if v.id == "receiver_bay"]
    assert v.amount == pytest.approx(-3 * MM)


def test_only_parts_that_are_there_count():
    bay = dataclasses.replace(BAY, also=("receiver", "gps"))
    parts = held(dataclasses.replace(FRAME, bays=(bay,)), bay, BUILD.parts)
    assert list(parts) == ["video", "receiver", "gps"]
    boxes, rooms = asked(bay, parts)
    assert len(boxes) == len(rooms) == 3
    assert set(TURNS) == {"pack", "gps", "video", "receiver"}
    assert list(held(FRAME, bay, BUILD.parts)) == []  # a bay that is not the frame's first


# ---------------------------------------------------------------- the file

TEXT = """
[[bay]]
id = "pile"
kind = "video"
also = ["receiver"]
size = "44 x 42 x 25 mm"
station = "15 mm"
"""


def problems(changed):
    with pytest.raises(FileError) as caught:
        read_frame(changed, "q")
    return [problem for problem in caught.value.problems if "'pile'" in problem]


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('also = ["receiver"]', 'also = ["reciever"]',
         "also must be one of its words, got 'reciever'; did you mean 'receiver'?"),
        ('also = ["receiver"]', 'also = "receiver"', "also must be a list in [ ]"),
        ('also = ["receiver"]', 'also = ["video"]', "also must be other kinds than video"),
        ('also = ["receiver"]', 'also = ["gps", "gps"]', "also must be other kinds than video"),
        ('kind = "video"', 'kind = "esc"', "also must be other kinds than esc"),
        ('size = "44 x 42 x 25 mm"', 'shape = "tube"\nlength = "44 mm"\ndiameter = "42 mm"',
         "also must be left out unless the bay is a box without rounded corners"),
        ('size = "44 x 42 x 25 mm"', 'size = "44 x 42 x 25 mm"\ncorner = "2 mm"',
         "also must be left out unless the bay is a box without rounded corners"),
        ('station = "15 mm"', 'station = "15 mm"\npiled = "up"', "piled must be one of its words"),
        ('station = "15 mm"', 'station = "15 mm"\n[[bay]]\nid = "own"\nkind = "receiver"\n'
         'size = "9 x 9 x 9 mm"\nstation = "90 mm"', "receiver must have one bay only"),
    ],
)  # fmt: skip
def test_mistakes_about_piles_are_told(old, new, message):
    assert old in TEXT
    assert any(message in problem for problem in problems(TEXT.replace(old, new)))
