"""What an author writes in Markdown where a number, chart or list of the build belongs.

`{=top_speed}` and `{>top_speed}` stand in running text; `{chart level_flight}`, `{drawing side}`,
`{checks fit}`, `{shelf}`, `{short}`, `{day}` and so on stand on a line of their own. Each becomes
an empty element with a `data-slot`; `fill` puts the default build's content into it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from html import unescape

from slipfit.parts.source import FileError

INLINE = {"=": "value", ">": "note"}
WITH_NAME = ("chart", "drawing", "checks")
ALONE = (
    "shelf",
    "short",
    "day",
    "shot",
    "flight",
    "effects",
    "options",
    "worth",
    "rules",
    "safety",
    "screws",
    "bom",
    "bench",
    "print",
)

_CODE = re.compile(r"(`+)(?:(?!\1).)+?\1")
_IN_TEXT = re.compile(r"\{([=>])\s*([^{}\s]+)\s*\}")
_ON_LINE = re.compile(r"^\{\s*([a-z]+)(?:\s+([^{}\s]+))?\s*\}\s*$")
_FENCE = re.compile(r"^\s*(`{3,}|~{3,})")
_SLOT = re.compile(r'<(span|div)([^<>]*) data-slot="([^"]+)"([^<>]*)></\1>')

Nearest = Callable[[str, Collection[str]], str]


def to_slots(text: str, file: str, known: Mapping[str, Collection[str]], nearest: Nearest) -> str:
    """Markdown with its tokens replaced by slot elements; FileError lists all that name nothing.

    `known` lists the ids that each kind of slot may name; a kind that it lacks is not checked.
    """
    problems: list[str] = []
    written: list[str] = []
    for number, line, code in outside_code(text):
        if not code:
            where = f"{file}:{number}"

            def checked(kind: str, name: str, where: str = where) -> str:
                if kind in known and name not in known[kind]:
                    word = "name" if "." in name else _WORDS[kind]
                    problems.append(f"{where}: no {word} '{name}'{nearest(name, known[kind])}")
                return f"{kind}:{name}"

            line = _line(line, where, checked, problems, nearest)
        written.append(line)
    if problems:
        raise FileError(problems)
    return "\n".join(written)


def outside_code(text: str) -> Iterator[tuple[int, str, bool]]:
    """Each line with its number, and whether it is code: fenced, or indented by four spaces."""
    fence = ""
    for number, line in enumerate(text.split("\n"), start=1):
        found = _FENCE.match(line)
        if found and (not fence or found[1].startswith(fence)):
            fence = "" if fence else found[1]
            yield number, line, True
        else:
            yield number, line, bool(fence) or line.startswith("    ")


def code_spans(line: str) -> list[tuple[int, int]]:
    """Where code stands within a line."""
    return [match.span() for match in _CODE.finditer(line)]


_WORDS = {
    "value": "figure",
    "note": "figure",
    "chart": "chart",
    "drawing": "drawing",
    "checks": "list of checks",
}


def _line(
    line: str,
    where: str,
    checked: Callable[[str, str], str],
    problems: list[str],
    nearest: Nearest,
) -> str:
    if alone := _ON_LINE.match(line):
        kind, name = alone[1], alone[2] or ""
        if kind in WITH_NAME and name:
            return f'<div data-slot="{checked(kind, name)}"></div>'
        if kind in ALONE and not name:
            return f'<div data-slot="{kind}"></div>'
        if kind in WITH_NAME:
            problems.append(f"{where}: {{{kind}}} must name one, such as {_EXAMPLES[kind]}")
        else:
            problems.append(f"{where}: no token '{kind}'{nearest(kind, (*WITH_NAME, *ALONE))}")
        return line
    code = code_spans(line)

    def slot(match: re.Match[str]) -> str:
        if any(start <= match.start() < end for start, end in code):
            return match[0]
        return f'<span data-slot="{checked(INLINE[match[1]], match[2])}"></span>'

    return _IN_TEXT.sub(slot, line)


_EXAMPLES = {
    "chart": "{chart level_flight}",
    "drawing": "{drawing side}",
    "checks": "{checks fit}",
}


def slots_of(html: str) -> list[str]:
    """Names of the slots on a page, each once, in order."""
    return list(dict.fromkeys(unescape(match[3]) for match in _SLOT.finditer(html)))


def fill(html: str, content: Mapping[str, str]) -> str:
    """A page with the content of its slots in place."""
    return _SLOT.sub(
        lambda match: (
            f'<{match[1]}{match[2]} data-slot="{match[3]}"{match[4]}>'
            f"{content.get(unescape(match[3]), '')}</{match[1]}>"
        ),
        html,
    )
