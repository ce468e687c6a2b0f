"""The shelf in the real browser: engines begun, copied, taken along and brought in; flawed ones, and two tabs."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.browser.conftest import Bench
from tests.browser.every_page import fill_log

ENGINES = ["Curlew", "Dunlin", "Knot", "Merganser", "Plover", "Sandpiper", "Tern", "Turnstone"]
_SHAPES = """(pictures) => pictures.map((one) => {
  const box = one.getBoundingClientRect(), drawn = one.querySelector("svg").getBoundingClientRect();
  const within = drawn.left >= box.left - 1 && drawn.right <= box.right + 1 && drawn.bottom <= box.bottom + 1;
  return [one.querySelectorAll("polyline, polygon, path, circle").length, drawn.height > 60 && within, one.innerHTML];
})"""


def go(page: Page, bench: Bench) -> Locator:
    """Go to the shelf, and return what stands there."""
    page.goto(bench.address)
    return page.locator(".engine")


def find(page: Page, name: str) -> Locator:
    """The place of one engine."""
    return page.locator(".engine").filter(has=page.locator(".engine-name", has_text=re.compile(f"^{name}$")))


def bring_in(page: Page, path: Path) -> None:
    with page.expect_file_chooser() as chooser:
        page.get_by_label("An engine from elsewhere").click()
    chooser.value.set_files(path)
    page.get_by_role("button", name="Bring it in").click()


def test_every_engine_stands_there_drawn_with_what_is_open_and_what_was_run_last(page: Page, bench: Bench) -> None:
    shelf = go(page, bench)
    expect(shelf.locator(".engine-name")).to_have_text(ENGINES)
    shapes = page.locator(".engine-picture").evaluate_all(_SHAPES)
    assert all(count > 20 and is_seen for count, is_seen, _ in shapes)
    assert len({drawing for *_, drawing in shapes}) == len(ENGINES)
    expect(find(page, "Tern").locator("dd")).to_contain_text(["none", "none noted"])
    fill_log(page, bench)
    headers = {"origin": bench.address, "accept": "application/json"}
    run = {"kind": "run", "text": "Ran on air.", "reading_name": "speed", "reading_value": "310 rpm"}
    assert page.request.post(f"{bench.address}/engine/tern/log", form=run, headers=headers).ok
    page.reload()
    expect(find(page, "Tern").locator("dd")).to_contain_text(["1", "Ran on air."])
    expect(find(page, "Knot").locator("dd")).to_contain_text(["none", "none noted"])


def test_an_engine_is_begun_copied_taken_along_and_brought_in(page: Page, bench: Bench, tmp_path: Path) -> None:
    # The browser hands its chooser over only from some time after the first listener came.
    page.on("filechooser", lambda _: None)
    fill_log(page, bench)
    go(page, bench)
    page.get_by_label("A new engine").fill("Little Wren")
    page.get_by_role("button", name="Start a record").click()
    expect(page.locator(".head-engine")).to_have_text("Little Wren")
    page.get_by_role("link", name="Shelf").click()
    expect(find(page, "Little Wren")).to_contain_text("too few sizes for a picture")
    expect(find(page, "Little Wren").locator("svg")).to_have_count(0)
    find(page, "Tern").get_by_text("More").click()
    name = find(page, "Tern").get_by_label("Name of the copy")
    expect(name).to_have_value("Tern copy")
    name.fill("Tern as bored out")
    find(page, "Tern").get_by_role("button", name="Make the copy").click()
    page.wait_for_url("**/engine/tern-as-bored-out/measure")
    copied, text = (bench.folder / f"{name}.toml" for name in ("tern-as-bored-out", "tern"))
    assert copied.read_text(encoding="utf-8") == text.read_text(encoding="utf-8").replace(
        'name = "Tern"', 'name = "Tern as bored out"'
    )
    go(page, bench)
    find(page, "Tern").get_by_text("More").click()
    with page.expect_download() as coming:
        find(page, "Tern").get_by_role("link", name="Take along as one archive").click()
    archive = tmp_path / coming.value.suggested_filename
    coming.value.save_as(archive)
    assert archive.suffix == ".zip"
    assert archive.name.startswith("tern")
    assert {name.partition("/")[0] for name in zipfile.ZipFile(archive).namelist()} == {
        *("README.txt", "log.json", "photographs", "record.toml")
    }
    bring_in(page, archive)
    page.wait_for_url("**/engine/tern-2/measure")
    assert (bench.folder / "tern-2.toml").read_bytes() == text.read_bytes()
    page.get_by_role("link", name="Log", exact=True).click()
    entry = page.get_by_role("article")
    expect(entry).to_contain_text("Valve face scored.")
    picture = entry.get_by_role("img")
    assert picture.evaluate("async (one) => { await one.decode(); return one.naturalHeight; }") > 100


def test_what_more_opens_stands_below_the_buttons_which_stay_where_they_are(page: Page, bench: Bench) -> None:
    page.set_viewport_size({"width": 820, "height": 1180})
    go(page, bench)
    place = find(page, "Curlew")
    more = place.locator("summary")
    before = more.bounding_box()
    more.click()
    assert more.bounding_box() == before
    boxes = [
        place.get_by_role(role, name=name).bounding_box()
        for role, name in (("link", "Take along"), ("button", "Make the copy"), ("link", "Take it off the shelf"))
    ]
    for above, below in zip([before, *boxes], boxes, strict=False):
        assert above is not None
        assert below is not None
        assert below["y"] >= above["y"] + above["height"] + 8


def test_what_is_no_engine_is_refused_with_the_way_back(page: Page, bench: Bench, tmp_path: Path) -> None:
    page.on("filechooser", lambda _: None)
    go(page, bench)
    # An empty name is told by the browser itself, and nothing is sent.
    page.get_by_role("button", name="Start a record").click()
    expect(page.get_by_label("A new engine")).to_be_focused()
    broken = tmp_path / "engine.zip"
    broken.write_bytes(b"PK\x03\x04" + bytes(60))
    bring_in(page, broken)
    expect(page.get_by_role("alert")).to_contain_text("That was not done")
    page.get_by_role("link", name="To the shelf").click()
    expect(page.locator(".engine-name")).to_have_text(ENGINES)


def test_a_flawed_record_stands_there_and_is_mended_from_there(page: Page, bench: Bench) -> None:
    flawed = 'format = 1\n[engine]\nname = "Ruff"\n[[cylinder]]\nbore = "-3 mm"\nstroke = "1 in"\n'
    (bench.folder / "ruff.toml").write_text(flawed, encoding="utf-8")
    broken = 'format = 1\n[engine\nname = "Reeve"\n[[cylinder]]\nstroke = "1 in"\n'
    (bench.folder / "reeve.toml").write_text(broken, encoding="utf-8")
    (bench.folder / "garbage.toml").write_bytes(bytes(range(256)))
    go(page, bench)
    expect(page.locator(".engine")).to_have_count(len(ENGINES) + 3)
    place = find(page, "Ruff")
    expect(place).to_contain_text("Cannot be read")
    place.locator(".engine-face").click()
    page.wait_for_url("**/engine/ruff/measure")
    problems = page.locator("#problems")
    expect(problems).to_contain_text("line 5")
    problems.get_by_role("link", name="to the field").click()
    bore = page.get_by_label("bore", exact=True)
    expect(bore).to_be_focused()
    bore.fill("3 mm")
    bore.press("Enter")
    expect(problems).to_be_empty()
    go(page, bench)
    expect(find(page, "Ruff")).not_to_contain_text("Cannot be read")
    find(page, "garbage").locator(".engine-face").click()
    expect(page.locator("#problems")).to_contain_text("the file is not UTF-8 text")
    go(page, bench)
    find(page, "reeve").locator(".engine-face").click()
    expect(page.locator("#problems")).to_contain_text("The file cannot be read as it stands")
    text = page.get_by_role("textbox", name="The record's own text")
    text.fill(text.input_value().replace("[engine", "[engine]"))
    page.get_by_role("button", name="Save the text").click()
    expect(page.get_by_label("stroke", exact=True)).to_have_value("1 in")
    go(page, bench)
    expect(find(page, "Reeve")).not_to_contain_text("Cannot be read")


def test_two_tabs_with_the_shelf_take_nothing_from_each_other(
    page: Page, bench: Bench, context: BrowserContext
) -> None:
    other = context.new_page()
    for tab in (page, other):
        go(tab, bench)
        tab.get_by_label("A new engine").fill("Wren")
    page.get_by_role("button", name="Start a record").click()
    page.wait_for_url("**/engine/wren/measure")
    other.get_by_role("button", name="Start a record").click()
    expect(other.get_by_role("alert")).to_contain_text('call this one otherwise, or take "Wren (2)"')
    # What was written is still there, to be written otherwise.
    expect(other.get_by_label("A new engine")).to_have_value("Wren")
    expect(other.get_by_label("A new engine")).to_be_focused()
    other.get_by_label("A new engine").fill("Wren (2)")
    other.get_by_role("button", name="Start a record").click()
    other.wait_for_url("**/engine/wren-2/measure")
    page.get_by_label("bore", exact=True).fill("20 mm")
    page.get_by_label("bore", exact=True).press("Enter")
    expect(page.locator("[data-field='cylinder.0.bore']")).to_have_attribute("data-state", "saved")
    expect(other.get_by_label("bore", exact=True)).to_have_value("")
    assert go(other, bench).count() == len(ENGINES) + 2
    # One tab shows what somebody has taken away since.
    (bench.folder / "wren-2.toml").unlink()
    other.locator("[href='/engine/wren-2/findings']").click()
    expect(other.get_by_role("alert")).to_contain_text("That was not done")
    other.get_by_role("link", name="To the shelf").click()
    expect(other.locator(".engine")).to_have_count(len(ENGINES) + 1)
    other.close()
