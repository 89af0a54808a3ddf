"""Tokens in an author's Markdown: what becomes a slot, what is left alone, what is told."""

from __future__ import annotations

import pytest

from slipfit.errors import nearest
from slipfit.kit import tokens
from slipfit.parts.source import FileError

KNOWN = {
    "value": ["top_speed", "hover_time"],
    "note": ["top_speed"],
    "chart": ["level_flight"],
    "checks": ["fit", "limits"],
}


def slots(text: str) -> str:
    return tokens.to_slots(text, "docs/frames/x/fly.md", KNOWN, nearest)


@pytest.mark.parametrize(
    ("written", "becomes"),
    [
        ("At {=top_speed}.", 'At <span data-slot="value:top_speed"></span>.'),
        ("{>top_speed} Fast", '<span data-slot="note:top_speed"></span> Fast'),
        ("{chart level_flight}", '<div data-slot="chart:level_flight"></div>'),
        ("{checks fit}", '<div data-slot="checks:fit"></div>'),
        ("{shelf}", '<div data-slot="shelf"></div>'),
        ("{short}", '<div data-slot="short"></div>'),
        ("{day}", '<div data-slot="day"></div>'),
    ],
)
def test_tokens_become_slots(written: str, becomes: str) -> None:
    assert slots(written) == becomes


@pytest.mark.parametrize(
    "text",
    [
        "Write `{=top_sped}` for it.",
        "```\n{chart nothing}\n{=nothing}\n```",
        "    {=indented code}",
        "# Heading {: .class }",
        "a {curly} word, and {shelf} inside a sentence",
    ],
)
def test_code_and_other_braces_are_left_alone(text: str) -> None:
    assert slots(text) == text


def test_every_unknown_name_is_told_with_its_line_and_the_nearest_one() -> None:
    with pytest.raises(FileError) as caught:
        slots("first {=top_sped}\n\n{chart level_fligth}\n\n{shelv}\n\n{checks}\n")
    lines = str(caught.value).splitlines()
    where = "docs/frames/x/fly.md"
    assert lines[0].startswith(f"{where}:1: no figure 'top_sped'; did you mean 'top_speed'?")
    assert lines[1].startswith(f"{where}:3: no chart 'level_fligth'; did you mean 'level_flight'?")
    assert lines[2].startswith(f"{where}:5: no token 'shelv'; did you mean 'shelf'?")
    assert lines[3] == f"{where}:7: {{checks}} must name one, such as {{checks fit}}"
    assert len(lines) == 4


def test_slots_are_listed_once_and_filled_where_they_stand() -> None:
    html = slots("{=top_speed} and {=top_speed}, {=hover_time}\n\n{shelf}")
    assert tokens.slots_of(html) == ["value:top_speed", "value:hover_time", "shelf"]
    filled = tokens.fill(html, {"value:top_speed": "<b>70</b>", "shelf": "<ul></ul>"})
    assert filled.count('<span data-slot="value:top_speed"><b>70</b></span>') == 2
    assert '<div data-slot="shelf"><ul></ul></div>' in filled
    assert '<span data-slot="value:hover_time"></span>' in filled
