"""Pages of a site that does not know where it will stand."""

from __future__ import annotations

from pathlib import Path

import address


def test_pages_claim_no_address_and_the_page_for_what_is_missing_finds_its_files(
    tmp_path: Path,
) -> None:
    page = '<link rel="canonical" href="http://localhost/"><a href="/x/">x</a>'
    (tmp_path / "index.html").write_text(page)
    missing = '<link href="/live/a.css"><script src="/b.js"></script>{"base": "/", "search": "/s"}'
    (tmp_path / "404.html").write_text(missing)
    address.forget(tmp_path)
    assert (tmp_path / "index.html").read_text() == '<a href="/x/">x</a>'
    assert (tmp_path / "404.html").read_text() == (
        '<link href="./live/a.css"><script src="./b.js"></script>{"base": "./", "search": "./s"}'
    )
