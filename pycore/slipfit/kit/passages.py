"""What an author writes in Markdown for a page that adapts: passages, steps, hazards, times, tools.

On lines of their own, with an empty line before and after:

    {when pack.cell_count >= 8}   …   {otherwise}   …   {end}
    {steps motors}                …   {end}             a list whose entries tick off
    {hazard}                      …   {end}
    {time 40 min}     {times}                           of this stage, and of all of them
    {tools calliper; key motors}     {tools}

In running text, `{when pack.cell_count >= 8: words}` or `{when …: words | other words}`, and at
the start of a list's entry or of a paragraph `{only pack.cell_count >= 8}`.

`to_blocks` turns those on their own lines into HTML in Markdown, line by line, so that line numbers
stay; `to_spans` does so with those in running text, when the tokens within them have become slots;
`finish` puts the boxes to tick into the HTML that comes of it; `conditions_of` and `hide` serve the
builder.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html import escape, unescape

from slipfit.kit.tokens import code_spans, outside_code

Problem = Callable[[str], str]  # what is wrong with a condition, a time or a tool; empty if nothing

_LINE = re.compile(r"^\{\s*(when|otherwise|end|steps|hazard|times|time|tools)\b\s*(.*?)\s*\}\s*$")
_SAID = r"((?:[^{}|\n]|\n(?![ \t]*\n))*)"  # words of one paragraph
_INLINE = re.compile(r"\{when\s([^{}:|]+):" + _SAID + r"(?:\|" + _SAID + r")?\}")
_ONLY = re.compile(
    r"^([ \t]*(?:[-*+]|\d+[.)])[ \t]+(?:\[[ x]\][ \t]+)?|[ \t]*)\{only ([^{}\n]+)\}", re.MULTILINE
)
_UNREAD = re.compile(r"\{(only|when)\b")
_ID = re.compile(r"[a-z][a-z0-9-]{0,39}")
WHEN = " when "


@dataclass(frozen=True, kw_only=True)
class Checks:
    """What the core says of the pieces of a page."""

    condition: Problem
    time: Problem
    tool: Problem


@dataclass
class _Open:
    """A block that has been opened."""

    kind: str
    line: int
    condition: str = ""
    otherwise: bool = False

    @property
    def holds_when(self) -> str:
        if not self.condition:
            return ""
        return f"not ({self.condition})" if self.otherwise else f"({self.condition})"


@dataclass
class _Page:
    """What is known of a page while it is read."""

    checks: Checks
    problems: list[tuple[int, str]] = field(default_factory=list)
    open: list[_Open] = field(default_factory=list)
    steps: set[str] = field(default_factory=set)
    times: list[str] = field(default_factory=list)
    tools: list[str] = field(default_factory=list)

    def say(self, line: int, sentence: str) -> None:
        self.problems.append((line, sentence))

    def check(self, line: int, text: str) -> str:
        problem = self.checks.condition(text)
        if problem:
            self.say(line, problem)
        return text

    def conditional(self, entry: str) -> str:
        """An entry of a list with the conditions of the blocks around it."""
        asked = " and ".join(block.holds_when for block in self.open if block.condition)
        return f"{entry}{WHEN}{asked}" if asked else entry


def to_blocks(text: str, checks: Checks) -> tuple[str, list[tuple[int, str]]]:
    """Markdown with its passages as elements, and what is wrong, by line."""
    page = _Page(checks=checks)
    written = [
        line if code else _line(page, number, line) for number, line, code in outside_code(text)
    ]
    for block in page.open:
        page.say(block.line, f"{{{block.kind}}} is never closed with {{end}}")
    whole = "\n".join(written)
    whole = whole.replace(_slot("times", _TOTAL), _slot("times", "|".join(page.times)))
    whole = whole.replace(_slot("tools", _TOTAL), _slot("tools", "|".join(page.tools)))
    return whole, page.problems


def to_spans(text: str, checks: Checks) -> tuple[str, list[tuple[int, str]]]:
    """Markdown with what adapts in its running text as elements, and what is wrong, by line."""
    page = _Page(checks=checks)
    written: list[str] = []
    chunk: list[str] = []  # lines of text with no code between them
    first = 1
    for number, line, code in outside_code(text):
        if code:
            written += [*_in_text(page, first, chunk), line]
            chunk, first = [], number + 1
        else:
            chunk.append(line)
    written += _in_text(page, first, chunk)
    return "\n".join(written), page.problems


_TOTAL = "total"


def _slot(kind: str, name: str) -> str:
    return f'<div data-slot="{escape(f"{kind}:{name}")}"></div>'


def _line(page: _Page, number: int, line: str) -> str:
    alone = _LINE.match(line)
    if alone is None or (alone[1] == "when" and ":" in alone[2]):
        return line
    word, rest = alone[1], alone[2]
    return _WRITERS[word](page, number, rest)


def _when(page: _Page, number: int, rest: str) -> str:
    asked = page.check(number, rest)
    page.open.append(_Open(kind="when", line=number, condition=asked))
    return f'<div class="sf-when" data-when="{escape(asked)}" markdown="1">'


def _otherwise(page: _Page, number: int, rest: str) -> str:
    block = page.open[-1] if page.open else None
    if block is None or block.kind != "when" or block.otherwise:
        page.say(number, "{otherwise} must stand once between {when …} and its {end}")
        return ""
    block.otherwise = True
    other = escape(f"not ({block.condition})")
    return f'</div><div class="sf-when" data-when="{other}" markdown="1">'


def _end(page: _Page, number: int, rest: str) -> str:
    if not page.open:
        page.say(number, "{end} closes nothing")
        return ""
    page.open.pop()
    return "</div>"


def _steps(page: _Page, number: int, rest: str) -> str:
    if not _ID.fullmatch(rest):
        page.say(
            number,
            "{steps} must have a name in small letters, digits and hyphens, by which ticks are "
            f"remembered, got '{rest[:40]}'",
        )
    elif rest in page.steps:
        page.say(number, f"{{steps {rest}}} stands twice on this page: ticks need a name each")
    page.steps.add(rest)
    page.open.append(_Open(kind="steps", line=number))
    return f'<div class="sf-todo" data-steps="{escape(rest)}" markdown="1">'


def _hazard(page: _Page, number: int, rest: str) -> str:
    if rest:
        page.say(number, f"{{hazard}} takes nothing behind it, got '{rest[:40]}'")
    page.open.append(_Open(kind="hazard", line=number))
    return '<div aria-label="Hazard" class="sf-hazard" role="note" markdown="1">'


def _time(page: _Page, number: int, rest: str) -> str:
    problem = page.checks.time(rest)
    if problem:
        page.say(number, problem)
    page.times.append(page.conditional(rest))
    return _slot("time", rest)


def _times(page: _Page, number: int, rest: str) -> str:
    return _slot("times", _TOTAL)


def _tools(page: _Page, number: int, rest: str) -> str:
    if not rest:
        return _slot("tools", _TOTAL)
    found = [piece.strip() for piece in rest.split(";") if piece.strip()]
    for piece in found:
        if "|" in piece or WHEN in f" {piece} ":
            page.say(number, f"a tool must be named without '|' or 'when', got '{piece[:40]}'")
        elif problem := page.checks.tool(piece):
            page.say(number, problem)
    page.tools += [page.conditional(piece) for piece in found]
    return _slot("tools", "|".join(found))


_WRITERS: Mapping[str, Callable[[_Page, int, str], str]] = {
    "when": _when, "otherwise": _otherwise, "end": _end, "steps": _steps, "hazard": _hazard,
    "time": _time, "times": _times, "tools": _tools,
}  # fmt: skip


def _in_text(page: _Page, first: int, lines: list[str]) -> list[str]:
    """Some lines of text, the first of which has a number, with what adapts in them."""
    if not lines:
        return []
    text = "\n".join(lines)

    def line_of(match: re.Match[str]) -> int:
        return first + match.string.count("\n", 0, match.start())

    def only(match: re.Match[str]) -> str:
        asked = escape(page.check(line_of(match), match[2].strip()))
        return f'{match[1]}<span data-only="{asked}"></span>'

    def inline(match: re.Match[str]) -> str:
        if _inside(match, spans):
            return match[0]
        asked = page.check(line_of(match), " ".join(match[1].split()))
        said = f'<span data-when="{escape(asked)}">{match[2].strip()}</span>'
        if match[3] is None:
            return said
        other = escape(f"not ({asked})")
        return f'{said}<span data-when="{other}">{match[3].strip()}</span>'

    text = _ONLY.sub(only, text)
    spans = code_spans(text)
    text = _INLINE.sub(inline, text)
    spans = code_spans(text)
    for left in _UNREAD.finditer(text):
        if not _inside(left, spans):
            page.say(line_of(left), _LEFT[left[1]])
    return text.split("\n")


_LEFT: Mapping[str, str] = {
    "only": "{only …} must begin an entry of a list or a paragraph",
    "when": "{when …} must stand on a line of its own, or hold words behind a colon: "
    "{when pack.cell_count >= 8: words}",
}


def _inside(match: re.Match[str], spans: list[tuple[int, int]]) -> bool:
    return any(start <= match.start() < end for start, end in spans)


# --- in the HTML -------------------------------------------------------------------------------

_ONLY_SPAN = re.compile(
    r'<(li|p)((?:\s[^<>]*)?)>(\s*(?:<p>\s*)?)<span data-only="([^"]*)"></span>\s*'
)
_STEPS_BOX = re.compile(r'<div class="sf-todo" data-steps="([^"]+)">')
_LIST_TAG = re.compile(r"<(/?)(ol|ul|li|div)\b[^<>]*>")
_FOOT = (
    '<p class="sf-todo-foot sf-scripted"><output data-done></output> '
    '<button type="button" class="sf-quiet" data-clear-ticks>Clear these ticks</button></p>'
)
_HAZARD = '<div aria-label="Hazard" class="sf-hazard" role="note">'
_TAGS = re.compile(r"<[^<>]+>")
_WHEN_TAG = re.compile(r'<(\w+)([^<>]*?) data-when="([^"]*)"([^<>]*)>')


def finish(html: str) -> str:
    """Entries that are shown only sometimes, boxes to tick, and what labels a hazard."""
    html = html.replace(_HAZARD, f'{_HAZARD}<p class="sf-hazard-label">Hazard</p>')
    html = _ONLY_SPAN.sub(lambda m: f'<{m[1]}{m[2]} data-when="{m[4]}">{m[3]}', html)
    pieces: list[str] = []
    at = 0
    while found := _STEPS_BOX.search(html, at):
        end = _end_of_box(html, found.end())
        inside = html[found.end() : end]
        pieces += [html[at : found.end()], _ticked(inside, found[1])]
        at = end
    return "".join(pieces) + html[at:]


def _end_of_box(html: str, start: int) -> int:
    depth = 1
    for tag in _LIST_TAG.finditer(html, start):
        if tag[2] != "div":
            continue
        depth += -1 if tag[1] else 1
        if depth == 0:
            return tag.start()
    return len(html)


def _ticked(inside: str, name: str) -> str:
    """The entries of the box's own lists, not those of lists within them, with a box to tick."""
    written: list[str] = []
    at = depth = 0
    used: dict[str, int] = {}
    for tag in _LIST_TAG.finditer(inside):
        if tag[2] in ("ol", "ul"):
            depth += -1 if tag[1] else 1
        elif tag[2] == "li" and not tag[1] and depth == 1:
            id = _step_id(_entry(inside, tag.end()), used)
            step = f"step-{name}-{id}"
            written += [
                inside[at : tag.end() - 1],
                f' id="{step}"><input type="checkbox" class="sf-tick" data-tick="{name}.{id}" '
                f'aria-labelledby="{step}"/>',
            ]
            at = tag.end()
    return "".join(written) + inside[at:] + _FOOT


def _entry(inside: str, start: int) -> str:
    depth = 1
    for tag in _LIST_TAG.finditer(inside, start):
        if tag[2] == "li":
            depth += -1 if tag[1] else 1
            if depth == 0:
                return inside[start : tag.start()]
    return inside[start:]


def _step_id(entry: str, used: dict[str, int]) -> str:
    """A name of a step that it keeps when steps before it come and go: from its own words."""
    words = " ".join(_TAGS.sub(" ", entry).split())
    id = hashlib.sha256(words.encode()).hexdigest()[:8]
    used[id] = used.get(id, 0) + 1
    return id if used[id] == 1 else f"{id}-{used[id]}"


def conditions_of(html: str) -> list[str]:
    """Every condition on a page, each once."""
    return list(dict.fromkeys(unescape(m[3]) for m in _WHEN_TAG.finditer(html)))


def hide(html: str, shown: Mapping[str, bool]) -> str:
    """A page with the passages hidden whose condition does not hold."""

    def tag(match: re.Match[str]) -> str:
        if shown.get(unescape(match[3]), True):
            return match[0]
        return f'<{match[1]}{match[2]} data-when="{match[3]}"{match[4]} hidden>'

    return _WHEN_TAG.sub(tag, html)
