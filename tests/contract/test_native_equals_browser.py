"""Every kind of question, asked of the core here and of the core in a real browser: same answers.

Numbers agree to 1e-9 of their size (the numpy versions differ), everything else exactly. A number
that is part of a text may differ by one in its last digit, because what lies on the edge of
rounding may fall to either side.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

import assets
from api_examples import EXAMPLES
from serving import StaticServer
from slipfit import api

ROOT = Path(__file__).resolve().parents[2]
RELATIVE = 1e-9


@pytest.fixture(scope="module", autouse=True)
def natively() -> None:
    api.use_site(assets.site_files(ROOT / "docs"))


@pytest.fixture(scope="module")
def calculator(chromium: Browser, site: StaticServer) -> Iterator[Page]:
    """A page of the built site with the calculator as `window.calculator`."""
    context = chromium.new_context()
    page = context.new_page()
    client = next(site.folder.glob("live/js-*/worker_client.js")).relative_to(site.folder)
    page.goto(f"{site.url}404.html")
    page.evaluate(
        """async client => {
          const {createCalculator} = await import(client);
          window.calculator = createCalculator({patienceMs: 120000});
        }""",
        f"{site.url}{client.as_posix()}",
    )
    yield page
    context.close()


def asked_in_browser(page: Page, name: str, payload: dict[str, Any]) -> Any:
    return page.evaluate(
        """([name, payload]) => calculator.call(name, payload).then(
          result => ({ok: true, result}), error => ({ok: false, error}))""",
        [name, payload],
    )


def differences(here: Any, there: Any, path: str = "") -> Iterator[str]:
    """Where two answers differ."""
    if isinstance(here, bool) or isinstance(there, bool) or here is None or there is None:
        if here is not there:
            yield f"{path}: {here!r} here, {there!r} in the browser"
    elif isinstance(here, int | float) and isinstance(there, int | float):
        if abs(here - there) > RELATIVE * max(abs(here), abs(there)):
            yield f"{path}: {here!r} here, {there!r} in the browser"
    elif isinstance(here, dict) and isinstance(there, dict) and here.keys() == there.keys():
        for key in here:
            yield from differences(here[key], there[key], f"{path}.{key}")
    elif isinstance(here, list) and isinstance(there, list) and len(here) == len(there):
        for i, (a, b) in enumerate(zip(here, there, strict=True)):
            yield from differences(a, b, f"{path}[{i}]")
    elif isinstance(here, str) and isinstance(there, str) and _same_text(here, there):
        pass
    elif here != there:
        yield f"{path}: {here!r} here, {there!r} in the browser"


NUMBER = re.compile(r"\d+(?:[.]\d+)?")


def _same_text(here: str, there: str) -> bool:
    if here == there:
        return True
    if NUMBER.split(here) != NUMBER.split(there):
        return False
    pairs = zip(NUMBER.findall(here), NUMBER.findall(there), strict=True)
    return all(_one_apart(Decimal(a), Decimal(b)) for a, b in pairs)


def _one_apart(a: Decimal, b: Decimal) -> bool:
    digits = min(int(a.as_tuple().exponent), int(b.as_tuple().exponent))
    return abs(a - b) <= Decimal(1).scaleb(digits)


def test_differences_finds_what_differs() -> None:
    assert list(differences({"a": [1.0, "x"]}, {"a": [1.0 + 1e-10, "x"]})) == []
    for other in ({"a": [1.0 + 1e-8, "x"]}, {"a": [1.0, "y"]}, {"a": [1.0]}, {"b": []}, None):
        assert len(list(differences({"a": [1.0, "x"]}, other))) == 1
    assert list(differences("M46 297.1L59.6 298", "M46 297L59.5 298")) == []
    for text in ("M46 297.1L59.6 300", "M46 297.3L59.6 298", "m46 297.1L59.6 298", "M46 297.1"):
        assert len(list(differences("M46 297.1L59.6 298", text))) == 1


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_browser_answers_as_the_core_does_here(calculator: Page, example: str) -> None:
    name, payload = EXAMPLES[example]
    here = json.loads(api.call_json(name, json.dumps(payload)))
    there = asked_in_browser(calculator, name, payload)
    assert list(differences(here, there)) == []
