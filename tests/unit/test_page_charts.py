"""Charts and drawings as pictures: scales, gaps, labels that keep apart, tables behind them."""

import dataclasses
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from slipfit.drawings.drawing import Dimension, Point
from slipfit.markup import plain_text
from slipfit.page.axes import Scale, apart, nice_step, span_of, text_width, tick_text, ticks
from slipfit.page.chart_views import chart_figure
from slipfit.page.curves import curves_svg
from slipfit.page.drawing_views import drawing_figure
from slipfit.page.layers import layers_svg
from slipfit.page.svg import area_paths, line_path
from stand_in_report import DRAG_SPLIT, LEVEL_FLIGHT, MASSES, SIDE


def walk(tree):
    if isinstance(tree, list):
        yield tree
        for child in tree[2:]:
            yield from walk(child)


def classed(tree, class_):
    return [n for n in walk(tree) if class_ in n[1].get("class", "").split()]


def numbers(path):
    return [float(text) for text in re.findall(r"-?\d+(?:\.\d+)?", path)]


def test_a_scale_maps_its_ends_to_its_pixels():
    scale = Scale(-10.0, 30.0, 200.0, 40.0)
    assert (scale(-10.0), scale(30.0), scale(10.0)) == (200.0, 40.0, 120.0)


@pytest.mark.parametrize(
    ("span", "about", "step"), [(100.0, 5, 20.0), (7.0, 4, 2.0), (0.3, 3, 0.1), (288.0, 8, 50.0)]
)
def test_steps_are_one_two_or_five(span, about, step):
    assert nice_step(span, about) == pytest.approx(step)


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6), st.integers(2, 10))
def test_ticks_lie_inside_and_are_not_too_many(low, span, about):
    places = ticks(low, low + span, about)
    step = nice_step(span, about)
    assert len(places) <= about + 1
    assert all(low - 1e-6 * step - 1e-9 <= p <= low + span + 1e-6 * step + 1e-9 for p in places)


@given(st.lists(st.floats(-1e5, 1e5), max_size=20))
def test_an_axis_holds_every_value_and_zero(values):
    low, high = span_of(values)
    step = nice_step(high - low, 8)
    assert low <= 0.0 <= high
    assert high > low
    assert all(low - 1e-6 * step <= v <= high + 1e-6 * step for v in values)


def test_tick_text_has_the_decimals_of_its_step():
    assert tick_text(0.2, 0.1) == "0.2"
    assert tick_text(1500.0, 500.0) == "1\u202f500"
    assert tick_text(-20.0, 20.0) == "−20"
    assert tick_text(-0.0, 20.0) == "0"


@given(st.lists(st.floats(0, 100), min_size=1, max_size=6))
def test_labels_are_kept_apart_and_in_order(places):
    moved = apart(places, 10.0, 0.0, 100.0)
    pairs = sorted(zip(places, moved, strict=True), key=lambda pair: pair[1])
    assert all(b[1] - a[1] >= 10.0 - 1e-9 for a, b in zip(pairs, pairs[1:], strict=False))
    assert all(a[0] <= b[0] for a, b in zip(pairs, pairs[1:], strict=False))


def test_a_gap_lifts_the_pen():
    assert line_path([(0, 0), (1, 1), None, (3, 3), (4, 4)]) == "M0 0L1 1M3 3L4 4"


def test_a_band_is_cut_at_a_gap():
    path = area_paths([0, 1, 2, 3, 4], [0, 0, None, 0, 0], [1, 1, 1, 1, 1])
    assert path == "M0 1L1 1L1 0L0 0ZM3 1L4 1L4 0L3 0Z"


@pytest.mark.parametrize("width", [340, 680])
@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_curves_stay_on_the_picture(width, system):
    tree = curves_svg(LEVEL_FLIGHT, system, width)
    _, _, w, h = map(float, tree[1]["viewBox"].split())
    assert w == width
    for node in walk(tree):
        if "d" in node[1] and "sf-line" in node[1].get("class", ""):
            values = numbers(node[1]["d"])
            assert all(0 <= x <= w for x in values[::2])
            assert all(0 <= y <= h for y in values[1::2])
        if node[0] == "text":
            assert -1 <= float(node[1]["x"]) <= w + 1
            assert 0 <= float(node[1]["y"]) <= h


def test_curves_of_one_unit_share_a_panel_and_are_named_on_the_line():
    tree = curves_svg(LEVEL_FLIGHT, "metric", 680)
    titles = [plain_text(n) for n in classed(tree, "sf-panel-title")]
    assert titles == ["Power from the pack, W", "A", "Throttle, %"]
    assert [plain_text(n) for n in classed(tree, "sf-line-label")] == ["each motor", "ESC rating"]


def test_a_gap_in_the_values_is_a_gap_in_the_line():
    tree = curves_svg(LEVEL_FLIGHT, "metric", 680)
    last = classed(tree, "sf-line")[-1][1]["d"]
    assert max(numbers(last)[::2]) < float(tree[1]["data-right"]) - 5


def label_span(label):
    x, width = float(label[1]["x"]), 6.0 * len(plain_text(label))
    return (x - width, x) if label[1].get("text-anchor") == "end" else (x, x + width)


def test_marks_say_where_a_limit_bites_and_do_not_overlap():
    tree = curves_svg(LEVEL_FLIGHT, "metric", 340)
    labels = classed(tree, "sf-bite-label")
    assert "goes furthest, 130 km/h" in plain_text(labels[0]).replace("\u202f", " ")
    rows = {}
    for label in labels:
        rows.setdefault(label[1]["y"], []).append(label)
    for row in rows.values():
        ends = sorted(label_span(n) for n in row)
        assert all(a[1] < b[0] for a, b in zip(ends, ends[1:], strict=False))


def test_layers_stack_to_the_sum():
    tree = layers_svg(DRAG_SPLIT, "metric", 680)
    edges = classed(tree, "sf-layer-edge")
    ends = [numbers(edge[1]["d"])[-1] for edge in edges]
    assert ends == sorted(ends, reverse=True)
    assert len(ends) == 6


def test_layers_with_a_gap_show_no_half_stack():
    broken = dataclasses.replace(
        DRAG_SPLIT.series[3], values=(None, *DRAG_SPLIT.series[3].values[1:])
    )
    series = (*DRAG_SPLIT.series[:3], broken, *DRAG_SPLIT.series[4:])
    tree = layers_svg(dataclasses.replace(DRAG_SPLIT, series=series), "metric", 680)
    lowest = classed(tree, "sf-layer")[0][1]["d"]
    assert min(numbers(lowest)[::2]) > float(tree[1]["data-left"]) + 5


def test_a_chart_has_its_finding_its_table_and_its_reader():
    tree = chart_figure(LEVEL_FLIGHT, "imperial")
    (caption,) = [n for n in walk(tree) if n[0] == "figcaption"]
    assert plain_text(caption) == LEVEL_FLIGHT.caption
    heads = [plain_text(n) for n in walk(tree) if n[0] == "th" and n[1]["scope"] == "col"]
    assert heads[0] == "Speed, mph"
    assert "Low end of power from the pack, W" in heads
    rows = [n for n in walk(tree) if n[0] == "tr"][1:]
    assert len(rows) == len(LEVEL_FLIGHT.x)
    assert rows[0][1]["data-at"] == "0.0000"
    assert rows[-1][1]["data-at"] == "1.0000"
    (cursor,) = [n for n in walk(tree) if n[0] == "input"]
    assert cursor[1]["max"] == str(len(LEVEL_FLIGHT.x) - 1)
    assert LEVEL_FLIGHT.x[int(cursor[1]["value"])] == LEVEL_FLIGHT.marks[0].x


def test_a_bar_without_a_value_says_so():
    assert "no value" in plain_text(chart_figure(MASSES, "metric"))


def test_a_long_frame_stands_upright_on_a_phone_and_both_pictures_are_to_scale():
    long = dataclasses.replace(SIDE, top=-0.09, bottom=0.09)
    tree = drawing_figure(long, "metric")
    wide, narrow = (n for n in walk(tree) if n[0] == "svg")

    def box(svg, name):
        (piece,) = [n for n in walk(svg) if n[1].get("aria-label") == name]
        (shape,) = [n for n in walk(piece) if n[0] == "polygon"]
        values = numbers(shape[1]["points"])
        xs, ys = values[::2], values[1::2]
        return max(xs) - min(xs), max(ys) - min(ys)

    along, across = box(wide, "Pack bay, 90 × 36 mm")
    assert along / across == pytest.approx(90 / 36, rel=0.01)
    across, along = box(narrow, "Pack bay, 90 × 36 mm")
    assert along / across == pytest.approx(90 / 36, rel=0.01)


def test_labels_of_crowded_dimensions_keep_apart_and_say_which_line_is_theirs():
    """Six overlaps within a millimetre, and a point beside them."""
    crowd = tuple(
        Dimension(
            x1=0.1, y1=k * 2e-4, x2=0.1 + 1e-3 * (k % 2), y2=k * 2e-4 + 1e-3 * (1 - k % 2),
            text_metric=f"{k}.0 mm over", text_imperial="0.04 in over", clash=True,
        )
        for k in range(6)
    )  # fmt: skip
    point = Point(role="balance", x=0.1, y=0.0, label="balance point")
    drawing = dataclasses.replace(SIDE, dimensions=crowd, points=(point,))
    for svg in (n for n in walk(drawing_figure(drawing, "metric")) if n[0] == "svg"):
        boxes = []
        for label in classed(svg, "sf-dim-text"):
            x, y, words = float(label[1]["x"]), float(label[1]["y"]), label[2]
            width = text_width(words, 12.0)
            left = {"middle": x - width / 2, "end": x - width}.get(label[1].get("text-anchor"), x)
            boxes.append((left, y - 12, left + width, y + 3))
        assert len(boxes) == 7
        for k, (a, t, r, b) in enumerate(boxes):
            for a2, t2, r2, b2 in boxes[k + 1 :]:
                assert a >= r2 or r <= a2 or t >= b2 or b <= t2
        leads = classed(svg, "sf-dim-lead")
        assert 4 <= len(leads) <= 6


def test_a_dimension_by_itself_has_its_label_beside_it_and_no_lead():
    alone = dataclasses.replace(SIDE, points=(), dimensions=SIDE.dimensions[:1])
    for svg in (n for n in walk(drawing_figure(alone, "metric")) if n[0] == "svg"):
        assert len(classed(svg, "sf-dim-text")) == 1
        assert not classed(svg, "sf-dim-lead")


def test_named_pieces_can_be_reached_by_keyboard_and_clashes_are_hatched():
    tree = drawing_figure(SIDE, "imperial")
    pieces = [n for n in classed(tree, "sf-piece") if n[1].get("aria-label")]
    assert pieces
    assert all(n[1]["tabindex"] == "0" and n[1]["role"] == "img" for n in pieces)
    (clash, _) = classed(tree, "sf-role-clash")
    pattern = clash[1]["fill"][5:-1]
    assert pattern in {n[1].get("id") for n in walk(tree) if n[0] == "pattern"}
    assert "clashes by 0.09 in" in plain_text(tree)


def test_measured_points_stand_on_the_scales_of_their_curve():
    speeds = LEVEL_FLIGHT.x
    series = dataclasses.replace(
        LEVEL_FLIGHT.series[0], points=((speeds[0], 0.0), (speeds[-1], 0.0))
    )
    chart = dataclasses.replace(LEVEL_FLIGHT, series=(series,))
    tree = curves_svg(chart, "metric", 680)
    first, last = classed(tree, "sf-point")
    ends = (float(tree[1]["data-left"]), float(tree[1]["data-right"]))
    assert (float(first[1]["cx"]), float(last[1]["cx"])) == pytest.approx(ends, abs=0.06)
    assert first[1]["cy"] == last[1]["cy"]
