"""The options of a frame as check boxes, and what each of them is worth."""

from __future__ import annotations

from collections.abc import Sequence

from slipfit.effects import Effect
from slipfit.figures import hover_time, mass_total, rotor_inertia, top_speed
from slipfit.figures.figure import FigureKind
from slipfit.frame.frame import Frame, Option
from slipfit.frame.options import settings_text
from slipfit.markup import Tree, el
from slipfit.page.marks import capital, change_text
from slipfit.units import PERCENT

SHARE_SEEN = 0.005  # of the inertia; what is less is not said


def options_form(frame: Frame) -> Tree:
    """How the options stand, and a box for each that a script sends when it is ticked."""
    if not frame.options:
        return el("p", f"{frame.name} has no options.", class_="sf-quiet-line")
    return el(
        "div",
        el("p", f"Built {settings_text(frame)}.", class_="sf-options-now"),
        el(
            "form",
            el(
                "fieldset",
                el("legend", "Put on or leave off"),
                *(_box(option, option.id in frame.on) for option in frame.options),
            ),
            data_form="options",
            data_at_once=True,
            autocomplete="off",
            class_="sf-scripted",
        ),
        class_="sf-options",
    )


def _box(option: Option, on: bool) -> Tree:
    id = f"sf-option-{option.id}"
    return el(
        "div",
        el(
            "input",
            type="checkbox",
            id=id,
            name=option.id,
            value="on",
            checked=on,
            aria_describedby=f"{id}-about",
        ),
        el("label", capital(option.label), for_=id),
        el("span", option.about, id=f"{id}-about", class_="sf-field-help"),
        class_="sf-option",
    )


def worth_list(found: Sequence[Effect], system: str) -> Tree:
    """One line for each option: what the other setting of it would do to the build."""
    usual, others = found[0], found[1:]
    return el(
        "ul",
        *(
            el("li", el("strong", capital(e.label)), f": {_said(e, usual, system)}.")
            for e in others
        ),
        class_="sf-worth",
    )


def _said(effect: Effect, usual: Effect, system: str) -> str:
    def change(kind: FigureKind) -> str:
        before, after = usual.values[kind.id], effect.values[kind.id]
        if before is None or after is None:
            return ""
        return change_text(kind.display, before, after, system)

    speed = effect.values[top_speed.KIND.id]
    if speed is None:
        return "it could not fly"
    by = change(top_speed.KIND)
    said = [f"{by} flat out" if by else "the same speed flat out"]
    said += [f"{text} in hover" for text in [change(hover_time.KIND)] if text]
    before, after = (e.values[rotor_inertia.KIND.id] for e in (usual, effect))
    if before and after and abs(after / before - 1.0) > SHARE_SEEN:
        share = PERCENT.text(abs(after / before - 1.0), system)
        said.append(f"{share} {'more' if after > before else 'less'} inertia of what turns")
    said += [text for text in [change(mass_total.KIND)] if text]
    return ", ".join(said)
