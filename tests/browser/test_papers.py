"""The papers in the browser: the paper comes after the page, is printed alone, and is saved under its name."""

from __future__ import annotations

import io
from pathlib import Path

from playwright.sync_api import Page, Route, expect
from pypdf import PdfReader

from tests.browser.conftest import Bench


def test_the_page_stands_at_once_and_the_paper_comes_after(page: Page, bench: Bench) -> None:
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    page.route("**/papers/card.html*", hold)
    page.goto(f"{bench.address}/engine/tern/papers", wait_until="commit")
    expect(page.locator("#said")).to_contain_text("is being made")
    expect(page.get_by_role("button", name="Print")).to_be_hidden()
    held[0].continue_()
    sheet = page.frame_locator("#paper")
    expect(sheet.locator("h1")).to_have_text("Tern")
    expect(sheet.get_by_text("What to do", exact=True)).to_be_visible()
    expect(page.locator("#said")).to_be_empty()
    expect(page.get_by_role("button", name="Print")).to_be_visible()
    # The page's own style reached it: the title stands in a rule.
    assert sheet.locator(".title").evaluate("(one) => getComputedStyle(one).borderTopWidth") == "2px"
    inside = sheet.locator("html").evaluate("(one) => [one.scrollHeight, innerHeight]")
    assert inside[0] <= inside[1], "nothing scrolls within what scrolls"


def test_the_keys_for_printing_print_the_paper_alone(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/tern/papers?paper=valve-1")
    expect(page.frame_locator("#paper").locator("svg")).to_be_visible()
    page.evaluate("document.getElementById('paper').contentWindow.print = () => { document.title = 'printed' }")
    page.keyboard.press("Control+p")
    expect(page).to_have_title("printed")


def test_a_pdf_is_saved_under_its_name(page: Page, bench: Bench, tmp_path: Path) -> None:
    page.goto(f"{bench.address}/engine/tern/papers?size=letter")
    with page.expect_download() as coming:
        page.get_by_role("link", name="Save the PDF").click()
    saved = tmp_path / coming.value.suggested_filename
    coming.value.save_as(saved)
    assert saved.name == "tern-job-card-letter.pdf"
    assert len(PdfReader(io.BytesIO(saved.read_bytes())).pages) > 4
    expect(page.locator("#said")).to_contain_text("tern-job-card-letter.pdf")


def test_papers_are_chosen_by_keyboard_and_a_half_known_engine_is_told_what_is_wanting(
    page: Page, bench: Bench
) -> None:
    page.goto(f"{bench.address}/engine/knot/papers")
    page.get_by_role("link", name="Pressure cards, torque and starting").focus()
    page.keyboard.press("Enter")
    sheet = page.frame_locator("#paper")
    expect(sheet.locator("body")).to_contain_text("Too little is known yet for this drawing")
    expect(sheet.locator("body")).to_contain_text("cavity")
    expect(page.locator("#acts")).to_be_hidden()


def test_the_page_prints_whole_and_fits_a_small_tablet(page: Page, bench: Bench) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(f"{bench.address}/engine/tern/papers")
    expect(page.frame_locator("#paper").locator("h1")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    printed = PdfReader(io.BytesIO(page.pdf(format="A4")))
    words = " ".join(sheet.extract_text() for sheet in printed.pages)
    assert "What was found" in words
    assert "Save the PDF" not in words
