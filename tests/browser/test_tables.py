"""The tables in the browser: answers while one types, slips, the way back, and questions that were asked before."""

from __future__ import annotations

import re
from contextlib import suppress

from playwright.sync_api import BrowserContext, Error, Page, Route, expect

from tests.browser.conftest import Bench

ANSWER = "#answer .answer[data-state='good'] .sheet-title"


def test_the_answer_follows_the_typing_and_the_address_keeps_the_question(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/tables")
    expect(page.get_by_label("Thread", exact=False).first).to_be_focused()
    page.keyboard.type("4BA", delay=15)
    expect(page.locator(ANSWER)).to_have_text("4 BA thread")
    expect(page).to_have_url(re.compile(r"/tables\?of=thread&q=4BA$"))
    page.keyboard.type("X")
    expect(page.locator("#answer [role=alert]")).to_contain_text('"4BAX" is no thread of the tables')
    expect(page.locator("#last .sheet-title")).to_have_text("4 BA thread")
    expect(page.locator("[name=q]")).to_have_attribute("aria-invalid", "true")
    page.get_by_role("link", name="4 BA", exact=True).click()
    expect(page.locator(ANSWER)).to_have_text("4 BA thread")
    expect(page.locator("#last")).to_be_hidden()
    expect(page.locator("[name=q]")).to_have_value("4 BA")
    page.reload()
    expect(page.locator(ANSWER)).to_have_text("4 BA thread")


def test_a_fraction_is_asked_for_its_unit(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/tables?of=fit")
    page.locator("[name=q]").fill("1/4")
    expect(page.locator("#answer [role=alert]")).to_contain_text("1/4 has no unit")
    page.get_by_role("link", name="1/4 in", exact=True).press("Enter")
    expect(page.locator(ANSWER)).to_have_text("Fits for 1/4 in (6.350 mm)")


def test_the_newest_question_wins_over_a_slow_answer_to_an_older_one(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/tables")
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    page.route("**/tables/answer?*q=4*", hold)
    page.locator("[name=q]").fill("4BA")
    page.wait_for_timeout(200)
    page.locator("[name=q]").fill("M4")
    expect(page.locator(ANSWER)).to_have_text("M4 thread")
    # The page has given up waiting for these; what comes of them all the same is passed over.
    for route in held:
        with suppress(Error):
            route.continue_()
    assert held
    page.wait_for_timeout(200)
    expect(page.locator(ANSWER)).to_have_text("M4 thread")


def test_questions_asked_before_are_kept_here_and_can_be_forgotten(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/tables?of=gland")
    page.get_by_label("Rod").fill("4 mm")
    page.get_by_label("Bore of the box").fill("8 mm")
    expect(page.locator(ANSWER)).to_have_text("Gland: 4 mm rod in a box of 8 mm")
    page.get_by_role("link", name="Drill", exact=True).click()
    asked = page.get_by_role("link", name="Gland: 4 mm, 8 mm")
    asked.click()
    expect(page.locator(ANSWER)).to_have_text("Gland: 4 mm rod in a box of 8 mm")
    page.get_by_role("button", name="Forget them").click()
    expect(asked).to_be_hidden()


def test_an_engine_gives_its_questions(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/engine/turnstone/papers")
    page.get_by_role("link", name="Tables").click()
    page.get_by_role("link", name="Gland: piston rod").click()
    expect(page.locator(ANSWER)).to_contain_text("Gland: 5 mm rod in a box of 9 mm")
    expect(page.locator("[name=nut]")).to_have_value("1/2 x 32 ME")
    expect(page.locator(".head-engine")).to_have_text("Turnstone")


def test_a_bench_that_was_closed_is_said_and_nothing_is_lost(page: Page, bench: Bench) -> None:
    page.goto(f"{bench.address}/tables?of=thread&q=M4")
    page.route("**/tables/answer*", lambda route: route.abort())
    page.locator("[name=q]").fill("M5")
    expect(page.locator("#answer")).to_contain_text("The bench does not answer")
    expect(page.locator("[name=q]")).to_have_value("M5")
    expect(page.locator(ANSWER)).to_have_text("M4 thread")


def test_nothing_runs_over_the_edge_of_a_small_tablet(page: Page, bench: Bench) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    for question in ("of=fit&q=1/4 in", "of=finish&metal=brass", "of=rethread&q=4BA", "of=thread&q=4BAX"):
        page.goto(f"{bench.address}/tables?{question}")
        assert page.evaluate("document.documentElement.scrollWidth") <= 360, question
    small = page.evaluate(
        "[...document.querySelectorAll('main :is(button, a, summary, input:not([type=checkbox]), select)')]"
        ".filter((one) => one.offsetParent && one.getBoundingClientRect().height < 43.9).map((one) => one.outerHTML)"
    )
    assert small == []


def test_it_works_without_a_script(context: BrowserContext, bench: Bench) -> None:
    browser = context.browser
    assert browser is not None
    plain = browser.new_context(java_script_enabled=False)
    page = plain.new_page()
    page.goto(f"{bench.address}/tables?of=drill")
    page.locator("[name=q]").fill("4BA")
    page.locator("[name=metal]").fill("brass")
    page.get_by_role("button", name="Look it up").click()
    expect(page.locator(ANSWER)).to_have_text("Drills for 4 BA in brass")
    page.locator("[name=q]").fill("3/4")
    page.locator("[name=metal]").fill("")
    page.get_by_role("button", name="Look it up").click()
    expect(page.locator("#answer")).to_contain_text("3/4")
    plain.close()
