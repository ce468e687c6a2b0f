"""Every page of the bench with something on it, for the tests that look at all of them."""

from __future__ import annotations

import re

from playwright.sync_api import Page, Request

from tests.browser.conftest import Bench
from tests.web.pictures import draw_photograph

#: A target is as high and as wide as that [px].
TOUCH = 44
_SMALL = """(touch) => {
  const targets = "button, .button, summary, select, textarea, input:not([type=hidden])"
    + ", nav a, header a, .links a, .entry-engine, [role=slider]";
  for (const each of document.querySelectorAll("details")) each.open = true;
  return [...document.querySelectorAll(targets)].filter((one) => one.checkVisibility({ visibilityProperty: true }))
    // A tick is pressed by its words too.
    .map((one) => [one, ["checkbox", "radio"].includes(one.type) ? one.closest("label") : one])
    .map(([one, whole]) => [one, whole.getBoundingClientRect()])
    .filter(([, box]) => box.width && Math.min(box.height, box.width) < touch - 0.01)
    .map(([one, box]) => `${one.outerHTML.slice(0, 90)} ${box.width.toFixed()} by ${box.height.toFixed()}`);
}"""
ENGINE_PAGES = ("measure", "turn", "findings", "run", "papers", "log", "before-after")


def fill_log(page: Page, bench: Bench) -> int:
    """Put an entry with everything into the Tern's log, and return its number."""
    entry = {"kind": "found", "text": "Valve face scored.", "parts_used": "sheet brass", "job": "open"}
    reading = {"reading_name": "steam lap", "reading_value": "1.2 mm"}
    headers = {"origin": bench.address, "accept": "application/json"}
    send = page.request.post
    number: int = send(f"{bench.address}/engine/tern/log", form=entry | reading, headers=headers).json()["entry"]
    photograph = {"name": "face.jpg", "mimeType": "image/jpeg", "buffer": draw_photograph()}
    sent = {"entry": str(number), "photographs": photograph}
    assert send(f"{bench.address}/engine/tern/photographs", multipart=sent, headers=headers).ok
    return number


def fill_bench(page: Page, bench: Bench) -> list[str]:
    """Put an entry with everything into the log, begin a record, and return the addresses of all pages."""
    number = fill_log(page, bench)
    headers = {"origin": bench.address, "accept": "application/json"}
    assert page.request.post(f"{bench.address}/new", form={"name": "Wren"}, headers=headers).ok
    sheet = page.request.get(f"{bench.address}/engine/tern/findings/sheet").text()
    cures = re.findall(r'href="(/engine/tern/findings/cure\?[^"]+)"', sheet)
    return [
        "/",
        "/tables",
        "/tables?of=thread&q=4BA",
        "/tables?of=thread&q=7AB",
        "/log",
        *(f"/engine/tern/{name}" for name in ENGINE_PAGES),
        f"/engine/tern/log/{number}",
        f"/engine/tern/log/{number}/remove",
        cures[0].replace("&amp;", "&"),
        *(f"/engine/wren/{name}" for name in ENGINE_PAGES[:5]),
        "/nowhere",
    ]


def open_page(page: Page, address: str) -> None:
    """Open a page and wait until nothing has been fetched for it for a moment."""
    pending: set[Request] = set()

    def begin(request: Request) -> None:
        pending.add(request)

    def end(request: Request) -> None:
        pending.discard(request)

    page.on("request", begin)
    page.on("requestfinished", end)
    page.on("requestfailed", end)
    page.goto(address)
    quiet = 0
    while quiet < 3:
        page.wait_for_timeout(20)
        quiet = 0 if pending else quiet + 1
    page.remove_listener("request", begin)
    page.remove_listener("requestfinished", end)
    page.remove_listener("requestfailed", end)


def list_small(page: Page) -> list[str]:
    """What is to be pressed or filled in, and is too small for an oily finger; links within a sentence may be."""
    found: list[str] = page.evaluate(_SMALL, TOUCH)
    return found
