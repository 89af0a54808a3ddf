"""Small pieces shared by the views: the line pattern of a verdict, the whisker of a range."""

from __future__ import annotations

from slipfit.checks.verdict import Verdict
from slipfit.figures.figure import Figure
from slipfit.markup import Tree, el
from slipfit.units import THIN, Display

_MARK_WIDTH, _MARK_HEIGHT = 26, 10
WHISKER_SPAN = 0.25  # the whisker's full half-width, relative to the value


def capital(text: str) -> str:
    """The text with a capital first letter; the others stay, so that ESC stays ESC."""
    return text[:1].upper() + text[1:]


def state_mark(severity: int) -> Tree:
    """The line pattern that goes with a verdict's word: one line, a broken line, a hatched bar."""
    middle = _MARK_HEIGHT / 2
    pieces: list[Tree]
    if severity == 0:
        pieces = [el("path", d=f"M1 {middle:g}H{_MARK_WIDTH - 1}")]
    elif severity == 1:
        pieces = [
            el("path", d=f"M1 {middle:g}H{_MARK_WIDTH - 1}", stroke_dasharray="2 4"),
            el("path", d=f"M3 2V{_MARK_HEIGHT - 2}M{_MARK_WIDTH - 3} 2V{_MARK_HEIGHT - 2}"),
        ]
    else:
        strokes = "".join(f"M{x} {_MARK_HEIGHT - 1}l6 -8" for x in range(1, _MARK_WIDTH - 6, 4))
        pieces = [
            el("path", d=strokes),
            el("rect", x=0.75, y=0.75, width=_MARK_WIDTH - 1.5, height=_MARK_HEIGHT - 1.5),
        ]
    return el(
        "svg",
        *pieces,
        class_=f"sf-mark sf-mark-{severity}",
        viewBox=f"0 0 {_MARK_WIDTH} {_MARK_HEIGHT}",
        width=_MARK_WIDTH,
        height=_MARK_HEIGHT,
        aria_hidden="true",
    )


def state_word(verdict: Verdict) -> Tree:
    """A verdict's word behind its mark."""
    return el(
        "span",
        state_mark(verdict.severity),
        el("strong", verdict.state),
        class_=f"sf-state sf-state-{verdict.severity}",
    )


def state_sentence(verdict: Verdict, system: str) -> Tree:
    """A verdict's sentence behind its mark, for places too small to set the word apart."""
    return el(
        "span",
        state_mark(verdict.severity),
        capital(verdict.sentence(system)),
        class_=f"sf-part-verdict sf-state-{verdict.severity}",
    )


def whisker(figure: Figure) -> Tree | None:
    """The 10-90 % range around the value; the drawn width stands for ±25 % of the value.

    A range that reaches further ends in an arrowhead, so a long whisker always means a less
    certain figure.
    """
    value = figure.value
    if value is None:
        return None
    width, height, middle = 160.0, 14.0, 7.0
    half = width / 2 - 2
    pieces: list[Tree] = [el("path", d=f"M2 {middle:g}H{width - 2:g}", class_="sf-whisker-rail")]

    def at(x: float) -> float:
        offset = (x - value) / abs(value) / WHISKER_SPAN
        return width / 2 + half * max(-1.0, min(1.0, offset))

    def end(x: float, outwards: int) -> str:
        px = at(x)
        if abs(x - value) > WHISKER_SPAN * abs(value):
            return f"M{px - 5 * outwards:.1f} 3L{px:.1f} {middle:g}L{px - 5 * outwards:.1f} 11"
        return f"M{px:.1f} 3V11"

    low, high = figure.low, figure.high
    if low is not None and high is not None and value != 0:
        line = f"M{at(low):.1f} {middle:g}H{at(high):.1f}"
        pieces.append(el("path", d=line, class_="sf-whisker-line"))
        pieces.append(el("path", d=end(low, -1) + end(high, 1), class_="sf-whisker-end"))
        pieces.append(el("circle", cx=width / 2, cy=middle, r=3, class_="sf-whisker-value"))
    return el(
        "svg",
        *pieces,
        class_="sf-whisker",
        viewBox=f"0 0 {width:g} {height:g}",
        width=width,
        height=height,
        aria_hidden="true",
    )


def change_text(display: Display, before: float, after: float, system: str) -> str:
    """The difference between two SI values with its sign, such as `−12 km/h`; empty if it rounds to
    nothing. Works for temperatures too, whose units have an offset."""
    difference = display.converted(after, system) - display.converted(before, system)
    decimals = display.metric_decimals if system == "metric" else display.imperial_decimals
    number = f"{abs(difference):,.{decimals}f}".replace(",", THIN)
    if not number.strip("0." + THIN):
        return ""
    unit = display.unit(system)
    joint = "" if unit in ("°", "") else THIN
    return f"{'+' if difference > 0 else '−'}{number}{joint}{unit}"
