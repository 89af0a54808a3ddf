"""An author's mistakes in words, on the page that has them, while the site is served for writing.

A build for publishing stops at them; `dev.py serve` sets two variables and shows them instead.
"""

from __future__ import annotations

import os
from html import escape
from pathlib import Path

WRITING = "SLIPFIT_RELOAD"  # set while somebody writes: pages reload, mistakes stand on the page
LIST = "SLIPFIT_MISTAKES"  # file that gets every mistake, one a line


def writing() -> bool:
    """Whether the site is being served for writing."""
    return bool(os.environ.get(WRITING))


def note(problems: str) -> None:
    """Add mistakes to the list that `dev.py serve` reads."""
    if name := os.environ.get(LIST):
        with Path(name).open("a", encoding="utf-8") as file:
            file.write(problems.rstrip("\n") + "\n")


def in_place_of_a_page(problems: str) -> str:
    """What stands where the page would: each mistake with its line."""
    lines = problems.strip().splitlines()
    count = "One thing" if len(lines) == 1 else f"{len(lines)} things"
    items = "".join(f"<li>{escape(line)}</li>" for line in lines)
    return (
        f"# {count} to mend on this page\n\n"
        '<div class="sf-mistakes" role="alert">\n'
        f"<ul>{items}</ul>\n"
        "<p>Mend the file and save it: this page follows. Published, the site does not build "
        "until then.</p>\n</div>\n"
    )


def in_place_of_the_site(problems: str) -> str:
    """A bare page that asks again by itself, for a site that has never been built."""
    items = "".join(f"<li>{escape(line)}</li>" for line in problems.strip().splitlines())
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta http-equiv="refresh" content="2"><title>To mend - Slipfit</title></head>'
        f"<body><h1>The site does not build yet</h1><ul>{items}</ul>"
        "<p>Mend the file and save it: this page follows.</p></body></html>"
    )
