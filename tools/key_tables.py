"""Writes the tables of keys in the author's pages from the dataclasses that define the keys.

    python tools/key_tables.py           rewrites docs/authors/parts.md and docs/authors/frame.md
    python tools/key_tables.py --check   only says whether they are in step

A page marks the place of a table with `<!-- keys NAME -->` and `<!-- end of keys -->`.
"""

from __future__ import annotations

import dataclasses
import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "pycore"))

from slipfit.frame import frame as frame_module  # noqa: E402
from slipfit.frame.shape import shape_keys  # noqa: E402
from slipfit.parts.key import PLAIN, Key, bounds_text, keys_of  # noqa: E402
from slipfit.parts.kinds import KINDS  # noqa: E402
from slipfit.physics.body import MODELS  # noqa: E402
from slipfit.units import UNITS, in_unit  # noqa: E402

PAGES = (ROOT / "docs/authors/parts.md", ROOT / "docs/authors/frame.md")
FRAME_CLASSES = (
    "Frame", "Day", "RotorMount", "MotorSeat", "StackSeat", "CameraSeat", "Wire", "BodyEntry",
    "Option", "Bay", "KeepOut", "Access", "Item", "Arm", "Shot", "Joint", "Leg",
)  # fmt: skip
_PLACE = re.compile(r"(<!-- keys ([\w ]+) -->\n).*?(<!-- end of keys -->)", re.DOTALL)


def classes() -> dict[str, type]:
    """Every dataclass that a page may show, by the name in its marker."""
    found: dict[str, type] = {f"part {kind.id}": kind.cls for kind in KINDS}
    found |= {f"frame {name}": getattr(frame_module, name) for name in FRAME_CLASSES}
    return found


def shapes() -> str:
    """A section for every body model: what it is, and the keys of its shape."""
    sections = []
    for name, model in MODELS.items():
        about = model.description[0].upper() + model.description[1:]
        rows = ["| key | what it is | value | if left out |", "| --- | --- | --- | --- |"]
        rows += [_shape_row(model.shape, record) for record in shape_keys(model.shape).values()]
        known = f"Its drag is known to about ± {model.spread * 100:.0f} %, by judgement."
        head = f"### {name}\n\n{about}. {known}"
        sections.append(head + "\n\n" + "\n".join(rows) + "\n")
    return "\n".join(sections)


def _shape_row(cls: type, record: Key) -> str:
    field = cls.__dataclass_fields__[record.field]  # type: ignore[attr-defined]
    unit = field.metadata.get("unit", "") or record.unit
    value = {"ratio": "a plain number"}.get(record.dimension, PLAIN.get(record.dimension, ""))
    if not value:
        value = f"{_article(record.dimension)} ({unit})"
    left_out = "**needed**"
    if field.default is not dataclasses.MISSING:
        plain = not record.is_quantity or record.dimension == "ratio"
        shown = field.default if plain else in_unit(field.default, record.dimension, unit)
        text = f"{shown:.4g}" if isinstance(shown, float) else str(shown).lower()
        left_out = text if plain else f"{text} {unit}"
    return _line(f"`{record.name}`", field.metadata.get("help", record.label), value, left_out)


def _article(dimension: str) -> str:
    return f"{'an' if dimension[0] in 'aeiou' else 'a'} {dimension}"


def _line(*cells: str) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def table(cls: type) -> str:
    """A Markdown table of a class's keys."""
    rows = ["| key | what it is | value | if left out |", "| --- | --- | --- | --- |"]
    rows += [_row(cls, record) for record in keys_of(cls).values()]
    return "\n".join(rows) + "\n"


def _row(cls: type, record: Key) -> str:
    what = record.label + (f". {record.help}" if record.help else "")
    return _line(f"`{record.name}`", what, _value(record), _left_out(cls, record))


def _value(record: Key) -> str:
    if record.dimension == "choice":
        return "one of " + ", ".join(f"`{word}`" for word in record.words)
    if record.dimension == "words" and record.words:
        return "a list of " + ", ".join(f"`{word}`" for word in record.words)
    if record.is_quantity or record.dimension in ("count", "number"):
        plain = "" if record.is_quantity else PLAIN[record.dimension] + ", "
        return plain + bounds_text(record)
    if record.convention:
        return f"{PLAIN[record.dimension]} ({record.convention} convention)"
    return PLAIN[record.dimension]


def _left_out(cls: type, record: Key) -> str:
    if record.required:
        return "**needed**"
    if record.estimate:
        return f"estimated: {record.estimate} (± {record.spread * 100:.0f} %)"
    default = cls.__dataclass_fields__[record.field].default  # type: ignore[attr-defined]
    if default in (None, "", ()) or default is dataclasses.MISSING:
        return "nothing"
    if record.is_quantity:
        factor, offset = UNITS[record.dimension][record.unit]
        return f"{(default - offset) / factor:.6g} {record.unit}".strip()
    return f"{str(default).lower() if isinstance(default, bool) else default}"


def written(page: str) -> str:
    """A page's text with its tables made new."""
    known = classes()

    def made(match: re.Match[str]) -> str:
        text = shapes() if match[2] == "of shapes" else table(known[match[2]])
        return f"{match[1]}\n{text}\n{match[3]}"

    return _PLACE.sub(made, page)


def main() -> int:
    """Rewrite the pages, or say which are out of step."""
    check = "--check" in sys.argv[1:]
    stale = []
    for path in PAGES:
        old = path.read_text(encoding="utf-8")
        new = written(old)
        if new != old:
            stale.append(path.name)
            if not check:
                path.write_text(new, encoding="utf-8", newline="\n")
    if stale:
        print(("out of step: " if check else "rewritten: ") + ", ".join(stale))
    return 1 if check and stale else 0


if __name__ == "__main__":
    sys.exit(main())
