"""What the builder keeps beside the sources: compiled cores, and not for ever."""

from __future__ import annotations

import os
from pathlib import Path

import assets


def test_only_the_cores_that_were_used_last_are_kept(tmp_path: Path) -> None:
    for age in range(12):
        core = tmp_path / f"{age:x}.zip"
        core.write_bytes(b"core")
        os.utime(core, ns=(0, (100 - age) * 10**9))
    (tmp_path / "0.sources").write_bytes(b"left by a build that was stopped")
    assets.keep_newest(tmp_path, 8)
    left = sorted(file.name for file in tmp_path.iterdir())
    assert left == ["0.sources", *(f"{age:x}.zip" for age in range(8))]
    assets.keep_newest(tmp_path, 8)
    assert len(list(tmp_path.glob("*.zip"))) == 8


def test_a_core_that_is_there_already_counts_as_used(tmp_path: Path) -> None:
    """A compiled core is found by its sources and its runtime's list; nothing is compiled."""
    package, cores = tmp_path / "core", tmp_path / "cache/cores"
    package.mkdir()
    (tmp_path / "runtime.json").write_text("{}", "utf-8")
    cores.mkdir(parents=True)
    (package / "__init__.py").write_text("", "utf-8")
    recipe = (assets.browser.HERE / "precompile.mjs").read_bytes() + b"{}"
    name = assets.browser.digest(recipe + assets.source_zip(package, {}, b""))[:16]
    for k in range(assets.CORES_KEPT + 1):
        (cores / f"{k}.zip").write_bytes(b"another")
        os.utime(cores / f"{k}.zip", ns=(0, 10**18 + k))
    (cores / f"{name}.zip").write_bytes(b"this one")
    os.utime(cores / f"{name}.zip", ns=(0, 0))
    made = assets.core_zip(package, {}, b"", tmp_path, print, tmp_path / "cache")
    assert made == b"this one"
    assert (cores / f"{name}.zip").exists()
    assert len(list(cores.iterdir())) == assets.CORES_KEPT


def test_a_joined_script_has_what_it_imports_in_its_place() -> None:
    scripts = {
        "a.js": b"// a\nimport {b, c} from './b.js';\nconst d = import('./d.js');\nb(c);\n",
        "b.js": b"import {c} from './c.js';\n/** c */\nexport async function b() { c(); }\n",
        "c.js": b"export const c = 1;\n",
    }
    assert assets.joined(scripts, "a.js") == (
        "// a\nconst c = 1;\n\n/** c */\nasync function b() { c(); }\n\n"
        "const d = import('./d.js');\nb(c);\n"
    )


def test_pages_name_our_search_worker_and_it_the_themes() -> None:
    live = assets.Live(
        script="live/js-1/page.js", stylesheets=(), files={}, runtime=Path(), runtime_name=""
    )
    html = '{"base": "..", "search": "../assets/javascripts/workers/search.0f.min.js", "tags": 0}'
    assert live.search_later(html) == (
        '{"base": "..", "search": "../live/js-1/search_later.js'
        '#../../assets/javascripts/workers/search.0f.min.js", "tags": 0}'
    )
    assert live.search_later("<p>no theme</p>") == "<p>no theme</p>"
