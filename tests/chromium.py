"""The Chromium that browser tests and benchmarks drive: found, or installed where that is easy."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
PLACES = {
    "darwin": (
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    ),
    "win32": (
        "Chromium/Application/chrome.exe",
        "Google/Chrome/Application/chrome.exe",
        "Microsoft/Edge/Application/msedge.exe",
    ),
}
FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
).split()


class BrowserMissingError(Exception):
    """No Chromium; the message says what to do, in one sentence."""


def find_chromium() -> str | None:
    """Path of a Chromium on this machine; `SLIPFIT_CHROMIUM` names one."""
    if named := os.environ.get("SLIPFIT_CHROMIUM"):
        return named
    for name in NAMES:
        if found := shutil.which(name):
            return found
    roots = [
        os.environ.get(key, "") for key in ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")
    ]
    for place in PLACES.get(sys.platform, ()):
        for candidate in [Path(place), *(Path(root) / place for root in roots)]:
            if candidate.is_file():
                return str(candidate)
    return None


def find_or_install(say: Callable[[str], None]) -> str:
    """A Chromium; on Debian, as root, it is installed from Debian's packages."""
    if found := find_chromium():
        return found
    if shutil.which("apt-get") and hasattr(os, "geteuid") and os.geteuid() == 0:
        say("installing Chromium from Debian's packages")
        quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        install = "apt-get install -y -qq --no-install-recommends chromium"
        for command in ("apt-get update -qq", install):
            subprocess.run(command.split(), env=quiet, stdout=subprocess.DEVNULL)
        if found := find_chromium():
            return found
    raise BrowserMissingError(
        "The tests drive a real Chromium and none was found: install Chromium or Chrome, or name "
        "its program in SLIPFIT_CHROMIUM, and run this again."
    )
