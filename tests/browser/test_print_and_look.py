"""What paper shows of a page, and that dark and light are followed, chosen and kept."""

from __future__ import annotations

import io
import re

from playwright.sync_api import BrowserContext, Page, expect
from pypdf import PdfReader

from tests.browser.conftest import Bench
from tests.browser.every_page import fill_log, open_page

_SEEN = """[...document.querySelectorAll("nav, form, button, .button, input, select, textarea")]
    .filter((one) => one.checkVisibility()).map((one) => one.outerHTML)"""
_COLOURS = """() => {
  const body = getComputedStyle(document.body);
  const own = ["--steam", "--stop", "--mark"].map((name) => body.getPropertyValue(name));
  return [body.backgroundColor, body.color, ...own];
}"""


def change_engine(page: Page, bench: Bench) -> None:
    """A valve is shortened, and a cure chosen for what is left."""
    engine = f"{bench.address}/engine/tern"
    headers = {"origin": bench.address, "accept": "application/json"}
    digest = page.request.get(f"{engine}/stamp", headers=headers).json()["digest"]
    sent = {"digest": digest, "key": "cylinder.0.valve.length", "value": "12.50 mm", "seen": "13.64 ± 0.02 mm"}
    assert page.request.post(f"{engine}/change", data=sent, headers=headers).ok
    choice = {"cylinder": "B", "code": "shorten-valve", "valve.length": "12.00"}
    assert page.request.post(f"{engine}/findings/cure/accept", form=choice, headers=headers).ok


def print_page(page: Page) -> str:
    """The words of a page on paper."""
    sheets = PdfReader(io.BytesIO(page.pdf(format="A4"))).pages
    return " ".join(" ".join(sheet.extract_text() for sheet in sheets).split())


#: What a paper must say, and what on the page is only for the hand.
PRINTED = {
    "findings": (
        (
            "1 Cylinder A: The valve is 0.50 mm too long",
            "Check next",
            "What counts as right",
            "Ports should open",
            "chosen",
        ),
        ("The check says", "Try its figures", "Take the choice back"),
    ),
    "log": (
        ("Valve face scored.", "1.2 mm (0.047 in)", "Open jobs (2)", "Shorten the valve to 12.00 mm"),
        ("Write it into the log", "Words", "Job done", "Take out"),
    ),
    "before-after": (
        ("13.64 ± 0.02 mm → 12.50 mm", "Events and openings, cylinder A", "Photographs", "lead −0.78 mm → −0.21 mm"),
        ("The dossier", "To the log"),
    ),
}


def test_paper_has_what_was_worked_out_and_nothing_to_press_and_is_light(
    page: Page, bench: Bench, context: BrowserContext
) -> None:
    fill_log(page, bench)
    change_engine(page, bench)
    for name, (told, left_out) in PRINTED.items():
        # Dark by the system, then by choice: paper is light.
        page.emulate_media(media="screen", color_scheme="dark")
        open_page(page, f"{bench.address}/engine/tern/{name}")
        page.emulate_media(media="print")
        assert page.evaluate(_SEEN) == [], name
        assert page.evaluate(_COLOURS)[:4] == ["rgb(255, 255, 255)", "rgb(0, 0, 0)", "#a2330f", "#9b1c1c"]
        words = print_page(page)
        assert [each for each in told if each not in words] == [], name
        context.add_cookies([{"name": "look", "value": "dark", "url": bench.address}])
        assert [each for each in (*left_out, "Turn it over", "Dark", "Light", "Shelf") if each in words] == [], name


def test_a_job_card_is_printed_without_the_page_round_it(page: Page, bench: Bench) -> None:
    page.emulate_media(color_scheme="dark")
    page.goto(f"{bench.address}/engine/knot/papers")
    expect(page.frame_locator("#paper").locator("h1")).to_have_text("Knot")
    page.emulate_media(media="print")
    assert page.evaluate(_SEEN) == []
    expect(page.locator(".head")).to_be_hidden()
    words = print_page(page)
    assert words.startswith("JOB CARD Knot")
    assert "Save the PDF" not in words
    page.emulate_media(media="screen")
    page.goto(f"{bench.address}/engine/knot/papers/card.html")
    assert print_page(page).startswith("JOB CARD Knot")


def is_dark(page: Page) -> bool:
    """Whether light ink stands on a dark ground, in the drawings too."""
    ground, ink, *_ = page.evaluate(_COLOURS)
    line = page.locator("svg .outline").first.evaluate("(one) => getComputedStyle(one).stroke")
    assert line == ink
    brightness = [sum(map(int, re.findall(r"\d+", colour)[:3])) for colour in (ground, ink)]
    assert abs(brightness[0] - brightness[1]) > 500, "ink and ground are far apart"
    return brightness[0] < brightness[1]


def test_dark_follows_the_system_until_somebody_chooses_and_the_choice_stays(
    page: Page, bench: Bench, context: BrowserContext
) -> None:
    page.emulate_media(color_scheme="light")
    page.goto(bench.address)
    light = page.evaluate(_COLOURS)
    assert not is_dark(page)
    page.emulate_media(color_scheme="dark")
    assert is_dark(page)
    assert not {*light} & {*page.evaluate(_COLOURS)}
    # The button says what it leads to.
    page.reload()
    page.get_by_role("button", name="Light").click()
    assert not is_dark(page)
    page.reload()
    assert not is_dark(page)
    page.goto(f"{bench.address}/engine/tern/measure")
    assert page.evaluate(_COLOURS) == light
    page.get_by_role("button", name="Dark").click()
    page.emulate_media(color_scheme="light")
    page.reload()
    assert is_dark(page)
    other = context.new_page()
    other.emulate_media(color_scheme="light")
    other.goto(f"{bench.address}/engine/knot/turn")
    assert is_dark(other)
    expect(other.get_by_role("button", name="Light")).to_be_visible()
    other.close()
