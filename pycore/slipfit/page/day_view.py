"""The day that the estimates are for, as a sentence and as a short form to change it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from slipfit.link import LinkDay
from slipfit.markup import Tree, el
from slipfit.page.link_form import LinkEntry, LinkForm, changed_texts, link_form
from slipfit.page.shown import ShownBuild
from slipfit.units import ANGLE, COUNT, DISTANCE, PERCENT, TEMPERATURE, WIND

FORM: Final = LinkForm(
    id="day",
    summary="Change the day",
    empty="Leave a field empty for the frame's own day.",
    button="Estimate for this day",
)


def day_entries(build: ShownBuild) -> tuple[LinkEntry, ...]:
    """What of a build's day a reader may change."""
    day = build.day
    return (
        LinkEntry(
            field="air_temperature_K",
            display=TEMPERATURE,
            help="Where it flies.",
            now=day.air_temperature_K,
        ),
        LinkEntry(
            field="pack_temperature_K",
            display=TEMPERATURE,
            help="At take-off; a warm pack sags less.",
            now=day.pack_temperature_K,
        ),
        LinkEntry(
            field="pack_flights",
            display=COUNT,
            help="An old pack holds less and sags more; 0 for a new one.",
            now=day.pack_flights,
        ),
        LinkEntry(
            field="height_m",
            display=DISTANCE,
            help="Of the ground; thin air drags less.",
            now=day.height_m,
        ),
        LinkEntry(
            field="wind_m_s",
            display=WIND,
            help="At the height of the flight, along the path.",
            now=day.wind_m_s,
        ),
        LinkEntry(
            field="uptilt_rad",
            display=ANGLE,
            help="Of the lens above the plane of the rotors.",
            now=build.uptilt_rad,
        ),
    )


def day_sentence(build: ShownBuild, system: str) -> str:
    """The day in words."""
    day = build.day
    air = TEMPERATURE.text(day.air_temperature_K, system)
    height = DISTANCE.text(day.height_m, system)
    humidity = PERCENT.text(day.relative_humidity, system)
    pack = TEMPERATURE.text(day.pack_temperature_K, system)
    charge = PERCENT.text(day.charge, system)
    wind = WIND.text(day.wind_m_s, system)
    moving = f" in a wind of {wind}" if day.wind_m_s > 0.0 else ""
    age = f", {day.pack_flights} flights old," if day.pack_flights else ""
    return (
        f"Estimated for air at {air} and {humidity} humidity{moving}, {height} above the sea, "
        f"with the pack{age} at {pack} and charged to {charge}."
    )


def changed_day_texts(build: ShownBuild, system: str, typed: Mapping[str, str]) -> dict[str, str]:
    """The entries that were changed; a bare number gets the unit it stood beside."""
    return changed_texts(LinkDay, day_entries(build), system, typed)


def day_editor(
    build: ShownBuild,
    system: str,
    typed: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
) -> Tree:
    """The sentence, and a form that a script sends; what was typed stays, errors beside it."""
    return el(
        "div",
        el("p", day_sentence(build, system)),
        link_form(FORM, LinkDay, day_entries(build), system, typed, errors),
        class_="sf-day",
    )
