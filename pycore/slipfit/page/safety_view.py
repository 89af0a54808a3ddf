"""What can hurt, with this build's numbers: on every page of a frame, whatever its author wrote."""

from __future__ import annotations

from slipfit.markup import Tree, el
from slipfit.page.shown import Shown
from slipfit.units import TEMPERATURE

FREEZING_K = 273.15


def safety_block(report: Shown, system: str) -> Tree:
    """Packs, propellers, bench tests, cold packs, people: one line each."""

    def said(id: str) -> str:
        figure = report.figures.get(id)
        return figure.text(system) if figure is not None and figure.value is not None else ""

    day = report.build.day
    energy, reaction, thrown = (
        said(id) for id in ("kinetic_energy", "reaction_distance", "throw_distance")
    )
    far = [f"flies {reaction} before anybody reacts" if reaction else ""]
    far.append(f"is thrown {thrown} or more when everything stops" if thrown else "")
    numbers = " and ".join(text for text in far if text)
    cold = TEMPERATURE.text(day.air_temperature_K, system)
    lines = [
        (
            "Packs burn.",
            "A pack that is shorted, pierced, swollen, overcharged, or charged below freezing can "
            "catch fire, and cannot be smothered. Charge in sight, on stone. Its plug goes in last "
            "and comes out first.",
        ),
        (
            "Propellers cut to the bone.",
            "They start without warning. Nobody reaches for a frame that has its pack in.",
        ),
        (
            "Bench tests are done with the propellers off.",
            "Every one: set-up, direction of turning, radio, loss of link.",
        ),
        (
            "Cold packs sag.",
            (f"The air of this day is at {cold}. " if day.air_temperature_K < FREEZING_K else "")
            + "A cold pack loses voltage when asked for power, and electronics restart in the air. "
            "Keep packs warm until they fly, and never charge one that is below freezing.",
        ),
        (
            "Nobody stands where it could come down.",
            (f"Flat out it carries {energy}. " if energy else "")
            + (f"It {numbers}. " if numbers else "")
            + "Spectators, crew, roads: keep that place empty, with a margin for wind and for "
            "being wrong.",
        ),
    ]
    return el(
        "aside",
        el("p", "What can hurt", class_="sf-safety-title"),
        el("ul", *(el("li", el("strong", head), " ", text) for head, text in lines)),
        el("p", "These are estimates. They are no promise, and no permission."),
        class_="sf-safety",
        aria_label="What can hurt",
    )
