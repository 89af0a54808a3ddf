"""A new frame for an author to begin with: a file that works, commented, and four pages."""

from __future__ import annotations

import re
from importlib import resources
from pathlib import Path
from typing import Final

from slipfit.errors import InputError
from slipfit.frame.reading import SLUG
from slipfit.parts.kinds import KINDS
from slipfit.parts.record import plain_line
from slipfit.parts.shelf import Shelf
from slipfit.parts.writing import toml_text

PAGES: Final = ("index.md", "fit.md", "build.md", "fly.md")
FILES: Final = ("frame.toml", *PAGES)
# Parts that suit the frame, where the shelf has them; else the first of their kind.
WANTED: Final = {
    "motor": "m28-1300", "prop": "p490-45-3", "pack": "k6-1500", "esc": "e50", "stack": "f30",
    "camera": "c19", "video": "v30", "gps": "g18", "receiver": "r24",
}  # fmt: skip


def slug_of(name: str) -> str:
    """The folder of a frame with a name: `Heron 5` lives in `heron-5`."""
    slug = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:32].strip("-")
    if not SLUG.fullmatch(slug):
        raise InputError(
            f"new-frame: NAME must hold letters or digits that make a folder's name, got '{name}'"
        )
    return slug


def new_frame(docs: Path, name: str, shelf: Shelf) -> tuple[Path, ...]:
    """Write the files of a new frame; InputError where its folder is there already."""
    name = plain_line("new-frame", "NAME", name)
    if re.search(r"[\\\"{}<>@]", name):
        raise InputError(f"new-frame: NAME must be plain words, got '{name}'")
    folder = docs / "frames" / slug_of(name)
    if folder.exists():
        raise InputError(f"new-frame: the folder must not be there yet, got '{folder}'")
    texts = {file: _text(file, name, shelf) for file in FILES}
    folder.mkdir(parents=True)
    for file, text in texts.items():
        (folder / file).write_text(text, encoding="utf-8", newline="\n")
    return tuple(folder / file for file in FILES)


def _text(file: str, name: str, shelf: Shelf) -> str:
    text = resources.files("slipfit").joinpath("kit", file).read_text(encoding="utf-8")
    return text.replace("@NAME@", name).replace("@DEFAULTS@", _defaults(shelf))


def _defaults(shelf: Shelf) -> str:
    lines = []
    for kind in KINDS:
        ids = [part.id for part in shelf.of(kind.id)]
        if not ids:
            raise InputError(
                f"new-frame: the shelf must hold at least one {kind.label} ({kind.file}), got none"
            )
        id = WANTED[kind.id] if WANTED[kind.id] in ids else ids[0]
        lines.append(f"{kind.id} = {toml_text(id)}")
    return "\n".join(lines)


def nav_lines(name: str) -> list[str]:
    """What `mkdocs.yml` says of the frame's pages."""
    slug = slug_of(name)
    lines = [f"  - {name}:", f"      - frames/{slug}/index.md"]
    lines += [
        f"      - {page.removesuffix('.md').capitalize()}: frames/{slug}/{page}"
        for page in PAGES[1:]
    ]
    return lines


def add_to_nav(file: Path, name: str) -> bool:
    """Add the pages to the navigation, behind the last frame's; False where there is no place."""
    if not file.is_file():
        return False
    lines = file.read_text(encoding="utf-8").split("\n")
    last = max(
        (i for i, line in enumerate(lines) if re.search(r"\bframes/[^/]+/", line)), default=-1
    )
    if last < 0 or not lines[last].startswith("      - "):
        return False
    lines[last + 1 : last + 1] = nav_lines(name)
    file.write_text("\n".join(lines), encoding="utf-8", newline="\n")
    return True
