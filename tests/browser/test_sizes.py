"""One scale from a hand's screen to the wall, pictures that can be read, and paper that is filled and not torn."""

from __future__ import annotations

import io
from typing import Any
from unicodedata import normalize

from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader

from tests.browser.conftest import Bench

_SIZES = """() => Object.fromEntries(["body", "h1", ".sheet-title", ".told dt", ".button", ".head-engine"]
    .map((one) => [one, parseFloat(getComputedStyle(document.querySelector(one)).fontSize)]))"""
_CUT_OFF = """() => [...document.querySelectorAll("main .table, main .figure")]
    .filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1).map((one) => one.className)"""


#: The first look at an engine's findings works them out [ms].
_LONG = 60_000


def tidy(words: str) -> str:
    """Words on one line, whatever their letters were drawn as."""
    return " ".join(normalize("NFKC", words).split())


def print_sheets(page: Page) -> list[str]:
    return [sheet.extract_text() for sheet in PdfReader(io.BytesIO(page.pdf(format="A4"))).pages]


def measure_box(page: Page, selector: str) -> dict[str, float]:
    box = page.locator(selector).first.bounding_box()
    assert box is not None
    return {**box}


def test_text_headings_and_hints_grow_together_and_pictures_have_room(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/tern/findings")
    expect(page.locator(".finding").first).to_be_visible(timeout=_LONG)
    sizes: dict[int, Any] = {}
    for width, is_above in ((390, True), (820, True), (1280, False), (1920, False), (2560, False)):
        page.set_viewport_size({"width": width, "height": 1080})
        sizes[width] = page.evaluate(_SIZES)
        assert sizes[width][".sheet-title"] > sizes[width]["body"] > sizes[width][".told dt"]
        assert sizes[width][".head-engine"] > sizes[width]["body"]
        picture, words = measure_box(page, ".finding figure svg"), measure_box(page, ".finding .told")
        assert (picture["y"] + picture["height"] <= words["y"]) is is_above, width
        assert picture["width"] >= min(520, 0.8 * width), width
    assert sizes[820]["body"] == sizes[1280]["body"] == 18
    for width in (1920, 2560):
        growth = {name: round(size / sizes[1280][name], 1) for name, size in sizes[width].items()}
        assert set(growth.values()) == {growth["body"]}
        assert growth["body"] >= 1.2


def test_nothing_is_cut_off_on_a_wall_screen(page: Page, bench: Bench) -> None:
    page.set_viewport_size({"width": 1920, "height": 1080})
    for name in ("turn", "run", "findings"):
        page.goto(f"{bench.address}/engine/tern/{name}", wait_until="networkidle")
        assert page.evaluate(_CUT_OFF) == [], name


def test_a_touched_button_does_not_keep_the_colour_of_a_hover(browser: Browser, bench: Bench) -> None:
    context = browser.new_context(has_touch=True, is_mobile=True, viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(bench.address)
    more = page.locator("details.more summary").first
    colour = "(one) => getComputedStyle(one).backgroundColor"
    before = more.evaluate(colour)
    more.tap()
    expect(page.locator("details.more[open]")).to_have_count(1)
    page.wait_for_timeout(150)
    assert more.evaluate(colour) == before
    # The strip of pages shows that it goes on, and begins where one is.
    page.goto(f"{bench.address}/engine/tern/log")
    nav = page.locator(".head nav")
    assert "gradient" in nav.evaluate("(one) => getComputedStyle(one).maskImage")
    here, strip = nav.locator("[aria-current]").bounding_box(), nav.bounding_box()
    assert here is not None
    assert strip is not None
    assert strip["x"] <= here["x"]
    assert here["x"] + here["width"] <= strip["x"] + strip["width"] + 1
    context.close()


def test_what_is_opened_on_one_card_leaves_no_hole_in_the_next(page: Page, bench: Bench) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    page.goto(bench.address)
    page.locator("details.more summary").first.click()
    opened, beside = page.locator(".engine").nth(0).bounding_box(), page.locator(".engine").nth(1).bounding_box()
    assert opened is not None
    assert beside is not None
    assert opened["y"] == beside["y"]
    assert opened["height"] > beside["height"] + 100


def test_printed_findings_follow_each_other_and_a_heading_stays_with_its_matter(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/turnstone/findings")
    expect(page.locator(".finding").first).to_be_visible(timeout=_LONG)
    titles = [tidy(title) for title in page.locator(".finding h3").all_inner_texts()]
    sheets = print_sheets(page)
    first = [number for number, sheet in enumerate(sheets) for title in titles if title in tidy(sheet)]
    assert len(first) == len(titles) > 3
    assert first[0] == 0, "the first finding stands under the caution"
    assert first[-1] < len(titles) - 1, "not each on a page of its own"
    for sheet in sheets:
        assert sheet.strip().splitlines()[-1].strip() not in {"Steps", "Figures to work to", "Parts to put right"}


def test_no_table_of_the_card_page_is_torn_at_the_end_of_a_page(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/tern/papers/card.html")
    sheets = print_sheets(page)
    heads = page.locator("thead th:first-child").all_inner_texts()
    headings = {*page.locator("h2, h3").all_inner_texts()}
    assert heads.count("Size") == sum(sheet.count("Size as found") for sheet in sheets) > 0
    for sheet in sheets:
        last = sheet.strip().splitlines()[-1].strip()
        assert last not in headings
        assert not last.startswith("Size ")
