"""The content security policy that the build writes into every page."""

from __future__ import annotations

import base64
import hashlib
from pathlib import Path

import policy


def digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def test_inline_scripts_are_named_by_checksum_and_data_blocks_are_not() -> None:
    html = (
        '<script>go("1")</script><script src="a.js"></script><script type="module" src="b.js">'
        '</script><script id="c" type="application/json">{"a": 1}</script>'
    )
    assert policy.inline_scripts(html) == {digest('go("1")')}


def test_every_page_gets_the_one_policy_of_the_site(tmp_path: Path) -> None:
    (tmp_path / "deep").mkdir()
    pages = [tmp_path / "index.html", tmp_path / "deep" / "index.html"]
    for i, page in enumerate(pages):
        page.write_text(f'<head><meta charset="utf-8"><script>a({i})</script></head>é', "utf-8")
    policy.apply(tmp_path)
    first, second = (page.read_text("utf-8") for page in pages)
    meta = first.split("<script>")[0]
    assert second.startswith(meta)
    assert meta.startswith('<head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy"')
    assert digest("a(0)") in meta
    assert digest("a(1)") in meta
    assert first.endswith("<script>a(0)</script></head>é")


def test_nothing_from_elsewhere_nothing_inline_no_eval() -> None:
    text = policy.policy([], [])
    rules = dict(rule.strip().split(" ", 1) for rule in text.split(";"))
    assert rules["default-src"] == "'self'"
    assert {rules[f"{kind}-src"] for kind in ("object", "frame", "media")} == {"'none'"}
    assert rules["script-src"] == "'self' 'wasm-unsafe-eval'"
    assert "unsafe-inline" not in text
    assert "unsafe-eval" not in text.replace("wasm-unsafe-eval", "")
    assert "http" not in text
