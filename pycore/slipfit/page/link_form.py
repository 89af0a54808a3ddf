"""The short forms in which a reader changes what a link carries beside parts: day and shot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from slipfit.markup import Tree, el
from slipfit.page.form_field import FormField, form_field
from slipfit.page.marks import capital
from slipfit.parts.key import Key, keys_of
from slipfit.units import Display


@dataclass(frozen=True, kw_only=True)
class LinkEntry:
    """How one key of a link's record is shown in its form, and what it is now."""

    field: str
    display: Display
    help: str
    now: float


def _keys(cls: type) -> dict[str, tuple[str, Key]]:
    """Name that forms and links use, and key, by field."""
    return {record.field: (name, record) for name, record in keys_of(cls).items()}


def entry_texts(cls: type, entries: Sequence[LinkEntry], system: str) -> dict[str, str]:
    """What stands in the form before anything is typed, by the names that links use."""
    keys = _keys(cls)
    return {keys[e.field][0]: e.display.text(e.now, system) for e in entries}


def changed_texts(
    cls: type, entries: Sequence[LinkEntry], system: str, typed: Mapping[str, str]
) -> dict[str, str]:
    """The entries that were changed and not emptied; a bare number gets the unit it stood
    beside."""
    keys = _keys(cls)
    signs = {
        keys[e.field][0]: e.display.metric if system == "metric" else e.display.imperial
        for e in entries
    }
    stood = entry_texts(cls, entries, system)
    changed: dict[str, str] = {}
    for name, text in typed.items():
        if text == stood.get(name) or not text.strip():
            continue
        bare = text.strip().lstrip("+-−").replace(",", "", 1).replace(".", "", 1).isdigit()
        changed[name] = f"{text.strip()} {signs[name]}" if bare and name in signs else text
    return changed


@dataclass(frozen=True, kw_only=True)
class LinkForm:
    """The words of one form: `id` is the api call that it sends itself to."""

    id: str
    summary: str
    empty: str
    button: str


def link_form(
    form: LinkForm,
    cls: type,
    entries: Sequence[LinkEntry],
    system: str,
    typed: Mapping[str, str] | None,
    errors: Mapping[str, str] | None,
) -> Tree:
    """The form, behind a summary, that a script sends; what was typed stays, errors beside it."""
    errors = errors or {}
    stood = entry_texts(cls, entries, system)
    keys = _keys(cls)
    fields = []
    for entry in entries:
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
        "details",
        el("summary", form.summary),
        el(
            "form",
            *(form_field(field, form.id) for field in fields),
            el("p", form.empty, class_="sf-quiet-line"),
            el("button", form.button, type="submit", class_="sf-button"),
            data_form=form.id,
            novalidate=True,
            autocomplete="off",
        ),
        class_="sf-scripted",
        open=bool(errors),
    )
