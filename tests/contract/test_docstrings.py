"""Every public formula of `slipfit.physics` follows the docstring template.

Sections in order, parameters as in the signature, every entry with its unit at the end, and the
unit that the name's suffix says.
"""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import slipfit.physics
from slipfit.units import SUFFIXES

SECTIONS = ("Parameters", "Returns", "Validity", "Source", "Examples")
OPTIONAL = ("Examples",)
# Public functions that make or read records and are no formulas: a plain docstring is enough.
NOT_FORMULAS = {
    "blade.blade_from_csv",
    "body.loads.combined",
    "body.loads.flow_past",
    "body.loads.require",
    "body.loads.shape_key",
    "fastener.head_volume",
    "fastener.thread_of",
    "section.section_names",
    "rotor_map.use_saved",
}
_BY_LENGTH = sorted(SUFFIXES, key=len, reverse=True)


def _modules() -> list[str]:
    found = pkgutil.walk_packages(slipfit.physics.__path__, "slipfit.physics.")
    return sorted(info.name for info in found)


def _formulas() -> Iterator[Any]:
    for name in _modules():
        module = importlib.import_module(name)
        for attribute, value in vars(module).items():
            if attribute.startswith("_") or not inspect.isfunction(value):
                continue
            label = f"{name.removeprefix('slipfit.physics.')}.{attribute}"
            if inspect.unwrap(value).__module__ == name and label not in NOT_FORMULAS:
                yield pytest.param(value, id=label)


def unit_of(name: str) -> str:
    """Unit that a name's suffix says; `-` where it has none."""
    return next((SUFFIXES[s] for s in _BY_LENGTH if name.endswith(f"_{s}")), "-")


def sections(text: str) -> list[tuple[str, str]]:
    """(title, body) of the underlined sections of a docstring, in order."""
    pieces = re.split(r"^(\w[\w ]*)\n-{3,}\n", text, flags=re.MULTILINE)
    return list(zip(pieces[1::2], pieces[2::2], strict=True))


def entries(body: str) -> list[tuple[str, str, str]]:
    """(names, type, description) of the entries of a section; names may be several with commas."""
    pieces = re.split(r"^(\S.*?) : (.*)\n", body, flags=re.MULTILINE)
    return list(zip(pieces[1::3], pieces[2::3], pieces[3::3], strict=True))


def units_allowed(name: str, kind: str) -> tuple[str, ...] | None:
    """Units that an entry may end in; None where any will do: a record, with fields of its own."""
    if kind[:1].isupper():
        return None
    unit = unit_of(name)
    return ("-", "1") if unit == "-" else (unit,)


def faults(function: Callable[..., Any]) -> list[str]:
    """What a formula's docstring does not do."""
    text = inspect.getdoc(function)
    if not text:
        return ["has no docstring"]
    found: list[str] = []
    first = text.split("\n", 1)[0]
    if not first.endswith("."):
        found.append("its first line does not end with a full stop")
    parts = sections(text)
    titles = [title for title, _ in parts]
    wanted = [s for s in SECTIONS if s in titles or s not in OPTIONAL]
    signature = list(inspect.signature(function).parameters)
    if not signature and "Parameters" not in titles:
        wanted.remove("Parameters")
    if titles != wanted:
        found.append(f"has sections {titles}, not {wanted}")
    body = dict(parts)
    documented = [
        n for names, _, _ in entries(body.get("Parameters", "")) for n in names.split(", ")
    ]
    if documented != signature:
        found.append(f"documents {documented}, takes {signature}")
    if "Returns" in body and not entries(body["Returns"]):
        found.append("names nothing that it returns")
    for title in ("Parameters", "Returns"):
        for names, kind, description in entries(body.get(title, "")):
            match = re.search(r"\[([^\[\]]+)\]\s*$", description)
            if match is None:
                found.append(f"{names} does not end in [unit]")
                continue
            for name in names.split(", "):
                allowed = units_allowed(name, kind)
                if allowed is not None and match[1] not in allowed:
                    found.append(f"{name} is in [{match[1]}], its suffix says [{allowed[0]}]")
    return found


@pytest.mark.parametrize("function", list(_formulas()))
def test_public_formula_follows_the_template(function):
    assert faults(function) == []


def test_formulas_are_found():
    modules = {param.id.rsplit(".", 1)[0] for param in _formulas()}
    assert {"air", "motor", "esc", "pack", "wire"} <= modules


def test_template_check_sees_each_kind_of_fault():
    def wrong_unit(speed_m_s: float) -> float:
        """Something.

        Parameters
        ----------
        speed_m_s : float
            Speed. [km/h]

        Returns
        -------
        drag_N : float
            Drag without its unit.

        Source
        ------
        None.
        """
        return speed_m_s

    text = " / ".join(faults(wrong_unit))
    assert "speed_m_s is in [km/h], its suffix says [m/s]" in text
    assert "drag_N does not end in [unit]" in text
    assert "has sections ['Parameters', 'Returns', 'Source']" in text

    def undocumented(a: float, b: float) -> float:
        return a + b

    assert faults(undocumented) == ["has no docstring"]
    wrong_unit.__signature__ = inspect.signature(undocumented)  # type: ignore[attr-defined]
    assert "documents ['speed_m_s'], takes ['a', 'b']" in " / ".join(faults(wrong_unit))


def test_every_physics_module_says_what_it_is():
    for name in _modules():
        module = importlib.import_module(name)
        assert ast.get_docstring(ast.parse(inspect.getsource(module))), f"{name} has no docstring"
