"""The content security policy of every page, and the checksums of what the theme writes inline."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable
from pathlib import Path

_SCRIPT = re.compile(r"<script(?P<attributes>[^>]*)>(?P<body>.*?)</script>", re.DOTALL)
_STYLE = re.compile(r"<style(?P<attributes>[^>]*)>(?P<body>.*?)</style>", re.DOTALL)
_CHARSET = re.compile(r"<meta charset=[^>]*>", re.IGNORECASE)


def source_hash(text: str) -> str:
    """The form in which a policy names inline content: 'sha256-…'."""
    found = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return f"'sha256-{found}'"


def inline_scripts(html: str) -> set[str]:
    """Hashes of the scripts that stand in a page itself and are run (data blocks are not)."""
    return {
        source_hash(match["body"])
        for match in _SCRIPT.finditer(html)
        if " src=" not in match["attributes"] and "application/" not in match["attributes"]
    }


def inline_styles(html: str) -> set[str]:
    """Hashes of the style blocks that stand in a page itself."""
    return {source_hash(match["body"]) for match in _STYLE.finditer(html)}


def policy(scripts: Iterable[str], styles: Iterable[str]) -> str:
    """Only this site's own files; no inline script or style but those named; no other eval than
    that of compiled modules. Some browsers hold pages fetched ahead of a click to the first
    rule, so it cannot be 'none'."""
    rules = {
        "default-src": ["'self'"],
        "object-src": ["'none'"],
        "frame-src": ["'none'"],
        "media-src": ["'none'"],
        "script-src": ["'self'", "'wasm-unsafe-eval'", *sorted(scripts)],
        "worker-src": ["'self'"],
        "connect-src": ["'self'"],
        "style-src": ["'self'", *sorted(styles)],
        "img-src": ["'self'", "data:"],
        "font-src": ["'self'"],
        "manifest-src": ["'self'"],
        "base-uri": ["'self'"],
        "form-action": ["'self'"],
    }
    return "; ".join(" ".join([name, *sources]) for name, sources in rules.items())


def apply(site_dir: Path) -> None:
    """Write the policy, one for the whole site, into the head of every page."""
    pages = {file: file.read_text("utf-8") for file in sorted(site_dir.rglob("*.html"))}
    scripts = {found for html in pages.values() for found in inline_scripts(html)}
    styles = {found for html in pages.values() for found in inline_styles(html)}
    text = policy(scripts, styles)
    meta = f'<meta http-equiv="Content-Security-Policy" content="{text}">'
    for file, html in pages.items():
        found = _CHARSET.search(html)
        if found:
            file.write_text(html[: found.end()] + meta + html[found.end() :], "utf-8")
