"""The language of build notes: conditions on a build, and the numbers that notes may show.

    pack.cell_count >= 8
    top_speed > 250 km/h and not (video is missing)
    pack_bay is clashes or pack_bay is snug
    motor.mount_screw is M2
    day.pack_temperature < 15 C
    option.spinners is on

A condition compares a name with a quantity in any unit of its dimension (`< <= = >= >`), with
another name, or asks whether it `is` (or `is not`) a word; `and`, `or`, `not` and brackets join
conditions. Every name is or may be `missing`, and a number of a part may be `guessed`. A comparison
with a value that is missing does not hold.

Names are figures (`top_speed`), checks (`pack_bay`), parts and their keys (`motor`, `pack.mass`),
the day (`day.height`), the frame's (`wire.pack_gauge`), its joints (`joint.motors.length`), its
options (`option.spinners`), and a few values that follow from these (`pack.full_voltage`).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any, Final

from slipfit.build import Build
from slipfit.checks.fit_checks import FIT_CHECKS
from slipfit.checks.fit_screws import screw_name
from slipfit.checks.limits import LIMITS
from slipfit.checks.verdict import FIT_STATES, LIMIT_STATES, Verdict
from slipfit.errors import InputError, nearest
from slipfit.figures.figure import Figure
from slipfit.figures.registry import FIGURES
from slipfit.fit.board import column_height
from slipfit.fit.camera import cage_fit, uptilt_reach
from slipfit.fit.screws import ScrewFit, screw_fits
from slipfit.frame.frame import Day, Frame, Wire
from slipfit.parts.key import Key, keys_of
from slipfit.parts.kinds import KINDS
from slipfit.parts.part import OWN
from slipfit.parts.pattern import HolePattern
from slipfit.units import (
    LENGTH_MM,
    MASS,
    SPEED,
    TEMPERATURE,
    THIN,
    TORQUE,
    UNITS,
    VOLTAGE,
    Display,
    in_unit,
    quantity_from_text,
)

LONGEST: Final = 400  # characters of a condition
MOST_NESTED: Final = 20
MISSING, GUESSED = "missing", "guessed"
EMPTY_CELL_V: Final = 3.3  # what a pack is called empty at, resting; common practice, no source
STORED_CELL_V: Final = 3.8  # common practice, no source
SPIKE_MARGIN: Final = 1.3  # of a capacitor's rating over a full pack; common practice, no source
CAPACITORS_V: Final = (16.0, 25.0, 35.0, 50.0, 63.0, 80.0, 100.0)  # ratings that are sold; memory


class NoteError(InputError):
    """A condition or a name that cannot be understood."""


@dataclass(frozen=True, kw_only=True)
class Facts:
    """What notes may ask about: a build and what was worked out for it."""

    build: Build
    figures: Mapping[str, Figure]
    verdicts: Sequence[Verdict]

    @cached_property
    def screws(self) -> Mapping[str, ScrewFit]:
        """The build's joints by id."""
        return {fit.joint.id: fit for fit in screw_fits(self.build)}


@dataclass(frozen=True, kw_only=True)
class Name:
    """Something that notes may name.

    `dimension` is one of `units.UNITS`, `number`, or `word` for what can only be compared with
    `is`; `words` are those that it can be, empty where any text is possible. `read` is its value in
    a build, None where it is missing; `shown` its text.
    """

    id: str
    dimension: str
    words: tuple[str, ...] = ()
    read: Callable[[Facts], float | str | None]
    shown: Callable[[Facts, str], str]
    guessed: Callable[[Facts], bool] | None = None


# --- names -------------------------------------------------------------------------------------

_BY_DIMENSION: Final[Mapping[str, Display]] = {
    "length": LENGTH_MM, "mass": MASS, "speed": SPEED, "temperature": TEMPERATURE,
    "torque": TORQUE, "voltage": VOLTAGE,
}  # fmt: skip
_SIGNS: Final = {"C": "°C", "deg": "°", "ohm": "Ω", "mohm": "mΩ", "N cm": "N·cm", "cm2": "cm²"}
_WORDY: Final = ("text", "choice", "pattern", "flag")


def _quantity_text(key: Key, value: float, system: str) -> str:
    """A value of a part in its own unit, or in the imperial one where there is one."""
    if system == "imperial" and key.dimension in _BY_DIMENSION:
        return _BY_DIMENSION[key.dimension].text(value, system)
    number = f"{in_unit(value, key.dimension, key.unit):.4g}".replace("-", "−")
    unit = _SIGNS.get(key.unit, key.unit)
    return f"{number}{'' if unit in ('°', '') else THIN}{unit}"


def _key_text(key: Key, value: Any, system: str) -> str:
    if value is None or value == "":
        return "none"
    if isinstance(value, HolePattern):
        return value.text().replace("x", " × ") + f"{THIN}mm"
    if key.is_quantity:
        return _quantity_text(key, float(value), system)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:.4g}".replace("-", "−") if isinstance(value, float) else str(value)


def _key_name(id: str, key: Key, owner: Callable[[Facts], Any]) -> Name | None:
    """A key of a record, such as `pack.mass`."""
    if key.dimension not in (*UNITS, "number", "count", *_WORDY):
        return None

    def raw(facts: Facts) -> Any:
        record = owner(facts)
        return None if record is None else getattr(record, key.field)

    def read(facts: Facts) -> float | str | None:
        value = raw(facts)
        if value is None or value == "":
            return None
        if isinstance(value, HolePattern):
            return value.text()
        if isinstance(value, bool):
            return "true" if value else "false"
        return value if isinstance(value, str) else float(value)

    def guessed(facts: Facts) -> bool:
        return key.field in getattr(owner(facts), "guessed", ())

    words: tuple[str, ...] = ()
    if key.dimension == "choice":
        words = key.words
    elif key.dimension == "flag":
        words = ("true", "false")
    dimension = "number" if key.dimension == "count" else key.dimension
    return Name(
        id=id,
        dimension="word" if dimension in _WORDY else dimension,
        words=words,
        read=read,
        shown=lambda facts, system: _key_text(key, raw(facts), system),
        guessed=guessed,
    )


def _part(kind: str) -> Callable[[Facts], Any]:
    return lambda facts: facts.build.parts.get(kind)


def _part_names() -> Iterable[Name]:
    for kind in KINDS:
        owner = _part(kind.id)
        yield Name(
            id=kind.id,
            dimension="word",
            read=lambda facts, owner=owner: getattr(owner(facts), "id", None),  # type: ignore[misc]
            shown=lambda facts, _, owner=owner: getattr(owner(facts), "name", "none"),  # type: ignore[misc]
            guessed=lambda facts, owner=owner: bool(getattr(owner(facts), "guessed", ())),  # type: ignore[misc]
        )
        for name, key in keys_of(kind.cls).items():
            made = _key_name(f"{kind.id}.{name}", key, owner)
            if made is not None:
                yield made


def _record_names(prefix: str, cls: type, owner: Callable[[Facts], Any]) -> Iterable[Name]:
    for name, key in keys_of(cls).items():
        made = _key_name(f"{prefix}.{name}", key, owner)
        if made is not None:
            yield made


def _figure_names() -> Iterable[Name]:
    for kind in FIGURES:

        def read(facts: Facts, id: str = kind.id) -> float | None:
            figure = facts.figures.get(id)
            return None if figure is None else figure.value

        def shown(facts: Facts, system: str, id: str = kind.id) -> str:
            figure = facts.figures.get(id)
            return "no value" if figure is None else figure.text(system)

        yield Name(id=kind.id, dimension=kind.display.dimension, read=read, shown=shown)


def _check_names() -> Iterable[Name]:
    families = [(check.id, FIT_STATES) for check in FIT_CHECKS]
    families += [(limit.id, LIMIT_STATES) for limit in LIMITS]
    for id, states in families:

        def read(facts: Facts, id: str = id) -> str | None:
            return next((v.state for v in facts.verdicts if v.id == id), None)

        yield Name(
            id=id, dimension="word", words=states, read=read,
            shown=lambda facts, _, read=read: read(facts) or "not judged",  # type: ignore[misc]
        )  # fmt: skip


def _value(id: str, display: Display, compute: Callable[[Build], float | None]) -> Name:
    """A value that follows from a build."""

    def shown(facts: Facts, system: str) -> str:
        value = compute(facts.build)
        return "none" if value is None else display.text(value, system)

    return Name(
        id=id, dimension=display.dimension, read=lambda facts: compute(facts.build), shown=shown
    )


def _cells(build: Build, cell_V: float | None) -> float | None:
    pack = build.parts.get("pack")
    if pack is None:
        return None
    return pack.cell_count * (cell_V or pack.full_cell_V)  # type: ignore[attr-defined,no-any-return]


def _capacitor(build: Build) -> float | None:
    full = _cells(build, None)
    if full is None:
        return None
    return next((v for v in CAPACITORS_V if v >= SPIKE_MARGIN * full), None)


def _washer(build: Build) -> float | None:
    camera = build.parts.get("camera")
    if camera is None:
        return None
    return cage_fit(camera.width_m, build.frame.camera_seat.widths_m).washer_m  # type: ignore[attr-defined]


def _largest_uptilt(build: Build) -> float | None:
    camera = build.parts.get("camera")
    return uptilt_reach(build.frame.camera_seat, camera)[1] if camera else None  # type: ignore[arg-type]


def _boards(build: Build) -> float | None:
    boards = [build.parts.get("esc"), build.parts.get("stack")]
    if None in boards:
        return None
    return column_height([board.height_m for board in boards])  # type: ignore[union-attr]


_ONE_DECIMAL_V: Final = Display(
    dimension="voltage", metric="V", imperial="V", metric_decimals=1, imperial_decimals=1
)
_WHOLE_V: Final = Display(dimension="voltage", metric="V", imperial="V")
_PLAIN: Final = Display(dimension="ratio", metric="", imperial="")
_ANGLE: Final = Display(dimension="angle", metric="deg", imperial="deg")
VALUES: Final[tuple[Name, ...]] = (
    _value("pack.full_voltage", _ONE_DECIMAL_V, lambda b: _cells(b, None)),
    _value("pack.empty_voltage", _ONE_DECIMAL_V, lambda b: _cells(b, EMPTY_CELL_V)),
    _value("pack.storage_voltage", _ONE_DECIMAL_V, lambda b: _cells(b, STORED_CELL_V)),
    _value("capacitor.voltage", _WHOLE_V, _capacitor),
    _value("camera.washer", LENGTH_MM, _washer),
    _value("camera.largest_uptilt", _ANGLE, _largest_uptilt),
    _value("boards.height", LENGTH_MM, _boards),
    _value("uptilt", _ANGLE, lambda b: b.uptilt_rad),
    _value("chase_speed", SPEED, lambda b: b.chase or None),
    _value("rotor_count", _PLAIN, lambda b: float(b.rotor_count)),
)
JOINT_FIELDS: Final = (
    "screw", "length", "engagement", "room", "torque", "margin", "count", "key", "state",
)  # fmt: skip


def _joint_name(joint_id: str, field: str) -> Name:
    def fit_of(facts: Facts) -> ScrewFit | None:
        return facts.screws.get(joint_id)

    numbers: dict[str, tuple[str, Callable[[ScrewFit], float]]] = {
        "length": ("length", lambda fit: fit.length_m),
        "engagement": ("length", lambda fit: fit.engagement_m),
        "room": ("length", lambda fit: fit.end_gap_m),
        "torque": ("torque", lambda fit: fit.torque_Nm),
        "margin": ("number", lambda fit: fit.margin),
        "count": ("number", lambda fit: float(fit.joint.count)),
        "key": ("length", lambda fit: fit.key_mm * 1e-3),
    }
    texts: dict[str, Callable[[ScrewFit, str], str]] = {
        "screw": lambda fit, _: screw_name(fit),
        "state": lambda fit, _: fit.state,
        "length": lambda fit, _: f"{fit.length_m * 1e3:g}{THIN}mm",  # as shops sell them
        "engagement": lambda fit, system: LENGTH_MM.text(fit.engagement_m, system),
        "room": lambda fit, system: LENGTH_MM.text(fit.end_gap_m, system),
        "torque": lambda fit, system: TORQUE.text(fit.torque_Nm, system),
        "margin": lambda fit, _: f"{fit.margin:.1f}",
        "count": lambda fit, _: str(fit.joint.count),
        "key": lambda fit, _: f"{fit.key_mm:g}{THIN}mm",
    }

    def read(facts: Facts) -> float | str | None:
        fit = fit_of(facts)
        if fit is None:
            return None
        if field in numbers:
            return numbers[field][1](fit)
        return fit.thread.name if field == "screw" else fit.state

    def shown(facts: Facts, system: str) -> str:
        fit = fit_of(facts)
        return "none" if fit is None else texts[field](fit, system)

    return Name(
        id=f"joint.{joint_id}.{field}",
        dimension=numbers[field][0] if field in numbers else "word",
        words=FIT_STATES if field == "state" else (),
        read=read,
        shown=shown,
    )


def _option_name(id: str) -> Name:
    def read(facts: Facts) -> str:
        return "on" if id in facts.build.frame.on else "off"

    return Name(
        id=f"option.{id}", dimension="word", words=("on", "off"), read=read,
        shown=lambda facts, _: read(facts),
    )  # fmt: skip


@lru_cache(maxsize=1)
def _common() -> Mapping[str, Name]:
    """Names that every frame has."""
    found = [
        *_figure_names(),
        *_check_names(),
        *_part_names(),
        *_record_names("day", Day, lambda facts: facts.build.day),
        *_record_names("frame", Frame, lambda facts: facts.build.frame),
        *_record_names("wire", Wire, lambda facts: facts.build.frame.wire),
        *VALUES,
    ]
    return {name.id: name for name in found}


def known_names(frame: Frame) -> tuple[str, ...]:
    """Every name that the notes of a frame may use."""
    joints = [f"joint.{j.id}.{field}" for j in frame.joints for field in JOINT_FIELDS]
    return (*_common(), *joints, *(f"option.{option.id}" for option in frame.options))


def name_of(id: str, frame: Frame) -> Name:
    """The name with an id; NoteError names the nearest."""
    common = _common()
    if id in common:
        return common[id]
    head, _, rest = id.partition(".")
    joint, _, field = rest.rpartition(".")
    if head == "joint" and field in JOINT_FIELDS and joint in {j.id for j in frame.joints}:
        return _joint_name(joint, field)
    if head == "option" and rest in {option.id for option in frame.options}:
        return _option_name(rest)
    known = known_names(frame)
    alike = [name for name in known if name.startswith(f"{head}.")]
    if not alike:
        alike = sorted({name.split(".")[0] for name in known})
        closest = nearest(head[:40], alike).split(" There are:")[0].rstrip(".")
        raise NoteError(f"no name '{id[:60]}'{closest}")
    raise NoteError(f"no name '{id[:60]}'{nearest(id[:60], alike)}")


def value_text(id: str, facts: Facts, system: str) -> str:
    """The text of a name in a sentence, such as `4.5 mm`."""
    return name_of(id, facts.build.frame).shown(facts, system)


# --- conditions --------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class Compare:
    """A name against a quantity as typed, or against another name."""

    name: str
    sign: str
    typed: str = ""
    other: str = ""


@dataclass(frozen=True, kw_only=True)
class Is:
    """A name against a word."""

    name: str
    word: str
    negated: bool


@dataclass(frozen=True, kw_only=True)
class Joined:
    """Conditions that must `all` hold, or of which one must."""

    parts: tuple[Condition, ...]
    all: bool


@dataclass(frozen=True, kw_only=True)
class Negated:
    """A condition that must not hold."""

    part: Condition


Condition = Compare | Is | Joined | Negated

_SPACE = re.compile(r"\s*")
_NAME = re.compile(r"[a-z][a-z0-9_]*(?:\.[a-z0-9_-]+)*")
_KEYWORD = re.compile(r"(and|or|not|is)\b")
_SIGN = re.compile(r"<=|>=|≤|≥|<|>|=")
_NUMBER = re.compile(r"[-−]?\d")
_TAIL = re.compile(r"(.+?)(?=\s+(?:and|or)\b|\s*\)|\s*$)")
_QUOTED = re.compile(r'"([^"]*)"')
_SIGNS_OF: Final = {"≤": "<=", "≥": ">="}
_RESERVED: Final = frozenset({"and", "or", "not", "is"})


class _Reader:
    """Reads one condition from left to right."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0

    def condition(self) -> Condition:
        if not self.text.strip():
            raise NoteError("a condition must be given, such as pack.cell_count >= 8")
        if len(self.text) > LONGEST:
            raise NoteError(f"a condition must be at most {LONGEST} characters")
        made = self._any(0)
        self._skip()
        if self.at < len(self.text):
            raise NoteError(
                f"'and', 'or' or the end must stand before '{self.text[self.at :][:30]}'"
            )
        return made

    def _skip(self) -> None:
        match = _SPACE.match(self.text, self.at)
        self.at = match.end() if match else self.at

    def _take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        self._skip()
        match = pattern.match(self.text, self.at)
        if match:
            self.at = match.end()
        return match

    def _word(self, word: str) -> bool:
        self._skip()
        match = _KEYWORD.match(self.text, self.at)
        if match is None or match[1] != word:
            return False
        self.at = match.end()
        return True

    def _any(self, depth: int) -> Condition:
        return self._joined(depth, "or", lambda: self._all(depth))

    def _all(self, depth: int) -> Condition:
        return self._joined(depth, "and", lambda: self._one(depth))

    def _joined(self, depth: int, word: str, part: Callable[[], Condition]) -> Condition:
        if depth > MOST_NESTED:
            raise NoteError(f"brackets must be at most {MOST_NESTED} deep")
        parts = [part()]
        while self._word(word):
            parts.append(part())
        return parts[0] if len(parts) == 1 else Joined(parts=tuple(parts), all=word == "and")

    def _one(self, depth: int) -> Condition:
        if self._word("not"):
            return Negated(part=self._one(depth + 1))
        self._skip()
        if self.text[self.at : self.at + 1] == "(":
            self.at += 1
            made = self._any(depth + 1)
            self._skip()
            if self.text[self.at : self.at + 1] != ")":
                raise NoteError("a bracket that opens must close")
            self.at += 1
            return made
        name = self._name()
        if self._word("is"):
            negated = self._word("not")
            return Is(name=name, word=self._is_what(name), negated=negated)
        sign = self._take(_SIGN)
        if sign is None:
            raise NoteError(f"'{name}' must be compared, with < <= = >= > or 'is'")
        written = _SIGNS_OF.get(sign[0], sign[0])
        self._skip()
        if _NUMBER.match(self.text, self.at):
            typed = self._take(_TAIL)
            assert typed is not None
            return Compare(name=name, sign=written, typed=typed[1].strip())
        return Compare(name=name, sign=written, other=self._name())

    def _name(self) -> str:
        match = self._take(_NAME)
        if match is None or match[0] in _RESERVED:
            got = f"'{self.text[self.at :][:30]}'" if match is None else f"'{match[0]}'"
            raise NoteError(f"a name must stand here, got {got}")
        return match[0]

    def _is_what(self, name: str) -> str:
        quoted = self._take(_QUOTED)
        if quoted:
            return quoted[1]
        match = self._take(_TAIL)
        if match is None:
            raise NoteError(f"'{name} is' must be followed by a word")
        return match[1].strip()


@lru_cache(maxsize=512)
def condition(text: str) -> Condition:
    """A condition from its text; NoteError says what is wrong with its form."""
    return _Reader(text).condition()


def names_in(made: Condition) -> tuple[str, ...]:
    """The names that a condition asks about."""
    if isinstance(made, Joined):
        return tuple(name for part in made.parts for name in names_in(part))
    if isinstance(made, Negated):
        return names_in(made.part)
    if isinstance(made, Compare) and made.other:
        return (made.name, made.other)
    return (made.name,)


def condition_problem(
    text: str, frame: Frame, shelf: Mapping[str, Iterable[str]] | None = None
) -> str:
    """What is wrong with a condition in the notes of a frame, empty where nothing is; `shelf` has
    the ids of parts by kind."""
    try:
        _check(condition(text), frame, shelf or {})
    except InputError as error:
        return error.message.removeprefix(": ")
    return ""


def _check(made: Condition, frame: Frame, shelf: Mapping[str, Iterable[str]]) -> None:
    if isinstance(made, Joined):
        for part in made.parts:
            _check(part, frame, shelf)
    elif isinstance(made, Negated):
        _check(made.part, frame, shelf)
    elif isinstance(made, Compare):
        name = name_of(made.name, frame)
        _require_number(name)
        if made.other:
            other = name_of(made.other, frame)
            _require_number(other)
            if other.dimension != name.dimension:
                raise NoteError(
                    f"'{name.id}' is a {name.dimension} and '{other.id}' a {other.dimension}: they "
                    "cannot be compared"
                )
        else:
            _quantity(name, made.typed)
    else:
        _check_word(name_of(made.name, frame), made.word, shelf)


def _require_number(name: Name) -> None:
    if name.dimension == "word":
        words = f" ({', '.join(name.words)})" if name.words else ""
        raise NoteError(f"'{name.id}' must be compared with 'is' and a word{words}")


def _quantity(name: Name, typed: str) -> float:
    dimension = "ratio" if name.dimension == "number" else name.dimension
    return quantity_from_text("", name.id, typed, dimension)


def _check_word(name: Name, word: str, shelf: Mapping[str, Iterable[str]]) -> None:
    special = (MISSING, GUESSED) if name.guessed else (MISSING,)
    if word in special:
        return
    if name.dimension != "word":
        _quantity(name, word)
        return
    known: tuple[str, ...] = name.words
    if name.id in shelf:
        known = (OWN, *shelf[name.id])
    if known and word not in known:
        raise NoteError(f"'{name.id}' is never '{word[:40]}'{nearest(word[:40], known)}")


def holds(text: str, facts: Facts) -> bool:
    """Whether a condition holds in a build; NoteError where it cannot be understood."""
    return _holds(condition(text), facts)


def _holds(made: Condition, facts: Facts) -> bool:
    if isinstance(made, Joined):
        found = (_holds(part, facts) for part in made.parts)
        return all(found) if made.all else any(found)
    if isinstance(made, Negated):
        return not _holds(made.part, facts)
    name = name_of(made.name, facts.build.frame)
    value = name.read(facts)
    if isinstance(made, Is):
        return _is(name, value, made.word, facts) != made.negated
    _require_number(name)
    if made.other:
        against = name_of(made.other, facts.build.frame).read(facts)
    else:
        against = _quantity(name, made.typed)
    if not isinstance(value, float) or not isinstance(against, float):
        return False
    slack = 1e-9 * max(abs(value), abs(against))  # 8.0 in and 203.2 mm are equal
    return {
        "<": value < against - slack,
        "<=": value <= against + slack,
        "=": abs(value - against) <= slack,
        ">=": value >= against - slack,
        ">": value > against + slack,
    }[made.sign]


def _is(name: Name, value: float | str | None, word: str, facts: Facts) -> bool:
    if word == MISSING:
        return value is None
    if word == GUESSED and name.guessed:
        return name.guessed(facts)
    if value is None:
        return False
    if isinstance(value, str):
        return value == word
    against = _quantity(name, word)
    return abs(value - against) <= 1e-9 * max(abs(value), abs(against))


# --- times and tools ---------------------------------------------------------------------------
# A list as one text: entries joined by `|`, each with ` when CONDITION` behind it where it is only
# needed then. The site's builder writes them from the page; both places work them out here.

WHEN: Final = " when "


def entries(text: str, facts: Facts) -> tuple[str, ...]:
    """The entries of a list that are needed in a build."""
    kept = []
    for entry in text.split("|"):
        what, _, asked = entry.partition(WHEN)
        if what.strip() and (not asked or holds(asked, facts)):
            kept.append(what.strip())
    return tuple(kept)


def minutes(text: str, facts: Facts) -> float:
    """The sum of a list of times. [min]"""
    return sum(quantity_from_text("", "time", t, "time") / 60.0 for t in entries(text, facts))


def tools(text: str, facts: Facts) -> tuple[str, ...]:
    """A list of tools, each once. `keys` are those of all screws, `key ID` that of one joint."""
    found: dict[str, None] = {}
    fits = facts.screws
    for entry in entries(text, facts):
        word, _, joint = entry.partition(" ")
        if entry == "keys" or (word == "key" and joint in fits):
            chosen = fits.values() if entry == "keys" else (fits[joint],)
            for size in sorted({fit.key_mm for fit in chosen}):
                found.setdefault(f"{size:g}{THIN}mm hex key")
        elif not (word == "key" and joint in {j.id for j in facts.build.frame.joints}):
            found.setdefault(entry)
    return tuple(found)
