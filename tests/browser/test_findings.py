"""Findings and cures in the real browser: ticked, tried by slider, chosen, by keyboard and by hand."""

from __future__ import annotations

import re

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import Bench

WORST = ("serious", "critical")


def open_findings(page: Page, bench: Bench, engine: str = "tern") -> None:
    page.goto(f"{bench.address}/engine/{engine}/findings")
    expect(page.locator("#found-head")).to_be_visible()


def list_serious(page: Page) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html'][:120]}" for each in found if each["impact"] in WORST]


def test_a_check_is_ticked_by_keyboard_and_the_ranking_answers(page: Page, bench: Bench) -> None:
    open_findings(page, bench)
    titles = page.locator(".finding-title h3")
    expect(titles).to_have_count(4)
    expect(titles.first).to_contain_text("The valve is 1.64 mm too long")
    no = page.locator("#found-A-valve-too-long").get_by_role("button", name="The check says no")
    no.focus()
    page.keyboard.press("Enter")
    expect(titles.last).to_contain_text("The valve is 1.64 mm too long")
    expect(titles.first).to_contain_text("The eccentric stands 24 deg behind")
    expect(page.locator("#found-A-valve-too-long")).to_contain_text("the check says no")
    expect(no).to_have_attribute("aria-pressed", "true")


def test_a_cure_is_tried_by_slider_by_keyboard_and_chosen(page: Page, bench: Bench) -> None:
    open_findings(page, bench)
    page.get_by_role("link", name=re.compile("Try its figures ?: Shorten the valve")).click()
    title = page.locator("#tried h2")
    expect(title).to_have_text("Shorten the valve to 12.00 mm (0.472 in)")
    slider = page.get_by_role("slider", name="Valve, over its outer edges")
    slider.focus()
    for _ in range(25):
        page.keyboard.press("ArrowRight")
    expect(page.get_by_role("textbox", name="Valve, over its outer edges")).to_have_value("12.25")
    expect(title).to_have_text("Shorten the valve to 12.25 mm (0.482 in)")
    expect(page.locator("#tried")).to_contain_text("down to 12.25 mm")
    page.get_by_role("button", name="Choose this cure").click()
    expect(page.locator(".cure-chosen")).to_contain_text("Shorten the valve to 12.25 mm (0.482 in)")
    page.goto(f"{bench.address}/engine/tern/log")
    expect(page.locator("main")).to_contain_text("To do, cylinder A: Shorten the valve to 12.25 mm")


def test_a_drag_of_two_seconds_leaves_no_backlog(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/tern/findings/cure?cylinder=A&code=turn-eccentric")
    expect(page.locator("#tried table")).to_be_visible()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url) if "/tried?" in request.url else None)
    # As a finger does: a hundred and twenty moves within two seconds.
    page.evaluate(
        """async () => {
          const slider = document.querySelector('#figures input[type=range]');
          for (let move = 0; move < 120; move++) {
            slider.value = 96 + move / 10;
            slider.dispatchEvent(new Event('input', { bubbles: true }));
            await new Promise((done) => setTimeout(done, 16));
          }
        }"""
    )
    expect(page.locator("#tried h2")).to_contain_text("to 107.9 deg")
    expect(page.locator("#tried")).to_have_attribute("aria-busy", "false")
    assert len(asked) < 120
    assert "107.9" in asked[-1]


def test_a_figure_that_cannot_be_is_told_and_what_was_shown_stays(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/tern/findings/cure?cylinder=A&code=shorten-valve")
    expect(page.locator("#tried table")).to_be_visible()
    figure = page.get_by_role("textbox", name="Valve, over its outer edges")
    figure.fill("14.2")
    expect(page.locator("#tried .refused")).to_contain_text("metal would have to be put on the valve that is there")
    expect(page.locator("#tried table")).to_be_visible()
    figure.fill("12.5")
    expect(page.locator("#tried .refused")).to_have_count(0)
    page.get_by_role("button", name="Back to its own figures").click()
    expect(figure).to_have_value("12.00")


def test_no_serious_fault_for_those_who_do_not_see_and_nothing_runs_off_a_phone(page: Page, bench: Bench) -> None:
    for address in ("turnstone/findings", "tern/findings", "tern/findings/cure?cylinder=A&code=shorten-valve"):
        page.goto(f"{bench.address}/engine/{address}")
        expect(page.locator("[aria-busy=true]")).to_have_count(0)
        assert list_serious(page) == []
        page.set_viewport_size({"width": 360, "height": 740})
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        page.set_viewport_size({"width": 1280, "height": 800})
