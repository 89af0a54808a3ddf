"""The short forms in which a reader changes what a link carries beside parts: day and shot."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from slipfit.markup import Tree, el
from slipfit.page.form_field import FormField, form_field
from slipfit.page.marks import capital
from slipfit.page.shown import ShownBuild
from slipfit.parts.key import Key, keys_of
from slipfit.units import Display


@dataclass(frozen=True, kw_only=True)
class LinkEntry:
    """How one key of a link's record is shown in its form, and what it is now."""

    field: str
    display: Display
    help: str
    now: float


@dataclass(frozen=True, kw_only=True)
class LinkForm:
    """One form: the link's record that it changes, what of a build it shows, and its words; `id`
    is the api call that it sends itself to."""

    id: str
    record: type
    entries: Callable[[ShownBuild], Sequence[LinkEntry]]
    sentence: Callable[[ShownBuild, str], str]
    summary: str
    empty: str
    button: str


def _keys(form: LinkForm) -> dict[str, tuple[str, Key]]:
    """Name that forms and links use, and key, by field."""
    return {record.field: (name, record) for name, record in keys_of(form.record).items()}


def _stood(form: LinkForm, build: ShownBuild, system: str) -> dict[str, str]:
    """What stands in the form before anything is typed, by the names that links use."""
    keys = _keys(form)
    return {keys[e.field][0]: e.display.text(e.now, system) for e in form.entries(build)}


def changed_texts(
    form: LinkForm, build: ShownBuild, system: str, typed: Mapping[str, str]
) -> dict[str, str]:
    """The entries that were changed and not emptied; a bare number gets the unit it stood
    beside."""
    keys = _keys(form)
    signs = {
        keys[e.field][0]: e.display.metric if system == "metric" else e.display.imperial
        for e in form.entries(build)
    }
    stood = _stood(form, build, system)
    changed: dict[str, str] = {}
    for name, text in typed.items():
        if text == stood.get(name) or not text.strip():
            continue
        bare = text.strip().lstrip("+-−").replace(",", "", 1).replace(".", "", 1).isdigit()
        changed[name] = f"{text.strip()} {signs[name]}" if bare and name in signs else text
    return changed


def link_editor(
    form: LinkForm,
    build: ShownBuild,
    system: str,
    typed: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
) -> Tree:
    """The sentence, and behind a summary the form that a script sends; what was typed stays, errors
    beside it."""
    errors = errors or {}
    written = _stood(form, build, system) if typed is None else typed
    keys = _keys(form)
    fields = []
    for entry in form.entries(build):
        name, record = keys[entry.field]
        fields.append(
            FormField(
                key=name,
                label=capital(record.label),
                help=entry.help,
                typed=written.get(name, ""),
                error=errors.get(name, ""),
            )
        )
    return el(
        "div",
        el("p", form.sentence(build, system)),
        el(
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
        ),
        class_="sf-day",
    )
