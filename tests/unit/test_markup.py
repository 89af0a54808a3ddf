"""Markup trees: escaping, allowed tags, text."""

import pytest

from slipfit.markup import el, plain_text, to_html


def test_text_and_attributes_are_escaped():
    tree = el("p", 'a < b & "c"', title='"<x>', hidden=True, id=None)
    assert to_html(tree) == '<p title="&quot;&lt;x&gt;" hidden="">a &lt; b &amp; "c"</p>'


def test_names_with_underscores_become_attributes():
    tree = el("path", class_="line", stroke_width=1.5, data_x="3")
    assert to_html(tree) == '<path class="line" stroke-width="1.5" data-x="3"/>'


def test_a_script_cannot_be_written():
    with pytest.raises(AssertionError, match="tag 'script' is not in the allowed list"):
        el("script", "alert(1)")


def test_plain_text_joins_the_words():
    assert plain_text(el("p", "one ", el("em", "two"), " three")) == "one two three"
