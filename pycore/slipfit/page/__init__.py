"""What the reader sees: a report turned into trees of markup, for the builder and the browser."""

from slipfit.page.choices_view import (
    Choice,
    choice_row,
    choices_dialog,
    ordered,
    own_file_errors,
)
from slipfit.page.day_view import DAY
from slipfit.page.explain_view import explain_dialog
from slipfit.page.legs_view import legs_editor
from slipfit.page.link_form import LinkForm, changed_texts, link_editor
from slipfit.page.marks import change_text
from slipfit.page.own_part_view import own_part_dialog
from slipfit.page.shot_view import SHOT
from slipfit.page.slots import LATE, SLOTS, known_slot, slots

__all__ = [
    "DAY",
    "LATE",
    "SHOT",
    "SLOTS",
    "Choice",
    "LinkForm",
    "change_text",
    "changed_texts",
    "choice_row",
    "choices_dialog",
    "explain_dialog",
    "known_slot",
    "legs_editor",
    "link_editor",
    "ordered",
    "own_file_errors",
    "own_part_dialog",
    "slots",
]
