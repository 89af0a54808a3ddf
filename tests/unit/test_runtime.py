"""Fetching the browser runtime: what is refused, what is tried next, what is said at the end."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import pytest

import runtime
from runtime import RuntimeFetchError, Source, Wheel, fetch_wheel
from serving import StaticServer

GOOD = b"the right bytes"
WHEEL = Wheel(file_name="numpy-1-wasm.whl", sha256=runtime.digest(GOOD), version="1")


@dataclass
class Answers:
    """A source that gives one answer after another, and counts how often it was asked."""

    answers: list[bytes | Exception]
    asked: int = 0

    def __call__(self, wheel: Wheel) -> bytes:
        answer = self.answers[min(self.asked, len(self.answers) - 1)]
        self.asked += 1
        if isinstance(answer, Exception):
            raise answer
        return answer


@dataclass
class Heard:
    lines: list[str] = field(default_factory=list)

    def __call__(self, text: str) -> None:
        self.lines.append(text)


def fetch(cache: Path, say: Callable[[str], None], **sources: Answers) -> Path:
    listed = [Source(name=name, read=answers) for name, answers in sources.items()]
    return fetch_wheel(WHEEL, cache, listed, say)


def test_a_good_download_is_kept_and_not_asked_for_again(tmp_path: Path) -> None:
    heard, first = Heard(), Answers([GOOD])
    place = fetch(tmp_path, heard, first=first)
    assert place.read_bytes() == GOOD
    assert fetch(tmp_path, heard, first=first) == place
    assert first.asked == 1
    assert heard.lines == ["fetching numpy 1 for the browser from first"]


def test_a_damaged_download_is_refused_and_fetched_once_more(tmp_path: Path) -> None:
    heard, first = Heard(), Answers([b"damaged", GOOD])
    assert fetch(tmp_path, heard, first=first).read_bytes() == GOOD
    assert first.asked == 2
    assert "what came from first does not match its checksum and was refused" in heard.lines


def test_a_source_that_stays_wrong_gives_way_to_the_next(tmp_path: Path) -> None:
    first, second = Answers([b"damaged"]), Answers([GOOD])
    assert fetch(tmp_path, Heard(), first=first, second=second).read_bytes() == GOOD
    assert (first.asked, second.asked) == (2, 1)


def test_an_unreachable_source_is_asked_once_and_the_next_one_in_order(tmp_path: Path) -> None:
    heard = Heard()
    first, second, third = Answers([OSError("no route")]), Answers([GOOD]), Answers([GOOD])
    fetch(tmp_path, heard, first=first, second=second, third=third)
    assert (first.asked, second.asked, third.asked) == (1, 1, 0)
    assert [line.rsplit(" ", 1)[1] for line in heard.lines] == ["first", "second"]


def test_a_damaged_file_in_the_cache_is_fetched_again(tmp_path: Path) -> None:
    heard, first = Heard(), Answers([GOOD])
    place = fetch(tmp_path, heard, first=first)
    place.write_bytes(GOOD[:-1])
    assert fetch(tmp_path, heard, first=first).read_bytes() == GOOD
    assert first.asked == 2
    assert "the cached numpy-1-wasm.whl is damaged: fetching it again" in heard.lines


def test_when_nothing_helps_one_sentence_says_why_and_what_to_do(tmp_path: Path) -> None:
    first, second = Answers([OSError("no route to host")]), Answers([b"damaged"])
    with pytest.raises(RuntimeFetchError) as caught:
        fetch(tmp_path, Heard(), first=first, second=second)
    text = str(caught.value)
    assert text.startswith("numpy-1-wasm.whl could not be had (first: no route to host; second: ")
    assert f"or put that file, with SHA-256 {WHEEL.sha256}, into {tmp_path / 'wheels'}" in text
    assert "\n" not in text
    assert list(tmp_path.rglob("*.whl")) == []  # what was refused is not kept


def test_a_work_that_fails_leaves_no_half_folder(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="full"), runtime.fresh_folder(tmp_path / "made") as folder:
        (folder / "half").touch()
        raise OSError("disk full")
    assert list(tmp_path.iterdir()) == []


def test_a_damaged_runtime_folder_is_noticed(tmp_path: Path) -> None:
    for name in runtime.FILES:
        (tmp_path / name).write_bytes(name.encode())
    listing = json.dumps({"files": runtime._manifest(tmp_path)})
    (tmp_path / "runtime.json").write_text(listing)
    assert runtime._sound(tmp_path)
    (tmp_path / "numpy.zip").write_bytes(b"numpy.zap")
    assert not runtime._sound(tmp_path)
    (tmp_path / "numpy.zip").unlink()
    assert not runtime._sound(tmp_path)


@pytest.mark.parametrize(
    ("platform", "variables", "tail"),
    [
        ("linux", {"XDG_CACHE_HOME": "/caches"}, "caches/slipfit"),
        ("darwin", {}, "Library/Caches/slipfit"),
        ("win32", {"LOCALAPPDATA": "/local"}, "local/slipfit"),
        ("linux", {"SLIPFIT_CACHE": "/mine"}, "mine"),
    ],
)
def test_the_cache_lies_where_the_platform_keeps_caches(
    monkeypatch: pytest.MonkeyPatch, platform: str, variables: dict[str, str], tail: str
) -> None:
    for name in ("SLIPFIT_CACHE", "XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(runtime.sys, "platform", platform)
    assert runtime.cache_folder().as_posix().endswith(tail)


def test_one_member_of_a_far_archive_is_read_by_ranges(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    archive = tmp_path / "far.zip"
    with zipfile.ZipFile(archive, "w") as written:
        written.writestr("before", bytes(3_000_000))
        written.writestr("wanted", GOOD)
        written.writestr("after", bytes(3_000_000))
    whole, read = archive.read_bytes(), []

    def ranged(url: str, first: int | None = None, last: int | None = None) -> tuple[bytes, str]:
        assert first is not None and last is not None
        read.append(last - first + 1)
        return whole[first : last + 1], f"bytes {first}-{last}/{len(whole)}"

    monkeypatch.setattr(runtime, "_read_url", ranged)
    with zipfile.ZipFile(io.BufferedReader(runtime.RangeFile("far"), 1 << 16)) as far:
        assert far.read("wanted") == GOOD
    assert sum(read) < len(whole) / 10


def test_a_server_without_ranges_is_refused(tmp_path: Path) -> None:
    (tmp_path / "far.zip").write_bytes(bytes(1000))
    server = StaticServer(tmp_path).start()
    try:
        with pytest.raises(OSError, match="does not give parts of files"):
            runtime.RangeFile(f"{server.url}far.zip")
    finally:
        server.close()
