"""A frame from the text of its file (`frame.toml`), with every mistake named at its line."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, Final

from slipfit.errors import InputError, SlipfitError, nearest
from slipfit.frame.frame import (
    BOXED,
    Access,
    Arm,
    Bay,
    BodyEntry,
    CameraSeat,
    Day,
    Frame,
    Item,
    KeepOut,
    MotorSeat,
    Option,
    RotorMount,
    Shot,
    StackSeat,
    Wire,
)
from slipfit.frame.joint import ID, Joint, read_layers
from slipfit.frame.leg import DEFAULT_LEGS, Leg, flight_problem, leg_problem
from slipfit.frame.options import as_shipped, settings_of
from slipfit.frame.outline import outline_of
from slipfit.frame.shape import shape_keys
from slipfit.parts.key import key_name, keys_of
from slipfit.parts.kinds import KINDS
from slipfit.parts.record import plain_line, read_table
from slipfit.parts.shelf import Shelf
from slipfit.parts.source import FileError, Source, source_from_text
from slipfit.physics.body import MODELS
from slipfit.physics.material import MATERIALS, printed_mass

if TYPE_CHECKING:
    from pathlib import Path

SLUG: Final = re.compile(r"[a-z0-9][a-z0-9-]{0,31}")
# table of the file -> record, or a list of records
ONE: Final[Mapping[str, type]] = {
    "day": Day, "motor_seat": MotorSeat, "stack_seat": StackSeat, "camera_seat": CameraSeat,
    "wire": Wire, "shot": Shot,
}  # fmt: skip
MANY: Final[Mapping[str, type]] = {
    "rotor": RotorMount, "body": BodyEntry, "bay": Bay, "hardware": Item, "arm": Arm,
    "joint": Joint, "leg": Leg, "option": Option, "keep_out": KeepOut, "access": Access,
}  # fmt: skip
# tables and lists that may be left out
OPTIONAL: Final = ("arm", "shot", "leg", "joint", "option", "keep_out", "access")
NAMED: Final[Mapping[str, tuple[str, ...]]] = {  # plain text keys of a list's records
    "rotor": (), "body": ("name", "model"), "bay": ("id",), "hardware": ("name",),
    "arm": ("name",), "joint": ("id",), "leg": (), "option": ("id",),
    "keep_out": ("name",), "access": ("name",),
}  # fmt: skip
MOST_ENTRIES: Final = 64  # entries of one list


def read_frame(text: str, slug: str, file: str = "frame.toml") -> Frame:
    """A frame from its file; FileError lists everything that is wrong with it."""
    source = source_from_text(text, file)
    reader = _FrameReader(source)
    if not SLUG.fullmatch(slug):
        reader.problems.append(
            f"{file}: the frame's folder must be named in small letters, digits and hyphens, "
            f"got '{slug[:40]}'"
        )
    frame = reader.frame(slug)
    if frame is None:
        raise FileError(reader.problems)
    return frame


def frame_from_folder(folder: Path) -> Frame:
    """A frame from a folder that holds its `frame.toml` (native use only)."""
    path = folder / "frame.toml"
    return read_frame(path.read_text(encoding="utf-8"), folder.name, f"{folder.name}/frame.toml")


def default_problems(frame: Frame, shelf: Shelf, file: str = "frame.toml") -> tuple[str, ...]:
    """What is wrong with a frame's default parts, given the shelf."""
    found = []
    for kind, id in frame.defaults.items():
        try:
            shelf.part(kind, id)
        except InputError as error:
            found.append(f"{file}: [defaults] {kind}: {error.message.removeprefix('shelf: ')}")
    return tuple(found)


class _FrameReader:
    """Reads one file; problems are collected, and records that have none are kept."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.problems: list[str] = []

    def say(self, path: tuple[str | int, ...], sentence: str) -> None:
        self.problems.append(f"{self.source.place(path)}: {sentence}")

    def frame(self, slug: str) -> Frame | None:
        data = self.source.data
        top = read_table(
            data,
            keys_of(Frame),
            lambda key, sentence: self.say((key,), sentence),
            also=(*ONE, *MANY, "defaults"),
        )
        singles = {name: self._single(name, cls) for name, cls in ONE.items()}
        lists = {name: self._list(name, cls) for name, cls in MANY.items()}
        defaults = self._defaults(data.get("defaults"))
        self._together(lists, singles)
        if self.problems:
            return None
        bodies = tuple(lists["body"])
        frame = Frame(
            slug=slug,
            rotors=tuple(lists["rotor"]),
            bodies=bodies,
            bays=tuple(lists["bay"]),
            hardware=tuple(lists["hardware"]),
            arms=tuple(lists["arm"]),
            joints=tuple(lists["joint"]),
            keep_outs=tuple(lists["keep_out"]),
            accesses=tuple(lists["access"]),
            legs=tuple(lists["leg"]) or DEFAULT_LEGS,
            outline=outline_of(bodies),
            defaults=defaults,
            options=tuple(lists["option"]),
            **singles,
            **top.values,
        )
        return as_shipped(frame)

    def _single(self, name: str, cls: type) -> Any:
        table = self.source.data.get(name, {} if name in OPTIONAL else None)
        if not isinstance(table, dict):
            what = "must be given" if table is None else f"must be a table written [{name}]"
            self.say((name,), f"[{name}] {what}")
            return None
        return self._record(cls, table, (name,), f"[{name}]", ())

    def _list(self, name: str, cls: type) -> list[Any]:
        tables = self.source.data.get(name, [])
        if not isinstance(tables, list) or not all(isinstance(table, dict) for table in tables):
            self.say((name,), f"[{name}] must be written [[{name}]], one for each")
            return []
        least = 0 if name in OPTIONAL else 1
        if not least <= len(tables) <= MOST_ENTRIES:
            self.say(
                (name,),
                f"[[{name}]] must be given {least} to {MOST_ENTRIES} times, got {len(tables)}",
            )
            return []
        read = []
        for index, table in enumerate(tables):
            label = table.get("name", table.get("id"))
            number = f"{name} {index + 1}"
            who = f"[{name}] '{label[:40]}'" if isinstance(label, str) else f"[{number}]"
            read.append(self._record(cls, table, (name, index), who, NAMED[name]))
        return [record for record in read if record is not None]

    def _record(
        self, cls: type, table: Mapping[str, Any], path: tuple[str | int, ...], who: str,
        named: tuple[str, ...],
    ) -> Any:  # fmt: skip
        before = len(self.problems)

        def say(key: str, sentence: str) -> None:
            self.say((*path, key), f"{who}: {sentence}")

        texts = {name: self._text(table, name, say) for name in named}
        keys = dict(keys_of(cls))
        extra: dict[str, Any] = {}
        if cls is BodyEntry:
            shape_table = {k: v for k, v in table.items() if k not in keys and k not in named}
            table = {k: v for k, v in table.items() if k in keys or k in named}
            extra["shape"] = self._shape(texts["model"], shape_table, say)
        if cls is Joint:
            extra["grip"], extra["depth"] = read_layers(table, say)
            table = {k: v for k, v in table.items() if k not in ("grip", "depth")}
        if cls in (Joint, Option) and texts["id"] and not ID.fullmatch(texts["id"]):
            say("id", f"id must be small letters, digits and hyphens, got '{texts['id'][:40]}'")
        reading = read_table(table, keys, say, also=named)
        if len(self.problems) > before:
            return None
        if cls is Bay:
            self._bay(reading.values, say)
        if cls is Item:
            reading.values["mass_kg"] = self._mass(reading.values, say)
        if cls is Arm:
            self._arm(reading.values, say)
        if cls is CameraSeat and (
            reading.values["uptilt_low_rad"] > reading.values["uptilt_high_rad"]
        ):
            say("uptilt_low", "uptilt_low must be at most uptilt_high")
        if cls is CameraSeat and (
            0.0 < reading.values.get("behind_m", 0.0) < reading.values["max_depth_m"] / 2
        ):
            say("behind", "behind must be at least half of max_depth, or left out")
        if cls is CameraSeat and (
            reading.values.get("window_start_m", 0.0) > reading.values.get("window_end_m", 0.0)
        ):
            say("window_start", "window_start must be at most window_end")
        if len(self.problems) > before:
            return None
        record = cls(**texts, **extra, **reading.values)
        problem = leg_problem(record) if isinstance(record, Leg) else None
        if problem:
            say(*problem)
        return None if problem else record

    def _text(self, table: Mapping[str, Any], name: str, say: Callable[[str, str], None]) -> str:
        text = table.get(name)
        if not isinstance(text, str) or not text.strip():
            say(name, f"{name} must be given, as text in quotes")
            return ""
        try:
            return plain_line("", name, text)
        except InputError as error:
            say(name, error.message.removeprefix(": "))
            return ""

    def _shape(self, model: str, table: Mapping[str, Any], say: Callable[[str, str], None]) -> Any:
        if not model:
            return None
        if model not in MODELS:
            say("model", f"no body model '{model[:40]}'{nearest(model[:40], MODELS)}")
            return None
        cls = MODELS[model].shape
        faults: list[str] = []

        def fault(key: str, sentence: str) -> None:
            faults.append(key)
            say(key, sentence)

        reading = read_table(table, shape_keys(cls), fault)
        if faults:
            return None
        try:
            return cls(**reading.values)
        except SlipfitError as error:
            say(key_name(error.field or "model"), error.message)
            return None

    def _bay(self, values: Mapping[str, Any], say: Callable[[str, str], None]) -> None:
        shape = values.get("shape", "box")
        needed = ("diameter_m",) if shape == "tube" else ("width_m", "height_m")
        if shape == "tapered":
            needed = (*needed, "end_width_m", "end_height_m")
        for field in needed:
            if values.get(field, 0.0) <= 0.0:
                name = field.removesuffix("_m")
                say(name, f"{name} must be given for a bay of shape '{shape}'")
        sides = [values.get(field, 0.0) for field in needed if field != "diameter_m"]
        if sides and min(sides) > 0.0 and values.get("corner_m", 0.0) > min(sides) / 2:
            say(
                "corner",
                f"corner must be at most half of the bay's shortest side, {min(sides) * 500:g} mm, "
                f"got {values['corner_m'] * 1e3:g} mm",
            )
        also = values.get("also", ())
        if not also:
            return
        if shape != "box" or values.get("corner_m", 0.0) > 0.0:
            say("also", "also must be left out unless the bay is a box without rounded corners")
        if values["kind"] not in BOXED or len({values["kind"], *also}) <= len(also):
            say("also", f"also must be other kinds than {values['kind']}, of: {', '.join(BOXED)}")

    def _mass(self, values: Mapping[str, Any], say: Callable[[str, str], None]) -> float:
        """The mass of an item: as weighed, or of its volume in its material."""
        weighed, volume = values.get("mass_kg", 0.0), values.get("volume_m3", 0.0)
        if (weighed > 0.0) == (volume > 0.0):
            say("mass", "mass must be given, or volume and material, and not both")
            return 0.0
        if weighed > 0.0:
            return float(weighed)
        if not values.get("material"):
            say("material", "material must be given beside volume")
            return 0.0
        return float(
            printed_mass(
                volume,
                MATERIALS[values["material"]].density_kg_m3,
                values.get("infill", 1.0),
                values.get("walls", Item.walls),
            )
        )

    def _arm(self, values: Mapping[str, Any], say: Callable[[str, str], None]) -> None:
        thin = min(values["width_m"], values["thickness_m"])
        if values.get("wall_m", 0.0) > thin / 2:
            say(
                "wall",
                f"wall must be at most half of the arm's thinner side, {thin * 500:g} mm, "
                f"got {values['wall_m'] * 1e3:g} mm",
            )

    def _defaults(self, table: Any) -> dict[str, str]:
        if not isinstance(table, dict):
            self.say(("defaults",), "[defaults] must be given: one part's id for each kind of part")
            return {}
        known = {kind.id for kind in KINDS}
        for name, id in table.items():
            if name not in known:
                self.say(
                    ("defaults", name),
                    f"[defaults]: no kind of part '{name[:40]}'{nearest(name[:40], known)}",
                )
            elif not isinstance(id, str):
                self.say(("defaults", name), f"[defaults]: {name} must be a part's id in quotes")
        for kind in KINDS:
            if kind.id not in table:
                self.say(("defaults",), f"[defaults]: {kind.id} must be given (a part's id)")
        return {kind.id: str(table.get(kind.id, "")) for kind in KINDS}

    def _together(self, lists: Mapping[str, list[Any]], singles: Mapping[str, Any]) -> None:
        for name in ("bay", "joint", "option"):
            seen: set[str] = set()
            for index, record in enumerate(lists[name]):
                if record.id in seen:
                    self.say((name, index), f"[{name}] '{record.id}': id must be used once")
                seen.add(record.id)
        for name in ("body", "hardware"):
            self._belongs(name, lists[name], {option.id for option in lists["option"]})
        for index, bay in enumerate(lists["bay"]):
            others = {kind for other in lists["bay"] if other is not bay for kind in other.kinds}
            twice = [kind for kind in bay.also if kind in others]
            if twice:
                self.say(("bay", index), f"[bay] '{bay.id}': {twice[0]} must have one bay only")
        problem = flight_problem(lists["leg"]) if lists["leg"] and not self.problems else ""
        if problem:
            self.say(("leg",), f"[[leg]]: {problem}")
        if not self.problems and "pack" not in {bay.kind for bay in lists["bay"]}:
            self.say(("bay",), '[[bay]] must be given for the pack (kind = "pack")')

    def _belongs(self, name: str, entries: list[Any], options: set[str]) -> None:
        """Whether every entry belongs to options that there are, and one of them to none."""
        for index, entry in enumerate(entries):
            who = f"[{name}] '{entry.name[:40]}'"
            try:
                unknown = settings_of(entry.option).keys() - options
            except InputError as error:
                self.say((name, index, "option"), f"{who}: {error.message.removeprefix(': ')}")
                continue
            for id in sorted(unknown):
                said = f"no [[option]] '{id}'" + (nearest(id, options) if options else "")
                self.say((name, index, "option"), f"{who}: {said}")
        if entries and all(entry.option for entry in entries):
            self.say((name,), f"[[{name}]] must be given once that belongs to no option")
