"""Bars: one per name, its number written at its end, its range as a fine line."""

from __future__ import annotations

from slipfit.charts.chart import Chart, Series
from slipfit.markup import Tree, el
from slipfit.page.axes import Scale, span_of, text_width
from slipfit.page.curves import SIZE
from slipfit.page.svg import hatch, number, text

_ROW, _BAR = 40.0, 12.0


def bars_svg(chart: Chart, system: str, width: int) -> Tree:
    """The picture of a chart of bars, `width` px wide: name above, bar below, number at its end."""
    pieces: list[Tree] = []
    defs: list[Tree] = []
    y = 4.0
    for k, series in enumerate(chart.series):
        pattern = f"sf-{chart.id}-{width}-{k}".replace("_", "-")
        defs.append(hatch(pattern, k))
        shown = [v for v in (*series.values, *series.high) if v is not None]
        low, high = span_of([series.display.converted(v, system) for v in shown])
        longest = max(
            (text_width(_number(series, i, system), SIZE) for i in range(len(chart.names))),
            default=0.0,
        )
        scale = Scale(low, high, 1.0, width - longest - 14)
        if len(chart.series) > 1:
            pieces.append(text(0, y + SIZE, series.label, "sf-panel-title"))
            y += SIZE + 10
        for i, name in enumerate(chart.names):
            pieces.extend(_bar(series, i, name, system, scale, y, pattern, k))
            y += _ROW
    return el(
        "svg",
        el("defs", *defs),
        *pieces,
        class_="sf-picture",
        viewBox=f"0 0 {width} {number(y)}",
        role="img",
        aria_label=f"{chart.title}. {chart.caption}",
    )


def _number(series: Series, i: int, system: str) -> str:
    value = series.values[i] if i < len(series.values) else None
    return "no value" if value is None else series.display.text(value, system)


def _bar(
    series: Series, i: int, name: str, system: str, scale: Scale, y: float, pattern: str, k: int
) -> list[Tree]:
    pieces: list[Tree] = [text(0, y + SIZE, name, "sf-line-label")]
    value = series.values[i] if i < len(series.values) else None
    top = y + SIZE + 5
    if value is None:
        return [*pieces, text(4, top + 10, "no value", "sf-tick")]
    zero, end = scale(0.0), scale(series.display.converted(value, system))
    box = {
        "x": number(min(zero, end)),
        "y": number(top),
        "width": number(max(abs(end - zero), 1.0)),
        "height": number(_BAR),
    }
    pieces.append(el("rect", class_=f"sf-layer sf-layer-{k % 6}", **box))
    pieces.append(el("rect", class_="sf-layer-hatch sf-layer-edge", fill=f"url(#{pattern})", **box))
    after = max(zero, end)
    low = series.low[i] if i < len(series.low) else None
    high = series.high[i] if i < len(series.high) else None
    if low is not None and high is not None:
        a, b = (scale(series.display.converted(v, system)) for v in (low, high))
        middle = top + _BAR / 2
        pieces.append(
            el(
                "path",
                d=f"M{number(a)} {number(middle)}H{number(b)}M{number(a)} {number(top)}v{_BAR:g}"
                f"M{number(b)} {number(top)}v{_BAR:g}",
                class_="sf-bar-range",
            )
        )
        after = max(after, b)
    pieces.append(text(after + 6, top + 10, _number(series, i, system), "sf-tick"))
    return pieces
