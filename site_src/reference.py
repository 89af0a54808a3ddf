"""The reference of all formulas, written from their docstrings, so that the two cannot differ."""

from __future__ import annotations

import ast
import re
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

SECTIONS = ("Parameters", "Returns", "Validity", "Source", "Examples")
_HEADING = re.compile(rf"^({'|'.join(SECTIONS)})\n-+\n", re.MULTILINE)
_EQUATION = re.compile(r"\$\$(.+?)\$\$", re.DOTALL)
_ENTRY = re.compile(r"^(\S.*?) : (.*)$")

HEAD = """---
title: Reference of formulas
description: Every formula with its equation, units, range of validity, source and an example.
search:
  exclude: true
---

# Reference of formulas

Written from the code when the site is built. Names carry their unit. Equations are in the notation
of their source, as TeX.
"""


@dataclass(frozen=True, kw_only=True)
class Formula:
    """A public function with its docstring."""

    name: str
    signature: str
    summary: str
    sections: dict[str, str]


def formulas_of(source: str) -> Iterator[Formula]:
    """The functions of a module whose docstrings name a source."""
    for node in ast.parse(source).body:
        if not isinstance(node, ast.FunctionDef) or node.name.startswith("_"):
            continue
        text = ast.get_docstring(node) or ""
        pieces = _HEADING.split(text)
        sections = dict(zip(pieces[1::2], pieces[2::2], strict=True))
        if "Source" not in sections:
            continue
        names = [argument.arg for argument in (*node.args.args, *node.args.kwonlyargs)]
        yield Formula(
            name=node.name,
            signature=f"{node.name}({', '.join(names)})",
            summary=pieces[0].strip(),
            sections={name: body.strip("\n") for name, body in sections.items()},
        )


def page(physics: Path) -> str:
    """The reference as Markdown, a chapter for each module."""
    written = [HEAD]
    for file in sorted(physics.rglob("*.py")):
        source = file.read_text("utf-8")
        formulas = list(formulas_of(source))
        if not formulas:
            continue
        module = ".".join(file.relative_to(physics).with_suffix("").parts)
        about = (ast.get_docstring(ast.parse(source)) or "").strip()
        written.append(f"\n## {module}\n\n{_prose(about)}\n")
        written += [_formula(formula, module) for formula in formulas]
    return "\n".join(written)


def _formula(formula: Formula, module: str) -> str:
    written = [f"\n### {formula.name} {{ #{module.replace('.', '-')}-{formula.name} }}\n"]
    written.append(f"```python\n{formula.signature}\n```\n")
    written.append(_prose(formula.summary))
    for name in SECTIONS:
        body = formula.sections.get(name)
        if not body:
            continue
        written.append(f"\n**{name}**\n")
        if name in ("Parameters", "Returns"):
            written.append(_entries(body))
        else:
            written.append(_prose(body))
    return "\n".join(written) + "\n"


def _entries(body: str) -> str:
    """Parameters or results as a definition list."""
    written = []
    for line in textwrap.dedent(body).splitlines():
        found = _ENTRY.match(line)
        if found:
            written.append(f"\n`{found[1]}`\n:   *{found[2]}.* ")
        elif line.startswith((" ", "\t")):
            written.append(f"    {_safe(line.strip())}")
        elif line.strip():
            written.append(f"\n{_safe(line)}\n")
    return "\n".join(written)


def _prose(text: str) -> str:
    """Text of a docstring as Markdown: equations and examples become blocks of code."""
    written: list[str] = []
    for i, piece in enumerate(_EQUATION.split(text)):
        if i % 2:
            written.append(f"\n```tex\n{textwrap.dedent(piece.strip())}\n```\n")
            continue
        example: list[str] = []
        for line in [*textwrap.dedent(piece).splitlines(), ""]:
            if line.startswith(">>>") or (example and line.strip()):
                example.append(line)
                continue
            if example:
                written.append("\n```python\n" + "\n".join(example) + "\n```\n")
                example = []
            written.append(_safe(line))
    return "\n".join(written).strip() + "\n"


def _safe(line: str) -> str:
    """Text that Markdown would take for markup, kept as it is: `$…$`, `<`, `_`, `{`."""
    pieces = re.split(r"(`[^`]*`|\$[^$]+\$)", line)
    for i, piece in enumerate(pieces):
        if i % 2 == 0:
            pieces[i] = re.sub(r"([\\_\[\]{}])", r"\\\1", piece).replace("<", "&lt;")
        elif piece.startswith("$"):
            pieces[i] = f"`{piece.strip('$').strip()}`"
    return "".join(pieces)
