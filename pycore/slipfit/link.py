"""The share link: a whole build in the part of an address that never leaves the reader's machine.

    #b1;quillback-5;motor=m28-1950;prop=p525x80-2;pack=k6-1600;…;air=-8C;uptilt=35deg

`b1` is the version, then the frame, then `name=value` pairs: a part of the shelf by its id, a
reader's own part as `own` and its numbers, and what differs from the frame's day, shot and options
(`with=spinners;without=pod-tails`):

    motor=own,name:the_one_from_last_year,stator_diameter:28mm,…,resistance:47mohm@measured/0.03

In names and values `_` is a space; whatever is not a letter, digit or one of `. - + /` is
percent-encoded. Spaces around numbers and units are left out. A link made today opens for ever:
`tests/data/link_corpus.txt` keeps links of every version.

Reading never raises. A link may come from anybody, so it is cut to a length, every piece is
checked, and what cannot be understood is said and left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, fields
from typing import Any, Final

from slipfit.errors import InputError, nearest
from slipfit.frame.leg import Leg, legs_from_text, legs_text
from slipfit.frame.reading import SLUG
from slipfit.parts.key import Key, key, keys_of
from slipfit.parts.kinds import KINDS, kind_of
from slipfit.parts.origin import Origin
from slipfit.parts.part import OWN, Part
from slipfit.parts.reading import ID, part_from_values
from slipfit.parts.record import Reading, plain_line, read_table, value_of
from slipfit.parts.shelf import Shelf
from slipfit.parts.writing import stated_texts, unusual_origin, value_text

VERSION: Final = "b1"
LONGEST: Final = 6000  # characters of a link that are read at all
LEGS: Final = "legs"  # the piece that holds a reader's own flight
OPTIONS: Final[Mapping[str, bool]] = {"with": True, "without": False}  # pieces that list options
MOST_OPTIONS: Final = 40
MOST_PIECES: Final = 40
MOST_FIELDS: Final = 40  # of one own part
_MOST_MESSAGES: Final = 12
_LONGEST_MESSAGE: Final = 400
_SAFE: Final = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.-+/")
_HEX: Final = re.compile(r"%([0-9A-Fa-f]{2})")


@dataclass(frozen=True, kw_only=True)
class LinkDay:
    """What of the day and the camera a link sets; None leaves the frame's own."""

    air_temperature_K: float | None = key(
        "air temperature", "temperature", "C", low=223.15, high=328.15, default=None, typed="air"
    )
    pack_temperature_K: float | None = key(
        "pack temperature", "temperature", "C", low=243.15, high=333.15, default=None, typed="packs"
    )
    height_m: float | None = key(
        "height above the sea", "length", "m", low=-450.0, high=6000.0, default=None
    )
    wind_m_s: float | None = key("wind", "speed", "m/s", low=0.0, high=40.0, default=None)
    pack_flights: int | None = key(
        "flights of the pack so far", "count", low=0, high=600, default=None
    )
    uptilt_rad: float | None = key(
        "camera uptilt", "angle", "deg", low=-1.6, high=1.6, default=None
    )

    def given(self) -> dict[str, Any]:
        """The fields that are set, for `dataclasses.replace`."""
        pairs = {f.name: getattr(self, f.name) for f in fields(self)}
        return {name: value for name, value in pairs.items() if value is not None}


@dataclass(frozen=True, kw_only=True)
class LinkShot:
    """What of the shot a link sets; None leaves the frame's own."""

    chase_speed_m_s: float | None = key(
        "subject's speed", "speed", "m/s", low=1.0, high=150.0, default=None, typed="chase"
    )
    subject_length_m: float | None = key(
        "subject's length", "length", "m", low=0.05, high=500.0, default=None, typed="subject"
    )
    depression_rad: float | None = key(
        "depression", "angle", "deg", low=0.0175, high=1.5708, default=None
    )
    size: float | None = key("size in the picture", "ratio", "%", low=0.005, high=1.0, default=None)
    place: float | None = key(
        "height in the picture", "ratio", "%", low=0.0, high=1.0, default=None
    )

    def given(self) -> dict[str, float]:
        """The fields that are set, for `dataclasses.replace`."""
        pairs = {f.name: getattr(self, f.name) for f in fields(self)}
        return {name: value for name, value in pairs.items() if value is not None}


@dataclass(frozen=True, kw_only=True)
class LinkState:
    """What a link says: a frame's slug, ids of the shelf or a reader's own parts, day and shot."""

    frame_slug: str = ""
    parts: Mapping[str, str | Part] = field(default_factory=dict)
    day: LinkDay = LinkDay()
    shot: LinkShot = LinkShot()
    legs: tuple[Leg, ...] = ()  # empty: the frame's own flight
    options: Mapping[str, bool] = field(default_factory=dict)  # where not as the frame ships


def link_of(
    frame_slug: str,
    parts: Mapping[str, str | Part],
    day: LinkDay | None = None,
    shot: LinkShot | None = None,
    legs: tuple[Leg, ...] = (),
    options: Mapping[str, bool] | None = None,
) -> str:
    """The link of a build. Parts are ids or parts; one with the id `own` is written out."""
    pieces = [VERSION, frame_slug]
    for kind in KINDS:
        part = parts.get(kind.id)
        if part is None:
            continue
        if isinstance(part, str) or not part.own:
            pieces.append(f"{kind.id}={part if isinstance(part, str) else part.id}")
        else:
            pieces.append(f"{kind.id}={_own_text(part, kind.label)}")
    for given in (day, shot):
        for name, record in keys_of(type(given)).items() if given is not None else ():
            value = getattr(given, record.field)
            if value is not None:
                pieces.append(f"{name}={_value_text(record, value)}")
    if legs:
        words = (_encoded(legs_text((leg,))) for leg in legs)
        pieces.append(f"{LEGS}={','.join(words)}")
    for word, on in OPTIONS.items():
        named = [id for id, chosen in (options or {}).items() if chosen is on]
        pieces += [f"{word}={','.join(named)}"] if named else []
    link = "#" + ";".join(pieces)
    if not link[-1].isalnum():  # a full stop at the end of a link gets lost in a sentence
        link = link[:-1] + f"%{ord(link[-1]):02X}"
    return link


def read_link(text: str) -> tuple[LinkState, tuple[str, ...]]:
    """What a link says, and one sentence for each thing in it that was not understood.

    Never raises, whatever the text.
    """
    heard = _Messages()
    if not isinstance(text, str):
        return LinkState(), ("The link was not text; the frame's own build is shown.",)
    if len(text) > LONGEST:
        heard.say(f"The link was longer than {LONGEST} characters; the rest of it was left out.")
        text = text[:LONGEST]
    body = _body(text)
    if not body:
        return LinkState(), ()
    pieces = body.split(";")
    if len(pieces) > MOST_PIECES:
        heard.say(f"The link had more than {MOST_PIECES} pieces; the rest were left out.")
        pieces = pieces[:MOST_PIECES]
    if pieces[0] != VERSION:
        heard.say(_version_sentence(pieces[0]))
        return LinkState(), heard.listed()
    slug = ""
    if len(pieces) > 1 and SLUG.fullmatch(pieces[1]):
        slug = pieces[1]
    else:
        got = f"'{_shown(pieces[1])}'" if len(pieces) > 1 else "nothing"
        heard.say(f"The link must name a frame after its version, got {got}.")
    legs, others = _read_legs(pieces[2:], heard)
    options, others = _read_options(others, heard)
    parts, day, shot = _read_pieces(others, heard)
    state = LinkState(frame_slug=slug, parts=parts, day=day, shot=shot, legs=legs, options=options)
    return state, heard.listed()


def parts_of_state(
    state: LinkState, defaults: Mapping[str, str], shelf: Shelf
) -> tuple[dict[str, Part], tuple[str, ...]]:
    """The parts of a build: those of the link, else the frame's own; with what was not found."""
    heard = _Messages()
    parts: dict[str, Part] = {}
    for kind in KINDS:
        wanted = state.parts.get(kind.id)
        if isinstance(wanted, Part):
            parts[kind.id] = wanted
            continue
        if wanted is not None:
            try:
                parts[kind.id] = shelf.part(kind.id, wanted)
                continue
            except InputError:
                ids = shelf.by_kind[kind.id]
                heard.say(
                    f"The shelf has no {kind.label} '{_shown(wanted)}'{_close(wanted, ids)} "
                    f"The frame's own is shown."
                )
        if kind.id in defaults:
            parts[kind.id] = shelf.part(kind.id, defaults[kind.id])
    return parts, heard.listed()


def _body(text: str) -> str:
    """The link within a whole address, a wrapped line, or text that was encoded once too often."""
    body = "".join(text.split())
    body = body.partition("#")[2] if "#" in body else body
    if ";" not in body and "%3b" in body.lower():
        body = _percent_decoded(body)
    return body.lstrip("#")


class _Messages:
    """Sentences, each once, and not more than a reader would read."""

    def __init__(self) -> None:
        self._said: dict[str, None] = {}

    def say(self, sentence: str) -> None:
        printable = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in sentence)
        self._said.setdefault(printable[:_LONGEST_MESSAGE])

    def listed(self) -> tuple[str, ...]:
        said = tuple(self._said)
        more = len(said) - _MOST_MESSAGES
        tail = (f"… and {more} more things were not understood.",) if more > 0 else ()
        return said[:_MOST_MESSAGES] + tail


def _version_sentence(got: str) -> str:
    if re.fullmatch(r"b\d{1,3}", got):
        return (
            f"The link is of a newer kind ('{got}') than this site reads ('{VERSION}'); "
            f"the frame's own build is shown."
        )
    return (
        f"The link must begin with '{VERSION}', got '{_shown(got)}'; "
        f"the frame's own build is shown."
    )


def _read_pieces(
    pieces: list[str], heard: _Messages
) -> tuple[dict[str, str | Part], LinkDay, LinkShot]:
    parts: dict[str, str | Part] = {}
    numbers: dict[str, float] = {}
    kinds = {kind.id for kind in KINDS}
    day_keys, shot_keys = keys_of(LinkDay), keys_of(LinkShot)
    number_keys = {**day_keys, **shot_keys}
    for piece in pieces:
        name, equals, value = piece.partition("=")
        if not piece.strip():
            continue
        if not equals:
            heard.say(f"'{_shown(piece)}' in the link must be a name, '=' and a value.")
        elif name in parts or name in numbers:
            heard.say(f"'{name}' stands twice in the link; the first is kept.")
        elif name in kinds:
            part = _read_part(name, value, heard)
            if part is not None:
                parts[name] = part
        elif name in number_keys:
            number = _read_number(number_keys[name], value, heard)
            if number is not None:
                numbers[name] = number
        else:
            known = (*kinds, *number_keys, LEGS, *OPTIONS)
            heard.say(f"'{_shown(name)}' in the link is not known{_close(name, known)}")

    def of(keys: Mapping[str, Key]) -> dict[str, Any]:
        return {keys[name].field: number for name, number in numbers.items() if name in keys}

    return parts, LinkDay(**of(day_keys)), LinkShot(**of(shot_keys))


def _read_legs(pieces: list[str], heard: _Messages) -> tuple[tuple[Leg, ...], list[str]]:
    """The flight a link asks for, and the other pieces."""
    mine = [piece for piece in pieces if piece.partition("=")[0] == LEGS]
    others = [piece for piece in pieces if piece.partition("=")[0] != LEGS]
    if len(mine) > 1:
        heard.say(f"'{LEGS}' stands twice in the link; the first is kept.")
    for piece in mine[:1]:
        try:
            return legs_from_text(_decoded(piece.partition("=")[2])), others
        except InputError as error:
            heard.say(f"In the link, {error.message.removeprefix(': ')}; the frame's own is flown.")
    return (), others


def _read_options(pieces: list[str], heard: _Messages) -> tuple[dict[str, bool], list[str]]:
    """The options that a link puts on or leaves off, and the other pieces."""
    found: dict[str, bool] = {}
    others = []
    for piece in pieces:
        word, _, names = piece.partition("=")
        if word not in OPTIONS:
            others.append(piece)
            continue
        for id in _decoded(names).split(","):
            if not ID.fullmatch(id):
                heard.say(f"'{word}' in the link must list options, got '{_shown(id)}'.")
            elif id in found:
                heard.say(f"The option '{_shown(id)}' stands twice in the link; the first is kept.")
            elif len(found) < MOST_OPTIONS:
                found[id] = OPTIONS[word]
    return found, others


def _read_number(record: Key, value: str, heard: _Messages) -> float | None:
    try:
        number: float = value_of(record, _decoded(value), from_form=not record.is_quantity)
        return number
    except InputError as error:
        heard.say(f"In the link, {error.message.removeprefix(': ')}; the frame's own is used.")
        return None


def _read_part(kind: str, value: str, heard: _Messages) -> str | Part | None:
    head, comma, rest = value.partition(",")
    if head != OWN:
        if ID.fullmatch(value):
            return value
        heard.say(f"The link's {kind} must be a part's id, got '{_shown(value)}'.")
        return None
    if not comma:
        heard.say(f"The link's own {kind} has no numbers; the frame's own part is shown.")
        return None
    return _read_own(kind, rest, heard)


def _read_own(kind: str, text: str, heard: _Messages) -> Part | None:
    record = kind_of(kind)
    faults: list[str] = []
    given: dict[str, str] = {}
    stated: dict[str, Origin] = {}
    for number, piece in enumerate(text.split(",")):
        if number == MOST_FIELDS:
            faults.append(f"it must have at most {MOST_FIELDS} numbers")
            break
        key_text, _, raw = piece.partition(":")
        value, at, origin_text = raw.partition("@")
        given[key_text] = _decoded(value)
        if at:
            origin = _origin_of(origin_text, faults)
            if origin is not None:
                stated[key_text] = origin
    name = _own_name(given.pop("name", ""), record.label, faults)
    keys = keys_of(record.cls)
    reading = read_table(
        given, keys, lambda _, text: faults.append(text.split(" There are:")[0]), from_form=True
    )
    part = None
    if not faults:
        origins = {keys[k].field: origin for k, origin in stated.items() if k in keys}
        whole = Reading(values=reading.values, origins={**reading.origins, **origins})
        part, found = part_from_values(kind, id=OWN, name=name, reading=whole)
        faults += [sentence for _, sentence in found]
    if faults:
        said = " ".join(f"{fault.rstrip('.?')}." for fault in faults[:3])
        heard.say(f"The link's own {record.label} is left out: {said}")
    return part


def _own_name(text: str, label: str, faults: list[str]) -> str:
    try:
        return plain_line("", "name", text)[:80] or f"your own {label}"
    except InputError as error:
        faults.append(error.message.removeprefix(": "))
        return ""


def _origin_of(text: str, faults: list[str]) -> Origin | None:
    kind, slash, spread = _decoded(text).partition("/")
    try:
        if not slash:
            return Origin(kind)
        if not re.fullmatch(r"\d{1,2}(\.\d{1,12})?(e-\d{1,3})?", spread):
            raise InputError(f"spread must be a ratio such as 0.03, got '{_shown(spread)}'")
        return Origin(kind, float(spread))
    except InputError as error:
        faults.append(error.message)
        return None


def _own_text(part: Part, label: str) -> str:
    pieces = [OWN]
    if part.name != f"your own {label}":
        pieces.append(f"name:{_encoded(part.name)}")
    keys = keys_of(type(part))
    for name, text in stated_texts(part).items():
        record = keys[name]
        if record.is_quantity:
            value = _value_text(record, getattr(part, record.field))
        else:
            value = _encoded("+".join(text.split()) if record.dimension == "numbers" else text)
        origin = unusual_origin(part, record)
        tail = f"@{_encoded(origin.kind)}/{origin.spread:.6g}" if origin is not None else ""
        pieces.append(f"{name}:{value}{tail}")
    return ",".join(pieces)


def _value_text(record: Key, value: float) -> str:
    return _encoded(value_text(record, value).replace(" ", ""))


def _encoded(text: str) -> str:
    return "".join(_encoded_letters(text))


def _encoded_letters(text: str) -> Iterator[str]:
    for letter in text:
        if letter in _SAFE:
            yield letter
        elif letter == " ":
            yield "_"
        else:
            yield from (f"%{byte:02X}" for byte in letter.encode("utf-8", errors="replace"))


def _decoded(text: str) -> str:
    return _percent_decoded(text.replace("_", " "))


def _percent_decoded(text: str) -> str:
    raw = bytearray()
    place = 0
    for match in _HEX.finditer(text):
        raw += text[place : match.start()].encode("utf-8", errors="replace")
        raw.append(int(match[1], 16))
        place = match.end()
    raw += text[place:].encode("utf-8", errors="replace")
    return raw.decode("utf-8", errors="replace")


def _shown(text: str) -> str:
    """A piece of a stranger's text, short."""
    return text[:24] + "…" if len(text) > 24 else text


def _close(word: str, known: Iterable[str]) -> str:
    """`; did you mean 'x'?` (or a full stop), without the whole list."""
    return nearest(word[:40], known).split(" There are:")[0]
