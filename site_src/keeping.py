"""What a reader's device keeps of the built site, so that it opens without a network."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

SOURCE = Path(__file__).resolve().parent / "field" / "worker.js"
NAME = "field-worker.js"  # at the site's root: it may answer for what lies beside and below it
NOT_KEPT = ("sitemap.xml", "sitemap.xml.gz", NAME)


def write(site_dir: Path) -> None:
    """Write the worker that keeps every file of a finished site, as one version.

    A folder's page goes by the folder's address: some hosts send its file's name elsewhere.
    """
    files = {}
    for file in sorted(site_dir.rglob("*")):
        name = file.relative_to(site_dir).as_posix()
        if file.is_file() and file.suffix != ".map" and name not in NOT_KEPT:
            address = name.removesuffix("index.html") if file.name == "index.html" else name
            files[address] = hashlib.sha256(file.read_bytes()).hexdigest()
    version = hashlib.sha256(json.dumps(files).encode()).hexdigest()[:10]
    head = f"const version = {json.dumps(version)};\nconst files = {json.dumps(list(files))};\n"
    (site_dir / NAME).write_text(head + SOURCE.read_text("utf-8"), "utf-8")
