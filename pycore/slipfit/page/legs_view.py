"""The legs of the flight as a list, and a line of words in which a reader can change them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from slipfit.build import Build
from slipfit.flight.legs import legs_of
from slipfit.frame.leg import Leg, legs_text
from slipfit.markup import Tree, el
from slipfit.page.marks import capital
from slipfit.units import ANGLE, DISTANCE, PERCENT, SPEED

LONGEST = 1200


def legs_editor(build: Build, system: str, typed: str | None = None, error: str = "") -> Tree:
    """The list, and a form that a script sends; what was typed stays, the error beside it."""
    legs = legs_of(build)
    text = legs_text(legs) if typed is None else typed
    told = [("sf-legs-error", error, "sf-field-error")] if error else []
    told.append(
        (
            "sf-legs-help",
            "Leg by leg, with commas: hover, land and turn with a time; cruise and return with a "
            "time or a length; pass with a length, a speed unless it is flat out, and x3 for three "
            "of them unless it is as many as the pack gives; last, the reserve.",
            "sf-field-help",
        )
    )
    return el(
        "div",
        el("ol", *(el("li", leg_sentence(leg, system)) for leg in legs), class_="sf-legs"),
        el(
            "details",
            el("summary", "Change the flight"),
            el(
                "form",
                el(
                    "div",
                    el("label", "Flight", for_="sf-legs-legs"),
                    el(
                        "input",
                        type="text",
                        id="sf-legs-legs",
                        name="legs",
                        value=text or None,
                        maxlength=LONGEST,
                        aria_describedby=" ".join(id for id, _, _ in told),
                        aria_invalid="true" if error else None,
                    ),
                    *(el("span", words, id=id, class_=class_) for id, words, class_ in told),
                    class_="sf-field sf-field-wide sf-field-wrong"
                    if error
                    else "sf-field sf-field-wide",
                ),
                el("p", "Leave it empty for the frame's own flight.", class_="sf-quiet-line"),
                el("button", "Fly these legs", type="submit", class_="sf-button"),
                data_form="legs",
                novalidate=True,
                autocomplete="off",
            ),
            class_="sf-scripted",
            open=bool(error),
        ),
        class_="sf-day",
    )


def leg_sentence(leg: Leg, system: str) -> str:
    """A leg in words: `Chase: passes of 600 m at 234 km/h, as many as the pack gives`."""
    said = [_what(leg)]
    if leg.length_m is not None:
        said.append(f"of {DISTANCE.text(leg.length_m, system)}")
    if leg.time_s is not None:
        said.append(f"for {leg.time_s:g} s")
    if leg.kind == "turn" and leg.angle_rad != math.pi:
        said.append(f"through {ANGLE.text(leg.angle_rad, system)}")
    if leg.speed_m_s is not None:
        said.append(f"at {SPEED.text(leg.speed_m_s, system)}")
    elif leg.kind == "pass":
        said.append("at full throttle")
    elif leg.kind in ("cruise", "turn", "return"):
        said.append("at the speed of best range")
    if leg.charge is not None:
        said.append(f"of {PERCENT.text(leg.charge, system)} of the capacity")
    tail = ", as many as the pack gives" if leg.kind == "pass" and leg.count is None else ""
    sentence = f"{' '.join(said)}{tail}"
    return capital(f"{leg.name}: {sentence}" if leg.name else sentence)


def _what(leg: Leg) -> str:
    if leg.kind == "pass":
        if leg.count == 1:
            return "one pass"
        return "passes" if leg.count is None else f"{leg.count} passes"
    return leg.kind


__all__: Sequence[str] = ("leg_sentence", "legs_editor")
