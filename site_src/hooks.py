"""MkDocs hooks, thin on purpose: each calls a plain module that knows nothing of MkDocs."""

from __future__ import annotations

import logging
import os
import sys
from html import escape
from pathlib import Path
from typing import Any

from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

PROJECT = Path(__file__).resolve().parent.parent
for folder in (PROJECT / "site_src", PROJECT / "pycore"):
    if str(folder) not in sys.path:
        sys.path.insert(0, str(folder))

import accuracy  # noqa: E402
import address  # noqa: E402
import assets  # noqa: E402
import beside  # noqa: E402
import frames  # noqa: E402
import keeping  # noqa: E402
import mistakes  # noqa: E402
import policy  # noqa: E402
import reference  # noqa: E402
import runtime  # noqa: E402
from slipfit.errors import SlipfitError  # noqa: E402
from slipfit.kit import pages, passages  # noqa: E402
from slipfit.parts.source import FileError  # noqa: E402

log = logging.getLogger("mkdocs.hooks.slipfit")


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Check frames and parts, then write runtime, core, scripts and styles."""
    docs = Path(config.docs_dir)
    try:
        site = frames.read_site(docs)
        folder = runtime.runtime(log.info)
        solved = frames.solved_rotors()
        package, cache = PROJECT / "pycore" / "slipfit", runtime.cache_folder()
        core = assets.core_zip(package, site, solved, folder, log.info, cache)
    except (SlipfitError, runtime.RuntimeFetchError) as error:
        mistakes.note(str(error))
        raise PluginError(str(error)) from None
    live = assets.prepare(project=PROJECT, core=core, runtime=folder, field=not mistakes.writing())
    script = ExtraScriptValue(live.script)
    script.type = "module"
    config.extra_javascript.append(script)
    config.extra_css.extend(live.stylesheets)
    if mistakes.writing():
        reload = ExtraScriptValue(live.beside("reload.js"))
        reload.type = "module"
        config.extra_javascript.append(reload)
    config.extra["live"] = live
    return config


def on_files(files: Files, *, config: MkDocsConfig) -> Files:
    """Pages that are written from the code."""
    text = reference.page(PROJECT / "pycore" / "slipfit" / "physics")
    files.append(File.generated(config, "methods/reference.md", content=text))
    files.append(File.generated(config, "methods/measured.md", content=accuracy.page()))
    return files


def on_page_markdown(markdown: str, *, page: Page, config: MkDocsConfig, **_: Any) -> str:
    """Tokens become slots on the pages of a frame."""
    frame = pages.frame_of(page.file.src_uri)
    if frame is None:
        return markdown
    # MkDocs has taken the page's head off; put as many empty lines in its place.
    source = Path(config.docs_dir, page.file.src_path).read_text("utf-8-sig")
    head = source.rstrip("\n").count("\n") - markdown.rstrip("\n").count("\n")
    try:
        return frames.to_slots("\n" * head + markdown, f"docs/{page.file.src_uri}", frame)[head:]
    except FileError as error:
        if not mistakes.writing():
            raise PluginError(str(error)) from None
        mistakes.note(str(error))
        return mistakes.in_place_of_a_page(str(error))


def on_page_content(html: str, *, page: Page, **_: Any) -> str:
    """Slots are filled with the default build, computed natively."""
    frame = pages.frame_of(page.file.src_uri)
    if frame is None:
        return html
    try:
        filled = frames.fill(beside.notes_beside(passages.finish(html)), frame)
    except ValueError as error:
        raise PluginError(str(error)) from None
    page.meta["frame"], page.meta["link"] = frame, filled.link
    where = f'data-frame="{escape(frame)}" data-link="{escape(filled.link)}"'
    return f"<div {where}>\n{filled.html}\n</div>"


def on_post_page(output: str, *, page: Page, config: MkDocsConfig, **_: Any) -> str:
    """Search waits until it is used; a frame's pages start the calculator from their head."""
    live = config.extra["live"]
    output = live.search_later(output)
    if "frame" not in page.meta:
        return output
    sheet = '<link rel="stylesheet"'
    return output.replace(sheet, live.early_tag(get_relative_url(".", page.url)) + sheet, 1)


def on_post_build(config: MkDocsConfig, **_: Any) -> None:
    """Write what pages load, and the policy that lets them load nothing else."""
    site_dir = Path(config.site_dir)
    config.extra["live"].write(site_dir)
    frames.write_schemas(site_dir / "schemas")
    if not os.environ.get("SLIPFIT_SITE_URL"):
        address.forget(site_dir)
    policy.apply(site_dir)
    if not mistakes.writing():
        keeping.write(site_dir)
