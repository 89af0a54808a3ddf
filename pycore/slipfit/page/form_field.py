"""One field of a form: label, help, what was typed, what is guessed, what is wrong with it."""

from __future__ import annotations

from dataclasses import dataclass

from slipfit.markup import Tree, el


@dataclass(frozen=True, kw_only=True)
class FormField:
    """`guessed` is the value used when nothing is typed, `why` says where it comes from; `options`
    makes the field a choice."""

    key: str
    label: str
    help: str = ""
    typed: str = ""
    guessed: str = ""
    why: str = ""
    error: str = ""
    required: bool = False
    options: tuple[str, ...] = ()


def form_field(field: FormField, form: str) -> Tree:
    """The field with its label; help and error are tied to it for screen readers."""
    name = f"sf-{form}-{field.key}".replace("_", "-")
    notes = [
        (f"{name}-error", field.error, "sf-field-error"),
        (f"{name}-guess", _if_empty(field), "sf-field-guess"),
        (f"{name}-help", field.help, "sf-field-help"),
    ]
    told = [(note_id, text, class_) for note_id, text, class_ in notes if text]
    shared: dict[str, object] = {
        "id": name,
        "name": field.key,
        "aria_describedby": " ".join(note_id for note_id, _, _ in told) or None,
        "aria_invalid": "true" if field.error else None,
        "aria_required": "true" if field.required else None,
    }
    control: Tree
    if field.options:
        control = el(
            "select",
            *(
                el(
                    "option",
                    option,
                    value=option,
                    selected=option == (field.typed or field.guessed),
                )
                for option in field.options
            ),
            **shared,
        )
    else:
        control = el(
            "input",
            type="text",
            value=field.typed or None,
            placeholder=field.guessed or None,
            maxlength=60,
            **shared,
        )
    return el(
        "div",
        el("label", field.label, el("em", " needed") if field.required else None, for_=name),
        control,
        *(el("span", text, id=note_id, class_=class_) for note_id, text, class_ in told),
        class_="sf-field sf-field-wrong" if field.error else "sf-field",
    )


def _if_empty(field: FormField) -> str:
    """What is used if the field stays empty."""
    if field.why:
        value = f" {field.guessed}," if field.guessed else ""
        return f"If empty, guessed{value} {field.why}."
    return f"If empty, the usual {field.guessed}." if field.guessed and not field.options else ""
