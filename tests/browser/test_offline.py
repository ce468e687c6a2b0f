"""Every page at three widths: nothing leaves the machine, no script complains, nothing is cut off or too small."""

from __future__ import annotations

from playwright.sync_api import BrowserContext, Page

from tests.browser.conftest import Bench
from tests.browser.every_page import fill_bench, list_small, open_page

SIZES = ((1280, 800), (820, 1180), (360, 740))


def test_no_page_asks_for_anything_outside_and_all_of_it_can_be_seen_and_pressed(page: Page, bench: Bench) -> None:
    """The page itself fails the test where a script complains or a request leaves."""
    too_wide, small = [], {}
    for path in fill_bench(page, bench):
        page.set_viewport_size({"width": SIZES[0][0], "height": SIZES[0][1]})
        open_page(page, bench.address + path)
        for width, height in SIZES:
            page.set_viewport_size({"width": width, "height": height})
            page.wait_for_timeout(30)
            reach = page.evaluate("document.documentElement.scrollWidth")
            if reach > width:
                too_wide.append((path, width, reach))
            if found := list_small(page):
                small[path, width] = found
    assert too_wide == []
    assert small == {}
    page.evaluate("document.querySelector('main').innerHTML = '<nav><a href=\"/\">Shelf</a></nav>'")
    assert len(list_small(page)) == 1, "one would be noticed"


def test_the_watch_over_requests_would_notice_one(context: BrowserContext, bench: Bench) -> None:
    """The browser refuses it by the page's own rules, and says so."""
    page, said = context.new_page(), []
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    page.goto(bench.address)
    for script in (
        "fetch('http://192.0.2.1/').catch(() => 0)",
        "new Promise(done => { const i = new Image(); i.onerror = done; i.src = 'http://192.0.2.1/x.png' })",
        "new Promise(done => { const s = document.createElement('script'); s.textContent = 'window.harm = 1';"
        " document.body.append(s); done() })",
        "document.body.setAttribute('onclick', 'window.harm = 1')",
    ):
        page.evaluate(script)
    page.locator("body").dispatch_event("click")
    assert page.evaluate("window.harm") is None
    assert len(said) >= 3
    assert all("Content Security Policy" in text for text in said)
    page.close()


def test_another_page_can_neither_post_nor_look(context: BrowserContext, bench: Bench) -> None:
    """A page from elsewhere, in the same browser: its forms and its pictures of the bench come to nothing."""
    page = context.new_page()
    harm = f"""<form method="post" action="{bench.address}/new"><input name="name" value="Harm"></form>
        <img src="{bench.address}/static/mark.svg"><iframe src="{bench.address}/"></iframe>"""
    page.route("http://harm.example/**", lambda route: route.fulfill(body=harm, content_type="text/html"))
    answers: dict[str, int] = {}
    page.on("response", lambda answer: answers.update({answer.url: answer.status}))
    page.goto("http://harm.example/")
    # A browser may refuse it by itself before the bench is asked.
    assert {answers.get(bench.address + path, 403) for path in ("/", "/static/mark.svg")} == {403}
    page.evaluate("document.forms[0].submit()")
    page.wait_for_url(f"{bench.address}/new")
    assert answers[f"{bench.address}/new"] == 403
    assert not (bench.folder / "harm.toml").exists()
    page.close()
