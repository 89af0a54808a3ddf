"""A small static server: pages under a path of their own, compressed as a real host would do."""

from __future__ import annotations

import gzip
import mimetypes
import threading
from functools import lru_cache
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

TYPES = {
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    ".wasm": "application/wasm",
    ".zip": "application/zip",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
}
COMPRESSED = ("text/", "application/", "image/svg")


class StaticServer(ThreadingHTTPServer):
    """Serves a folder under `path` (such as `/docs/`) on a free port of this machine, until closed.

    Files in a folder or under a name that holds their own checksum may be kept for ever by the
    browser; everything else is asked for again each time, with the file's time as its tag.
    """

    daemon_threads = True

    def __init__(self, folder: Path, path: str = "/", port: int = 0) -> None:
        self.folder, self.path = folder.resolve(), path
        self.requested: list[str] = []
        super().__init__(("127.0.0.1", port), _Handler)

    @property
    def url(self) -> str:
        """Address of the site's first page, ending in a slash."""
        return f"http://127.0.0.1:{self.server_address[1]}{self.path}"

    def start(self) -> StaticServer:
        """Serve in a thread of its own."""
        threading.Thread(target=self.serve_forever, daemon=True).start()
        return self

    def close(self) -> None:
        """Stop serving and let go of the port."""
        self.shutdown()
        self.server_close()


@lru_cache(maxsize=512)
def _compressed(file: Path, changed: int, size: int) -> bytes:
    return gzip.compress(file.read_bytes(), 6, mtime=0)


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True
    server: StaticServer

    def log_message(self, format: str, *args: object) -> None:
        pass

    def do_HEAD(self) -> None:
        self.do_GET()

    def do_GET(self) -> None:
        wanted = unquote(urlsplit(self.path).path)
        self.server.requested.append(self.path)
        if not wanted.startswith(self.server.path):
            return self._answer(HTTPStatus.NOT_FOUND, b"not here", "text/plain")
        file = (self.server.folder / wanted[len(self.server.path) :]).resolve()
        if not file.is_relative_to(self.server.folder):
            return self._answer(HTTPStatus.NOT_FOUND, b"not here", "text/plain")
        if file.is_dir():
            if not wanted.endswith("/"):
                return self._answer(
                    HTTPStatus.MOVED_PERMANENTLY, b"", "text/plain", Location=f"{wanted}/"
                )
            file = file / "index.html"
        if not file.is_file():
            missing = self.server.folder / "404.html"
            body = missing.read_bytes() if missing.is_file() else b"not here"
            return self._answer(HTTPStatus.NOT_FOUND, body, "text/html; charset=utf-8")
        kind = TYPES.get(file.suffix) or mimetypes.guess_type(file.name)[0]
        kind = kind or "application/octet-stream"
        stat = file.stat()
        tag = f'"{stat.st_mtime_ns:x}-{stat.st_size:x}"'
        kept = "/live/" in wanted and file.suffix != ".html"
        headers = {
            "ETag": tag,
            "Cache-Control": "public, max-age=31536000, immutable" if kept else "no-cache",
        }
        if self.headers.get("If-None-Match") == tag:
            return self._answer(HTTPStatus.NOT_MODIFIED, b"", kind, **headers)
        if kind.startswith("text/"):
            kind += "; charset=utf-8"
        if kind.startswith(COMPRESSED) and "gzip" in self.headers.get("Accept-Encoding", ""):
            body = _compressed(file, stat.st_mtime_ns, stat.st_size)
            headers["Content-Encoding"] = "gzip"
            headers["Vary"] = "Accept-Encoding"
        else:
            body = file.read_bytes()
        self._answer(HTTPStatus.OK, body, kind, **headers)

    def _answer(self, status: HTTPStatus, body: bytes, kind: str, **headers: str) -> None:
        try:
            self.send_response(status)
            self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(body)))
            for name, value in headers.items():
                self.send_header(name.replace("_", "-"), value)
            self.end_headers()
            if self.command != "HEAD":
                self.wfile.write(body)
        except (BrokenPipeError, ConnectionResetError):
            pass
