"""How this came about: the steps behind a figure, with this build's numbers in them."""

from __future__ import annotations

from slipfit.figures.figure import Driver, Figure, Step
from slipfit.markup import Tree, el
from slipfit.page.marks import capital, change_text, whisker

_MOST = 3


def explain_dialog(figure: Figure, system: str) -> Tree:
    """The figure, what limits it, its steps with numbers and sources, and what moves it most."""
    range_text = figure.range_text(system)
    return el(
        "div",
        el("h2", f"{capital(figure.label)}: how this came about", data_dialog_title=True),
        el(
            "p",
            el("strong", figure.text(system), class_="sf-explain-value"),
            whisker(figure),
            el("span", f"10–90 % range {range_text}", class_="sf-note-range")
            if range_text
            else None,
            class_="sf-explain-head",
        ),
        el("p", _sentence(figure.missing)) if figure.missing else None,
        el("p", _sentence(figure.cause)) if figure.cause else None,
        el("ol", *(_step(step) for step in figure.steps), class_="sf-steps")
        if figure.steps
        else None,
        *_drivers(figure, system),
        el("p", f"Source: {figure.source}", class_="sf-source") if figure.source else None,
        el(
            "p",
            "An estimate. Check it on the bench and in a careful first flight.",
            class_="sf-quiet-line",
        ),
        class_="sf-explain",
    )


def _sentence(text: str) -> str:
    return capital(text.rstrip(".")) + "."


def _step(step: Step) -> Tree:
    return el(
        "li",
        el("p", step.words),
        el("p", step.formula, class_="sf-formula") if step.formula else None,
        el("p", step.numbers, class_="sf-numbers") if step.numbers else None,
        el("p", step.source, class_="sf-source") if step.source else None,
    )


def _drivers(figure: Figure, system: str) -> list[Tree]:
    most = sorted(figure.drivers, key=lambda driver: -abs(driver.swing_si))[:_MOST]
    if not most or figure.value is None:
        return []
    return [
        el("h3", "What moves it most"),
        el(
            "p",
            "Each input is uncertain; over its own range it moves the figure by this much.",
            class_="sf-quiet-line",
        ),
        el("dl", *_driver_rows(most, figure, system), class_="sf-drivers"),
    ]


def _driver_rows(drivers: list[Driver], figure: Figure, system: str) -> list[Tree]:
    value = figure.value or 0.0
    rows: list[Tree] = []
    for driver in drivers:
        swing = change_text(figure.display, value, value + abs(driver.swing_si), system)
        rows.append(
            el(
                "div",
                el("dt", driver.label),
                el("dd", swing.replace("+", "±", 1) if swing else "less than is shown"),
            )
        )
    return rows
