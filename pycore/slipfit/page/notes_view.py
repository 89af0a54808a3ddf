"""What stands in build notes besides the author's words: values of parts, times, tools."""

from __future__ import annotations

from slipfit.markup import Tree, el
from slipfit.notes import Facts, minutes, tools, value_text
from slipfit.units import THIN

_HOUR = 60.0
_ROUGH = 180.0  # from here on a sum is told to the quarter of an hour


def value_of_name(name: str, facts: Facts, system: str) -> Tree:
    """The value of a name in a sentence."""
    return el("span", value_text(name, facts, system), class_="sf-fact")


def time_line(entries: str, facts: Facts, *, total: bool) -> Tree:
    """How long a stage takes, or all of them."""
    needed = minutes(entries, facts)
    if needed <= 0.0:
        return el("span")
    words = f"About {duration(needed)}" + (" in all" if total else "")
    return el("span", words, class_="sf-time")


def duration(minutes: float) -> str:
    """A duration as people say it: `40 min`, `2 h 15 min`."""
    whole = round(minutes)
    if whole >= _ROUGH:
        whole = 15 * round(whole / 15)
    hours, rest = divmod(whole, int(_HOUR))
    told = [f"{hours}{THIN}h"] if hours else []
    if rest or not hours:
        told.append(f"{rest}{THIN}min")
    return " ".join(told)


def tools_line(entries: str, facts: Facts) -> Tree:
    """The tools for a stage, or for all of them."""
    needed = tools(entries, facts)
    if not needed:
        return el("span")
    return el(
        "span",
        el("span", "Tools", class_="sf-tools-label"),
        " ",
        ", ".join(needed),
        ".",
        class_="sf-tools",
    )
