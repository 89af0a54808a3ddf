"""Figures as a reader meets them: inside a sentence, and in the margin beside it."""

from __future__ import annotations

from slipfit.figures.figure import Figure
from slipfit.markup import Tree, el
from slipfit.page.marks import capital, whisker


def value_in_text(figure: Figure, system: str) -> Tree:
    """The value with its unit, for use inside a sentence."""
    return el("span", figure.text(system), class_="sf-value", data_figure=figure.id)


def margin_note(figure: Figure, system: str) -> Tree:
    """Label, value, range and one line of cause; a button opens "How this came about"."""
    range_text = figure.range_text(system)
    reason = figure.missing or figure.cause
    waiting = "the same whatever is uncertain" if figure.exact else "…"
    return el(
        "span",
        el("span", capital(figure.label), class_="sf-note-label"),
        el("span", figure.text(system), class_="sf-note-value", data_value=figure.id),
        whisker(figure),
        # A range that is still to come keeps its place, so that nothing jumps when it does.
        el("span", range_text or waiting, class_="sf-note-range")
        if figure.value is not None
        else None,
        el("span", capital(reason), class_="sf-note-cause") if reason else None,
        el(
            "button",
            "How this came about",
            type="button",
            class_="sf-quiet sf-scripted",
            data_explain=figure.id,
            aria_label=f"{capital(figure.label)}: how this came about",
        ),
        class_="sf-note",
        data_figure=figure.id,
    )


def unknown(what: str) -> Tree:
    """What stands where a page asks for something this report does not have."""
    return el("span", f"({what} is not known here)", class_="sf-unknown")
