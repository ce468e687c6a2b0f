"""An accessibility engine looks at every page, light and dark: it finds no serious fault."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.conftest import Bench
from tests.browser.every_page import fill_bench, open_page

OPTIONS = {"resultTypes": ["violations"], "iframes": False}
#: All that a dark page can have wrong with it besides.
COLOURS = OPTIONS | {"runOnly": ["color-contrast", "link-in-text-block"]}


def judge(page: Page, options: dict[str, object] = OPTIONS) -> list[str]:
    """Every serious fault of a page as it is shown now, in a line each."""
    return [
        f"{fault['id']}: {node['target']} {node['html'][:150]} {node['failureSummary'][:200]}"
        for fault in Axe().run(page, options=options).response["violations"]
        if fault["impact"] in {"serious", "critical"}
        for node in fault["nodes"][:4]
    ]


def test_no_page_has_a_serious_fault_light_or_dark(page: Page, bench: Bench) -> None:
    faults = {}
    for path in fill_bench(page, bench):
        page.emulate_media(color_scheme="light")
        open_page(page, bench.address + path)
        # What is folded away is a page too.
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        faults[path] = judge(page)
        page.emulate_media(color_scheme="dark")
        faults[path] += judge(page, COLOURS)
    assert {path: found for path, found in faults.items() if found} == {}


@pytest.mark.parametrize("paper", ["card.html", "report.html"])
def test_neither_has_a_paper(page: Page, bench: Bench, paper: str) -> None:
    open_page(page, f"{bench.address}/engine/tern/papers/{paper}")
    assert judge(page) == []


def test_the_engine_would_notice(page: Page, bench: Bench) -> None:
    page.goto(bench.address)
    page.evaluate(
        "document.querySelector('main').insertAdjacentHTML('beforeend', '<input><img src=\"/static/mark.svg\">')"
    )
    assert {fault.partition(":")[0] for fault in judge(page)} == {"label", "image-alt"}
