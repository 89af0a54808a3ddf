"""What a reader meets on the built site in a real browser: swapping, links, keyboard, paper."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page

from serving import StaticServer

FRAME = "frames/quillback-5/"
WIDE_PACK = "k6-1750w"  # on the shelf so that something clashes by 2.4 mm
TOUCH = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}
NewContext = Callable[..., BrowserContext]


@dataclass
class Watch:
    """Which hosts a page asked, and what it complained of."""

    origins: set[str] = field(default_factory=set)
    complaints: list[str] = field(default_factory=list)

    def over(self, page: Page) -> None:
        page.on("request", lambda request: self.origins.add(request.url.split("/somewhere/")[0]))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("console", self._heard)

    def _heard(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.complaints.append(message.text)


@pytest.fixture(scope="module")
def device(chromium: Browser) -> Iterator[BrowserContext]:
    """A device that keeps its worker from test to test, as a reader's does from page to page."""
    context = chromium.new_context(viewport={"width": 1440, "height": 900})
    yield context
    context.close()


@pytest.fixture
def page(device: BrowserContext, site: StaticServer) -> Iterator[Page]:
    """A page on a device that remembers nothing; it must not complain nor ask another host."""
    watch = Watch()
    page = device.new_page()
    watch.over(page)
    page.goto(site.url + "about/safety/")
    page.evaluate("localStorage.clear()")
    yield page
    page.close()
    own = site.url.split("/somewhere/")[0]
    assert {origin for origin in watch.origins if not origin.startswith(("blob:", "data:"))} == {
        own
    }
    assert not watch.complaints, "\n".join(watch.complaints)


def open_live(page: Page, url: str) -> None:
    """Open a page of the frame and wait until it has been computed here."""
    page.goto(url)
    page.wait_for_selector("html[data-live=yes]", state="attached", timeout=60_000)


def settled(page: Page) -> None:
    """Wait until every place shows this build, and ranges have followed."""
    page.wait_for_selector(".sf-note .sf-whisker-line", state="attached", timeout=30_000)
    for _ in range(200):
        late = page.locator("[data-late]").count()
        if not late and "…" not in page.locator(".sf-note-range").all_inner_texts():
            return
        page.wait_for_timeout(50)
    raise AssertionError("ranges did not follow")


def swap(page: Page, kind: str, part: str) -> None:
    """Swap a part as a reader does, and wait for what follows."""
    page.click(f"[data-open-choices={kind}]")
    page.click(f"[data-swap-part='{part}']")
    page.wait_for_selector("dialog[open]", state="detached")
    page.wait_for_url(f"**;{kind}={part}*", timeout=30_000)  # not before the first reply
    page.wait_for_selector("[data-change]", timeout=30_000)
    settled(page)


def figures(page: Page) -> list[str]:
    """Every figure and range on the page, as it reads."""
    return page.locator(".sf-value, .sf-note-value, .sf-note-range").all_inner_texts()


def build_of(page: Page) -> str:
    return page.url.split("#", 1)[1]


def test_swapped_parts_change_verdicts_and_figures_and_the_link_shows_the_same_elsewhere(
    page: Page, site: StaticServer, new_context: NewContext
) -> None:
    open_live(page, site.url + FRAME)
    before = figures(page)
    shelf = page.locator(".sf-part[data-kind=pack]")
    assert "clashes" not in shelf.inner_text()

    swap(page, "pack", WIDE_PACK)
    assert "clashes by 2.4" in shelf.inner_text()
    assert "clashes by 2.4" in page.inner_text(".sf-short")
    page.click("[data-open-choices=prop]")
    page.click("[data-swap-part='p525-70-2']", timeout=60_000)
    page.wait_for_url("**;prop=p525-70-2*")
    settled(page)
    after = figures(page)
    assert after != before

    elsewhere = new_context().new_page()
    open_live(elsewhere, page.url)
    settled(elsewhere)
    assert figures(elsewhere) == after
    assert elsewhere.inner_text(".sf-shelf") == page.inner_text(".sf-shelf")


def test_back_and_forward_walk_through_the_builds(page: Page, site: StaticServer) -> None:
    open_live(page, site.url + FRAME)
    standard = build_of(page)
    swap(page, "pack", WIDE_PACK)
    swapped = build_of(page)
    assert f"pack={WIDE_PACK}" in swapped
    page.go_back()
    page.wait_for_selector(".sf-part[data-kind=pack]:not(:has-text('clashes by 2.4'))")
    assert build_of(page) == standard
    page.go_forward()
    page.wait_for_selector(".sf-part[data-kind=pack]:has-text('clashes by 2.4')")
    assert build_of(page) == swapped


def test_the_build_travels_to_the_frames_other_pages_and_is_remembered(
    page: Page, site: StaticServer
) -> None:
    open_live(page, site.url + FRAME)
    swap(page, "pack", WIDE_PACK)
    build = build_of(page)
    assert page.get_attribute(".sf-chapters a >> text=Fly", "href").endswith(build)
    page.evaluate("scrollTo(0, 900)")
    page.click(".sf-chapters a >> text=Fit")
    page.wait_for_selector("h1:has-text('fit')")
    page.wait_for_selector(".sf-verdict:has-text('clashes by 2.4')")
    assert "/fit/" in page.url
    assert build_of(page) == build
    assert page.evaluate("scrollY") == 0
    open_live(page, site.url + FRAME + "fly/")
    page.wait_for_selector(".sf-part[data-kind=pack]:has-text('clashes by 2.4')")
    assert build_of(page) == build
    page.click("[data-default-build]")
    page.wait_for_selector(".sf-part[data-kind=pack]:not(:has-text('clashes by 2.4'))")


@pytest.mark.parametrize(
    ("fragment", "words"),
    [
        ("#b1;quillback-5;pack=no-such-pack", "no-such-pack"),
        ("#b1;quillback-5;pack=%3Cimg%20src=x%20onerror=alert(1)%3E", "pack"),
        ("#b1;longspur-7;pack=k6-1600", "longspur-7"),
        ("#b9;quillback-5;pack=k6-1600", "b9"),
        ("#b1;", "Shown instead"),
    ],
)
def test_a_link_that_is_not_understood_says_so_and_shows_the_default_build(
    page: Page, site: StaticServer, fragment: str, words: str
) -> None:
    page.goto(site.url + FRAME)
    standard = page.get_attribute("[data-frame]", "data-link")
    static = page.inner_text(".sf-note-value >> nth=0")
    page.goto("about:blank")
    open_live(page, site.url + FRAME + fragment)
    page.wait_for_selector(f"#sf-words:has-text('{words}')")
    settled(page)
    assert page.inner_text(".sf-note-value >> nth=0") == static
    assert f"#{build_of(page)}" == standard
    assert page.locator("img[src=x]").count() == 0


OTHER = "b1;longspur-7;pack=k6-3000;camera=c22"


def test_a_link_for_another_frame_leads_to_that_frame_with_its_build(
    page: Page, site: StaticServer
) -> None:
    open_live(page, f"{site.url}{FRAME}fly/#{OTHER}")
    page.wait_for_selector("#sf-words:has-text('not for this one')")
    assert build_of(page).startswith("b1;quillback-5;")
    link = page.locator("#sf-words a")
    assert link.get_attribute("href") == f"{site.url}frames/longspur-7/#{OTHER}"
    link.focus()
    page.keyboard.press("Enter")
    page.wait_for_selector("[data-frame=longspur-7]")
    page.wait_for_selector(".sf-part[data-kind=camera]:has-text('22 mm wide')")
    assert page.url.startswith(f"{site.url}frames/longspur-7/#b1;longspur-7;")
    assert "camera=c22" in build_of(page)
    assert page.locator("#sf-words a").count() == 0


def test_a_link_for_another_frame_pasted_over_a_page_leaves_its_build(
    page: Page, site: StaticServer
) -> None:
    open_live(page, site.url + FRAME)
    swap(page, "pack", WIDE_PACK)
    build = build_of(page)
    page.evaluate("fragment => { location.hash = fragment; }", OTHER)
    there = "#sf-words a[href*='/frames/longspur-7/#b1;longspur-7;']"
    page.wait_for_selector(there)
    page.wait_for_timeout(600)  # the theme shows the page anew
    page.wait_for_selector(".sf-part[data-kind=pack]:has-text('clashes by 2.4')")
    settled(page)
    assert build_of(page) == build
    assert page.is_visible(there)
    page.click("[data-default-build]")
    page.wait_for_selector("#sf-words a", state="detached")


@pytest.mark.parametrize(
    "frame",
    ["nowhere", "..", "", "quillback-5/fly", "<img src=x onerror=alert(1)>", "//example.org/"],
)
def test_a_link_for_a_frame_that_the_site_does_not_have_leads_nowhere(
    page: Page, site: StaticServer, frame: str
) -> None:
    page.goto(site.url + FRAME)
    page.goto("about:blank")
    open_live(page, f"{site.url}{FRAME}#b1;{frame};pack=k6-1600")
    page.wait_for_selector("#sf-words:has-text('Shown instead')")
    assert page.locator("#sf-words a, #sf-words img").count() == 0


def test_the_calculator_is_asked_for_once_and_the_index_of_search_at_the_first_question(
    new_context: NewContext, site: StaticServer, wait_until: Callable[..., Any]
) -> None:
    page = new_context().new_page()
    already = len(site.requested)
    open_live(page, site.url + FRAME)

    def asked(pattern: str) -> list[str]:
        return [path for path in site.requested[already:] if re.search(pattern, path)]

    for file in (r"pyodide[.]asm[.]wasm", r"stdlib[.]zip", r"numpy[.]zip", r"core-\w+[.]zip"):
        assert len(asked(file)) == 1, file
    page.locator(".md-search__input").first.click()
    told = page.locator(".md-search-result__meta")
    wait_until(page, "document.querySelector('.md-search-result__meta').textContent.match(/Type/)")
    assert asked("workers/search") == []
    page.keyboard.type("antenna")
    page.locator(".md-search-result__item").first.wait_for()
    assert re.match(r"\d+ matching", told.inner_text())
    page.keyboard.press("Control+A")
    page.keyboard.type("wyvern")
    wait_until(page, "document.querySelector('.md-search-result__meta').textContent.match(/No m/)")
    assert len(asked("workers/search")) == 1


def test_a_browser_without_lasting_shared_workers_loads_the_calculator_once_too(
    new_context: NewContext, site: StaticServer
) -> None:
    page = new_context().new_page()
    page.add_init_script("delete globalThis.SharedWorker")
    already = len(site.requested)
    open_live(page, site.url + FRAME)
    assert len([path for path in site.requested[already:] if "asm.wasm" in path]) == 1
    page.locator(".sf-chapters a", has_text="Fly").click()  # without a full load
    page.wait_for_url("**/fly/**")
    settled(page)  # by the same worker
    assert len([path for path in site.requested[already:] if "asm.wasm" in path]) == 1


def test_headings_can_still_be_linked_to(page: Page, site: StaticServer) -> None:
    open_live(page, site.url + FRAME + "#is-anything-past-its-limit")
    top = page.evaluate(
        "document.getElementById('is-anything-past-its-limit').getBoundingClientRect().top"
    )
    assert 0 <= top < 200
    assert build_of(page).startswith("b1;quillback-5")
    page.click("a[href*='warm-packs']")
    page.wait_for_selector("h2#warm-packs")
    page.wait_for_timeout(800)
    top = page.evaluate("document.getElementById('warm-packs').getBoundingClientRect().top")
    assert 0 <= top < 200
    assert build_of(page).startswith("b1;quillback-5")


def test_changes_are_marked_with_the_difference_and_fade(page: Page, site: StaticServer) -> None:
    open_live(page, site.url + FRAME)
    page.click("[data-open-choices=pack]")
    page.click(f"[data-swap-part='{WIDE_PACK}']")
    page.wait_for_selector("[data-slot='note:mass_total'][data-change^='+']", state="attached")
    page.wait_for_selector("[data-change]", state="detached", timeout=5000)


def test_an_own_part_keeps_what_was_typed_and_travels_in_the_link(
    page: Page, site: StaticServer, new_context: NewContext
) -> None:
    open_live(page, site.url + FRAME)
    page.click("[data-open-choices=gps]")
    page.click("[data-own-kind=gps]")
    form = page.locator("form[data-form=own]")
    form.locator("[name=name]").fill("mine, from the drawer")
    form.locator("[name=length]").fill("20 mm")
    form.locator("[name=width]").fill("20 stone")
    form.locator("[name=height]").fill("8")
    form.locator("[name=mass]").fill("9 g")
    form.locator("[type=submit]").click()
    wrong = form.locator("[aria-invalid=true]")
    wrong.wait_for()
    assert wrong.get_attribute("name") == "width"
    assert page.evaluate("document.activeElement.name") == "width"
    said = page.inner_text(f"#{wrong.get_attribute('aria-describedby').split()[0]}")
    assert "must carry a unit" in said.lower()
    assert form.locator("[name=name]").input_value() == "mine, from the drawer"
    assert form.locator("[name=width]").input_value() == "20 stone"
    wrong.fill("24 mm")
    form.locator("[type=submit]").click()
    page.wait_for_selector("dialog[open]", state="detached")
    page.wait_for_selector(".sf-part[data-kind=gps]:has-text('mine, from the drawer')")
    assert "gps=own" in build_of(page)
    elsewhere = new_context().new_page()
    open_live(elsewhere, page.url)
    elsewhere.wait_for_selector(".sf-part[data-kind=gps]:has-text('mine, from the drawer')")


def test_another_day_changes_the_sentence_and_wrong_entries_stay(
    page: Page, site: StaticServer
) -> None:
    open_live(page, site.url + FRAME)
    page.click(".sf-day summary")
    page.fill(".sf-day [name=air]", "warm")
    page.click(".sf-day [type=submit]")
    page.wait_for_selector(".sf-day [name=air][aria-invalid=true]")
    assert page.input_value(".sf-day [name=air]") == "warm"
    page.fill(".sf-day [name=air]", "25")
    page.click(".sf-day [type=submit]")
    page.wait_for_selector(".sf-day p:has-text('air at 25')")
    assert ";air=25C" in build_of(page)
    assert page.locator(".sf-day [aria-invalid]").count() == 0


def test_an_option_is_put_on_by_keyboard_and_taken_off_by_the_back_button(
    page: Page, site: StaticServer
) -> None:
    open_live(page, site.url + FRAME)
    standard = build_of(page)
    box = page.locator("#sf-option-spinners")
    assert not box.is_checked()
    box.focus()
    page.keyboard.press("Space")
    page.wait_for_selector(".sf-options-now:has-text('Built with spinners')")
    assert build_of(page) == f"{standard};with=spinners"
    assert box.is_checked()
    assert page.evaluate("document.activeElement.id") == "sf-option-spinners"
    page.wait_for_selector(".sf-worth:has-text('Without spinners')")
    assert page.locator("text=With spinners on, a propeller is not changed").is_visible()
    page.go_back()
    page.wait_for_selector(".sf-options-now:has-text('Built without spinners')")
    assert build_of(page) == standard
    assert not box.is_checked()


def test_units_switch_and_are_remembered(page: Page, site: StaticServer) -> None:
    open_live(page, site.url + FRAME)
    assert "km/h" in page.inner_text("[data-slot='note:top_speed']")
    page.click("[data-units]")
    page.wait_for_selector("[data-slot='note:top_speed']:has-text('mph')")
    page.goto("about:blank")
    open_live(page, site.url + FRAME + "fly/")
    page.wait_for_selector("[data-slot='note:top_speed']:has-text('mph')")
    assert page.inner_text("[data-units]") == "Metric units"


def test_an_explanation_opens_by_keyboard_and_gives_the_focus_back(
    page: Page, site: StaticServer
) -> None:
    open_live(page, site.url + FRAME)
    for opener in ("[data-explain=top_speed]", "[data-slot='value:top_speed']"):
        page.focus(opener)
        page.keyboard.press("Enter")
        page.wait_for_selector(".sf-explain li .sf-numbers")
        assert "What moves it most" in page.inner_text("dialog")
        page.keyboard.press("Escape")
        assert page.evaluate(f'document.activeElement.matches("{opener}")')


def test_a_chart_can_be_read_by_keyboard_and_saved(page: Page, site: StaticServer) -> None:
    open_live(page, site.url + FRAME)
    slider = page.locator("[data-cursor=level_flight]")
    slider.focus()
    output = page.locator("[data-chart=level_flight] output")
    first = output.inner_text()
    assert first.startswith("At ")
    page.keyboard.press("ArrowRight")
    assert output.inner_text() != first
    assert slider.get_attribute("aria-valuetext") == output.inner_text()
    page.click("[data-chart=level_flight] summary")
    with page.expect_download() as started:
        page.click("[data-csv=level_flight]")
    text = started.value.path().read_text("utf-8")
    rows = list(csv.reader(io.StringIO(text)))
    assert rows[0][0] == "Speed, km/h"
    assert len(rows) > 10
    assert all(float(row[0]) >= 0 for row in rows[1:])


def test_choices_can_be_filtered(page: Page, site: StaticServer) -> None:
    open_live(page, site.url + FRAME)
    page.click("[data-open-choices=pack]")
    page.wait_for_selector(".sf-choice")
    total = page.locator(".sf-choice:visible").count()
    page.fill("[data-filter]", "wide")
    assert 0 < page.locator(".sf-choice:visible").count() < total
    page.fill("[data-filter]", "no such thing")
    assert page.is_visible(".sf-choices-none")


def test_propellers_are_listed_at_once_and_judged_one_by_one_in_their_places(
    page: Page, site: StaticServer, wait_until: Callable[..., Any]
) -> None:
    open_live(page, site.url + FRAME)
    settled(page)
    page.click("[data-open-choices=prop]")
    page.wait_for_selector("[data-until-judged]")  # the list is there before its speeds are
    names = page.locator(".sf-choice .sf-part-name").all_inner_texts()
    assert len(names) >= 8
    waiting = page.locator(".sf-choice-effect", has_text="…")
    assert waiting.count() > 0
    page.fill("[data-filter]", "three")
    shown = page.locator(".sf-choice:visible").count()
    wait_until(page, "!document.querySelector('[data-until-judged]')")
    assert waiting.count() == 0
    assert page.locator(".sf-choice .sf-part-name").all_text_contents() == names
    assert page.locator(".sf-choice:visible").count() == shown
    page.fill("[data-filter]", "")
    page.keyboard.press("Escape")
    page.click("[data-open-choices=prop]")
    page.locator(".sf-choice .sf-button").first.click()  # while the others are being judged
    page.wait_for_selector("dialog[open]", state="detached")
    page.wait_for_selector("[data-change]", timeout=30_000)


def test_the_propeller_that_a_reader_points_at_is_judged_next(
    page: Page, site: StaticServer, wait_until: Callable[..., Any]
) -> None:
    open_live(page, site.url + FRAME)
    settled(page)
    page.click("[data-open-choices=prop]")
    page.wait_for_selector("[data-until-judged]")
    unjudged = page.locator(".sf-choice", has=page.locator(".sf-choice-effect", has_text="…"))
    last = unjudged.last.get_attribute("data-choice")
    waiting = unjudged.count()
    page.locator(f".sf-choice[data-choice='{last}']").hover()
    wait_until(page, f"!document.querySelector('[data-choice=\"{last}\"]').innerText.includes('…')")
    assert waiting - unjudged.count() < waiting // 2  # most others still wait


def test_the_link_is_copied(new_context: NewContext, site: StaticServer) -> None:
    page = new_context(permissions=["clipboard-read", "clipboard-write"]).new_page()
    open_live(page, site.url + FRAME)
    page.click("[data-copy-link]")
    page.wait_for_selector("[data-copy-link]:has-text('Copied')")
    assert page.evaluate("navigator.clipboard.readText()") == page.url


def test_everything_is_there_without_a_script(chromium: Browser, site: StaticServer) -> None:
    for width in (1440, 390):
        context = chromium.new_context(
            java_script_enabled=False, viewport={"width": width, "height": 900}
        )
        page = context.new_page()
        page.goto(site.url + FRAME)
        assert "km/h" in page.inner_text("[data-slot='note:top_speed']")
        assert "–" in page.inner_text("[data-slot='note:top_speed']")
        assert page.locator(".sf-picture:visible").count() >= 3
        assert page.locator(".sf-verdict").count() > 3
        assert page.locator(".sf-scripted:visible").count() == 0
        if width == 390:
            page.click(".sf-shelf summary")
        assert page.is_visible(".sf-part[data-kind=pack]")
        context.close()


def test_a_refused_storage_breaks_nothing(chromium: Browser, site: StaticServer) -> None:
    context = chromium.new_context()
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no'); }})"
    )
    page = context.new_page()
    open_live(page, site.url + FRAME)
    swap(page, "pack", WIDE_PACK)
    page.click(".sf-chapters a >> text=Fit")
    page.wait_for_selector(".sf-verdict:has-text('clashes by 2.4')", timeout=60_000)
    context.close()


def test_nothing_jumps_when_the_page_becomes_live(
    new_context: NewContext, site: StaticServer
) -> None:
    """On a slow machine too, where the page is painted before all of it has been read."""
    for slower in (1, 6):
        context = new_context()
        page = context.new_page()
        session = context.new_cdp_session(page)
        session.send("Emulation.setCPUThrottlingRate", {"rate": slower})
        page.add_init_script(
            """window.jumps = [];
            new PerformanceObserver(list => {
              for (const {hadRecentInput, value, sources} of list.getEntries()) {
                if (hadRecentInput) continue;
                const what = sources.map(({node}) => node?.outerHTML?.slice(0, 80));
                jumps.push([value, ...what]);
              }
            }).observe({type: 'layout-shift', buffered: true});"""
        )
        open_live(page, site.url + FRAME)
        page.wait_for_timeout(500)
        jumps = page.evaluate("jumps")
        assert sum(jump[0] for jump in jumps) < 0.01, jumps


def test_a_phone_has_room_for_fingers_and_no_sideways_scroll(
    new_context: NewContext, site: StaticServer
) -> None:
    page = new_context(**TOUCH).new_page()
    open_live(page, site.url + FRAME)
    small = """() => [...document.querySelectorAll(
        'button, summary, input, select, .sf-chapters a, .sf-turn a, .sf-contents a')]
      .filter(el => !el.closest('.md-search') && el.getClientRects().length
        && el.checkVisibility({visibilityProperty: true}))
      .map(el => [el.outerHTML.slice(0, 80), el.getBoundingClientRect()])
      .filter(([, box]) => box.height && box.height < 43.5)
      .map(([html, box]) => `${html} ${box.height}`)"""
    sideways = "document.documentElement.scrollWidth - innerWidth"
    assert page.evaluate(small) == []
    assert page.evaluate(sideways) <= 0
    page.click(".sf-shelf summary")
    assert page.evaluate(small) == []
    page.click("[data-open-choices=gps]")
    page.wait_for_selector(".sf-choice")
    assert page.evaluate(small) == []
    page.click("[data-own-kind=gps]")
    page.wait_for_selector("form[data-form=own]")
    assert page.evaluate(small) == []
    assert page.evaluate(sideways) <= 0


def test_on_paper_stand_figures_and_parts_and_nothing_to_press(
    page: Page, site: StaticServer
) -> None:
    open_live(page, site.url + FRAME)
    page.emulate_media(media="print")
    assert page.is_visible(".sf-part[data-kind=pack]")
    assert page.is_visible("[data-slot='note:top_speed']")
    assert page.locator("button:visible, input:visible, .sf-masthead:visible").count() == 0


def axe(page: Page, source: str) -> list[Any]:
    page.evaluate(source)
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    return [
        (violation["id"], node["target"], node["failureSummary"])
        for violation in found["violations"]
        for node in violation["nodes"]
    ]


PAGES = [
    "",
    FRAME,
    *(FRAME + name for name in ("fit/", "build/", "fly/")),
    "methods/",
    "authors/frame/",
    "about/safety/",
    "404.html",
]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1440, 390])
def test_axe_finds_nothing_on_any_kind_of_page(
    new_context: NewContext, site: StaticServer, axe_source: str, scheme: Any, width: int
) -> None:
    context = new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=True
    )
    page = context.new_page()
    for path in PAGES:
        page.goto(site.url + path)
        if path.startswith(FRAME):
            page.wait_for_selector("html[data-live=yes]", state="attached", timeout=60_000)
        page.wait_for_timeout(600)
        assert (path, axe(page, axe_source)) == (path, [])


@pytest.mark.parametrize("width", [1440, 390])
def test_axe_finds_nothing_in_what_opens_over_a_page(
    new_context: NewContext, site: StaticServer, axe_source: str, width: int
) -> None:
    page = new_context(viewport={"width": width, "height": 900}, bypass_csp=True).new_page()
    open_live(page, site.url + FRAME)
    page.evaluate(
        "for (const all of document.querySelectorAll('.sf-chart details, .sf-day details')) "
        "all.open = true"
    )
    assert axe(page, axe_source) == []
    page.click(".sf-contents summary")
    assert axe(page, axe_source) == []
    page.keyboard.press("Escape")
    if width == 390:
        page.click(".sf-shelf summary")
        assert axe(page, axe_source) == []
    page.click("[data-open-choices=gps]")
    page.wait_for_selector(".sf-choice")
    assert axe(page, axe_source) == []
    page.click("[data-own-kind=gps]")
    page.click("form[data-form=own] [type=submit]")
    page.wait_for_selector("[aria-invalid=true]")
    assert axe(page, axe_source) == []
    page.keyboard.press("Escape")
    page.evaluate("document.querySelector('[data-explain]').click()")
    page.wait_for_selector(".sf-explain")
    assert axe(page, axe_source) == []
