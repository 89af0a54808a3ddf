"""Layers: causes stacked on each other over one axis, each with its own hatching and name."""

from __future__ import annotations

from slipfit.charts.chart import Chart
from slipfit.markup import Tree, el
from slipfit.page.axes import Scale, apart, nice_step, span_of, text_width, tick_text, ticks
from slipfit.page.curves import SIZE, x_axis
from slipfit.page.svg import area_paths, hatch, line_path, number, text

_LEFT = 46.0


def layers_svg(chart: Chart, system: str, width: int) -> Tree:
    """The picture of a chart of layers, `width` px wide."""
    assert chart.x_display is not None
    narrow = width < 500
    display = chart.series[0].display
    names = [series.label for series in chart.series]
    beside = 0.0 if narrow else min(190.0, max(text_width(name, SIZE) for name in names) + 22)
    right = width - 8.0 - beside
    height = 230.0 if narrow else 270.0
    top = 28.0
    bottom = top + height
    x_values = [chart.x_display.converted(x, system) for x in chart.x]
    x_scale = Scale(x_values[0], max(x_values[-1], x_values[0] + 1e-9), _LEFT, right)
    x = [x_scale(value) for value in x_values]
    sums = _sums(chart, system)
    low, high = span_of([v for line in sums for v in line if v is not None])
    scale = Scale(low, high, bottom, top)
    step = nice_step(high - low, 5)
    unit = display.unit(system)
    pieces: list[Tree] = [text(0, 14, unit, "sf-panel-title")]
    defs: list[Tree] = []
    for value in ticks(low, high, 5):
        y = scale(value)
        pieces.append(
            el("path", d=f"M{number(_LEFT)} {number(y)}H{number(right)}", class_="sf-grid")
        )
        pieces.append(text(_LEFT - 6, y + 4, tick_text(value, step), "sf-tick", "end"))
    wanted: list[float] = []
    for k, series in enumerate(chart.series):
        pattern = f"sf-{chart.id}-{width}-{k}".replace("_", "-")
        defs.append(hatch(pattern, k))
        lower = [None if v is None else scale(v) for v in sums[k]]
        upper = [None if v is None else scale(v) for v in sums[k + 1]]
        area = area_paths(x, lower, upper)
        pieces.append(el("path", d=area, class_=f"sf-layer sf-layer-{k % 6}"))
        pieces.append(
            el(
                "path",
                el("title", series.label),
                d=area,
                fill=f"url(#{pattern})",
                class_="sf-layer-hatch",
            )
        )
        edge = [None if y is None else (x[i], y) for i, y in enumerate(upper)]
        pieces.append(el("path", d=line_path(edge), class_="sf-layer-edge"))
        ends = [
            (a + b) / 2
            for a, b in zip(lower, upper, strict=True)
            if a is not None and b is not None
        ]
        wanted.append(ends[-1] if ends else bottom)
    if narrow:
        key, extra = _key_below(chart, width, bottom + 46)
    else:
        key, extra = _key_beside(names, wanted, right, top, bottom), 0.0
    return el(
        "svg",
        el("defs", *defs),
        *pieces,
        *key,
        *x_axis(chart, system, x_scale, bottom, 4 if narrow else 7),
        el("path", d=f"M0 {number(top)}V{number(bottom)}", class_="sf-cursor", visibility="hidden"),
        class_="sf-picture",
        viewBox=f"0 0 {width} {number(bottom + 38 + extra)}",
        role="img",
        aria_label=f"{chart.title}. {chart.caption}",
        data_left=_LEFT,
        data_right=right,
    )


def _sums(chart: Chart, system: str) -> list[list[float | None]]:
    """Running sums in the reader's unit, from zero; a gap in any cause is a gap in all above."""
    count = len(chart.x)
    lines: list[list[float | None]] = [[0.0] * count]
    for series in chart.series:
        below = lines[-1]
        line: list[float | None] = []
        for i in range(count):
            value, under = series.values[i], below[i]
            line.append(
                None
                if value is None or under is None
                else under + series.display.converted(value, system)
            )
        lines.append(line)
    # A gap above is a gap below too: half a stack would be read as a whole one.
    for i in range(count):
        if lines[-1][i] is None:
            for line in lines:
                line[i] = None
    return lines


def _key_beside(
    names: list[str], wanted: list[float], right: float, top: float, bottom: float
) -> list[Tree]:
    places = apart([y + 4 for y in wanted], SIZE + 4, top + SIZE, bottom)
    pieces: list[Tree] = []
    for name, end, place in zip(names, wanted, places, strict=True):
        pieces.append(
            el(
                "path",
                d=f"M{number(right + 1)} {number(end)}L{number(right + 14)} {number(place - 4)}",
                class_="sf-leader",
            )
        )
        pieces.append(text(right + 18, place, name, "sf-line-label"))
    return pieces


def _key_below(chart: Chart, width: int, top: float) -> tuple[list[Tree], float]:
    """The names of a narrow picture, below it: top layer first, each with a piece of its layer."""
    pieces: list[Tree] = []
    for row, k in enumerate(range(len(chart.series) - 1, -1, -1)):
        y = top + row * 20
        box = {"x": _LEFT, "y": number(y), "width": 26, "height": 13}
        pattern = f"sf-{chart.id}-{width}-{k}".replace("_", "-")
        pieces.append(el("rect", class_=f"sf-layer sf-layer-{k % 6}", **box))
        pieces.append(
            el("rect", class_="sf-layer-hatch sf-layer-edge", fill=f"url(#{pattern})", **box)
        )
        pieces.append(text(_LEFT + 34, y + 11, chart.series[k].label, "sf-line-label"))
    return pieces, 20.0 * len(chart.series) + 12
