"""The places on a page that a report fills, by the name an author gives them in the notes.

A new kind of place is one view and one line in `SLOTS`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Final, cast

from slipfit.build import Build
from slipfit.effects import effects, option_effects
from slipfit.errors import InputError, nearest
from slipfit.fit.bill import bill
from slipfit.fit.screws import screw_fits
from slipfit.markup import Tree, el
from slipfit.notes import Facts, NoteError
from slipfit.page.bench_view import bench_sheet
from slipfit.page.bill_view import bill_table
from slipfit.page.chart_views import chart_figure
from slipfit.page.day_view import DAY
from slipfit.page.drawing_views import drawing_figure
from slipfit.page.effects_view import effects_table
from slipfit.page.figure_views import margin_note, unknown, value_in_text
from slipfit.page.legs_view import legs_editor
from slipfit.page.link_form import link_editor
from slipfit.page.marks import capital
from slipfit.page.notes_view import time_line, tools_line, value_of_name
from slipfit.page.options_view import options_form, worth_list
from slipfit.page.rules_view import rules_list
from slipfit.page.safety_view import safety_block
from slipfit.page.screws_view import screws_table
from slipfit.page.shelf_view import parts_shelf
from slipfit.page.shot_view import SHOT
from slipfit.page.shown import Shown
from slipfit.page.verdict_views import verdict_list

SYSTEMS: Final = ("metric", "imperial")
# Places that take as long as several builds: a page asks for them after everything else.
LATE: Final = ("effects", "worth")
FAMILIES: Final = {"fit": "fit", "limits": "limit"}


def _facts(report: Shown) -> Facts:
    return Facts(build=cast(Build, report.build), figures=report.figures, verdicts=report.verdicts)


def _value(report: Shown, name: str, system: str) -> Tree:
    figure = report.figures.get(name)
    if figure is not None:
        return value_in_text(figure, system)
    try:
        return value_of_name(name, _facts(report), system)
    except NoteError:
        return unknown(name)


def _time(report: Shown, entries: str, _system: str) -> Tree:
    return time_line(entries, _facts(report), total=False)


def _times(report: Shown, entries: str, _system: str) -> Tree:
    return time_line(entries, _facts(report), total=True)


def _tools(report: Shown, entries: str, _system: str) -> Tree:
    return tools_line(entries, _facts(report))


def _note(report: Shown, name: str, system: str) -> Tree:
    figure = report.figures.get(name)
    return margin_note(figure, system) if figure else unknown(name)


def _chart(report: Shown, name: str, system: str) -> Tree:
    chart = report.charts.get(name)
    return chart_figure(chart, system) if chart else unknown(name)


def _drawing(report: Shown, name: str, system: str) -> Tree:
    drawing = report.drawings.get(name)
    return drawing_figure(drawing, system) if drawing else unknown(name)


def _checks(report: Shown, name: str, system: str) -> Tree:
    family = FAMILIES.get(name)
    if family is None:
        return unknown(name)
    return verdict_list([v for v in report.verdicts if v.family == family], system)


def _shelf(report: Shown, _name: str, system: str) -> Tree:
    return parts_shelf(report.part_lines, system)


def _short(report: Shown, _name: str, system: str) -> Tree:
    return el(
        "p",
        el("span", "In short", class_="sf-short-label"),
        " ",
        el(
            "span", capital(report.in_short[system]), class_="sf-short-sentence", aria_live="polite"
        ),
        class_="sf-short",
    )


def _day(report: Shown, _name: str, system: str) -> Tree:
    return link_editor(DAY, report.build, system)


def _shot(report: Shown, _name: str, system: str) -> Tree:
    return link_editor(SHOT, report.build, system)


def _flight(report: Shown, _name: str, system: str) -> Tree:
    return legs_editor(cast(Build, report.build), system)


def _effects(report: Shown, _name: str, system: str) -> Tree:
    return effects_table(effects(cast(Build, report.build)), system)


def _options(report: Shown, _name: str, _system: str) -> Tree:
    return options_form(cast(Build, report.build).frame)


def _worth(report: Shown, _name: str, system: str) -> Tree:
    return worth_list(option_effects(cast(Build, report.build)), system)


def _rules(report: Shown, _name: str, system: str) -> Tree:
    return rules_list(report.rules, system)


def _safety(report: Shown, _name: str, system: str) -> Tree:
    return safety_block(report, system)


def _screws(report: Shown, _name: str, system: str) -> Tree:
    return screws_table(screw_fits(cast(Build, report.build)), system)


def _bom(report: Shown, _name: str, system: str) -> Tree:
    return bill_table(bill(cast(Build, report.build)), system)


def _bench(report: Shown, _name: str, system: str) -> Tree:
    return bench_sheet(report.figures, system)


def _print(report: Shown, _name: str, _system: str) -> Tree:
    return el(
        "div",
        el(
            "p",
            el(
                "button",
                "Print the two sheets",
                type="button",
                class_="sf-button",
                data_print=True,
            ),
            " With the parts on the shelf, on A4 or letter paper.",
            class_="sf-scripted sf-sheet-tools",
        ),
        el(
            "p",
            "This build is what stands behind the address of its pages: ",
            report.link,
            class_="sf-sheet-link",
        ),
    )


SLOTS: Final[Mapping[str, Callable[[Shown, str, str], Tree]]] = {
    "value": _value,
    "note": _note,
    "chart": _chart,
    "drawing": _drawing,
    "checks": _checks,
    "shelf": _shelf,
    "short": _short,
    "day": _day,
    "shot": _shot,
    "flight": _flight,
    "effects": _effects,
    "options": _options,
    "worth": _worth,
    "rules": _rules,
    "safety": _safety,
    "screws": _screws,
    "bom": _bom,
    "bench": _bench,
    "print": _print,
    "time": _time,
    "times": _times,
    "tools": _tools,
}


def known_slot(report: Shown, slot: str) -> str:
    """Empty if the slot can be filled from this report, else a sentence that names the nearest."""
    place, _, name = slot.partition(":")
    if place not in SLOTS:
        return f"no place '{place[:40]}'{nearest(place[:40], SLOTS)}"
    known: Iterable[str] | None = {
        "value": report.figures,
        "note": report.figures,
        "chart": report.charts,
        "drawing": report.drawings,
        "checks": FAMILIES,
    }.get(place)
    if known is not None and name not in known:
        return f"no {place} '{name[:40]}'{nearest(name[:40], known)}"
    return ""


def slots(report: Shown, wanted: Iterable[str], system: str) -> dict[str, Tree]:
    """The tree for each wanted slot, such as `value:top_speed`, `chart:level_flight` or `shelf`."""
    if system not in SYSTEMS:
        raise InputError(
            f"page: system must be 'metric' or 'imperial', got '{system[:40]}'", field="system"
        )
    filled: dict[str, Tree] = {}
    for slot in wanted:
        place, _, name = slot.partition(":")
        if place not in SLOTS:
            raise InputError(
                f"page: no place '{place[:40]}'{nearest(place[:40], SLOTS)}", field="slots"
            )
        filled[slot] = SLOTS[place](report, name, system)
    return filled
