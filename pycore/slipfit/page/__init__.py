"""What the reader sees: a report turned into trees of markup, for the builder and the browser."""

from slipfit.page.choices_view import Choice, choices_dialog, own_file_errors
from slipfit.page.day_view import changed_day_texts, day_editor
from slipfit.page.explain_view import explain_dialog
from slipfit.page.legs_view import legs_editor
from slipfit.page.marks import change_text
from slipfit.page.own_part_view import own_part_dialog
from slipfit.page.shot_view import changed_shot_texts, shot_editor
from slipfit.page.slots import LATE, SLOTS, known_slot, slots

__all__ = [
    "LATE",
    "SLOTS",
    "Choice",
    "change_text",
    "changed_day_texts",
    "changed_shot_texts",
    "choices_dialog",
    "day_editor",
    "explain_dialog",
    "known_slot",
    "legs_editor",
    "own_file_errors",
    "own_part_dialog",
    "shot_editor",
    "slots",
]
