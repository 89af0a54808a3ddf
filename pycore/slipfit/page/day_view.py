"""The day that the estimates are for, as a sentence and as a short form to change it."""

from __future__ import annotations

from typing import Final

from slipfit.link import LinkDay
from slipfit.page.link_form import LinkEntry, LinkForm
from slipfit.page.shown import ShownBuild
from slipfit.units import ANGLE, COUNT, DISTANCE, PERCENT, TEMPERATURE, WIND


def _entries(build: ShownBuild) -> tuple[LinkEntry, ...]:
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


def _sentence(build: ShownBuild, system: str) -> str:
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


DAY: Final = LinkForm(
    id="day",
    record=LinkDay,
    entries=_entries,
    sentence=_sentence,
    summary="Change the day",
    empty="Leave a field empty for the frame's own day.",
    button="Estimate for this day",
)
