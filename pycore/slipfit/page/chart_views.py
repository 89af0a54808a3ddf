"""A chart as a figure of the book: picture, caption, a value to read, the table behind."""

from __future__ import annotations

from slipfit.charts.chart import Chart, Series
from slipfit.markup import Tree, el
from slipfit.page.bars import bars_svg
from slipfit.page.curves import curves_svg
from slipfit.page.layers import layers_svg
from slipfit.page.marks import capital
from slipfit.units import Display

WIDE, NARROW = 680, 340
_PICTURES = {"curves": curves_svg, "layers": layers_svg, "bars": bars_svg}


def chart_figure(chart: Chart, system: str) -> Tree:
    """The whole figure. Two pictures of one width each, of which the style sheet shows one, so that
    lettering has the same size on a phone and on a desk."""
    picture = _PICTURES[chart.shape]
    return el(
        "figure",
        el("p", chart.title, class_="sf-figure-title"),
        el("div", picture(chart, system, WIDE), class_="sf-only-wide"),
        el("div", picture(chart, system, NARROW), class_="sf-only-narrow"),
        _reader(chart, system),
        el("figcaption", chart.caption),
        el(
            "details",
            el("summary", "The numbers behind it"),
            el(
                "div",
                _table(chart, system),
                class_="sf-table-scroll",
                tabindex=0,
                role="group",
                aria_label=f"{chart.title}, table",
            ),
            el(
                "button",
                "Save as CSV",
                type="button",
                class_="sf-button sf-scripted",
                data_csv=chart.id,
            ),
        ),
        class_=f"sf-chart sf-chart-{chart.shape}",
        data_chart=chart.id,
    )


def _reader(chart: Chart, system: str) -> Tree | None:
    if chart.shape == "bars" or len(chart.x) < 2 or chart.x_display is None:
        return None
    name = f"sf-read-{chart.id}".replace("_", "-")
    return el(
        "div",
        el("label", f"Read at {chart.x_label or 'x'}", for_=name),
        el(
            "input",
            type="range",
            id=name,
            min=0,
            max=len(chart.x) - 1,
            step=1,
            value=_start(chart),
            data_cursor=chart.id,
        ),
        el("output", for_=name, aria_live="off"),
        class_="sf-cursor-reader sf-scripted",
    )


def _start(chart: Chart) -> int:
    """Where the cursor stands first: at the first mark, which the chart is about, or at the end."""
    if not chart.marks:
        return len(chart.x) - 1
    return min(range(len(chart.x)), key=lambda i: abs(chart.x[i] - chart.marks[0].x))


def _table(chart: Chart, system: str) -> Tree:
    head: list[Tree]
    body: list[Tree]
    if chart.shape == "bars":
        head = [el("th", capital(chart.x_label or "cause"), scope="col")]
        labels = list(chart.names)
        at: list[str | None] = [None] * len(labels)
    else:
        assert chart.x_display is not None
        head = [el("th", _with_unit(chart.x_label, chart.x_display, system), scope="col")]
        labels = [chart.x_display.number(x, system) for x in chart.x]
        span = chart.x[-1] - chart.x[0] or 1.0
        at = [f"{(x - chart.x[0]) / span:.4f}" for x in chart.x]
    ranged = [series for series in chart.series if series.low and series.high]
    head += [
        el("th", _with_unit(series.label, series.display, system), scope="col")
        for series in chart.series
    ]
    for series in ranged:
        for end in ("low", "high"):
            head.append(
                el(
                    "th",
                    _with_unit(f"{end} end of {series.label}", series.display, system),
                    scope="col",
                )
            )
    body = []
    for i, label in enumerate(labels):
        cells: list[Tree] = [el("th", label, scope="row")]
        cells += [el("td", _cell(series, series.values, i, system)) for series in chart.series]
        for series in ranged:
            cells += [
                el("td", _cell(series, ends, i, system)) for ends in (series.low, series.high)
            ]
        body.append(el("tr", *cells, data_at=at[i]))
    return el(
        "table",
        el("caption", chart.title),
        el("thead", el("tr", *head)),
        el("tbody", *body),
        class_="sf-table",
    )


def _with_unit(label: str, display: Display, system: str) -> str:
    unit = display.unit(system)
    return capital(f"{label}, {unit}" if unit else label)


def _cell(series: Series, values: tuple[float | None, ...], i: int, system: str) -> str:
    value = values[i] if i < len(values) else None
    return "" if value is None else series.display.number(value, system)
