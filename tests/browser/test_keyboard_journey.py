"""From a new engine to its printed job card by keyboard alone: nothing is ever pointed at."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Locator, Page, expect
from pypdf import PdfReader

from tests.browser.conftest import Bench
from tests.browser.keys import Keys

ENGINE = "**/engine/wren"


def begin(keys: Keys, bench: Bench) -> None:
    """From the shelf to an empty record; the first key leads past the head of the page."""
    keys.page.goto(bench.address)
    assert keys.press("Tab").name == "To the page's own matter"
    assert keys.press("Enter").tag == "main"
    assert keys.press("Tab").name == "A new engine"
    keys.write("Wren")
    keys.leave("Enter", f"{ENGINE}/measure")


def give(keys: Keys, name: str, text: str) -> None:
    """Write a size into the field of that name, and leave it by Tab once it is read back."""
    assert keys.go_to(name).tag == "input"
    keys.write(text)
    keys.press("Tab")


def measure(keys: Keys) -> None:
    """Half of what could be known, in both units, with a bare number and with a slip."""
    page = keys.page
    keys.go_to("bore for 1 answer")
    assert (keys.press("Enter").tag, keys.look().name) == ("input", "bore")
    keys.write("3/4")
    expect(said(page, "bore")).to_contain_text("3/4 has no unit")
    assert keys.press("Tab").name == "Write 3/4 in"
    assert keys.press("Enter").name == "bore"
    expect(field(page, "bore")).to_have_attribute("data-state", "saved")
    assert keys.press("Tab").name == "stroke"
    keys.write("19.05")
    expect(said(page, "stroke")).to_contain_text("19.05 has no unit")
    keys.write("19.05 mm")
    expect(said(page, "stroke")).to_have_text("read as 19.05 mm, 0.750 in")
    keys.press("Tab")
    sizes = {"steam port": "2.00 ± 0.05 mm", "bridge": "2 mm", "exhaust port": "5/32 in"}
    for name, text in (sizes | {"valve length": "13.64 mm", "cavity": "18 mm", "throw": "2.2 mm"}).items():
        give(keys, name, text)
    expect(field(page, "valve_drive.throw")).to_have_attribute("data-state", "saved")
    expect(page.locator("#problems")).to_contain_text("cavity must be less than length, 13.64 mm")
    keys.go_to("to the field", back=True)
    assert keys.press("Enter").name == "cavity"
    keys.write("8 mm")
    keys.press("Enter")
    expect(page.locator("#problems")).to_be_empty()
    expect(said(page, "valve.cavity")).to_have_text(re.compile("^saved"))


def field(page: Page, key: str) -> Locator:
    return page.locator(f'[data-field="cylinder.0.{key}"]')


def said(page: Page, key: str) -> Locator:
    return page.locator(f'[id="said-cylinder.0.{key}"]')


def turn_over(keys: Keys) -> None:
    """The crank by arrow keys, and to an event at once."""
    page = keys.page
    keys.go_to("Turn it over", back=True)
    keys.leave("Enter", f"{ENGINE}/turn")
    expect(page.locator(".turn-card-said")).to_contain_text("mean effective")
    keys.go_to("Crank angle")
    crank = page.get_by_role("slider", name="Crank angle")
    before = float(crank.get_attribute("aria-valuenow") or "")
    keys.press("ArrowRight", "ArrowRight")
    expect(crank).to_have_attribute("aria-valuenow", re.compile(f"^{before + 2:g}"))
    keys.go_to("C cut-off")
    keys.press("Enter")
    expect(page.locator("[data-read=angle]")).to_have_text("136.7 deg")


def choose_cure(keys: Keys) -> None:
    """A check is ticked, a cure is tried a little otherwise, and chosen."""
    page = keys.page
    keys.go_to("Findings", back=True)
    keys.leave("Enter", f"{ENGINE}/findings")
    expect(page.locator("#found-head")).to_be_visible()
    keys.go_to("The check says so")
    keys.leave("Enter", f"{ENGINE}/findings#found-*")
    expect(page.locator(".finding .chip-fine")).to_be_visible()
    expect(page.locator(".finding")).to_be_focused()
    keys.look()
    keys.go_to("Try its figures")
    keys.leave("Enter", f"{ENGINE}/findings/cure?*")
    expect(page.locator("#tried table")).to_be_visible()
    keys.go_to("Throw")
    keys.press("ArrowRight", "ArrowRight")
    expect(page.locator("#tried h2")).to_contain_text("2.48 mm")
    keys.go_to("Choose this cure")
    keys.leave("Enter", f"{ENGINE}/findings#cures")
    expect(page.locator(".cure-chosen")).to_contain_text("2.48 mm")
    expect(page.locator("#cures")).to_be_focused()
    keys.look()


def print_card(keys: Keys, folder: Path) -> str:
    """The job card is shown, printed by its button, and saved; what the saved one says."""
    page = keys.page
    keys.go_to("Papers")
    keys.leave("Enter", f"{ENGINE}/papers")
    expect(page.frame_locator("#paper").locator("h1")).to_have_text("Wren")
    keys.go_to("Job card")
    keys.leave("Enter", f"{ENGINE}/papers?paper=card*")
    expect(page.get_by_role("button", name="Print")).to_be_visible()
    assert keys.look().name == "Job card"
    page.evaluate("document.getElementById('paper').contentWindow.print = () => { document.title = 'printed' }")
    keys.go_to("Print")
    keys.press("Enter")
    expect(page).to_have_title("printed")
    keys.go_to("Save the PDF")
    with page.expect_download() as coming:
        keys.press("Enter")
    coming.value.save_as(folder / "card.pdf")
    keys.go_to("Letter")
    assert keys.press("Tab").tag == "iframe"
    return read(folder / "card.pdf")


def read(paper: Path) -> str:
    return " ".join(" ".join(sheet.extract_text() for sheet in PdfReader(paper).pages).split())


def test_from_a_new_engine_to_its_printed_card(page: Page, bench: Bench, tmp_path: Path) -> None:
    keys = Keys(page)
    begin(keys, bench)
    measure(keys)
    turn_over(keys)
    choose_cure(keys)
    card = print_card(keys, tmp_path)
    assert "Wren" in card
    assert "wren.toml" in card
    assert "The steam ports open too little" in card
    assert "now 2.20 mm" in card
    # What was chosen is what is to be done, and what nobody measured says so.
    assert "2.48 mm" in card
    assert "eccentric_angle taken for granted" in card
    assert "Assumed, not measured" in card
    assert "Measure eccentric angle first" in card


def test_the_keys_keep_their_place_where_the_page_comes_anew(page: Page, bench: Bench) -> None:
    keys = Keys(page)
    page.goto(f"{bench.address}/engine/knot/measure")
    keys.go_to("bore")
    keys.write("22 mm")
    keys.press("Enter")
    expect(said(page, "bore")).to_have_text(re.compile("^saved"))
    keys.go_to("Undo", back=True)
    # Nothing is left to undo then, and the button rests: the one beside it has the focus.
    keys.press("Enter")
    expect(page.get_by_label("bore", exact=True)).to_have_value("7/8 in")
    assert keys.look().name.startswith("Redo")
    keys.press("Enter")
    expect(page.get_by_label("bore", exact=True)).to_have_value("22 mm")
    assert keys.look().name.startswith("Undo")
    keys.go_to("spindle step")
    keys.write("1/2 turn")
    assert keys.press("Tab").name == "cavity"
    # The list of what is wanting comes anew with what was saved, while a link in it has the focus.
    expect(field(page, "valve_drive.spindle_step")).to_have_attribute("data-state", "saved")
    assert (keys.look().tag, keys.look().name) == ("a", "cavity")
    keys.go_to("Add a screw")
    keys.leave("Enter", "**/measure#part-fastener.0")
    expect(page.locator("[data-field^='fastener.0'] input").first).to_be_focused()
    keys.look()
    keys.go_to("Take Screw 1 out")
    keys.leave("Enter", "**/knot/measure")
    page.wait_for_function("document.activeElement !== document.body")
    keys.look()
    page.goto(f"{bench.address}/engine/tern/turn")
    keys.go_to("Valve length: figure")
    keys.write("13 mm")
    keys.press("Tab")
    keys.go_to("Back to as found")
    assert keys.press("Enter").name == "Valve length"
