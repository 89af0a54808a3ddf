"""Build notes in a real browser: passages that follow the parts, ticks that stay with them, what is
written down, the sheet on paper."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

from serving import StaticServer

BUILD = "frames/quillback-5/build/"
LIVE = "document.documentElement.dataset.live === 'yes'"


def swap(page: Page, kind: str, part: str) -> None:
    """Change one part of the build in the address."""
    page.evaluate(
        "([kind, part]) => { location.hash = location.hash.replace("
        "new RegExp(`${kind}=[^;]*`), `${kind}=${part}`); }",
        [kind, part],
    )


def shown(page: Page, condition: str) -> bool:
    return page.evaluate(
        "text => [...document.querySelectorAll('[data-when]')]"
        ".find(el => el.getAttribute('data-when') === text).hidden === false",
        condition,
    )


def test_passages_words_and_steps_follow_the_parts(
    page: Page, site: StaticServer, wait_until: Callable[..., object]
) -> None:
    page.goto(site.url + BUILD)
    assert not shown(page, "motor.mount_screw is M2")
    wait_until(page, LIVE)
    before = page.locator('[data-slot="value:joint.motors.screw"]').first.text_content()
    swap(page, "motor", "m20-3100")
    wait_until(
        page,
        "[...document.querySelectorAll('[data-when]')].some(el => "
        "el.getAttribute('data-when') === 'motor.mount_screw is M2' && !el.hidden)",
    )
    after = page.locator('[data-slot="value:joint.motors.screw"]').first.text_content()
    assert (before, after) == ("M3 × 8 mm", "M2 × 6 mm")
    # What is shown is what the core says of each condition.
    texts = page.evaluate(
        "[...document.querySelectorAll('[data-when]')].map(el => el.getAttribute('data-when'))"
    )
    assert len(texts) > 20


def test_ticks_and_readings_are_kept_with_the_parts_on_this_device(
    page: Page, site: StaticServer, wait_until: Callable[..., object]
) -> None:
    page.goto(site.url + BUILD)
    wait_until(page, LIVE)
    box = page.locator('[data-steps="motors"]')
    steps = box.locator("[data-tick]:visible").count()
    box.locator("[data-tick]").first.check()
    assert box.locator("[data-done]").text_content() == f"1 of {steps} done"
    field = page.locator('[data-keep="bench hover_throttle"]')
    field.fill("31 %")
    field.blur()

    page.reload()
    wait_until(page, LIVE)
    assert box.locator("[data-tick]").first.is_checked()
    assert field.input_value() == "31 %"

    swap(page, "pack", "k6-1300")
    wait_until(page, "!document.querySelector('[data-steps=motors] [data-tick]').checked")
    assert field.input_value() == ""
    swap(page, "pack", "k6-1600")
    wait_until(page, "document.querySelector('[data-steps=motors] [data-tick]').checked")
    assert field.input_value() == "31 %"

    box.locator("[data-clear-ticks]").click()
    assert not box.locator("[data-tick]").first.is_checked()
    assert box.locator("[data-done]").text_content() == f"{steps} steps"


def test_without_storage_ticks_work_and_nothing_breaks(
    new_context: Callable[..., BrowserContext], site: StaticServer,
    wait_until: Callable[..., object],
) -> None:  # fmt: skip
    context = new_context()
    context.add_init_script(
        "for (const name of ['getItem', 'setItem']) {"
        "  const usual = Storage.prototype[name];"
        "  Storage.prototype[name] = function (key, ...rest) {"
        "    if (String(key).startsWith('slipfit ')) throw Error('refused');"
        "    return usual.call(this, key, ...rest);"
        "  };"
        "}"
    )
    page = context.new_page()
    page.goto(site.url + BUILD)
    wait_until(page, LIVE)
    page.locator("[data-tick]").first.check()
    assert page.locator("[data-done]").first.text_content().startswith("1 of ")


def test_the_bill_of_materials_is_saved_as_csv(
    page: Page, site: StaticServer, wait_until: Callable[..., object]
) -> None:
    page.goto(site.url + BUILD)
    wait_until(page, LIVE)
    with page.expect_download() as download:
        page.locator('[data-csv="bill-of-materials"]').click()
    path = download.value.path()
    lines = path.read_text("utf-8").splitlines()
    assert download.value.suggested_filename == "bill-of-materials.csv"
    assert lines[0] == "What,Count,Each,Together,Note"
    assert any(line.startswith('"Cap head, 10.9: M3 × 8 mm",16,') for line in lines)
    assert lines[-1].startswith("Ready to fly,")


SHEETS = {
    "quillback-5": "",
    "longspur-7": "",
    # hardly a part that fits, so that every verdict says what would mend it
    "quillback-5 ": "motor=m28-1050;prop=p700-42-3;pack=k6-3000;esc=e50;stack=f30v;camera=c22;"
    "video=v40;gps=g28;receiver=r868",
    "longspur-7 ": "motor=m28-1950;prop=p525-80-2;pack=k6-1600;esc=e60;stack=f30;camera=c22;"
    "video=v40;gps=g28;receiver=r868",
}
CUT_OFF = """() => [...document.querySelectorAll('.md-content *')]
  .filter(element => element.getClientRects().length)
  .filter(element => element.getBoundingClientRect().right > innerWidth + 1
    || (getComputedStyle(element).overflowX !== 'visible'
      && element.scrollWidth > element.clientWidth + 1 && element.clientWidth))
  .map(element => element.outerHTML.slice(0, 120))"""
MM = 96 / 25.4  # px of a page printed at its own size
SIDES_MM = 22  # margins of the sheet, left and right together


@pytest.mark.parametrize("sheet", SHEETS)
def test_the_sheet_takes_two_pages_of_a4_and_of_letter_and_nothing_is_cut_off(
    page: Page, site: StaticServer, wait_until: Callable[..., object], sheet: str
) -> None:
    slug, parts = sheet.strip(), SHEETS[sheet]
    build = f"#b1;{slug};{parts}" if parts else ""
    page.goto(f"{site.url}frames/{slug}/sheet/{build}")
    wait_until(page, LIVE)
    if parts:
        page.wait_for_selector(".sf-verdict:has-text('What would mend it')")
    wait_until(page, "!document.querySelector('[data-slot=bench]').innerText.includes('…')")
    assert page.locator("[data-print]").is_visible()
    for paper, width_mm in (("A4", 210.0), ("Letter", 215.9)):
        pdf = page.pdf(format=paper, prefer_css_page_size=False)
        assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 2, f"{sheet} on {paper}"
        page.set_viewport_size({"width": int((width_mm - SIDES_MM) * MM), "height": 1000})
        page.emulate_media(media="print")
        assert page.evaluate(CUT_OFF) == []
        page.emulate_media(media="null")


def test_own_parts_are_kept_saved_read_and_forgotten(
    page: Page, site: StaticServer, wait_until: Callable[..., object], tmp_path: Path
) -> None:
    page.goto(site.url + BUILD)
    wait_until(page, LIVE)
    shelf = page.locator("[data-open-choices=gps]")
    shelf.click()
    page.locator("dialog [data-own-kind=gps]").click()
    for key, text in {"name": "the grey one", "length": "18 mm", "width": "18 mm"}.items():
        page.locator(f"dialog [name={key}]").fill(text)
    page.locator("dialog [name=height]").fill("7 mm")
    page.locator("dialog [name=mass]").fill("6 g")
    page.locator("dialog button[type=submit]").click()
    wait_until(page, "location.hash.includes('gps=own')")

    # Another page, another build: it is still there, and can be saved as a file.
    page.goto(site.url + "frames/longspur-7/fit/")
    wait_until(page, LIVE)
    shelf.click()
    page.locator("dialog .sf-own-files summary").click()
    with page.expect_download() as download:
        page.locator("dialog [data-own-save]").click()
    text = download.value.path().read_text("utf-8")
    assert '[[gps]]\nid = "the-grey-one"\nname = "the grey one"' in text

    page.locator("dialog [data-own-forget='0']").click()
    wait_until(page, "!document.querySelector('dialog [data-own-forget]')")

    # A file with a mistake changes nothing; the same without it brings the part back.
    broken = tmp_path / "broken.toml"
    broken.write_text(text.replace("height =", "hight ="), "utf-8")
    page.locator("dialog .sf-own-files summary").click()
    with page.expect_file_chooser() as chooser:
        page.locator("dialog [data-own-read]").click()
    chooser.value.set_files(broken)
    wait_until(page, "document.querySelector('dialog .sf-own-errors')")
    assert "broken.toml:" in page.locator("dialog .sf-own-errors").inner_text()
    assert page.evaluate("localStorage.getItem('slipfit own parts')") == "[]"
    page.keyboard.press("Escape")

    good = tmp_path / "good.toml"
    good.write_text(text, "utf-8")
    shelf.click()
    page.locator("dialog .sf-own-files summary").click()
    with page.expect_file_chooser() as chooser:
        page.locator("dialog [data-own-read]").click()
    chooser.value.set_files(good)
    wait_until(page, "document.querySelector('dialog [data-own-use]')")
    page.locator("dialog [data-own-use]").click()
    wait_until(page, "location.hash.includes('gps=own,name:the_grey_one')")
