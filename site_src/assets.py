"""What the built site carries beside its pages: runtime, core, scripts and styles.

Everything goes into `live/` under names that hold a checksum of the content, so that a host may let
browsers keep it for ever, and a new version never mixes with an old one.
"""

from __future__ import annotations

import io
import json
import re
import shutil
import tempfile
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import runtime as browser

CORES_KEPT = 8  # compiled cores in the cache; a branch or two, and back


@dataclass(frozen=True, kw_only=True)
class Live:
    """What goes into `live/`, and the names, relative to the site's root, of what pages load."""

    script: str
    stylesheets: tuple[str, ...]
    files: Mapping[str, bytes]
    runtime: Path
    runtime_name: str

    def beside(self, name: str) -> str:
        """Name of another script in the folder of the page's script."""
        return f"{self.script.rpartition('/')[0]}/{name}"

    def text(self, name: str) -> str:
        """A script of that folder, to stand in a page itself."""
        return self.files[self.beside(name)].decode()

    def early_tag(self, root: str) -> str:
        """For the head of a page that needs the calculator; `root` leads to the site's root."""
        opening = self.text("line.js")
        return f'<script type="module" async data-worker="{root}/{self.beside("worker.js")}">' + (
            f"{opening}\nglobalThis.slipfitLine ??= "
            'openLine(document.querySelector("[data-worker]").dataset.worker, true);</script>'
        )

    def search_later(self, html: str) -> str:
        """A page with the theme's search worker behind our own, which puts it off."""
        later = self.beside("search_later.js")
        up = "../" * later.count("/")
        pattern = r'("search": ")([./]*)(assets/javascripts/workers/search[^"]*")'
        return re.sub(pattern, rf"\g<1>\g<2>{later}#{up}\g<3>", html, count=1)

    def write(self, site_dir: Path) -> None:
        """Write everything into a built site."""
        for name, data in self.files.items():
            target = site_dir / name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
        folder = site_dir / "live" / self.runtime_name
        folder.mkdir(parents=True, exist_ok=True)
        for name in browser.FILES:
            shutil.copy(self.runtime / name, folder / name)


def site_files(docs: Path) -> dict[str, str]:
    """Frame files and parts of a site by name, as the core is given them."""
    found = sorted([*docs.glob("frames/*/frame.toml"), *docs.glob("parts/*.toml")])
    return {file.relative_to(docs).as_posix(): file.read_text("utf-8") for file in found}


def source_zip(package: Path, site: Mapping[str, str], solved: bytes) -> bytes:
    """The core's sources and data, and what brings it the site's frames, parts and rotors."""
    files = {
        file.relative_to(package.parent).as_posix(): file.read_bytes()
        for file in sorted(package.rglob("*"))
        if file.is_file() and "__pycache__" not in file.parts
    }
    for file in sorted((browser.HERE / "in_browser").glob("*.py")):
        files[file.name] = file.read_bytes()
    files["slipfit_texts.py"] = f"TEXTS = {dict(site)!r}\n".encode()
    files["slipfit_rotors.bin"] = solved
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        for name, data in sorted(files.items()):
            archive.writestr(zipfile.ZipInfo(name, (2026, 1, 1, 0, 0, 0)), data)
    return written.getvalue()


def core_zip(
    package: Path,
    site: Mapping[str, str],
    solved: bytes,
    runtime: Path,
    say: browser.Say,
    cache: Path,
) -> bytes:
    """The core as compiled modules for the browser, with a site's files and the rotor maps that
    were filled for it; compiled again only when something has changed."""
    sources = source_zip(package, site, solved)
    recipe = (browser.HERE / "precompile.mjs").read_bytes()
    recipe += (runtime / "runtime.json").read_bytes()
    place = cache / "cores" / f"{browser.digest(recipe + sources)[:16]}.zip"
    if not place.exists():
        node = browser.find_node(say)
        pyodide = browser.node_modules(node, cache, say) / "pyodide"
        place.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=place.parent) as folder:
            raw, new = Path(folder, "sources.zip"), Path(folder, "new.zip")
            raw.write_bytes(sources)
            job = {
                "source": str(raw),
                "target": str(new),
                "root": browser.SITE_PACKAGES,
                "drop": r"(py[.]typed$|^slipfit/(kit/|cli[.]py$))",
                "optimize": 0,
                "pack": "slipfit.pack",
                "packed": "^slipfit/",
            }
            browser.precompile(node, pyodide, [job], runtime)
            new.replace(place)
    place.touch()
    keep_newest(place.parent, CORES_KEPT)
    return place.read_bytes()


def keep_newest(folder: Path, count: int) -> None:
    """Of the compiled cores in a folder, drop all but those that were used last."""
    cores = sorted(folder.glob("*.zip"), key=lambda file: file.stat().st_mtime_ns, reverse=True)
    for old in cores[count:]:
        old.unlink(missing_ok=True)


def joined(scripts: Mapping[str, bytes], name: str) -> str:
    """A script with those that it imports in their places: one request, one wait."""

    def in_place(found: re.Match[str]) -> str:
        return re.sub(r"^export ", "", joined(scripts, found[1]), flags=re.MULTILINE)

    pattern = r"^import \{[^}]*\} from '[.]/([^']*)';$"
    return re.sub(pattern, in_place, scripts[name].decode(), flags=re.MULTILINE)


def prepare(
    *, project: Path, core: bytes, runtime: Path, entry: str = "page.js", field: bool = False
) -> Live:
    """Everything for `live/`, under names that hold checksums of the content; `field` has readers'
    devices keep the site (see `keeping`)."""
    about = json.loads((runtime / "runtime.json").read_text("utf-8"))
    runtime_name = f"runtime-{browser.digest(json.dumps(about['files']).encode())[:10]}"
    core_name = f"core-{browser.digest(core)[:10]}.zip"
    sizes = {name: entry["bytes"] for name, entry in about["files"].items()}
    given = {
        "runtime": f"../{runtime_name}/",
        "core": f"../{core_name}",
        "sizes": {**sizes, core_name: len(core)},
        "info": about["info"],
        "field": field,
    }
    sources = project / "site_src" / "js"
    scripts = {
        file.relative_to(sources).as_posix(): file.read_bytes()
        for file in sorted(sources.rglob("*.js"))
    }
    scripts["assets.js"] = f"export const assets = {json.dumps(given)};\n".encode()
    scripts["worker.js"] = joined(scripts, "worker.js").encode()
    whole = b"".join(name.encode() + data for name, data in sorted(scripts.items()))
    folder = f"live/js-{browser.digest(whole)[:10]}"
    files = {f"{folder}/{name}": data for name, data in scripts.items()}
    styles = sorted((project / "site_src" / "css").glob("*.css"))
    style = b"\n".join(file.read_bytes() for file in styles)
    style_name = f"live/style-{browser.digest(style)[:10]}.css"
    return Live(
        script=f"{folder}/{entry}",
        stylesheets=(style_name,),
        files={**files, style_name: style, f"live/{core_name}": core},
        runtime=runtime,
        runtime_name=runtime_name,
    )
