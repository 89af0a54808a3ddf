"""Margin notes leave the paragraph that they are written in and stand beside it."""

from __future__ import annotations

import re

_PARAGRAPH = re.compile(r"<p>((?:(?!</p>).)*)</p>", re.DOTALL)
_NOTE = re.compile(r'\s*<span data-slot="(note:[^"]+)"></span>\s?')


def notes_beside(html: str) -> str:
    """Each paragraph with notes becomes a block of the notes, then the paragraph.

    Notes come first so that a wide page can float them at the paragraph's first line; the style
    sheet puts them under the paragraph where there is no margin.
    """

    def moved(match: re.Match[str]) -> str:
        notes = _NOTE.findall(match[1])
        if not notes:
            return match[0]
        slots = "".join(f'<div data-slot="{name}"></div>' for name in notes)
        text = _NOTE.sub(" ", match[1]).strip()
        paragraph = f"<p>{text}</p>" if text else ""
        return f'<div class="sf-beside">{slots}{paragraph}</div>'

    return _PARAGRAPH.sub(moved, html)
