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
    slider = page.get_by_role("slider", name="Valve, over its outer edges")
    amiss = page.locator("#amiss-1")
    for text, words in (
        ("14.2 mm", "is outside of what this cure allows: write a figure between 11.18 and 13.64 mm."),
        ("12,5", "has a comma in the number"),
        ("forty", "cannot be read as a length"),
    ):
        figure.fill(text)
        expect(amiss).to_contain_text(words)
        expect(figure).to_have_attribute("aria-invalid", "true")
        # What was shown stays, and so does the slider where no figure is given.
        expect(page.locator("#tried.stale table")).to_be_visible()
    expect(slider).to_have_value("13.64")
    page.get_by_role("button", name="Choose this cure").click()
    expect(figure).to_be_focused()
    assert "/findings/cure?" in page.url
    figure.fill("12.5 mm")
    expect(amiss).to_be_empty()
    expect(page.locator("#tried.stale")).to_have_count(0)
    expect(slider).to_have_value("12.5")
    page.get_by_role("button", name="Back to its own figures").click()
    expect(figure).to_have_value("12.00")


def test_slider_and_box_agree_after_going_back(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/tern/findings/cure?cylinder=A&code=shorten-valve")
    page.get_by_role("textbox", name="Valve, over its outer edges").fill("12.7")
    expect(page.locator("#tried h2")).to_contain_text("12.70 mm")
    expect(page).to_have_url(re.compile("valve.length=12.7"))
    page.get_by_role("link", name="Findings", exact=True).last.click()
    expect(page.locator("#found-head")).to_be_visible()
    page.go_back()
    expect(page.locator("#tried h2")).to_contain_text("12.70 mm")
    shown = page.get_by_role("textbox", name="Valve, over its outer edges").input_value()
    assert float(shown) == float(page.get_by_role("slider").input_value()) == 12.7


def test_a_chosen_cure_is_done_measured_and_offered_no_more(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/tern/findings/cure?cylinder=A&code=shorten-valve")
    expect(page.locator("#tried table")).to_be_visible()
    page.get_by_role("button", name="Choose this cure").click()
    expect(page.locator(".cure-chosen")).to_be_visible()
    page.goto(f"{bench.address}/engine/tern/log")
    page.get_by_role("button", name=re.compile("^Job done")).first.click()
    expect(page.get_by_role("heading", name="The work is done")).to_be_visible()
    assert list_serious(page) == []
    for box in page.get_by_role("checkbox").all():
        box.check()
    sizes = page.get_by_role("textbox", name="Valve length, as made")
    expect(sizes).to_have_count(2)
    sizes.first.fill("12.02 ± 0.01 mm")
    page.get_by_role("button", name="Write into the record").click()
    expect(page.locator("#found-head")).to_be_visible()
    # What was done is told where the eye is, and where the focus is shows on one edge, not all round.
    expect(page.locator("#made")).to_be_focused()
    expect(page.locator("#made")).to_be_in_viewport(ratio=1)
    expect(page.locator("#made")).to_have_css("outline-color", "rgba(0, 0, 0, 0)")
    expect(page.locator("#made")).to_have_css("box-shadow", re.compile("0px -4px"))
    expect(page.locator(".cure")).to_have_count(0)
    text = (bench.folder / "tern.toml").read_text(encoding="utf-8")
    assert '"12.02 ± 0.01 mm"' in text
    assert '"12.00 mm"' in text
    page.goto(f"{bench.address}/engine/tern/log")
    expect(page.locator("main")).to_contain_text("As made: valve length 12.02 ± 0.01 mm.")


def test_no_serious_fault_for_those_who_do_not_see_and_nothing_runs_off_a_phone(page: Page, bench: Bench) -> None:
    for address in ("turnstone/findings", "tern/findings", "tern/findings/cure?cylinder=A&code=shorten-valve"):
        page.goto(f"{bench.address}/engine/{address}")
        expect(page.locator("[aria-busy=true]")).to_have_count(0)
        assert list_serious(page) == []
        page.set_viewport_size({"width": 360, "height": 740})
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        page.set_viewport_size({"width": 1280, "height": 800})
