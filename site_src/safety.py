"""The block on what can hurt stands on every page of a frame. An author may say where, with
`{safety}`, and add to it; where it is missing, or could be hidden, it closes the page."""

from __future__ import annotations

from html.parser import HTMLParser

BLOCK = '<div data-slot="safety"></div>'
_VOID = frozenset({"br", "hr", "img", "input", "wbr", "path", "circle", "line", "rect", "use"})
_FOLDED = frozenset({"details", "template", "script", "style", "noscript"})


class _Finder(HTMLParser):
    """Whether the block stands in plain sight: not inside something that hides or folds it."""

    def __init__(self) -> None:
        super().__init__()
        self.hidden: list[tuple[str, bool]] = []
        self.found = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        hides = tag in _FOLDED or bool(given.keys() & {"hidden", "data-when", "style"})
        if given.get("data-slot") == "safety" and not hides:
            self.found = self.found or not any(hides for _, hides in self.hidden)
        if tag not in _VOID:
            self.hidden.append((tag, hides))

    def handle_endtag(self, tag: str) -> None:
        while self.hidden:
            opened, _ = self.hidden.pop()
            if opened == tag:
                return


def with_safety(html: str) -> str:
    """A page's content with the block in plain sight."""
    finder = _Finder()
    finder.feed(html)
    return html if finder.found else f"{html}\n{BLOCK}"
