"""Plugs and cards through the openings of a frame: what is left, what stands in the way."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fit_builds import BUILD, FRAME, with_frame, with_part, without
from site_builds import library
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.fit.access import CARD_WAYS, PLUG_WAYS, card_reach, usb_reach
from slipfit.fit.solids import solids
from slipfit.frame.frame import Access, Outline
from slipfit.frame.reading import read_frame
from slipfit.library import default_build
from slipfit.parts.source import FileError

MM = 1e-3
# In BUILD the board is 37 mm square, its middle at 110 mm. It stands: the socket on its left
# is 18.5 mm to the right of the frame's axis.
SOCKET = (0.110, 0.0185)


def verdict(build, id):
    found = [v for v in fit_verdicts(build) if v.id == id]
    return found[0] if found else None


def plain(text):
    return text.replace("\N{NARROW NO-BREAK SPACE}", " ")


def window(build=BUILD, **changes):
    """The build with one opening: 20 mm along the axis by 14 mm, right before the socket, in a wall
    10 mm off it."""
    made = Access(
        name="side window", side="right", length_m=20 * MM, width_m=14 * MM,
        station_m=SOCKET[0], right_m=SOCKET[1] + 10 * MM, front_m=socket_front(build),
    )  # fmt: skip
    return with_frame(build, accesses=(dataclasses.replace(made, **changes),))


def socket_front(build):
    """In front of the axis: the middle of the flight controller's thickness."""
    (board,) = [solid for solid in solids(build) if solid.kind == "stack"]
    return (board.low[2] + board.high[2]) / 2


def test_a_plug_before_its_window_is_left_what_the_window_is_wider():
    """14 mm less 7 mm of plug, half of it on each side: less than (20 - 12.5)/2 along the axis and
    than 17 - 10 mm in depth."""
    reach = usb_reach(window())
    assert (reach.state, reach.limit, reach.turned) == ("clear", "edge", "")
    assert reach.gap_m == pytest.approx(3.5 * MM)
    assert plain(verdict(window(), "usb_access").sentence_metric) == (
        "USB plug is clear: 3.5 mm left in the side window"
    )


@pytest.mark.parametrize(
    ("off_mm", "state", "left_mm"),
    [(0.0, "clear", 3.5), (2.5, "clear", 1.0), (3.0, "snug", 0.5), (3.5, "snug", 0.0),
     (5.5, "clashes", -2.0)],
)  # fmt: skip
def test_a_window_beside_the_socket(off_mm, state, left_mm):
    build = window(front_m=socket_front(BUILD) + off_mm * MM)
    found = verdict(build, "usb_access")
    assert found.state == state
    assert found.amount == pytest.approx(left_mm * MM, abs=1e-12)
    # The other way is the same.
    back = verdict(window(front_m=socket_front(BUILD) - off_mm * MM), "usb_access")
    assert back.amount == pytest.approx(left_mm * MM, abs=1e-12)


@pytest.mark.parametrize(
    ("deep_mm", "state", "left_mm", "limit"),
    [(0.0, "clear", 3.5, "edge"), (13.4, "clear", 3.5, "edge"), (16.0, "clear", 1.0, "depth"),
     (16.5, "snug", 0.5, "depth"), (20.0, "clashes", -3.0, "depth")],
)  # fmt: skip
def test_a_socket_deep_behind_its_wall(deep_mm, state, left_mm, limit):
    reach = usb_reach(window(right_m=SOCKET[1] + deep_mm * MM))
    assert (reach.state, reach.limit) == (state, limit)
    assert reach.gap_m == pytest.approx(left_mm * MM, abs=1e-12)


def test_fingers_reach_deeper_through_an_opening_that_takes_them():
    deep = {"right_m": SOCKET[1] + 20 * MM}
    large = usb_reach(window(length_m=22 * MM, width_m=18 * MM, **deep))
    assert (large.state, large.way.words) == ("clear", "by fingers")
    assert large.gap_m == pytest.approx((22 - 12.5) / 2 * MM)
    turned = usb_reach(window(length_m=18 * MM, width_m=22 * MM, **deep))
    assert turned.gap_m == pytest.approx((18 - 12.5) / 2 * MM)
    small = usb_reach(window(length_m=22 * MM, width_m=17.9 * MM, **deep))
    assert (small.state, small.gap_m) == ("clashes", pytest.approx(-3 * MM))
    too_deep = usb_reach(window(length_m=40 * MM, width_m=40 * MM, right_m=SOCKET[1] + 50 * MM))
    assert (too_deep.limit, too_deep.gap_m) == ("depth", pytest.approx(-3 * MM))


def test_a_part_on_the_way_is_named_with_what_it_takes():
    """A module right of the board, whose near side stands 1 mm into the plug's way."""
    bay = dataclasses.replace(
        FRAME.bays[1], length_m=0.020, width_m=0.020, height_m=0.0065, padding_m=0.0,
        station_m=SOCKET[0] - 0.010 - 0.00625 + 0.001, right_m=SOCKET[1] + 0.015,
        front_m=socket_front(BUILD),
    )  # fmt: skip
    build = with_frame(window(right_m=SOCKET[1] + 10 * MM), bays=(bay,))
    found = verdict(build, "usb_access")
    assert found.state == "clashes"
    assert found.amount == pytest.approx(-1 * MM)
    assert plain(found.sentence_metric) == (
        "USB plug clashes by 1.0 mm with the GPS module on its way to the side window"
    )
    away = dataclasses.replace(bay, station_m=bay.station_m - 0.001)
    assert verdict(with_frame(build, bays=(away,)), "usb_access").state == "clear"


@pytest.mark.parametrize(
    ("usb_side", "state", "turned"),
    [("left", "clear", ""), ("front", "snug", "a quarter anticlockwise"),
     ("back", "snug", "a quarter clockwise"), ("right", "snug", "a half")],
)  # fmt: skip
def test_a_board_that_stands_may_be_turned_to_the_window(usb_side, state, turned):
    """Seen on its face, clockwise: front, right, back, left look to nose, left, tail, right."""
    reach = usb_reach(window(with_part("stack", usb_side=usb_side)))
    assert (reach.state, reach.turned) == (state, turned)
    found = verdict(window(with_part("stack", usb_side=usb_side)), "usb_access")
    assert bool(found.fix) == bool(turned)
    if turned:
        assert found.fix == f"turn the board by {turned}, and tell it so in its settings"
        assert found.sentence_metric.endswith(f"with the board turned by {turned}")


@pytest.mark.parametrize(
    ("usb_side", "turned"),
    [("right", ""), ("front", "a quarter clockwise"), ("left", "a half"),
     ("back", "a quarter anticlockwise")],
)  # fmt: skip
def test_a_board_that_lies_has_its_own_right_on_the_right(usb_side, turned):
    """On a flat frame, its face to the nose: clockwise from above is front, right, back, left."""
    flat = with_frame(with_part("stack", usb_side=usb_side), outline=Outline(), bodies=())
    (board,) = [solid for solid in solids(flat) if solid.kind == "stack"]
    gap = Access(
        name="gap", side="right", length_m=14 * MM, width_m=20 * MM, front_m=0.0,
        station_m=(board.low[0] + board.high[0]) / 2, right_m=board.high[1] + 5 * MM,
    )  # fmt: skip
    reach = usb_reach(with_frame(flat, accesses=(gap,)))
    # The plug is thin along the axis: 14 mm less 7 mm.
    assert (reach.turned, reach.gap_m) == (turned, pytest.approx(3.5 * MM))


def test_a_socket_off_the_middle_of_its_side_moves_clockwise():
    """On the left of a board that stands, clockwise is to the nose; the window keeps its place."""
    off = usb_reach(window(with_part("stack", usb_offset_m=3 * MM)))
    assert off.gap_m == pytest.approx((20 - 12.5) / 2 * MM - 3 * MM)
    follows = usb_reach(
        window(with_part("stack", usb_offset_m=3 * MM), station_m=SOCKET[0] - 3 * MM)
    )
    assert follows.gap_m == pytest.approx(3.5 * MM)


def test_a_board_is_turned_by_a_quarter_only_where_its_seat_takes_it_so():
    long = with_part("stack", length_m=0.042, width_m=0.030, usb_side="front")
    narrow = dataclasses.replace(FRAME.stack_seat, max_length_m=0.042, max_width_m=0.032)
    assert usb_reach(window(long)).turned == ""  # 42 mm in 40 mm: no turn, no window
    wide = dataclasses.replace(narrow, max_width_m=0.042)
    assert usb_reach(with_frame(window(long), stack_seat=narrow)).limit == "none"
    reach = usb_reach(with_frame(window(long), stack_seat=wide))
    assert reach.turned == "a quarter anticlockwise"
    # Its own half length, 21 mm, is now to the right.
    assert reach.gap_m == pytest.approx(3.5 * MM)


def test_a_window_that_looks_elsewhere_is_named_with_its_distance():
    back = Access(
        name="hatch", side="back", length_m=40 * MM, width_m=40 * MM,
        station_m=0.110, right_m=0.0, front_m=-0.034,
    )  # fmt: skip
    seat = dataclasses.replace(FRAME.stack_seat, under="the front half")
    build = with_frame(accesses=(back,), stack_seat=seat)
    found = verdict(build, "usb_access")
    assert found.state == "clashes"
    away = ((0.0185) ** 2 + (0.034 + socket_front(BUILD)) ** 2) ** 0.5
    assert found.amount == pytest.approx(-away)
    assert "to the hatch, which looks to another side" in found.sentence_metric
    assert found.fix == "to reach it the front half must come off"
    unsaid = verdict(with_frame(accesses=(back,)), "usb_access")
    assert unsaid.fix == "to reach it what lies above it must come off"


def test_of_several_openings_the_best_is_taken():
    small = window().frame.accesses[0]
    large = dataclasses.replace(small, name="large", length_m=30 * MM, width_m=16 * MM)
    for both in ((small, large), (large, small)):
        reach = usb_reach(with_frame(accesses=both))
        assert (reach.access.name, reach.gap_m) == ("large", pytest.approx(4.5 * MM))


def test_without_openings_boards_or_slots_there_is_nothing_to_say():
    assert usb_reach(with_frame(accesses=())) is None
    assert card_reach(with_frame(accesses=())) is None
    assert verdict(without("stack"), "usb_access") is None
    assert card_reach(with_part("video", card_side="none")) is None
    assert card_reach(without("video")) is None
    assert card_reach(with_frame(bays=())) is None


@given(st.floats(0.5, 2.0), st.floats(-6, 6), st.floats(0, 25), st.floats(8, 40), st.floats(8, 40))
@settings(max_examples=60, deadline=None)
def test_mirroring_the_frame_changes_nothing(stretch, off, deep, length, width):
    """Left for right: the window in the other wall, the socket on the other side."""
    sizes = {"length_m": length * MM, "width_m": width * MM}
    front = socket_front(BUILD) + off * MM
    right = window(right_m=SOCKET[1] + deep * MM, front_m=front, **sizes)
    mirrored = window(
        with_part("stack", usb_side="right"), side="left", right_m=-SOCKET[1] - deep * MM,
        front_m=front, **sizes,
    )  # fmt: skip
    one, other = usb_reach(right), usb_reach(mirrored)
    assert (one.state, one.turned) == (other.state, other.turned)
    assert one.gap_m == pytest.approx(other.gap_m, abs=1e-12)


@given(st.floats(5, 60), st.floats(5, 60), st.floats(0, 30), st.floats(0, 20))
@settings(max_examples=60, deadline=None)
def test_a_larger_opening_is_never_worse(length, width, more_length, more_width):
    small = usb_reach(window(length_m=length * MM, width_m=width * MM))
    large = usb_reach(
        window(length_m=(length + more_length) * MM, width_m=(width + more_width) * MM)
    )
    rank = ("clear", "snug", "clashes").index
    assert rank(large.state) <= rank(small.state)
    assert large.gap_m >= small.gap_m - 1e-12


# ---------------------------------------------------------------- cards


def flap(**changes):
    """The build with a flap in front of its video unit, which lies 33 x 31 x 8 mm in its bay, its
    face 23.5 mm in front of the axis."""
    (video,) = [solid for solid in solids(BUILD) if solid.kind == "video"]
    middle = [(low + high) / 2 for low, high in zip(video.low, video.high, strict=True)]
    made = Access(
        name="flap", side="front", length_m=24 * MM, width_m=18 * MM, station_m=middle[0],
        right_m=middle[1], front_m=video.high[2] + 8 * MM,
    )  # fmt: skip
    return with_frame(accesses=(dataclasses.replace(made, **changes),))


def test_a_card_comes_out_by_fingers_where_they_go_in():
    reach = card_reach(flap())
    assert (reach.state, reach.way.words, reach.limit) == ("clear", "by fingers", "edge")
    # 24 mm less 11.5 mm of card along the axis, 18 mm less 2 mm across.
    assert reach.gap_m == pytest.approx((24 - 11.5) / 2 * MM)
    assert plain(verdict(flap(), "card_access").sentence_metric) == (
        "Card is clear: 6.2 mm left in the flap, by fingers"
    )


def test_a_card_behind_a_small_or_deep_opening_wants_tweezers():
    small = verdict(flap(length_m=21 * MM), "card_access")
    assert small.state == "snug"
    assert small.sentence_metric.endswith("with tweezers")
    assert small.fix == "tweezers that do not conduct reach it"
    deep = card_reach(flap(front_m=flap().frame.accesses[0].front_m + 30 * MM))
    assert (deep.state, deep.way.words) == ("snug", "with tweezers")
    deeper = card_reach(flap(front_m=flap().frame.accesses[0].front_m + 55 * MM))
    assert (deeper.state, deeper.limit) == ("clashes", "depth")
    assert deeper.gap_m == pytest.approx((60 - 63) * MM)


@pytest.mark.parametrize(
    ("card_side", "sides"),
    [("face", {"front", "back"}), ("side", {"left", "right"}), ("end", {"nose", "tail"})],
)
def test_a_unit_may_be_put_in_either_way_round(card_side, sides):
    """Its length lies along the axis, its width to the right, its height to the front."""
    (video,) = [solid for solid in solids(BUILD) if solid.kind == "video"]
    middle = [(low + high) / 2 for low, high in zip(video.low, video.high, strict=True)]
    found = set()
    for side in ("nose", "tail", "left", "right", "front", "back"):
        hole = Access(
            name="hole", side=side, length_m=60 * MM, width_m=60 * MM, station_m=middle[0],
            right_m=middle[1], front_m=middle[2],
        )  # fmt: skip
        build = with_frame(with_part("video", card_side=card_side), accesses=(hole,))
        if card_reach(build).limit != "none":
            found.add(side)
    assert found == sides


def test_a_place_that_lies_across_turns_the_slot_with_it():
    build = default_build(library(), "longspur-7")
    reach = card_reach(build)
    assert (reach.state, reach.access.side) == ("clear", "left")


def test_ways_of_the_hand_grow_with_the_opening_and_the_tool():
    for ways in (PLUG_WAYS, CARD_WAYS):
        assert [way.reach_m for way in ways] == sorted(way.reach_m for way in ways)
        assert all(way.broad_m > way.thin_m for way in ways)


# ---------------------------------------------------------------- the file


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('[[access]]\nside = "up"\nlength = "2 mm"\nwidth = "2 mm"\nstation = "1 mm"',
         "[access 1]: name must be given"),
        ('[[access]]\nname = "a"\nside = "up"\nlength = "2 mm"\nwidth = "2 mm"\nstation = "1 mm"',
         "[access] 'a': side must be one of its words, got 'up'"),
        ('[[access]]\nname = "a"\nside = "left"\nlength = "2 mm"\nstation = "1 mm"',
         "[access] 'a': width must be given"),
        ('[[keep_out]]\nname = "b"\nsize = "2 x 2 mm"\nstation = "1 mm"',
         "[keep_out] 'b': size must be length x width x height with one unit"),
        ('[[keep_out]]\nname = "b"\nsize = "2 x 2 x 2 mm"',
         "[keep_out] 'b': station must be given"),
        ('[[keep_out]]\nname = "b"\nsize = "2 x 2 x 2 mm"\nstation = "1 mm"\nrom = "1 mm"',
         "[keep_out] 'b': no key 'rom'; did you mean 'room'?"),
    ],
)  # fmt: skip
def test_mistakes_about_openings_and_keep_outs_are_told(text, message):
    with pytest.raises(FileError) as caught:
        read_frame(text, "q")
    assert any(message in problem for problem in caught.value.problems), caught.value.problems


def narrow(build):
    """With a board of 40 by 30 mm, its socket at its front end, on a seat that takes it turned."""
    seat = dataclasses.replace(FRAME.stack_seat, max_length_m=32 * MM, max_width_m=42 * MM)
    board = with_part("stack", length_m=40 * MM, width_m=30 * MM, usb_side="front")
    return with_frame(board, stack_seat=seat, accesses=build.frame.accesses)


def test_a_board_that_only_fits_turned_is_turned_in_the_drawings_and_for_its_plug():
    build = narrow(window(right_m=SOCKET[1] + 12 * MM))
    (board,) = [solid for solid in solids(build) if solid.kind == "stack"]
    assert board.high[0] - board.low[0] == pytest.approx(30 * MM)
    assert board.high[1] - board.low[1] == pytest.approx(40 * MM)
    assert verdict(build, "stack_board").sentence_metric.endswith("turned by a quarter")
    reach = usb_reach(build)  # straight, the socket would look to the nose
    assert reach.turned in ("a quarter clockwise", "a quarter anticlockwise")
    nose = narrow(window(side="nose", station_m=80 * MM, right_m=0.0))
    assert usb_reach(nose).limit == "none"
