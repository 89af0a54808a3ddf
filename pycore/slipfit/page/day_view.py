"""The day that the estimates are for, as a sentence and as a short form to change it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from slipfit.markup import Tree, el
from slipfit.page.form_field import FormField, form_field
from slipfit.page.shown import ShownDay
from slipfit.units import DISTANCE, PERCENT, TEMPERATURE, Display


@dataclass(frozen=True, kw_only=True)
class DayEntry:
    """One condition of the day: its key in the link and in forms, its label and its display."""

    key: str
    label: str
    display: Display
    help: str


DAY_ENTRIES: Final = (
    DayEntry(
        key="air_temperature_K",
        label="Air",
        display=TEMPERATURE,
        help="at the height of the flight",
    ),
    DayEntry(key="height_m", label="Height", display=DISTANCE, help="above sea level"),
    DayEntry(
        key="relative_humidity", label="Humidity", display=PERCENT, help="relative, 0 to 100 %"
    ),
    DayEntry(
        key="pack_temperature_K",
        label="Pack",
        display=TEMPERATURE,
        help="when it is plugged in; a warm pack sags less",
    ),
    DayEntry(
        key="charge", label="Charge", display=PERCENT, help="of the pack when the figures are read"
    ),
)


def day_sentence(day: ShownDay, system: str) -> str:
    """The day in words."""
    air = TEMPERATURE.text(day.air_temperature_K, system)
    height = DISTANCE.text(day.height_m, system)
    humidity = PERCENT.text(day.relative_humidity, system)
    pack = TEMPERATURE.text(day.pack_temperature_K, system)
    charge = PERCENT.text(day.charge, system)
    return (
        f"Estimated for air at {air} and {humidity} humidity, {height} above sea level, "
        f"with the pack at {pack} and {charge} charged."
    )


def day_editor(
    day: ShownDay,
    system: str,
    typed: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
) -> Tree:
    """The sentence, and a form that a script sends; what was typed stays, errors beside it."""
    typed, errors = typed or {}, errors or {}
    fields = [
        FormField(
            key=entry.key,
            label=entry.label,
            help=entry.help,
            typed=typed.get(entry.key, entry.display.text(getattr(day, entry.key), system)),
            error=errors.get(entry.key, ""),
        )
        for entry in DAY_ENTRIES
    ]
    return el(
        "div",
        el("p", day_sentence(day, system)),
        el(
            "details",
            el("summary", "Change the day"),
            el(
                "form",
                *(form_field(field, "day") for field in fields),
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
