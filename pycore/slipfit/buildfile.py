"""A build as a small TOML file: what a link says, for the command line and for keeping.

frame = "quillback-5"
legs = "hover 8 s, pass 400 m, turn 6 s, return 500 m, land 10 s, reserve 20 %"

[parts]
motor = "m28-1950"
pack = "own"

[day]
air = "-8 C"

[shot]
chase = "62 m/s"

[options]
spinners = true

[own.pack]
name = "the old one"
cell_count = 6
…
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from slipfit.errors import InputError, nearest
from slipfit.frame.leg import Leg, legs_from_text, legs_text
from slipfit.frame.reading import SLUG
from slipfit.link import LinkDay, LinkShot, LinkState
from slipfit.parts.key import keys_of
from slipfit.parts.kinds import KINDS
from slipfit.parts.part import OWN, Part
from slipfit.parts.reading import ID, own_part_from_table
from slipfit.parts.record import read_table
from slipfit.parts.source import FileError, Source, source_from_text
from slipfit.parts.writing import part_toml, toml_text, value_text

_TABLES = ("frame", "legs", "parts", "day", "shot", "options", "own")


def build_toml(state: LinkState) -> str:
    """The file of a build."""
    lines = [f"frame = {toml_text(state.frame_slug)}"]
    if state.legs:
        lines.append(f"legs = {toml_text(legs_text(state.legs))}")
    lines += ["", "[parts]"]
    own: list[str] = []
    for kind in KINDS:
        part = state.parts.get(kind.id)
        if isinstance(part, Part) and part.own:
            lines.append(f'{kind.id} = "{OWN}"')
            own += ["", f"[own.{kind.id}]", part_toml(part)]
        elif part is not None:
            id = part.id if isinstance(part, Part) else part
            lines.append(f"{kind.id} = {toml_text(id)}")
    for title, record in (("day", state.day), ("shot", state.shot)):
        given = record.given()
        if given:
            lines += ["", f"[{title}]"]
        for name, key in keys_of(type(record)).items():
            if key.field in given:
                text = value_text(key, given[key.field])
                lines.append(f"{name} = {toml_text(text) if key.is_quantity else text}")
    if state.options:
        lines += ["", "[options]"]
        lines += [f"{id} = {'true' if on else 'false'}" for id, on in state.options.items()]
    return "\n".join([*lines, *own, ""])


def read_build_toml(text: str, file: str = "build.toml") -> LinkState:
    """The build of a file; FileError lists everything that is wrong with it."""
    source = source_from_text(text, file)
    problems: list[str] = []

    def say(path: tuple[str | int, ...], sentence: str) -> None:
        problems.append(f"{source.place(path)}: {sentence}")

    for name in source.data:
        if name not in _TABLES:
            say((name,), f"no key '{name[:40]}'{nearest(name[:40], _TABLES)}")
    slug = source.data.get("frame")
    if not isinstance(slug, str) or not SLUG.fullmatch(slug):
        say(("frame",), "frame must be given: the name of a frame's folder, in quotes")
        slug = ""
    legs = _legs(source.data.get("legs"), say)
    own = _own_parts(source, problems)
    parts = _parts(source, own, say)
    day, shot = _numbers(source, "day", LinkDay, say), _numbers(source, "shot", LinkShot, say)
    options = _options(source, say)
    if problems:
        raise FileError(problems)
    return LinkState(
        frame_slug=slug,
        parts=parts,
        day=LinkDay(**day),
        shot=LinkShot(**shot),
        legs=legs,
        options=options,
    )


def _legs(text: Any, say: Any) -> tuple[Leg, ...]:
    if text is None:
        return ()
    if not isinstance(text, str):
        say(("legs",), "legs must be text such as 'hover 8 s, pass 400 m, turn 6 s, land 10 s'")
        return ()
    try:
        return legs_from_text(text)
    except InputError as error:
        say(("legs",), f"legs: {error.message.removeprefix(': ')}")
        return ()


def _options(source: Source, say: Any) -> dict[str, bool]:
    found = {}
    for id, on in _table(source, "options", say).items():
        if not ID.fullmatch(id) or not isinstance(on, bool):
            say(("options", id), f"[options]: {id[:40]} must be true or false, got {on!r:.40}")
        else:
            found[id] = on
    return found


def _numbers(source: Source, title: str, cls: type, say: Any) -> dict[str, Any]:
    reading = read_table(
        _table(source, title, say),
        keys_of(cls),
        lambda key, sentence: say((title, key), f"[{title}]: {sentence}"),
    )
    return reading.values


def _table(source: Source, name: str, say: Any) -> Mapping[str, Any]:
    table = source.data.get(name, {})
    if not isinstance(table, dict):
        say((name,), f"[{name}] must be a table")
        return {}
    return table


def _parts(source: Source, own: Mapping[str, Part], say: Any) -> dict[str, str | Part]:
    parts: dict[str, str | Part] = dict(own)
    known = {kind.id for kind in KINDS}
    table = _table(source, "parts", say)
    for name, id in table.items():
        path = ("parts", name)
        if name not in known:
            say(path, f"[parts]: no kind of part '{name[:40]}'{nearest(name[:40], known)}")
        elif not isinstance(id, str) or not ID.fullmatch(id):
            say(path, f"[parts]: {name} must be a part's id in quotes, got {id!r:.40}")
        elif id == OWN and name not in own:
            if name not in _table(source, "own", say):
                say(path, f"[parts]: {name} is your own, so [own.{name}] must be given")
        elif id != OWN and name in own:
            say(path, f"[parts]: {name} must be \"{OWN}\" where [own.{name}] is given, got '{id}'")
        else:
            parts.setdefault(name, id)
    return parts


def _own_parts(source: Source, problems: list[str]) -> dict[str, Part]:
    found: dict[str, Part] = {}
    known = {kind.id for kind in KINDS}
    tables = source.data.get("own", {})
    if not isinstance(tables, dict):
        problems.append(f"{source.place(('own',))}: [own] must hold tables such as [own.pack]")
        return found
    for name, table in tables.items():
        where = source.place(("own", name))
        if name not in known:
            hint = nearest(name[:40], known)
            problems.append(f"{where}: [own]: no kind of part '{name[:40]}'{hint}")
        elif not isinstance(table, dict):
            problems.append(f"{where}: [own.{name}] must be a table")
        else:
            part, faults = own_part_from_table(name, table)
            for key, sentence in faults:
                problems.append(f"{source.place(('own', name, key))}: [own.{name}]: {sentence}")
            if part is not None:
                found[name] = part
    return found
