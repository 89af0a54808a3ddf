"""The shot that is wanted, as a sentence and as a short form to change it."""

from __future__ import annotations

from typing import Final

from slipfit.link import LinkShot
from slipfit.page.link_form import LinkEntry, LinkForm
from slipfit.page.shown import ShownBuild
from slipfit.units import ANGLE, DISTANCE_FINE, PERCENT, SPEED


def _entries(build: ShownBuild) -> tuple[LinkEntry, ...]:
    """What of a build's shot a reader may change."""
    shot = build.framing
    return (
        LinkEntry(
            field="chase_speed_m_s", display=SPEED, help="While it is followed.", now=build.chase
        ),
        LinkEntry(
            field="subject_length_m",
            display=DISTANCE_FINE,
            help="Of the side that the camera sees, from left to right.",
            now=shot.subject_length_m,
        ),
        LinkEntry(
            field="depression_rad",
            display=ANGLE,
            help="How steeply the camera looks down to it.",
            now=shot.depression_rad,
        ),
        LinkEntry(
            field="size",
            display=PERCENT,
            help="Share of the picture's width that it takes.",
            now=shot.size,
        ),
        LinkEntry(
            field="place",
            display=PERCENT,
            help="From the lower edge: 33 % is the lower third line, 50 % the middle.",
            now=shot.place,
        ),
    )


def _sentence(build: ShownBuild, system: str) -> str:
    """The shot in words."""
    shot = build.framing
    across = DISTANCE_FINE.text(shot.subject_length_m, system)
    pace = f"at {SPEED.text(build.chase, system)}" if build.chase > 0.0 else "at cruise speed"
    return (
        f"Framed for a subject ({shot.subject}) {across} across, "
        f"followed {pace} from behind, seen {ANGLE.text(shot.depression_rad, system)} "
        f"below the horizon, {PERCENT.text(shot.size, system)} of the picture's width wide and "
        f"{PERCENT.text(shot.place, system)} up the picture."
    )


SHOT: Final = LinkForm(
    id="shot",
    record=LinkShot,
    entries=_entries,
    sentence=_sentence,
    summary="Change the shot",
    empty="Leave a field empty for the frame's own shot.",
    button="Frame this shot",
)
