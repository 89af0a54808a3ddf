"""What a page says about its own address, when nobody has said where the site will stand."""

from __future__ import annotations

import re
from pathlib import Path

_CANONICAL = re.compile(r"\s*<link rel=\"?canonical\"? [^>]*>")
_FROM_ROOT = re.compile(r'((?:href|src)="|"(?:base|search)": ?")/(?!/)')


def forget(site_dir: Path) -> None:
    """Take the stand-in address out of a site built without SLIPFIT_SITE_URL.

    Pages then claim no address, and the page for what is missing finds its files beside it.
    """
    for file in sorted(site_dir.rglob("*.html")):
        html = file.read_text("utf-8")
        html = _CANONICAL.sub("", html)
        if file.name == "404.html":
            html = _FROM_ROOT.sub(r"\1./", html)
        file.write_text(html, "utf-8")
