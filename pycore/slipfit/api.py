"""Everything a page, a script or a test may ask, as `call(name, payload)`.

The answer is `{"ok": true, "result": …}` or `{"ok": false, "error": {"kind", "message", "field",
"low", "high"}}`. `call_json` does the same on text, for the worker in the browser.
"""

from __future__ import annotations

import dataclasses
import json
import math
import traceback
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from typing import Any, NamedTuple

from slipfit import __version__, page
from slipfit.build import Build
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.checks.verdict import Verdict
from slipfit.errors import InputError, SlipfitError, ValidityError, nearest
from slipfit.flight.performance import Performance, performance, performances
from slipfit.frame.leg import legs_from_text
from slipfit.frame.options import frame_with
from slipfit.library import Library, build_of_link, library_from_texts, link_of_build
from slipfit.link import link_of
from slipfit.notes import Facts, holds
from slipfit.ownparts import MOST, own_parts_toml, read_own_parts
from slipfit.parts.key import keys_of
from slipfit.parts.kinds import KINDS, kind_of, kind_of_part
from slipfit.parts.part import OWN, Part
from slipfit.parts.prop import Prop
from slipfit.parts.reading import part_from_texts
from slipfit.parts.record import read_table
from slipfit.parts.source import LARGEST_FILE, FileError
from slipfit.parts.writing import stated_texts
from slipfit.physics.rotor_map import Saved, use_saved
from slipfit.report import SYSTEMS, Report, report, report_json, verdicts
from slipfit.units import SPEED

Payload = Mapping[str, Any]

_library: Library | None = None


def use_site(texts: Mapping[str, str]) -> None:
    """Take frames and shelf from file texts by path (see `library_from_texts`)."""
    use_library(library_from_texts(texts))


def use_library(known: Library, solved: Mapping[str, Saved] | None = None) -> None:
    """Take frames and shelf that have been read before, and rotor maps that have been filled."""
    global _library
    _library = known
    _report_of.cache_clear()
    use_saved(solved or {})


def library() -> Library:
    """The site in use; InputError before there is one."""
    if _library is None:
        raise InputError("api: no frames and parts are in use yet, see `use_site`")
    return _library


LONGEST_TEXT = 20_000  # characters; a link is cut far below, and said to be
LARGEST = 1e12  # of a figure in SI, far beyond any
SHOWN = 40  # characters of a stranger's text in a message


def _text(payload: Payload, key: str, usual: str = "", longest: int = LONGEST_TEXT) -> str:
    """A text of the payload; what is not given, or null, is as usual."""
    value = payload.get(key)
    if value is None:
        return usual
    if not isinstance(value, str):
        raise InputError(f"api: {key} must be a text, got {type(value).__name__}", field=key)
    return value[:longest]


def _texts(payload: Payload, key: str) -> list[str]:
    value = payload.get(key)
    if value is None:
        return []
    if not isinstance(value, list | tuple) or not all(isinstance(text, str) for text in value):
        raise InputError(f"api: {key} must be a list of texts", field=key)
    return [text[:LONGEST_TEXT] for text in value]


def _table(payload: Payload, key: str) -> Payload:
    value = payload.get(key)
    if value is None:
        return {}
    if not isinstance(value, Mapping):
        raise InputError(f"api: {key} must be a table, got {type(value).__name__}", field=key)
    return value


def _build(payload: Payload) -> tuple[Build, tuple[str, ...]]:
    known = library()
    fallback = _text(payload, "frame") or next(iter(known.frames))
    return build_of_link(known, _text(payload, "link"), fallback)


@lru_cache(maxsize=8)
def _report_of(link: str, ranges: bool, frame: str) -> tuple[Report, tuple[str, ...]]:
    build, messages = _build({"link": link, "frame": frame})
    return report(build, ranges=ranges), messages


def _report(payload: Payload) -> tuple[Report, tuple[str, ...]]:
    return _report_of(
        _text(payload, "link"),
        payload.get("ranges") is True,
        _text(payload, "frame"),
    )


def _system(payload: Payload) -> str:
    system = _text(payload, "system", SYSTEMS[0])
    if system not in SYSTEMS:
        got = system[:SHOWN]
        raise InputError(f"no unit system '{got}'{nearest(got, SYSTEMS)}", field="system")
    return system


def _page(payload: Payload) -> dict[str, Any]:
    found, messages = _report(payload)
    system = _system(payload)
    previous = _table(payload, "previous")
    slots = _texts(payload, "slots")
    named = (slot.partition(":") for slot in slots)
    on_page = {
        name: found.figures[name]
        for kind, _, name in named
        if kind in ("value", "note") and name in found.figures
    }
    changes = {}
    for id, figure in on_page.items():
        before = previous.get(id)
        if not isinstance(before, int | float) or not abs(before) < LARGEST:
            continue
        if figure.value is not None:
            text = page.change_text(figure.display, float(before), figure.value, system)
            if text:
                changes[id] = text
    return {
        "link": found.link,
        "frame": found.build.frame.slug,
        "parts": link_of(found.build.frame.slug, found.build.parts),
        "slots": page.slots(found, _now(slots, payload), system),
        "shown": _shown(found, payload.get("conditions") or ()),
        "figures": {f.id: f.value for f in on_page.values()},
        "changes": changes,
        "messages": list(messages),
    }


def _now(slots: list[str], payload: Payload) -> list[str]:
    """The places that are filled in this reply: late ones only where a page asks for them, none
    where it only wants to learn its figures."""
    if payload.get("fill") is False:
        return []
    return [slot for slot in slots if payload.get("late") is True or slot not in page.LATE]


MOST_CONDITIONS = 400  # of one page


def _shown(found: Report, conditions: Any) -> dict[str, bool]:
    """Which of the conditions on a page hold."""
    if not isinstance(conditions, list | tuple) or len(conditions) > MOST_CONDITIONS:
        raise InputError(
            f"page: conditions must be a list of at most {MOST_CONDITIONS}", field="conditions"
        )
    if not conditions:  # verdicts take a flight
        return {}
    facts = Facts(build=found.build, figures=found.figures, verdicts=found.verdicts)
    return {str(text): holds(str(text), facts) for text in conditions}


def _report_call(payload: Payload) -> dict[str, Any]:
    found, messages = _report(payload)
    return {**report_json(found), "messages": list(messages)}


def _with_part(build: Build, kind: str, part: Part) -> Build:
    return dataclasses.replace(build, parts={**build.parts, kind: part})


class _Offer(NamedTuple):
    """A part that could be swapped in: what it is asked for by, and its place among those kept."""

    key: str
    part: Part
    kept: int | None


def _offers(payload: Payload, kind: str) -> tuple[_Offer, ...]:
    own = [(place, part) for place, part in _kept(payload) if kind_of_part(part).id == kind]
    return (
        *(_Offer(part.id, part, None) for part in library().shelf.of(kind)),
        *(_Offer(f"{OWN}:{place}", part, place) for place, part in own),
    )


# Each of these asks for a rotor of its own: judging all of them takes seconds in a browser.
SLOW_KINDS = frozenset({"prop"})


def _choices(payload: Payload) -> dict[str, Any]:
    """The dialog of the choices of a kind, judged. With `staged`, those of a slow kind come judged
    by their fit alone, the most alike to the build's own first, and `rest` names, in their order,
    those for `judged_choice` to judge."""
    build, _ = _build(payload)
    system, kind = _system(payload), kind_of(_text(payload, "kind"))
    offers = _offers(payload, kind.id)
    builds = [_with_part(build, kind.id, offer.part) for offer in offers]
    if payload.get("staged") and kind.id in SLOW_KINDS:
        judged = [
            _choice(build, kind.id, offer, fit_verdicts(candidate), "…")  # the line is kept free
            for offer, candidate in zip(offers, builds, strict=True)
        ]
        choices = page.ordered(judged)
        tree = page.choices_dialog(kind.id, kind.label, choices, system, fit_only=True)
        return {"tree": tree, "rest": [choice.key for choice in choices]}
    before, *found = performances([build, *builds])
    judged = [
        _choice(build, kind.id, offer, verdicts(p, flown=False), _effect(p, before, system))
        for offer, p in zip(offers, found, strict=True)
    ]
    tree = page.choices_dialog(kind.id, kind.label, page.ordered(judged), system)
    return {"tree": tree, "rest": []}


def _judged_choice(payload: Payload) -> dict[str, Any]:
    """One choice of a kind, by its key in `choices`, as it stands in their list when judged."""
    build, _ = _build(payload)
    system, kind = _system(payload), kind_of(_text(payload, "kind"))
    key = _text(payload, "key")
    offer = next((offer for offer in _offers(payload, kind.id) if offer.key == key), None)
    if offer is None:
        raise InputError(f"no {kind.label} '{key[:40]}' to choose", field="key")
    before = _report({**payload, "ranges": False})[0].performance  # kept from the choice before
    p = performance(_with_part(build, kind.id, offer.part))
    effect = _effect(p, before, system)
    choice = _choice(build, kind.id, offer, verdicts(p, flown=False), effect)
    return {"tree": page.choice_row(kind.id, choice, system)}


def _choice(
    build: Build, kind: str, offer: _Offer, judged: Iterable[Verdict], effect: str = ""
) -> page.Choice:
    current = build.parts.get(kind)
    about = [v for v in judged if v.severity or v.kind == kind]
    return page.Choice(
        key=offer.key,
        name=offer.part.name,
        mass_kg=offer.part.mass_kg,
        worst=max(about, key=lambda v: (v.severity, v.kind == kind), default=None),
        current=current is not None and _same(offer.part, current),
        unlike=_unlike(offer.part, current),
        guessed=bool(offer.part.guessed),
        effect=effect,
        kept=offer.kept,
    )


def _unlike(part: Part, other: Part | None) -> float:
    """How far a propeller is from another in diameter and pitch; 0 for parts of other kinds."""
    if not isinstance(part, Prop) or not isinstance(other, Prop):
        return 0.0
    wider, steeper = part.diameter_m / other.diameter_m, part.pitch_m / other.pitch_m
    return math.hypot(math.log(wider), math.log(steeper))


def _same(part: Part, other: Part) -> bool:
    if not part.own or not other.own:
        return part.id == other.id
    return (part.name, stated_texts(part)) == (other.name, stated_texts(other))


def _kept(payload: Payload) -> list[tuple[int, Part]]:
    """A reader's own parts, as a page keeps them: the text of a file for each, and its place. One
    that cannot be read is passed over: what a device keeps may be older than this version."""
    texts = _texts(payload, "own")
    if len(texts) > MOST:
        raise InputError(f"own parts: there must be at most {MOST}, got {len(texts)}", field="own")
    found = []
    for place, text in enumerate(texts):
        try:
            found += [(place, part) for part in read_own_parts(text)[:1]]
        except FileError:
            continue
    return found


def _kept_texts(part: Part) -> dict[str, str]:
    return {"kind": kind_of_part(part).id, "name": part.name, "toml": own_parts_toml([part])}


def _own_use(payload: Payload) -> dict[str, Any]:
    build, _ = _build(payload)
    parts = read_own_parts(_text(payload, "toml"))
    if len(parts) != 1:
        raise InputError("own parts: the text of one part must be given", field="toml")
    return {"link": link_of_build(_with_part(build, kind_of_part(parts[0]).id, parts[0]))}


def _own_file(payload: Payload) -> dict[str, Any]:
    return {"toml": own_parts_toml(part for _, part in _kept(payload))}


def _own_read(payload: Payload) -> dict[str, Any]:
    name = _text(payload, "name")[:80] or "parts.toml"
    try:
        parts = read_own_parts(_text(payload, "toml", longest=LARGEST_FILE + 1), name)
        if not parts:
            raise FileError([f"{name}: must hold at least one part, such as [[pack]]"])
    except FileError as error:
        shown = error.message.splitlines()
        return {
            "errors": [{"field": "", "message": sentence} for sentence in shown],
            "tree": page.own_file_errors(name, shown),
        }
    return {"parts": [_kept_texts(part) for part in parts]}


def _effect(p: Performance, before: Performance, system: str) -> str:
    speed_m_s, before_m_s = (float(x.top_speed_m_s[0, 0]) for x in (p, before))
    if speed_m_s != speed_m_s:  # NaN
        return "cannot fly"
    text = SPEED.text(speed_m_s, system)
    change = (
        "" if before_m_s != before_m_s else page.change_text(SPEED, before_m_s, speed_m_s, system)
    )
    return f"{text} flat out ({change})" if change else f"{text} flat out"


def _explain(payload: Payload) -> dict[str, Any]:
    found, _ = _report({**payload, "ranges": True})
    id = _text(payload, "figure")
    if id not in found.figures:
        raise InputError(f"no figure '{id[:40]}'{nearest(id[:40], found.figures)}", field="figure")
    return {"tree": page.explain_dialog(found.figures[id], _system(payload))}


def _own_form(payload: Payload) -> dict[str, Any]:
    build, _ = _build(payload)
    kind = kind_of(_text(payload, "kind"))
    current = build.parts.get(kind.id)
    typed = stated_texts(current) if current is not None and current.own else {}
    typed = _fields(payload) or typed
    guess, faults = part_from_texts(kind.id, typed) if typed else (None, ())
    errors = dict(reversed(faults))
    return {"tree": page.own_part_dialog(kind, typed, errors, guess)}


def _fields(payload: Payload) -> dict[str, str]:
    given = _table(payload, "fields")
    return {str(key)[:40]: str(value)[:400] for key, value in list(given.items())[:60]}


def _own_part(payload: Payload) -> dict[str, Any]:
    build, _ = _build(payload)
    kind = kind_of(_text(payload, "kind"))
    typed = _fields(payload)
    part, faults = part_from_texts(kind.id, typed)
    if part is None:
        errors = {key: sentence for key, sentence in reversed(faults)}
        return {
            "errors": [{"field": key, "message": sentence} for key, sentence in faults],
            "tree": page.own_part_dialog(kind, typed, errors),
        }
    changed = _with_part(build, kind.id, part)
    return {"link": link_of_build(changed), "kept": _kept_texts(part)}


def _day(payload: Payload) -> dict[str, Any]:
    build, _ = _build(payload)
    usual = {**vars(build.frame.day), "uptilt_rad": build.frame.uptilt_rad}
    given, refusal = _given(page.DAY, build, usual, payload)
    if refusal:
        return refusal
    uptilt = given.pop("uptilt_rad", build.uptilt_rad)
    day = dataclasses.replace(build.day, **given)
    return {"link": link_of_build(dataclasses.replace(build, day=day, uptilt_rad=uptilt))}


def _legs(payload: Payload) -> dict[str, Any]:
    build, _ = _build(payload)
    typed = _text(_table(payload, "fields"), "legs")
    try:
        legs = legs_from_text(typed) if typed.strip() else None
    except InputError as error:
        message = error.message.removeprefix(": ")
        tree = page.legs_editor(build, _system(payload), typed, message)
        return {**_wrong({"legs": message}), "tree": tree}
    return {"link": link_of_build(dataclasses.replace(build, legs=legs))}


def _options(payload: Payload) -> dict[str, Any]:
    """The boxes that are ticked, as a form sends them: those options are on, all others off."""
    build, _ = _build(payload)
    frame = frame_with(build.frame, _fields(payload).keys())
    return {"link": link_of_build(dataclasses.replace(build, frame=frame))}


def _shot(payload: Payload) -> dict[str, Any]:
    build, _ = _build(payload)
    usual = {**vars(build.frame.shot), "chase_speed_m_s": build.frame.chase_speed_m_s}
    given, refusal = _given(page.SHOT, build, usual, payload)
    if refusal:
        return refusal
    chase = given.pop("chase_speed_m_s", build.chase)
    shot = dataclasses.replace(build.framing, **given)
    return {"link": link_of_build(dataclasses.replace(build, chase_speed_m_s=chase, shot=shot))}


def _given(
    form: page.LinkForm, build: Build, usual: Mapping[str, Any], payload: Payload
) -> tuple[dict[str, Any], dict[str, Any]]:
    """What a form changes, by field; a field that was emptied goes back to the usual value. And
    the refusal, where something that was typed cannot be read."""
    system, typed = _system(payload), _fields(payload)
    changed = page.changed_texts(form, build, system, typed)
    faults: list[tuple[str, str]] = []
    keys = keys_of(form.record)
    found = read_table(changed, keys, lambda *fault: faults.append(fault), from_form=True)
    if faults:
        errors = dict(reversed(faults))
        return {}, {**_wrong(errors), "tree": page.link_editor(form, build, system, typed, errors)}
    emptied = (key.field for name, key in keys.items() if not typed.get(name, "").strip())
    return {**{field: usual[field] for field in emptied}, **found.values}, {}


def _wrong(errors: Mapping[str, str]) -> dict[str, Any]:
    return {"errors": [{"field": key, "message": text} for key, text in errors.items()]}


def _swap(payload: Payload) -> dict[str, Any]:
    build, _ = _build(payload)
    kind = kind_of(_text(payload, "kind"))
    part = library().shelf.part(kind.id, _text(payload, "part"))
    return {"link": link_of_build(_with_part(build, kind.id, part))}


def _catalogue(payload: Payload) -> dict[str, Any]:
    known = library()
    return {
        "slipfit": __version__,
        "frames": [{"slug": f.slug, "name": f.name} for f in known.frames.values()],
        "parts": {kind.id: [part.id for part in known.shelf.of(kind.id)] for kind in KINDS},
    }


CALLS: Mapping[str, Callable[[Payload], dict[str, Any]]] = {
    "catalogue": _catalogue,
    "choices": _choices,
    "judged_choice": _judged_choice,
    "day": _day,
    "legs": _legs,
    "options": _options,
    "explain": _explain,
    "own_file": _own_file,
    "own_form": _own_form,
    "own_part": _own_part,
    "own_read": _own_read,
    "own_use": _own_use,
    "page": _page,
    "report": _report_call,
    "shot": _shot,
    "swap": _swap,
}


def call(name: str, payload: Payload) -> dict[str, Any]:
    """The answer to one request; it never raises for what a payload holds."""
    try:
        if not isinstance(name, str) or name not in CALLS:
            got = str(name)[:SHOWN]
            raise InputError(f"api: no call '{got}'{nearest(got, CALLS)}")
        if not isinstance(payload, Mapping):
            raise InputError(f"api: the payload must be a table, got {type(payload).__name__}")
        return {"ok": True, "result": CALLS[name](payload)}
    except SlipfitError as error:
        low = high = None
        if isinstance(error, ValidityError):
            low, high = (x if math.isfinite(x) else None for x in (error.low, error.high))
        return _refusal(type(error).__name__, error.message, error.field, low, high)
    except Exception:
        return _refusal("fault", traceback.format_exc(limit=8))


def _refusal(
    kind: str,
    message: str,
    field: str | None = None,
    low: float | None = None,
    high: float | None = None,
) -> dict[str, Any]:
    return {
        "ok": False,
        "error": {"kind": kind, "message": message, "field": field, "low": low, "high": high},
    }


def call_json(name: str, text: str) -> str:
    """`call` on JSON text. What is not JSON is refused like any other payload."""
    try:
        payload = json.loads(text)
    except (ValueError, RecursionError):
        return json.dumps(_refusal("InputError", "api: the payload must be JSON"))
    answer = call(name, payload)
    try:
        return json.dumps(answer, ensure_ascii=False, allow_nan=False)
    except ValueError:
        message = f"api: the answer to '{name}' holds a number that is not finite"
        return json.dumps(_refusal("fault", message))
