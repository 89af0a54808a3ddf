"""No tracked file names a package registry, a host of its files, or a path of a machine."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
HOSTS = [  # written in pieces, or this file would be the first to break its rule
    "pypi" + ".org",
    "pythonhosted" + ".org",
    "npmjs" + ".org",
    "npmjs" + ".com",
    "jsdelivr" + ".net",
    "unpkg" + ".com",
    "cdnjs" + ".cloudflare",
    "esm" + ".sh",
    "fonts.google" + "apis.com",
    "google" + "tagmanager",
    "deb.debian" + ".org",
]
PATHS = re.compile(r"/(?:work|tmp|root|home/\w+|Users/\w+|opt)/(?:[\w.-]+)")


def tracked() -> list[Path]:
    """Text files that are under version control; skipped where there is no repository."""
    done = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True)
    if done.returncode:
        pytest.skip("not a checkout")
    files = [ROOT / name for name in done.stdout.split("\0") if name]
    return [file for file in files if file.is_file() and b"\0" not in file.read_bytes()[:4000]]


def test_no_tracked_file_names_a_registry_or_its_hosts() -> None:
    found = [
        f"{file.relative_to(ROOT)}: {host}"
        for file in tracked()
        for host in HOSTS
        if host in file.read_text("utf-8")
    ]
    assert found == []


def test_no_tracked_file_holds_a_path_of_a_machine() -> None:
    found = [
        f"{file.relative_to(ROOT)}: {match[0]}"
        for file in tracked()
        for match in PATHS.finditer(file.read_text("utf-8"))
    ]
    assert found == []


def test_lock_files_pin_every_package_by_checksum_and_hold_no_address() -> None:
    for file in sorted((ROOT / "requirements").glob("*.txt")):
        text = file.read_text("utf-8")
        assert "://" not in text, file.name
        packages = re.split(r"\n(?=\S)", text.strip())
        for package in packages:
            assert re.match(r"[\w.-]+==[\w.]+", package), f"{file.name}: {package[:60]}"
            assert "--hash=sha256:" in package, f"{file.name}: {package[:60]}"
    lock = json.loads((ROOT / "site_src" / "package-lock.json").read_text("utf-8"))
    for name, entry in lock["packages"].items():
        assert "resolved" not in entry, name
        assert not name or entry["integrity"].startswith("sha512-"), name
