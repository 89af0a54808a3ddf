"""Margin notes beside their paragraphs, as HTML."""

from beside import notes_beside

NOTE = '<span data-slot="note:top_speed"></span>'


def test_a_note_stands_before_its_paragraph_and_leaves_no_trace_in_it():
    assert notes_beside(f"<p>{NOTE} <strong>Fast.</strong> Very.</p>") == (
        '<div class="sf-beside"><div data-slot="note:top_speed"></div>'
        "<p><strong>Fast.</strong> Very.</p></div>"
    )


def test_several_notes_keep_their_order_and_the_words_keep_their_spaces():
    other = NOTE.replace("top_speed", "hover_time")
    assert notes_beside(f"<p>One {NOTE} two {other}</p>") == (
        '<div class="sf-beside"><div data-slot="note:top_speed"></div>'
        '<div data-slot="note:hover_time"></div><p>One two</p></div>'
    )


def test_a_paragraph_of_notes_alone_leaves_no_empty_paragraph():
    assert "<p>" not in notes_beside(f"<p>{NOTE}</p>")


def test_other_paragraphs_and_values_stay_as_they_are():
    html = '<p>One</p>\n<p>Two <span data-slot="value:top_speed"></span></p>'
    assert notes_beside(html) == html
