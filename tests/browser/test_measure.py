"""The page Measure in a real browser: written, read back, saved, undone, and shared with whoever edits the file."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.browser.conftest import Bench

BORE, STROKE = "cylinder.0.bore", "cylinder.0.stroke"


def go(page: Page, bench: Bench, engine: str = "tern") -> None:
    page.goto(f"{bench.address}/engine/{engine}/measure")
    expect(page.locator("html.scripted")).to_be_attached()


def entry(page: Page, key: str) -> Locator:
    return page.locator(f'[id="entry-{key}"]')


def field(page: Page, key: str) -> Locator:
    return page.locator(f'[data-field="{key}"]')


def said(page: Page, key: str) -> Locator:
    return page.locator(f'[id="said-{key}"]')


def read(bench: Bench, engine: str = "tern") -> str:
    return (bench.folder / f"{engine}.toml").read_text(encoding="utf-8")


def edit_by_hand(bench: Bench, old: str, new: str) -> None:
    path: Path = bench.folder / "tern.toml"
    path.write_text(read(bench).replace(old, new, 1), encoding="utf-8")


def test_a_size_is_read_back_saved_kept_over_a_reload_and_undone(page: Page, bench: Bench) -> None:
    go(page, bench)
    before = read(bench)
    entry(page, BORE).fill("20 ± 0.02 mm")
    expect(said(page, BORE)).to_have_text("read as 20.00 ± 0.02 mm, 0.787 ± 0.001 in")
    assert read(bench) == before
    entry(page, BORE).press("Tab")
    expect(field(page, BORE)).to_have_attribute("data-state", "saved")
    assert 'bore = "20 ± 0.02 mm"' in read(bench)
    expect(page.locator("figure.view:not([hidden]) text", has_text="bore 20 ± 0.02 mm")).to_be_visible()
    page.reload()
    expect(entry(page, BORE)).to_have_value("20 ± 0.02 mm")
    # The picture follows what is undone.
    page.get_by_role("button", name="Valve drive").first.click()
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#word")).to_have_text("Undone: bore.")
    expect(page.locator("figure.view:not([hidden]) text", has_text="bore 3/4 in")).to_be_visible()
    expect(entry(page, BORE)).to_have_value("3/4 in")
    assert read(bench) == before
    page.get_by_role("button", name="Redo").focus()
    page.keyboard.press("Control+Shift+Z")
    expect(entry(page, BORE)).to_have_value("20 ± 0.02 mm")


def test_field_and_picture_light_each_other_up(page: Page, bench: Bench) -> None:
    go(page, bench)
    entry(page, "cylinder.0.valve.length").focus()
    lit = page.locator("figure.view:not([hidden]) svg text.lit")
    expect(lit).to_have_text("valve length 13.64 ± 0.02 mm")
    expect(page.locator("#guide")).to_contain_text("micrometer or calliper")
    page.get_by_role("button", name="Cylinder", exact=True).click()
    words = page.locator("figure.view:not([hidden]) svg text", has_text="stroke 3/4 in")
    words.hover()
    expect(field(page, STROKE)).to_have_class(re.compile(r"\bnear\b"))
    words.click()
    expect(entry(page, STROKE)).to_be_focused()


def test_a_bare_number_asks_for_its_unit_by_keyboard_alone(page: Page, bench: Bench) -> None:
    go(page, bench)
    entry(page, STROKE).focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("5/8")
    expect(said(page, STROKE)).to_contain_text("5/8 has no unit")
    page.keyboard.press("Tab")
    expect(page.get_by_role("button", name="Write 5/8 in")).to_be_focused()
    assert "5/8" not in read(bench).partition("[cylinder.port_face]")[0]
    page.keyboard.press("Enter")
    expect(field(page, STROKE)).to_have_attribute("data-state", "saved")
    assert 'stroke = "5/8 in"' in read(bench)
    expect(entry(page, STROKE)).to_be_focused()


def test_a_slip_of_the_pen_is_offered_mended_and_never_as_an_example(page: Page, bench: Bench) -> None:
    go(page, bench)
    entry(page, STROKE).fill("o.75 in")
    expect(said(page, STROKE)).to_contain_text('write it like "19.05 mm"')
    expect(said(page, STROKE).get_by_role("button")).to_have_text(["Write 0.75 in", "Put back 3/4 in"])
    said(page, STROKE).get_by_role("button", name="Write 0.75 in").click()
    expect(said(page, STROKE)).to_have_text("saved · read as 19.05 mm, 0.750 in")
    assert 'stroke = "0.75 in"' in read(bench)
    offset = "cylinder.0.cylinder_offset"
    entry(page, offset).fill("abt 11 mm")
    expect(said(page, offset).get_by_role("button")).to_have_text(["Write 11 mm", "Leave it empty again"])
    said(page, offset).get_by_role("button", name="Leave it empty again").click()
    expect(entry(page, offset)).to_have_value("")


def test_an_angle_that_is_only_taken_is_named_first_to_be_measured(page: Page, bench: Bench) -> None:
    go(page, bench, "plover")
    angle = "cylinder.0.valve_drive.eccentric_angle"
    expect(page.locator("#next")).to_contain_text("Nothing is missing")
    entry(page, angle).fill("")
    entry(page, angle).press("Tab")
    first = page.locator("#next li").first
    expect(first).to_contain_text(re.compile("eccentric angle.*only taken as .*deg; on it rests: when the ports open"))
    expect(field(page, angle)).to_contain_text("This one matters most")
    expect(field(page, "cylinder.0.valve_drive.throw")).not_to_contain_text("This one matters most")


def test_what_was_not_saved_outlives_a_reload_and_is_offered(page: Page, bench: Bench) -> None:
    go(page, bench)
    entry(page, BORE).fill("19")
    page.reload()
    expect(entry(page, BORE)).to_have_value("19")
    expect(said(page, BORE)).to_contain_text("it was not saved yet")
    page.get_by_role("button", name="Put back 3/4 in").click()
    expect(entry(page, BORE)).to_have_value("3/4 in")


def test_a_bench_that_is_away_gets_the_text_when_it_is_back(page: Page, context: BrowserContext, bench: Bench) -> None:
    go(page, bench)
    context.set_offline(True)
    entry(page, BORE).fill("19 mm")
    entry(page, BORE).press("Enter")
    expect(field(page, BORE)).to_have_attribute("data-state", "away")
    expect(said(page, BORE)).to_contain_text("goes in as soon as it does")
    context.set_offline(False)
    expect(field(page, BORE)).to_have_attribute("data-state", "saved")
    assert 'bore = "19 mm"' in read(bench)


def test_the_file_edited_by_hand_comes_in_and_a_clash_is_for_the_person_to_settle(page: Page, bench: Bench) -> None:
    go(page, bench)
    entry(page, BORE).fill("20 mm")
    edit_by_hand(bench, 'bore = "3/4 in"\nstroke = "3/4 in"', 'bore = "19 mm"\nstroke = "18 mm"')
    expect(entry(page, STROKE)).to_have_value("18 mm")
    expect(said(page, STROKE)).to_contain_text("new from the file")
    clash = field(page, BORE).get_by_role("alert")
    expect(clash.locator("dd")).to_have_text(["3/4 in", "20 mm", "19 mm"])
    assert 'bore = "19 mm"' in read(bench)
    clash.get_by_role("button", name="Put mine in").click()
    expect(field(page, BORE)).to_have_attribute("data-state", "saved")
    assert 'bore = "20 mm"\nstroke = "18 mm"' in read(bench)


def test_two_pages_of_one_engine_do_not_overwrite_each_other(page: Page, context: BrowserContext, bench: Bench) -> None:
    go(page, bench)
    other = context.new_page()
    go(other, bench)
    entry(page, STROKE).fill("18 mm")
    entry(other, BORE).fill("20 mm")
    entry(other, BORE).press("Enter")
    expect(field(other, BORE)).to_have_attribute("data-state", "saved")
    entry(page, STROKE).press("Enter")
    expect(field(page, STROKE)).to_have_attribute("data-state", "saved")
    expect(entry(page, BORE)).to_have_value("20 mm")
    expect(entry(other, STROKE)).to_have_value("18 mm")
    assert 'bore = "20 mm"\nstroke = "18 mm"' in read(bench)
    other.close()


def test_a_whole_text_is_not_put_over_what_was_changed_meanwhile_and_is_not_lost(page: Page, bench: Bench) -> None:
    def write(old: str, new: str) -> None:
        text.fill(text.input_value().replace(old, new))

    go(page, bench)
    page.locator("#text > summary").click()
    text = page.get_by_role("textbox", name="The record's own text")
    write('rotation = "clockwise"', 'rotation = "anticlockwise"')
    edit_by_hand(bench, 'stroke = "3/4 in"', 'stroke = "18 mm"')
    expect(entry(page, STROKE)).to_have_value("18 mm")
    page.get_by_role("button", name="Save the text").click()
    expect(entry(page, "engine.rotation")).to_have_value("anticlockwise")
    assert 'stroke = "18 mm"' in read(bench)
    # The same size changed on both sides: the whole text stays, also after the page has looked after the file again.
    page.locator("#text > summary").click()
    write('stroke = "18 mm"', 'stroke = "17 mm"')
    edit_by_hand(bench, 'stroke = "18 mm"', 'stroke = "19 mm"')
    expect(entry(page, STROKE)).to_have_value("19 mm")
    page.get_by_role("button", name="Save the text").click()
    expect(page.get_by_role("alert").locator("dd")).to_have_text(["18 mm", "17 mm", "19 mm"])
    expect(page.locator("pre.file-text")).to_contain_text('stroke = "19 mm"')
    edit_by_hand(bench, 'supply_pressure = "2 bar"', 'supply_pressure = "3 bar"')
    expect(entry(page, "engine.supply_pressure")).to_have_value("3 bar")
    expect(text).to_have_value(re.compile('stroke = "17 mm"'))
    assert 'stroke = "19 mm"' in read(bench)


def test_parts_are_added_filled_and_taken_out(page: Page, bench: Bench) -> None:
    go(page, bench)
    page.get_by_role("button", name="Add a screw").click()
    expect(entry(page, "fastener.0.engagement")).to_be_visible()
    entry(page, "fastener.0.holds").select_option("cover")
    expect(field(page, "fastener.0.holds")).to_have_attribute("data-state", "saved")
    expect(page.locator("figure.view:not([hidden]) text", has_text="over the joint ?")).to_be_visible()
    page.get_by_role("button", name="Take Screw 1 out").click()
    expect(entry(page, "fastener.0.engagement")).to_have_count(0)
    assert "fastener" not in read(bench)


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (1180, 820), (1920, 1080)])
def test_picture_hint_and_caution_fit_beside_the_fields_also_over_what_was_undone(
    page: Page, bench: Bench, width: int, height: int
) -> None:
    page.set_viewport_size({"width": width, "height": height})
    go(page, bench, "turnstone")
    entry(page, "cylinder.0.valve_drive.throw").fill("3.1 mm")
    entry(page, "cylinder.0.valve_drive.throw").press("Enter")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#word")).to_have_text("Undone: throw.")
    bar, guide = page.locator("#word").bounding_box(), page.locator("#guide").bounding_box()
    caution = page.locator("#guide .caution").bounding_box()
    assert bar is not None
    assert guide is not None
    assert caution is not None
    assert guide["y"] + guide["height"] <= bar["y"]
    assert caution["y"] + caution["height"] < guide["y"] + guide["height"]
    ends = page.evaluate(
        "[document.getElementById('guide').scrollHeight, document.getElementById('guide').clientHeight]"
    )
    assert ends[0] <= ends[1] + 1 or page.locator("#guide[tabindex='0']").count() == 1


def test_a_phone_shows_the_picture_above_and_nothing_runs_off_its_side(page: Page, bench: Bench) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    go(page, bench, "turnstone")
    throw = "cylinder.0.valve_drive.throw"
    entry(page, throw).focus()
    picture, chosen = page.locator("figure.view:not([hidden])").bounding_box(), field(page, throw).bounding_box()
    assert picture is not None
    assert chosen is not None
    assert picture["y"] >= 0
    assert chosen["y"] >= picture["y"] + picture["height"] - 1
    assert chosen["y"] + 60 < 844
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    found = Axe().run(page)
    assert [rule for rule in found.response["violations"] if rule["impact"] in ("serious", "critical")] == []
