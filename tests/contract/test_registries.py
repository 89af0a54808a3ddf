"""Registries are readable lists: every file that defines an entry is in its list, every entry is in
the docs, and ids mean one thing."""

from __future__ import annotations

import importlib
import re
from pathlib import Path
from types import ModuleType

import pytest

import slipfit
from slipfit.charts.registry import CHARTS
from slipfit.checks.fit_checks import FIT_CHECKS
from slipfit.checks.limits import LIMITS
from slipfit.drawings.registry import DRAWINGS, FLOWN
from slipfit.figures.registry import FIGURES
from slipfit.flight.inputs import VARIABLES
from slipfit.parts.kinds import KINDS
from slipfit.physics.body import MODELS
from slipfit.units import UNITS

CORE = Path(slipfit.__file__).parent
ROOT = Path(__file__).resolve().parents[2]
AUTHORS = ROOT / "docs/authors"


def modules(folder: str, pattern: str) -> dict[str, ModuleType]:
    return {
        path.stem: importlib.import_module(f"slipfit.{folder.replace('/', '.')}.{path.stem}")
        for path in sorted((CORE / folder).glob(pattern))
        if path.stem != "__init__"
    }


def page(name: str) -> str:
    return (AUTHORS / name).read_text(encoding="utf-8")


# ------------------------------------------------------------------------------ figures


def test_every_figure_has_a_file_of_its_name_and_a_line_in_the_list() -> None:
    defined = {
        name: module.KIND
        for name, module in modules("figures", "*.py").items()
        if hasattr(module, "KIND")
    }
    assert {kind.id for kind in FIGURES} == set(defined)
    for name, kind in defined.items():
        assert kind.id == name
        assert kind in FIGURES
    assert len(FIGURES) == len({kind.id for kind in FIGURES})


@pytest.mark.parametrize("kind", FIGURES, ids=lambda kind: kind.id)
def test_a_figure_is_labelled_shown_in_two_systems_and_has_a_source(kind: object) -> None:
    assert re.fullmatch(r"[a-z][a-z0-9_]{2,40}", kind.id)
    assert kind.label and not kind.label.endswith(".")
    assert kind.source
    for system in ("metric", "imperial"):
        symbol = kind.display.metric if system == "metric" else kind.display.imperial
        assert symbol in UNITS[kind.display.dimension]


# ------------------------------------------------------------------------------ checks


def test_every_limit_has_a_file_and_a_line_in_the_list() -> None:
    defined = {
        module.LIMIT.id: module.LIMIT
        for module in modules("checks", "limit_*.py").values()
        if hasattr(module, "LIMIT")
    }
    assert {limit.id for limit in LIMITS} == set(defined)
    assert len(LIMITS) == len(defined)


def test_checks_have_ids_of_their_own_and_kinds_that_exist() -> None:
    ids = [check.id for check in FIT_CHECKS] + [limit.id for limit in LIMITS]
    assert len(ids) == len(set(ids))
    kinds = {kind.id for kind in KINDS}
    for check in FIT_CHECKS:
        assert check.kind in kinds and check.label, check.id
        assert {kind for kind in check.also if kind} <= kinds, check.id
    for limit in LIMITS:
        # what concerns the frame alone is of no kind
        assert limit.kind in kinds | {""}, limit.id
        assert limit.subject and limit.when and limit.basis, limit.id


# ------------------------------------------------------------------------------ charts and drawings


def test_charts_and_drawings_are_named_on_the_page_about_notes() -> None:
    text = page("notes.md")
    listed = set(re.findall(r"`(\w+)` \(", text.split("\nCharts: ")[1].split("Checks:")[0]))
    listed |= set(re.findall(r"and `(\w+)`", text.split("\nCharts: ")[1].split("\n")[0]))
    for id in (*CHARTS, *DRAWINGS, *FLOWN):
        assert id in listed, f"{id} must be named on docs/authors/notes.md"
    assert not set(DRAWINGS) & set(FLOWN)


def test_every_chart_is_a_function_of_a_file_of_its_own() -> None:
    homes = [chart.__module__ for chart in CHARTS.values()]
    assert len(homes) == len(set(homes))
    assert all(home.startswith("slipfit.charts.") for home in homes)


# ------------------------------------------------------------------------------ bodies


def test_every_body_model_is_listed_under_its_name() -> None:
    for name, model in MODELS.items():
        assert model.name == name
        assert model.description and 0.0 < model.spread < 1.0
    loads = {
        function
        for module in modules("physics/body", "*.py").values()
        for attribute, function in vars(module).items()
        if attribute.endswith("_loads") and function.__module__ == module.__name__
    }
    assert loads == {model.loads for model in MODELS.values()}


def test_every_body_model_is_explained_to_authors() -> None:
    text = page("frame.md")
    for name in MODELS:
        assert re.search(rf"^### {name}$", text, re.MULTILINE), (
            f"{name} must be on docs/authors/frame.md"
        )


# ------------------------------------------------------------------------------ parts


def test_every_kind_of_part_is_explained_to_authors_and_offered() -> None:
    text = page("parts.md")
    assert len({kind.id for kind in KINDS}) == len(KINDS)
    for kind in KINDS:
        assert re.search(rf"\b{kind.id}\b", text), f"{kind.id} must be on docs/authors/parts.md"
        shelf = [path.read_text("utf-8") for path in (ROOT / "docs/parts").glob("*.toml")]
        assert any(f"[[{kind.id}]]" in file for file in shelf), kind.id


def test_uncertain_inputs_have_names_of_their_own() -> None:
    labels = [variable.label for variable in VARIABLES]
    assert len(labels) == len(set(labels))
