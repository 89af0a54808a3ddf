"""The form for a part that a reader owns: the few numbers printed on it, the rest guessed and said
to be so."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from slipfit.markup import Tree, el
from slipfit.page.form_field import FormField, form_field
from slipfit.page.marks import capital
from slipfit.parts.key import Key, keys_of
from slipfit.parts.kinds import Kind
from slipfit.parts.part import Part
from slipfit.parts.pattern import HolePattern
from slipfit.units import in_unit

_NOT_TYPED: Final = frozenset({"table", "numbers", "note"})
_SIGNS: Final = {"C": "°C", "F": "°F", "deg": "°", "ohm": "Ω", "mohm": "mΩ"}


def own_part_dialog(
    kind: Kind,
    typed: Mapping[str, str],
    errors: Mapping[str, str] | None = None,
    guess: Part | None = None,
) -> Tree:
    """The form. `typed` is what stands in the fields now, by key; `errors` what is wrong, by key
    ("" for the whole part); `guess` the part as read so far, whose estimates are shown."""
    errors = errors or {}
    cls: type = kind.cls
    keys = keys_of(cls)
    needed: list[Tree] = []
    rest: list[Tree] = []
    for name, record in keys.items():
        if name in _NOT_TYPED or record.dimension in _NOT_TYPED:
            continue
        field = FormField(
            key=name,
            label=capital(record.label),
            help=_help(record),
            typed=typed.get(name, ""),
            guessed=_guessed(kind, record, guess),
            why=record.estimate,
            error=_said(record, errors.get(name, "")),
            required=record.required,
            options=record.words if record.dimension == "choice" else (),
        )
        (needed if record.required else rest).append(form_field(field, "own"))
    lost = [text for key, text in errors.items() if key not in keys and key != "name"]
    below = [key for key, record in keys.items() if not record.required]
    return el(
        "div",
        el("h2", f"Your own {kind.label}", data_dialog_title=True),
        el(
            "p",
            "Copy the numbers printed on the part, each with its unit. What you leave empty is "
            "guessed, and every figure that rests on a guess gets a wider range.",
        ),
        el("p", _count(len(errors)), class_="sf-form-errors", role="alert") if errors else None,
        *(el("p", text, class_="sf-field-error") for text in lost),
        el(
            "form",
            form_field(
                FormField(
                    key="name",
                    label="Name",
                    help="Yours to choose.",
                    typed=typed.get("name", ""),
                    error=errors.get("name", ""),
                ),
                "own",
            ),
            *needed,
            el(
                "details",
                el("summary", "What is guessed, and what is usual"),
                el("div", *rest, class_="sf-fields"),
                open=any(errors.get(key) or typed.get(key) for key in below),
            )
            if rest
            else None,
            el(
                "p",
                el(
                    "button",
                    f"Use this {kind.label}",
                    type="submit",
                    class_="sf-button sf-button-first",
                ),
                el(
                    "button",
                    "Guess the rest again",
                    type="button",
                    class_="sf-button",
                    data_own_again=kind.id,
                ),
                class_="sf-form-ends",
            ),
            data_form="own",
            data_kind=kind.id,
            novalidate=True,
            autocomplete="off",
        ),
    )


def _count(errors: int) -> str:
    return "One entry needs a look." if errors == 1 else f"{errors} entries need a look."


def _help(record: Key) -> str:
    unit = _SIGNS.get(record.unit, record.unit)
    said = f"In {unit}." if unit else ""
    return " ".join(part for part in (record.help, said) if part)


def _said(record: Key, message: str) -> str:
    """An error as it stands beside its field, where the field's name need not be said again."""
    text = message.removeprefix(f"{record.name} ")
    return capital(text.replace(f" ({record.label})", "").replace(f"({record.label}, ", "("))


def _guessed(kind: Kind, record: Key, guess: Part | None) -> str:
    """The value used when a field is left empty, with its unit; empty where it is not known yet."""
    if record.required:
        return ""
    if guess is None:
        return value_text(record, getattr(kind.cls, record.field, None))
    origin = guess.origins.get(record.field)
    return "" if origin and not origin.guessed else value_text(record, getattr(guess, record.field))


def value_text(record: Key, value: object) -> str:
    """A value as people would type it: `62 mohm`, `16x19`, `14`."""
    if value is None or value == "":
        return ""
    if isinstance(value, HolePattern):
        return value.text()
    if record.is_quantity and isinstance(value, int | float):
        number = in_unit(float(value), record.dimension, record.unit)
        unit = _SIGNS.get(record.unit, record.unit)
        return f"{number:.4g} {unit}".strip()
    if isinstance(value, float):
        return f"{value:.4g}"
    if isinstance(value, str | int):
        return str(value)
    return ""
