"""Turn it over in the real browser: by hand, by key, by event, by slider; and back to how it was."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.browser.conftest import Bench

#: A browser that cannot keep a line open.
NO_LINE = """
window.WebSocket = class extends EventTarget {
  constructor() { super(); setTimeout(() => this.close()); }
  close() { this.dispatchEvent(new Event("close")); }
};
"""


def open_turn(page: Page, bench: Bench, engine: str = "tern") -> None:
    page.goto(f"{bench.address}/engine/{engine}/turn")
    expect(page.locator(".turn-card-said")).to_contain_text("mean effective")


def place_of(page: Page, part: str) -> str:
    return page.locator(f'.turn-section [data-part="{part}"]').last.get_attribute("transform") or ""


def angle_of(page: Page) -> float:
    page.wait_for_timeout(150)
    return float((page.locator('[data-read="angle"]').inner_text()).split()[0])


def knob(page: Page, key: str) -> tuple[Locator, Locator]:
    box = page.locator(f'.turn-knob[data-key="{key}"]')
    return box.locator('input[type="range"]'), box.locator(".turn-figure")


def opening_path(page: Page) -> str:
    return page.locator(".turn-plot .plot-now path").last.get_attribute("d") or ""


def test_the_crank_is_dragged_in_the_section_and_everything_follows(page: Page, bench: Bench) -> None:
    open_turn(page, bench)
    before = {part: place_of(page, part) for part in ("piston", "rod", "crank", "valve", "eccentric", "eccentric-rod")}
    box: Any = page.locator('.turn-section [data-part="crank"]').bounding_box()
    shaft = page.evaluate(
        """() => { const svg = document.querySelector('.turn-section svg');
        const places = JSON.parse(document.querySelector('#turn-data').textContent).places.whole;
        const at = new DOMPoint(places.x, places.y).matrixTransform(svg.getScreenCTM());
        return [at.x, at.y, places.throw * svg.getScreenCTM().a]; }"""
    )
    x, y, throw = shaft
    page.mouse.move(x - throw * 0.77, y - throw * 0.64)
    page.mouse.down()
    page.mouse.move(x, y - throw, steps=4)
    page.mouse.up()
    assert box["width"] > 20
    assert angle_of(page) == pytest.approx(90, abs=1.5)
    after = {part: place_of(page, part) for part in before}
    assert all(after[part] != before[part] for part in before)


def test_the_crank_turns_by_keys_by_the_dial_and_to_an_event(page: Page, bench: Bench) -> None:
    open_turn(page, bench)
    dial = page.locator(".turn-dial")
    dial.focus()
    page.keyboard.press("Home")
    assert angle_of(page) == 0.0
    for key, angle in (("ArrowRight", 1.0), ("Shift+ArrowRight", 11.0), ("PageUp", 21.0), ("ArrowLeft", 20.0)):
        page.keyboard.press(key)
        assert angle_of(page) == pytest.approx(angle)
    assert dial.get_attribute("aria-valuenow") == "20"
    page.locator('.turn-jumps[data-end="head"] button', has_text="cut-off").click()
    assert angle_of(page) == pytest.approx(159.1, abs=0.11)
    assert page.locator('[data-read="to_steam"][data-end="head"]').inner_text() == "0.00 mm"
    page.keyboard.press("Tab")
    head = page.locator('.turn-end[data-end="head"] .turn-state')
    page.locator('.turn-jumps[data-end="head"] button', has_text="release").click()
    dial.focus()
    page.keyboard.press("Shift+ArrowRight")
    expect(head).to_have_text("exhaust")
    spaces = page.locator('.turn-section .space[data-holds="head"]')
    assert {spaces.nth(number).get_attribute("data-state") for number in range(spaces.count())} == {"exhaust"}


def test_a_slider_changes_the_drawing_keeps_the_ghost_and_is_put_back(page: Page, bench: Bench) -> None:
    open_turn(page, bench)
    found, valve = opening_path(page), page.locator('.turn-section .part[data-part="valve"]')
    drawn = valve.inner_html()
    slide, figure = knob(page, "valve.length")
    slide.focus()
    for _ in range(12):
        page.keyboard.press("ArrowLeft")
    expect(figure).to_have_value("13.52 mm")
    expect(page.locator(".turn")).to_have_class(re.compile("is-tried"))
    assert opening_path(page) != found
    assert valve.inner_html() != drawn
    assert page.locator(".turn-plot .plot-found path").first.get_attribute("d")
    expect(page.locator('[data-read="steam_lap"][data-end="head"]')).to_have_text("0.76 mm (was 0.82)")
    page.locator(".turn-reset").click()
    expect(page.locator(".turn")).not_to_have_class(re.compile("is-tried"))
    expect(figure).to_have_value("13.64 mm")
    assert opening_path(page) == found
    assert valve.inner_html() == drawn
    assert (bench.folder / "tern.toml").read_text(encoding="utf-8").count("13.64 ± 0.02 mm") == 1


def test_figures_are_typed_with_their_units_and_a_bare_one_is_asked_for_its_unit(page: Page, bench: Bench) -> None:
    open_turn(page, bench)
    _, figure = knob(page, "valve.length")
    figure.fill("1/2 in")
    figure.press("Enter")
    expect(page.locator('[data-read="steam_lap"][data-end="head"]')).to_have_text("0.35 mm (was 0.82)")
    figure.fill("13")
    figure.press("Enter")
    expect(page.locator(".turn-said")).to_contain_text('13 has no unit: write "13 in" or "13 mm"')
    expect(figure).to_have_attribute("aria-invalid", "true")
    # A finger on the slider leaves the caret where it is: the field follows the slider all the same.
    slide, figure = knob(page, "valve_drive.eccentric_angle")
    figure.fill("95 deg")
    figure.press("Enter")
    expect(figure).to_be_focused()
    slide.evaluate("(slider) => { slider.value = 2; slider.dispatchEvent(new Event('input', { bubbles: true })) }")
    expect(figure).to_have_value("114.5 deg")
    _, pressure = knob(page, "supply_pressure")
    pressure.fill("15 psi")
    pressure.press("Enter")
    expect(page.locator(".turn-card-said")).to_contain_text("(was 1.84)")
    expect(page.locator('[data-read="steam_lap"][data-end="head"]')).to_have_text("0.35 mm (was 0.82)")


def test_turned_the_other_way_the_crank_stands_and_events_change_their_names(page: Page, bench: Bench) -> None:
    open_turn(page, bench, "curlew")
    dial = page.locator(".turn-dial")
    dial.focus()
    page.keyboard.press("Home")
    page.keyboard.press("PageUp")
    expect(page.locator('[data-read="angle"]')).to_have_text("10.0 deg")
    stood = place_of(page, "piston"), place_of(page, "valve")
    page.locator(".turn-way").click()
    expect(page.locator(".turn-way-said")).to_contain_text("turning anticlockwise")
    expect(page.locator('[data-read="angle"]')).to_have_text("350.0 deg")
    assert (place_of(page, "piston"), place_of(page, "valve")) == stood
    # Set for the wrong way round, its leads come right when it is turned so.
    expect(page.locator('[data-read="lead"][data-end="head"]')).not_to_contain_text("−")


def test_it_runs_when_told_to_and_stops(page: Page, bench: Bench) -> None:
    open_turn(page, bench)
    play = page.locator(".turn-play")
    before = place_of(page, "piston")
    play.click()
    expect(play).to_have_attribute("aria-pressed", "true")
    page.wait_for_timeout(400)
    play.click()
    after = place_of(page, "piston")
    assert after != before
    page.wait_for_timeout(200)
    assert place_of(page, "piston") == after


def test_without_the_live_line_the_sliders_go_on(context: BrowserContext, bench: Bench) -> None:
    page = context.new_page()
    page.add_init_script(NO_LINE)
    open_turn(page, bench)
    slide, figure = knob(page, "valve_drive.valve_offset")
    slide.focus()
    page.keyboard.press("ArrowRight")
    expect(figure).not_to_have_value("0.00 mm")
    expect(page.locator(".turn")).to_have_class(re.compile("is-tried"))


def test_a_narrow_screen_shows_everything_without_running_over(page: Page, bench: Bench) -> None:
    page.set_viewport_size({"width": 360, "height": 780})
    open_turn(page, bench, "merganser")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
