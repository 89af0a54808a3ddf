"""A site's frames and shelf, and the builds that links ask of them."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from slipfit.build import Build
from slipfit.errors import InputError, nearest
from slipfit.frame.frame import Frame
from slipfit.frame.leg import legs_text, named_like
from slipfit.frame.options import other_settings, with_settings
from slipfit.frame.reading import read_frame
from slipfit.link import LinkDay, LinkShot, LinkState, link_of, parts_of_state, read_link
from slipfit.parts.shelf import Shelf, shelf_from_texts
from slipfit.parts.source import FileError, source_from_text

Number = TypeVar("Number", int, float)


@dataclass(frozen=True, kw_only=True)
class Library:
    """Everything a site knows: frames by slug, and the shelf."""

    frames: Mapping[str, Frame]
    shelf: Shelf

    def frame(self, slug: str) -> Frame:
        """One frame; InputError names the nearest slug."""
        if slug not in self.frames:
            raise InputError(f"no frame '{slug[:40]}'{nearest(slug[:40], self.frames)}")
        return self.frames[slug]


def library_from_texts(texts: Mapping[str, str]) -> Library:
    """A library from file texts by path: `frames/<slug>/frame.toml` and `parts/<any>.toml`.

    FileError lists everything that is wrong in all of them.
    """
    library, problems = read_library(texts)
    if problems:
        raise FileError(problems)
    return library


def read_library(texts: Mapping[str, str]) -> tuple[Library, list[str]]:
    """What can be read of a library, and everything that is wrong."""
    problems: list[str] = []
    frames: dict[str, Frame] = {}
    parts = {path: text for path, text in texts.items() if path.startswith("parts/")}
    shelf = Shelf(by_kind={})
    try:
        shelf = shelf_from_texts(parts)
    except FileError as error:
        problems += error.problems
    for path, text in texts.items():
        pieces = path.split("/")
        if len(pieces) != 3 or pieces[0] != "frames" or pieces[2] != "frame.toml":
            continue
        try:
            frames[pieces[1]] = read_frame(text, pieces[1], path)
        except FileError as error:
            problems += error.problems
            continue
        if shelf.by_kind:
            problems += _unknown_defaults(frames[pieces[1]], shelf, text, path)
    return Library(frames=frames, shelf=shelf), problems


def _unknown_defaults(frame: Frame, shelf: Shelf, text: str, path: str) -> Iterator[str]:
    """A frame's default parts that the shelf does not have, where the file says them."""
    for kind, id in frame.defaults.items():
        ids = shelf.by_kind.get(kind, {})
        if id not in ids:
            place = source_from_text(text, path).place(("defaults", kind))
            hint = nearest(id[:40], ids)
            yield f"{place}: [defaults]: {kind} must be a part of the shelf, got '{id[:40]}'{hint}"


def default_build(library: Library, slug: str) -> Build:
    """The build a frame ships with."""
    frame = library.frame(slug)
    parts = {kind: library.shelf.part(kind, id) for kind, id in frame.defaults.items()}
    return Build(frame=frame, parts=parts, day=frame.day, uptilt_rad=frame.uptilt_rad)


def link_of_build(build: Build) -> str:
    """The share link of a build: all its parts, and the day where it is not the frame's own."""
    usual = build.frame.day
    day = LinkDay(
        air_temperature_K=_if_other(build.day.air_temperature_K, usual.air_temperature_K),
        pack_temperature_K=_if_other(build.day.pack_temperature_K, usual.pack_temperature_K),
        height_m=_if_other(build.day.height_m, usual.height_m),
        wind_m_s=_if_other(build.day.wind_m_s, usual.wind_m_s),
        pack_flights=_if_other(build.day.pack_flights, usual.pack_flights),
        uptilt_rad=_if_other(build.uptilt_rad, build.frame.uptilt_rad),
    )
    wanted, shot = build.framing, build.frame.shot
    own = LinkShot(
        chase_speed_m_s=_if_other(build.chase, build.frame.chase_speed_m_s),
        subject_length_m=_if_other(wanted.subject_length_m, shot.subject_length_m),
        depression_rad=_if_other(wanted.depression_rad, shot.depression_rad),
        size=_if_other(wanted.size, shot.size),
        place=_if_other(wanted.place, shot.place),
    )
    legs = build.legs or ()
    legs = () if legs_text(legs) == legs_text(build.frame.legs) else legs
    options = other_settings(build.frame)
    return link_of(build.frame.slug, build.parts, day, own, legs, options)


def _if_other(value: Number, usual: Number) -> Number | None:
    return None if value == usual else value


def build_of(library: Library, state: LinkState) -> tuple[Build, tuple[str, ...]]:
    """The build a link's state asks for, and what of it could not be had; what is missing or
    unknown is as the frame ships it."""
    frame, unknown = with_settings(library.frame(state.frame_slug), state.options)
    parts, messages = parts_of_state(state, frame.defaults, library.shelf)
    given = state.day.given()
    uptilt = given.pop("uptilt_rad", frame.uptilt_rad)
    day = dataclasses.replace(frame.day, **given)
    shot: dict[str, Any] = {**state.shot.given()}
    chase = shot.pop("chase_speed_m_s", None)
    build = Build(
        frame=frame,
        parts=parts,
        day=day,
        uptilt_rad=uptilt,
        chase_speed_m_s=chase,
        shot=dataclasses.replace(frame.shot, **shot) if shot else None,
        legs=named_like(state.legs, frame.legs) or None,
    )
    return build, (*messages, *unknown)


def build_of_link(library: Library, link: str, fallback_slug: str) -> tuple[Build, tuple[str, ...]]:
    """The build behind a link's text, whatever it holds: a frame that is not known, or text that
    cannot be read, gives the fallback frame's build and a message."""
    state, messages = read_link(link)
    if state.frame_slug not in library.frames:
        if state.frame_slug:
            messages = (*messages, f"This site has no frame '{state.frame_slug}'.")
        state = LinkState(frame_slug=fallback_slug, day=state.day, shot=state.shot, legs=state.legs)
    build, more = build_of(library, state)
    return build, (*messages, *more)


def state_of_build(build: Build) -> LinkState:
    """What a link or a build file says of a build."""
    return read_link(link_of_build(build))[0]
