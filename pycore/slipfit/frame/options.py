"""A frame's options: what a reader may put on it or leave off, and the frame that this makes.

A body or a piece of hardware says to which settings it belongs, as `spinners on, fairings off`.
The rest of the core sees only the frame that results: its masses, drag, inertia and drawings are
those of what is really there.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Final

from slipfit.errors import InputError, nearest
from slipfit.frame.frame import BodyEntry, Frame, Item
from slipfit.frame.outline import outline_of

_SETTING: Final = re.compile(r"([a-z][a-z0-9-]{0,31})\s+(on|off)")


@lru_cache(maxsize=256)
def settings_of(text: str) -> Mapping[str, bool]:
    """The settings that a text such as `spinners on, fairings off` asks for; InputError where it
    is not one."""
    found: dict[str, bool] = {}
    for piece in text.split(",") if text else ():
        match = _SETTING.fullmatch(piece.strip())
        if match is None:
            raise InputError(f"option must be written as 'spinners on', got '{piece.strip()[:40]}'")
        if match[1] in found:
            raise InputError(f"option must name '{match[1]}' once")
        found[match[1]] = match[2] == "on"
    return found


def frame_with(frame: Frame, on: Collection[str]) -> Frame:
    """The frame with these of its options on and the others off. Ids that it does not have change
    nothing."""
    ids = tuple(option.id for option in frame.options if option.id in on)
    return frame if ids == frame.on else _made(frame, ids)


def _made(frame: Frame, on: tuple[str, ...]) -> Frame:
    whole = frame.whole or frame
    bodies = tuple(entry for entry in whole.bodies if _stays(entry, on))
    return replace(
        frame,
        on=on,
        whole=whole,
        bodies=bodies,
        hardware=tuple(item for item in whole.hardware if _stays(item, on)),
        outline=outline_of(bodies),
    )


def _stays(entry: BodyEntry | Item, on: Collection[str]) -> bool:
    return all((id in on) is wanted for id, wanted in settings_of(entry.option).items())


def as_shipped(frame: Frame) -> Frame:
    """A frame as it ships, from one that still holds what belongs to any setting."""
    return _made(frame, tuple(o.id for o in frame.options if o.default)) if frame.options else frame


def other_settings(frame: Frame) -> dict[str, bool]:
    """Those options that are not as the frame ships them, and how they are instead."""
    return {o.id: o.id in frame.on for o in frame.options if (o.id in frame.on) is not o.default}


def with_settings(frame: Frame, settings: Mapping[str, bool]) -> tuple[Frame, tuple[str, ...]]:
    """The frame as it ships but for some settings, and a sentence for each it does not have."""
    known = [option.id for option in frame.options]
    on = {option.id for option in frame.options if settings.get(option.id, option.default)}
    unknown = [id for id in settings if id not in known]
    return frame_with(frame, on), tuple(_unknown(frame, id, known) for id in unknown)


def _unknown(frame: Frame, id: str, known: Collection[str]) -> str:
    if not known:
        return f"{frame.name} has no options, so '{id[:40]}' is left out."
    return f"{frame.name} has no option '{id[:40]}'{nearest(id[:40], known)}."


def settings_text(frame: Frame) -> str:
    """How the options of a frame stand: `with pod fairings, without spinners`."""
    return ", ".join(
        f"{'with' if option.id in frame.on else 'without'} {option.label}"
        for option in frame.options
    )
