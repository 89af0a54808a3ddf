"""Everything a person does in this project, with nothing but Python 3.11 or newer.

    python dev.py serve     build the site, serve it on this machine, rebuild when a file changes
    python dev.py test      everything: style, types, the site, all tests, a real browser included
    python dev.py check     the quick part of that: style, types, tests without a browser
    python dev.py bench     the benchmarks, each as a table and as JSON
    python dev.py build     the site as a folder, ready for any static host

The first start installs what is missing from package registries; later starts need no network.
"""

from __future__ import annotations

import argparse
import hashlib
import os
import subprocess
import sys
import time
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent
ENVIRONMENT = ROOT / ".venv"
PYTHON = ENVIRONMENT / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
BUILD = ROOT / "build"

sys.path[:0] = [str(ROOT / "site_src"), str(ROOT / "tests")]


class SetUpError(Exception):
    """Something needed could not be had; the message is one sentence that says what to do."""


def say(text: str) -> None:
    print(f"· {text}", flush=True)


def environment(locked: str) -> None:
    """`.venv` with the packages of a lock file; installed again only when the lock has changed."""
    lock = ROOT / "requirements" / f"{locked}.txt"
    wanted = lock.read_bytes() + (ROOT / "pyproject.toml").read_bytes() + sys.version.encode()
    stamp = ENVIRONMENT / f"slipfit-{locked}.stamp"
    key = hashlib.sha256(wanted).hexdigest()
    if stamp.exists() and stamp.read_text() == key and PYTHON.exists():
        return
    if not PYTHON.exists():
        say("making an environment in .venv")
        try:
            venv.create(ENVIRONMENT, with_pip=True)
        except (OSError, subprocess.CalledProcessError) as error:
            raise SetUpError(
                f"the environment .venv could not be made ({error}): install Python's venv and pip "
                "(on Debian the package python3-venv) and run this again."
            ) from None
    say(f"installing the packages of requirements/{locked}.txt")
    install = [str(PYTHON), "-m", "pip", "install", "--quiet"]
    if run([*install, "--require-hashes", "-r", str(lock)]):
        raise SetUpError(
            "the Python packages could not be installed: connect to the network, or point pip at "
            "an index that you can reach, and run this again."
        )
    if run([*install, "--no-deps", "--no-index", "--no-build-isolation", "-e", str(ROOT)]):
        raise SetUpError("the package slipfit could not be installed into .venv: report this.")
    stamp.write_text(key)


def run(command: list[str], **more: str) -> int:
    """Run a command in the project's root and give its exit code."""
    quiet = {"NO_MKDOCS_2_WARNING": "1", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
    return subprocess.run(command, cwd=ROOT, env={**quiet, **os.environ, **more}).returncode


def python(*arguments: str, **more: str) -> int:
    """Run the environment's Python."""
    return run([str(PYTHON), *arguments], **more)


def fetch_runtime() -> None:
    if python("site_src/runtime.py"):
        raise SetUpError("without the browser runtime the site cannot be built (see above).")


def build_site(folder: Path, *, strict: bool = True, **more: str) -> int:
    options = ["--strict"] if strict else []
    return python("-m", "mkdocs", "build", "--quiet", *options, "--site-dir", str(folder), **more)


def find_browser() -> None:
    from chromium import BrowserMissingError, find_or_install

    try:
        find_or_install(say)
    except BrowserMissingError as error:
        raise SetUpError(str(error)) from None


# --- The commands ----------------------------------------------------------------------------


def serve(port: int) -> int:
    """Build, serve, watch."""
    from serving import StaticServer

    environment("site")
    fetch_runtime()
    folders = [BUILD / "serve-a", BUILD / "serve-b"]
    say("building the site")
    mistakes = build_for_writing(folders[0])
    if mistakes is not None:
        write_bare_page(folders[0], mistakes)
    stamp_reload(folders[0])
    server = None
    for tried in (port, 0):  # a free port where the wanted one is taken
        try:
            server = StaticServer(folders[0], "/", tried).start()
            break
        except OSError:
            continue
    if server is None:
        raise SetUpError("no port of this machine could be opened: end another server first.")
    say(f"serving {server.url} (end with Ctrl+C)")
    seen = watched()
    try:
        while True:
            time.sleep(0.7)
            now = watched()
            if now == seen:
                continue
            seen = now
            say("something changed: building again")
            folders.reverse()
            mistakes = build_for_writing(folders[0])
            if mistakes is not None:
                folders.reverse()
                stamp_mistakes(folders[0], mistakes)
                say("that did not build; the site stays as it was, and says what is to mend")
                continue
            stamp_reload(folders[0])
            server.folder = folders[0].resolve()
            say("built")
    except KeyboardInterrupt:
        server.close()
    return 0


def build_for_writing(folder: Path) -> str | None:
    """Build with an author's mistakes on their pages; what is to mend where nothing was built."""
    listed = BUILD / "mistakes.txt"
    listed.parent.mkdir(parents=True, exist_ok=True)
    listed.unlink(missing_ok=True)
    more = {"SLIPFIT_RELOAD": "1", "SLIPFIT_MISTAKES": str(listed)}
    failed = build_site(folder, strict=False, **more)
    told = listed.read_text(encoding="utf-8") if listed.exists() else ""
    if not failed:
        if told:
            say(f"built, with things to mend:\n{told.rstrip()}")
        return None
    return told or "The site could not be built; the terminal says why."


def write_bare_page(folder: Path, mistakes: str) -> None:
    from mistakes import in_place_of_the_site

    folder.mkdir(parents=True, exist_ok=True)
    (folder / "index.html").write_text(in_place_of_the_site(mistakes), encoding="utf-8")
    say(f"that did not build:\n{mistakes.rstrip()}")


def stamp_reload(folder: Path) -> None:
    (folder / "reload.txt").write_text(str(time.time_ns()))


def stamp_mistakes(folder: Path, mistakes: str) -> None:
    """Pages that are open keep their place, and show what is to mend."""
    file = folder / "reload.txt"
    stamp = file.read_text(encoding="utf-8").split("\n")[0] if file.exists() else "0"
    file.write_text(f"{stamp}\n{mistakes}", encoding="utf-8")


def watched() -> dict[str, int]:
    """Times of all files that the site is made from."""
    files = [ROOT / "mkdocs.yml"]
    for name in ("docs", "pycore", "site_src"):
        files += (ROOT / name).rglob("*")
    skipped = ("__pycache__", "node_modules", ".egg-info")
    found = {}
    for file in files:
        if file.is_file() and not any(part in str(file) for part in skipped):
            found[str(file)] = file.stat().st_mtime_ns
    return found


STYLE = {
    "ruff check": ["-m", "ruff", "check"],
    "ruff format": ["-m", "ruff", "format", "--check"],
    "mypy": ["-m", "mypy"],
}


def style() -> list[str]:
    """Names of the style and type checks that failed."""
    failed = []
    for name, arguments in STYLE.items():
        say(name)
        if python(*arguments):
            failed.append(name)
    return failed


def test(more: list[str]) -> int:
    """Everything, pytest last."""
    environment("test")
    fetch_runtime()
    find_browser()
    failed = style()
    say("mkdocs build --strict")
    site = BUILD / "site"
    if build_site(site):
        failed.append("mkdocs build")
    say("pytest")
    if python("-m", "pytest", "-q", *more, SLIPFIT_SITE=str(site)):
        failed.append("pytest")
    return closing(failed)


def check(more: list[str]) -> int:
    """Style, types and the tests that need no browser."""
    environment("test")
    failed = style()
    if python("-m", "pytest", "-q", "--ignore=tests/browser", "-m", "not browser", *more):
        failed.append("pytest")
    return closing(failed)


def closing(failed: list[str]) -> int:
    say(f"failed: {', '.join(failed)}" if failed else "all of it passed")
    return 1 if failed else 0


def bench(more: list[str]) -> int:
    environment("bench")
    fetch_runtime()
    find_browser()
    wanted = [f"bench_{name}" for name in more]
    files = sorted((ROOT / "tests" / "bench").glob("bench_*.py"))
    chosen = [file for file in files if not wanted or file.stem in wanted]
    return max((python(str(file)) for file in chosen), default=0)


def build() -> int:
    environment("site")
    fetch_runtime()
    folder = ROOT / "site"
    if build_site(folder):
        return 1
    say(f"the site is in {folder.name}/: copy it to any static host, under any path")
    return 0


def main() -> int:
    if sys.version_info < (3, 11):  # noqa: UP036 (this file is what a too old Python is told by)
        print(f"Slipfit needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
        return 1
    parser = argparse.ArgumentParser(
        prog="dev.py", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("command", choices=["serve", "test", "check", "bench", "build"])
    parser.add_argument("--port", type=int, default=8000, help="where `serve` serves")
    asked, more = parser.parse_known_args()
    os.chdir(ROOT)
    try:
        if asked.command == "serve":
            return serve(asked.port)
        if asked.command == "build":
            return build()
        return {"test": test, "check": check, "bench": bench}[asked.command](more)
    except SetUpError as error:
        print(error, file=sys.stderr)
        return 1


if __name__ == "__main__":
    sys.exit(main())
