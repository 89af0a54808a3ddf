"""Curves: small panels stacked over one axis, each in its own unit, every line named beside it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from slipfit.charts.chart import Chart, Series
from slipfit.markup import Tree, el
from slipfit.page.axes import Scale, apart, nice_step, span_of, text_width, tick_text, ticks
from slipfit.page.marks import capital
from slipfit.page.svg import area_paths, line_path, number, text
from slipfit.units import Display

SIZE = 12.0  # of the lettering, in px
_LEFT = 46.0
_TITLE, _GAP, _FOOT = 26.0, 12.0, 38.0


def curves_svg(chart: Chart, system: str, width: int) -> Tree:
    """The picture of a chart of curves, `width` px wide."""
    assert chart.x_display is not None
    narrow = width < 500
    panel_height = 84.0 if narrow else 96.0
    right = width - 8.0
    x_values = [chart.x_display.converted(x, system) for x in chart.x]
    x_low, x_high = x_values[0], x_values[-1]
    x_scale = Scale(x_low, x_high if x_high > x_low else x_low + 1.0, _LEFT, right)
    x = [x_scale(value) for value in x_values]
    mark_rows, mark_pieces = _marks(chart, system, x_scale, right)
    top = 6.0 + (mark_rows + bool(chart.stretches)) * (SIZE + 4)
    panels: list[Tree] = []
    y = top
    groups = [list(chart.series)] if chart.one_panel else _panels(chart.series)
    panel_height *= 2.0 if chart.one_panel else 1.0
    for group in groups:
        measured = [_points(chart, one, system, x_scale) for one in group]
        panels.extend(_panel(group, system, x, measured, y + _TITLE, panel_height, right))
        y += _TITLE + panel_height + _GAP
    bottom = y - _GAP
    return el(
        "svg",
        *_stretches(chart, system, x_scale, top - 4, bottom),
        *mark_pieces(top - 4 - bool(chart.stretches) * (SIZE + 4), bottom),
        *panels,
        *x_axis(chart, system, x_scale, bottom, 4 if narrow else 8),
        el("path", d=f"M0 {number(top)}V{number(bottom)}", class_="sf-cursor", visibility="hidden"),
        class_="sf-picture",
        viewBox=f"0 0 {width} {number(bottom + _FOOT)}",
        role="img",
        aria_label=f"{chart.title}. {chart.caption}",
        data_left=_LEFT,
        data_right=right,
    )


def _stretches(chart: Chart, system: str, scale: Scale, top: float, bottom: float) -> list[Tree]:
    """Bands behind all panels, every second one shaded, each with as much of its name as fits."""
    assert chart.x_display is not None
    pieces: list[Tree] = []
    for k, stretch in enumerate(chart.stretches):
        ends = (chart.x_display.converted(x, system) for x in (stretch.low, stretch.high))
        low, high = (scale(value) for value in ends)
        name = next(
            (n for n in (stretch.label, stretch.short) if text_width(n, SIZE) + 4 < high - low), ""
        )
        pieces.append(
            el(
                "rect",
                el("title", stretch.label),
                x=number(low),
                y=number(top + 3),
                width=number(high - low),
                height=number(bottom - top - 3),
                class_="sf-stretch" if k % 2 == 0 else "sf-stretch sf-stretch-plain",
            )
        )
        if name:
            pieces.append(text(0.5 * (low + high), top, name, "sf-bite-label", "middle"))
    return pieces


def _panels(series: Sequence[Series]) -> list[list[Series]]:
    """Series of one unit share a panel, in the order of the first of each."""
    groups: list[list[Series]] = []
    for one in series:
        for group in groups:
            if group[0].display == one.display and _same_size(group[0], one):
                group.append(one)
                break
        else:
            groups.append([one])
    return groups


def _same_size(a: Series, b: Series) -> bool:
    """Lines share a panel only if neither would lie flat at its foot."""
    high_a = max((abs(v) for v in a.values if v is not None), default=0.0)
    high_b = max((abs(v) for v in b.values if v is not None), default=0.0)
    return min(high_a, high_b) > 0.25 * max(high_a, high_b)


def _converted(values: Sequence[float | None], display: Display, system: str) -> list[float | None]:
    return [None if v is None else display.converted(v, system) for v in values]


def _points(chart: Chart, series: Series, system: str, scale: Scale) -> list[tuple[float, float]]:
    """Measured points of a series: the pixel across, and the value in the reader's unit."""
    assert chart.x_display is not None
    across = [scale(chart.x_display.converted(x, system)) for x, _ in series.points]
    values = [series.display.converted(value, system) for _, value in series.points]
    return list(zip(across, values, strict=True))


def _panel(
    group: list[Series],
    system: str,
    x: list[float],
    measured: list[list[tuple[float, float]]],
    top: float,
    height: float,
    right: float,
) -> list[Tree]:
    display = group[0].display
    unit = display.unit(system)
    every = [
        v
        for series in group
        for values in (series.values, series.low, series.high)
        for v in _converted(values, display, system)
        if v is not None
    ] + [value for points in measured for _, value in points]
    low, high = span_of(every)
    scale = Scale(low, high, top + height, top)
    step = nice_step(high - low, 4)
    title = capital(group[0].label) if len(group) == 1 else ""
    pieces: list[Tree] = [
        text(0, top - 11, f"{title}, {unit}" if title and unit else title or unit, "sf-panel-title")
    ]
    for value in ticks(low, high, 4):
        y = scale(value)
        class_ = "sf-grid sf-grid-zero" if abs(value) < step * 1e-6 else "sf-grid"
        pieces.append(el("path", d=f"M{number(_LEFT)} {number(y)}H{number(right)}", class_=class_))
        pieces.append(text(_LEFT - 6, y + 4, tick_text(value, step), "sf-tick", "end"))
    labels: list[tuple[float, float, str]] = []
    for k, series in enumerate(group):
        values = _converted(series.values, display, system)
        ys = [None if v is None else scale(v) for v in values]
        if series.low and series.high:
            lows = [
                None if v is None else scale(v) for v in _converted(series.low, display, system)
            ]
            highs = [
                None if v is None else scale(v) for v in _converted(series.high, display, system)
            ]
            pieces.append(el("path", d=area_paths(x, lows, highs), class_="sf-band"))
        points = [None if y is None else (x[i], y) for i, y in enumerate(ys)]
        pieces.append(el("path", d=line_path(points), class_=f"sf-line sf-line-{k % 4}"))
        pieces += [
            el("circle", cx=number(across), cy=number(scale(value)), r="2.6", class_="sf-point")
            for across, value in measured[k]
        ]
        drawn = [point for point in points if point is not None]
        if len(group) > 1 and drawn:
            labels.append((drawn[-1][0], drawn[-1][1], series.label))
    places = apart([y - 6 for _, y, _ in labels], SIZE + 2, top + SIZE, top + height - 4)
    for (end, _, label), y in zip(labels, places, strict=True):
        pieces.append(text(min(end - 6, right), y, label, "sf-line-label", "end"))
    return pieces


def x_axis(chart: Chart, system: str, scale: Scale, bottom: float, about: int) -> list[Tree]:
    """Ticks and title of the common axis, below the lowest panel."""
    assert chart.x_display is not None
    step = nice_step(scale.high - scale.low, about)
    pieces: list[Tree] = []
    for value in ticks(scale.low, scale.high, about):
        x = scale(value)
        pieces.append(
            el("path", d=f"M{number(x)} {number(bottom)}v5", class_="sf-grid sf-grid-zero")
        )
        pieces.append(text(x, bottom + 17, tick_text(value, step), "sf-tick", "middle"))
    unit = chart.x_display.unit(system)
    title = capital(f"{chart.x_label}, {unit}" if unit else chart.x_label)
    pieces.append(text(scale.last, bottom + 33, title, "sf-axis-title", "end"))
    return pieces


def _marks(
    chart: Chart, system: str, scale: Scale, right: float
) -> tuple[int, Callable[[float, float], list[Tree]]]:
    """How many rows the labels of marks need, and a function that draws them."""
    assert chart.x_display is not None
    display = chart.x_display
    placed: list[tuple[float, int, str, bool]] = []
    ends: list[float] = []
    for mark in sorted(chart.marks, key=lambda mark: mark.x):
        value = display.converted(mark.x, system)
        if not scale.low - 1e-9 <= value <= scale.high + 1e-9:
            continue
        label = f"{mark.label}, {display.text(mark.x, system)}"
        width = text_width(label, SIZE)
        x = scale(value)
        leftwards = x + width > right
        start = x - width if leftwards else x
        row = next((r for r, end in enumerate(ends) if end + 10 < start), len(ends))
        if row == len(ends):
            ends.append(0.0)
        ends[row] = start + width
        placed.append((x, row, label, leftwards))

    def draw(top: float, bottom: float) -> list[Tree]:
        pieces: list[Tree] = []
        for x, row, label, leftwards in placed:
            y = top - (len(ends) - 1 - row) * (SIZE + 4)
            pieces.append(
                el("path", d=f"M{number(x)} {number(y + 3)}V{number(bottom)}", class_="sf-bite")
            )
            anchor = "end" if leftwards else None
            pieces.append(text(x + (3 if leftwards else -3), y, label, "sf-bite-label", anchor))
        return pieces

    return len(ends), draw
