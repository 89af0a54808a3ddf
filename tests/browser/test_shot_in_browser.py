"""The drawing of the shot in a real browser: its handle, without a script, and the shot's form."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from playwright.sync_api import BrowserContext, Page

from serving import StaticServer

FLY = "frames/quillback-5/fly/"
WORDS = '[data-drawing="shot"] .sf-stage-words'
TURNS = '[data-drawing="shot"] [data-turns]'


def words(page: Page) -> str:
    return page.locator(WORDS).inner_text()


def turns(page: Page) -> list[str]:
    return page.locator(TURNS).evaluate_all("all => all.map(g => g.getAttribute('transform'))")


def test_without_a_script_the_drawing_shows_the_subject_s_speed(
    new_context: Callable[..., BrowserContext], site: StaticServer
) -> None:
    page = new_context(java_script_enabled=False).new_page()
    page.goto(site.url + FLY)
    assert words(page).startswith("At 216")
    assert page.locator('input[data-stage="shot"]').is_hidden()
    assert page.locator(".sf-safety").is_visible()
    assert page.locator(".sf-rules").is_visible()


def test_the_handle_turns_frame_and_picture_and_says_what_is_seen(
    page: Page, site: StaticServer, wait_until: Callable[..., Any]
) -> None:
    page.goto(site.url + FLY)
    wait_until(page, "document.documentElement.dataset.live === 'yes'")
    before, handle = turns(page), page.locator('input[data-stage="shot"]')
    handle.focus()
    page.keyboard.press("Home")
    assert words(page).startswith("In hover the frame leans 0°")
    assert handle.get_attribute("aria-valuetext") == words(page)
    assert all(turn.startswith("rotate(0.00 ") for turn in turns(page))
    assert len(set(before)) == len(before) == 4  # two in the wide picture, two in the narrow one
    page.keyboard.press("End")
    assert words(page).startswith("At ") and "hover" not in words(page)


def test_a_wished_shot_travels_in_the_address_and_the_drawing_follows(
    page: Page, site: StaticServer, wait_until: Callable[..., Any]
) -> None:
    page.goto(site.url + FLY)
    wait_until(page, "document.documentElement.dataset.live === 'yes'")
    page.locator('[data-slot="shot"] summary').click()
    page.fill("#sf-shot-chase", "180")
    page.locator('form[data-form="shot"] button[type="submit"]').click()
    wait_until(page, "location.hash.includes('chase=50m/s')")
    wait_until(page, f"document.querySelector('{WORDS}').textContent.startsWith('At 180')")
