"""The day that the estimates are for, as a sentence and as a short form to change it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from slipfit.link import LinkDay
from slipfit.markup import Tree, el
from slipfit.page.form_field import FormField, form_field
from slipfit.page.marks import capital
from slipfit.page.shown import ShownBuild
from slipfit.parts.key import Key, keys_of
from slipfit.units import ANGLE, DISTANCE, PERCENT, TEMPERATURE, Display


@dataclass(frozen=True, kw_only=True)
class DayEntry:
    """How one entry of a link's day is shown in the form."""

    field: str
    display: Display
    help: str


DAY_ENTRIES: Final = (
    DayEntry(field="air_temperature_K", display=TEMPERATURE, help="Where it flies."),
    DayEntry(
        field="pack_temperature_K", display=TEMPERATURE, help="At take-off; a warm pack sags less."
    ),
    DayEntry(field="height_m", display=DISTANCE, help="Of the ground; thin air drags less."),
    DayEntry(field="uptilt_rad", display=ANGLE, help="Of the lens against the frame's axis."),
)


def day_sentence(build: ShownBuild, system: str) -> str:
    """The day in words."""
    day = build.day
    air = TEMPERATURE.text(day.air_temperature_K, system)
    height = DISTANCE.text(day.height_m, system)
    humidity = PERCENT.text(day.relative_humidity, system)
    pack = TEMPERATURE.text(day.pack_temperature_K, system)
    charge = PERCENT.text(day.charge, system)
    return (
        f"Estimated for air at {air} and {humidity} humidity, {height} above the sea, "
        f"with the pack at {pack} and charged to {charge}."
    )


def _keys() -> dict[str, tuple[str, Key]]:
    """Name that forms and links use, and key, by field."""
    cls: type = LinkDay
    return {record.field: (name, record) for name, record in keys_of(cls).items()}


def _now(build: ShownBuild, field: str) -> float:
    return build.uptilt_rad if field == "uptilt_rad" else float(getattr(build.day, field))


def day_texts(build: ShownBuild, system: str) -> dict[str, str]:
    """What stands in the form before anything is typed, by the names that links use."""
    keys = _keys()
    return {
        keys[entry.field][0]: entry.display.text(_now(build, entry.field), system)
        for entry in DAY_ENTRIES
    }


def changed_day_texts(build: ShownBuild, system: str, typed: Mapping[str, str]) -> dict[str, str]:
    """The entries that were changed; a bare number gets the unit it stood beside."""
    keys = _keys()
    signs = {
        keys[entry.field][0]: entry.display.metric if system == "metric" else entry.display.imperial
        for entry in DAY_ENTRIES
    }
    stood = day_texts(build, system)
    changed: dict[str, str] = {}
    for name, text in typed.items():
        if text == stood.get(name):
            continue
        bare = text.strip().lstrip("+-−").replace(",", "", 1).replace(".", "", 1).isdigit()
        changed[name] = f"{text.strip()} {signs[name]}" if bare and name in signs else text
    return changed


def day_editor(
    build: ShownBuild,
    system: str,
    typed: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
) -> Tree:
    """The sentence, and a form that a script sends; what was typed stays, errors beside it."""
    errors = errors or {}
    stood = day_texts(build, system)
    keys = _keys()
    fields = []
    for entry in DAY_ENTRIES:
        name, record = keys[entry.field]
        fields.append(
            FormField(
                key=name,
                label=capital(record.label),
                help=entry.help,
                typed=(typed if typed is not None else stood).get(name, ""),
                error=errors.get(name, ""),
            )
        )
    return el(
        "div",
        el("p", day_sentence(build, system)),
        el(
            "details",
            el("summary", "Change the day"),
            el(
                "form",
                *(form_field(field, "day") for field in fields),
                el("p", "Leave a field empty for the frame's own day.", class_="sf-quiet-line"),
                el("button", "Estimate for this day", type="submit", class_="sf-button"),
                data_form="day",
                novalidate=True,
                autocomplete="off",
            ),
            class_="sf-scripted",
            open=bool(errors),
        ),
        class_="sf-day",
    )
