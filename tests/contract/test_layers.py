"""Modules import only from their own layer and those before it (see docs: architecture)."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import slipfit

LAYERS = (
    {"constants", "units", "errors", "markup"},
    {"numerics", "ondemand", "data"},
    {"physics"},
    {"parts"},
    {"frame"},
    {"build"},
    {"flight", "fit", "masses", "stability", "structure", "shot", "rules"},
    {"figures", "checks", "charts", "drawings", "notes"},
    {"study", "logbook"},
    {"effects", "report", "link", "library", "buildfile", "ownparts", "kit"},
    {"page"},
    {"api", "cli"},
)
RANK = {name: rank for rank, layer in enumerate(LAYERS) for name in layer}
ROOT = Path(slipfit.__file__).parent
FILES = sorted(p for p in ROOT.rglob("*.py") if p.parent != ROOT or not p.stem.startswith("__"))


def imported(path: Path) -> set[str]:
    """Top-level names below `slipfit` that a file imports, inside functions too."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are absolute"
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return {n.split(".")[1] for n in names if n.startswith("slipfit.")} & RANK.keys()


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(ROOT)))
def test_module_imports_only_from_layers_before_it(path):
    top = path.relative_to(ROOT).parts[0].removesuffix(".py")
    assert top in RANK, f"{top} has no place among the layers"
    later = {name for name in imported(path) if RANK[name] > RANK[top]}
    assert later == set(), f"{top} may not import {sorted(later)}"
