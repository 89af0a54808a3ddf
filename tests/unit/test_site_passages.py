"""Passages in an author's Markdown: what they become, what is told, what the builder hides."""

from __future__ import annotations

import re
from pathlib import Path

import markdown
import pytest

import frames
from slipfit.kit import passages, tokens
from slipfit.parts.source import FileError

DOCS = Path(__file__).resolve().parents[2] / "docs"
CHECKS = passages.Checks(
    condition=lambda text: "" if "wrong" not in text else f"no name '{text}'",
    time=lambda text: "" if text.endswith("min") else "time must carry a unit",
    tool=lambda text: "" if text != "key wrong" else "no joint 'wrong'",
)
EXTENSIONS = ["attr_list", "md_in_html", "toc", "tables"]


def blocks(text: str) -> tuple[str, list[tuple[int, str]]]:
    made, problems = passages.to_blocks(text, CHECKS)
    made, more = passages.to_spans(made, CHECKS)
    return made, [*problems, *more]


def page(text: str) -> str:
    """The HTML of a page, as the builder makes it."""
    made, problems = blocks(text)
    assert problems == []
    return passages.finish(markdown.markdown(made, extensions=EXTENSIONS))


def test_a_passage_becomes_a_block_and_its_markdown_still_works() -> None:
    html = page("{when a > 1}\n\n## Head\n\n*Some* words.\n\n{otherwise}\n\nOther.\n\n{end}\n")
    first, second = re.findall(r'<div class="sf-when" data-when="([^"]+)">', html)
    assert (first, second) == ("a &gt; 1", "not (a &gt; 1)")
    assert '<h2 id="head">Head</h2>' in html
    assert "<em>Some</em>" in html
    assert html.count("<div") == html.count("</div>") == 2


def test_passages_may_stand_in_one_another_and_lines_keep_their_numbers() -> None:
    text = "{when a}\n\n{hazard}\n\nMind.\n\n{end}\n\n{when b}\n\nBoth.\n\n{end}\n\n{end}\n"
    made, problems = blocks(text)
    assert problems == []
    assert made.count("\n") == text.count("\n")
    html = page(text)
    assert 'class="sf-hazard" role="note"><p class="sf-hazard-label">Hazard</p>' in html


def test_an_entry_or_a_paragraph_is_shown_only_sometimes() -> None:
    html = page("1. One.\n2. {only a > 1} Two.\n\n{only b} A paragraph.\n")
    assert '<li data-when="a &gt; 1">Two.</li>' in html
    assert '<p data-when="b">A paragraph.</p>' in html


def test_words_in_a_sentence_change() -> None:
    html = page("It is {when a > 1: *large* | small}, and {when b: red}.")
    assert '<span data-when="a &gt; 1"><em>large</em></span>' in html
    assert '<span data-when="not (a &gt; 1)">small</span>' in html
    assert '<span data-when="b">red</span>' in html


def test_steps_get_boxes_by_their_own_words() -> None:
    text = "{{steps motors}}\n\n1. First.\n2. Second.\n    - inner\n3. Third.\n\n{{end}}\n"
    ids = re.findall(r'data-tick="motors\.(\w+)"', page(text.format()))
    assert len(ids) == 3
    moved = text.replace("1. First.", "1. A new one.\n1. First.").format()
    later = re.findall(r'data-tick="motors\.(\w+)"', page(moved))
    assert [id for id in later if id in ids] == ids
    html = page(text.format())
    assert html.count("<input") == html.count('aria-labelledby="step-motors-') == 3
    assert '<li id="step-motors-' in html
    assert "<li>inner</li>" in html
    assert "data-clear-ticks" in html


def test_two_steps_of_the_same_words_are_two_steps() -> None:
    ids = re.findall(r'data-tick="([^"]+)"', page("{steps x}\n\n1. Wait.\n2. Wait.\n\n{end}\n"))
    assert len(set(ids)) == 2


def test_times_and_tools_are_gathered_with_the_conditions_around_them() -> None:
    text = (
        "{times}\n\n{tools}\n\n{time 40 min}\n\n{tools calliper; key motors}\n\n"
        "{when a > 1}\n\n{time 20 min}\n\n{otherwise}\n\n{tools saw}\n\n{end}\n"
    )
    made, problems = blocks(text)
    assert problems == []
    assert tokens.slots_of(made) == [
        "times:40 min|20 min when (a > 1)",
        "tools:calliper|key motors|saw when not (a > 1)",
        "time:40 min",
        "tools:calliper|key motors",
        "time:20 min",
        "tools:saw",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Write `{when a > 1: x}` or `{only a}`.",
        "```\n{when a}\n{steps}\n```",
        "    {when wrong}",
        "Text {with} braces, {: .class }",
    ],
)
def test_code_and_other_braces_are_left_alone(text: str) -> None:
    assert blocks(text) == (text, [])


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("\n{when wrong}\n\nx\n\n{end}", 2, "no name 'wrong'"),
        ("{when a}\n\nx", 1, "{when} is never closed with {end}"),
        ("x\n\n{end}", 3, "{end} closes nothing"),
        ("{otherwise}", 1, "{otherwise} must stand once between {when …} and its {end}"),
        ("{when a}\n\n{otherwise}\n\n{otherwise}\n\n{end}", 5, "{otherwise} must stand once"),
        ("{steps Motors!}\n\n1. x\n\n{end}", 1, "{steps} must have a name in small letters"),
        ("{steps a}\n\n{end}\n\n{steps a}\n\n{end}", 5, "{steps a} stands twice on this page"),
        ("{hazard now}\n\nx\n\n{end}", 1, "{hazard} takes nothing behind it, got 'now'"),
        ("{time long}", 1, "time must carry a unit"),
        ("{tools a|b}", 1, "a tool must be named without '|' or 'when'"),
        ("{tools saw; key wrong}", 1, "no joint 'wrong'"),
        ("Words {only a} within.", 1, "{only …} must begin an entry of a list or a paragraph"),
        ("Words {when a} within.", 1, "{when …} must stand on a line of its own, or hold words"),
        ("It is {when wrong: x}.", 1, "no name 'wrong'"),
    ],
)
def test_each_mistake_is_told_at_its_line(text: str, line: int, said: str) -> None:
    _, problems = blocks(text)
    assert [(number, told[: len(said)]) for number, told in problems] == [(line, said)]


def test_what_does_not_hold_is_hidden() -> None:
    html = page("{when a > 1}\n\nOne.\n\n{end}\n\nIt is {when b: red}.\n")
    assert passages.conditions_of(html) == ["a > 1", "b"]
    hidden = passages.hide(html, {"a > 1": False, "b": True})
    assert '<div class="sf-when" data-when="a &gt; 1" hidden>' in hidden
    assert '<span data-when="b">red</span>' in hidden


def test_a_frame_s_page_is_read_checked_and_filled_by_the_core() -> None:
    frames.read_site(DOCS)
    text = (
        "{when pack.cell_count >= 8}\n\nEight.\n\n{otherwise}\n\nFull at {=pack.full_voltage}.\n\n"
        "{end}\n\n{times}\n\n{time 90 min}\n\n{tools keys}\n"
    )
    made = frames.to_slots(text, "docs/frames/quillback-5/x.md", "quillback-5")
    html = passages.finish(markdown.markdown(made, extensions=EXTENSIONS))
    filled = frames.fill(html, "quillback-5").html.replace("\N{NARROW NO-BREAK SPACE}", " ")
    assert 'data-when="pack.cell_count &gt;= 8" hidden>' in filled
    assert 'data-when="not (pack.cell_count &gt;= 8)">' in filled
    assert "Full at <span data-slot" in filled
    assert "25.2 V" in filled
    assert "About 1 h 30 min in all" in filled
    assert "1.5 mm hex key, 2 mm hex key, 2.5 mm hex key." in filled


def test_every_unknown_name_of_a_frame_s_page_is_told_with_its_line_in_order() -> None:
    frames.read_site(DOCS)
    text = (
        "{=pack.cels}\n\n{when pack.cell_cout > 6: x}\n\n{when top_sped > 60 m/s}\n\nx\n\n{end}\n"
    )
    with pytest.raises(FileError) as caught:
        frames.to_slots(text, "docs/frames/quillback-5/x.md", "quillback-5")
    lines = str(caught.value).splitlines()
    where = "docs/frames/quillback-5/x.md"
    assert lines[0].startswith(f"{where}:1: no name 'pack.cels'")
    assert lines[1].startswith(f"{where}:3: no name 'pack.cell_cout'; did you mean 'pack.cell_c")
    assert lines[2].startswith(f"{where}:5: no name 'top_sped'; did you mean 'top_speed'?")
    assert len(lines) == 3
