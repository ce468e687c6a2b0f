"""The log in a real browser: written by keyboard with photographs, kept over a reload, searched, changed by two."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.conftest import Bench
from tests.web.pictures import draw_photograph

LOG = "/engine/tern/log"


def go(page: Page, bench: Bench, address: str = LOG) -> None:
    page.goto(bench.address + address)
    # Without scripts there is a button to look with.
    expect(page.get_by_role("button", name="Look")).to_be_hidden()


def write(page: Page, bench: Bench, text: str, *, kind: str = "Found", job: bool = False) -> None:
    go(page, bench)
    page.get_by_role("radio", name=kind, exact=True).check()
    page.get_by_label("What is to be told").fill(text)
    page.get_by_label("An open job").set_checked(job)
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_text("It stands in the log.")).to_be_visible()


def make_photograph(folder: Path, name: str) -> Path:
    path = folder / name
    path.write_bytes(draw_photograph(name, size=(900, 1200)))
    return path


def tab_to(page: Page, name: str, most: int = 40) -> None:
    """Go on by Tab until what has the focus is called that."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if name in (
            page.evaluate("document.activeElement.labels?.[0]?.textContent ?? document.activeElement.textContent")
        ):
            return
    raise AssertionError(f"Tab does not lead to {name}")


def test_an_entry_with_photographs_is_written_by_keyboard(page: Page, bench: Bench, tmp_path: Path) -> None:
    files = [make_photograph(tmp_path, name) for name in ("chest.jpg", "face.jpg")]
    # The browser hands its chooser over only from some time after the first listener came.
    page.on("filechooser", lambda _: None)
    go(page, bench)
    tab_to(page, "Found")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    expect(page.get_by_role("radio", name="Measured")).to_be_checked()
    tab_to(page, "What is to be told")
    page.keyboard.type("Leads by feeler.\nTwice over.")
    tab_to(page, "Choose photographs")
    with page.expect_file_chooser() as chooser:
        page.keyboard.press("Enter")
    chooser.value.set_files(files)
    chosen = page.get_by_role("list", name="Chosen, not written yet")
    expect(chosen.get_by_role("img")).to_have_count(2)
    page.get_by_label("Take one with the camera").set_input_files(make_photograph(tmp_path, "third.jpg"))
    expect(chosen.get_by_role("img")).to_have_count(3)
    # Neither of the fields says over three photographs that none is chosen.
    for name in ("Choose photographs", "Take one with the camera"):
        assert page.get_by_label(name).evaluate("field => field.files.length") == 3
    chosen.get_by_role("button", name="Leave out third.jpg").press("Enter")
    expect(chosen.get_by_role("img")).to_have_count(2)
    tab_to(page, "Readings, parts, time, day")
    page.keyboard.press("Enter")
    tab_to(page, "What was read 1")
    page.keyboard.type("Lead, head end")
    page.keyboard.press("Tab")
    page.keyboard.type("3/4")
    expect(page.get_by_text("No unit: write 3/4 in")).to_be_visible()
    page.keyboard.type(" in")
    expect(page.get_by_text("3/4 in is 19.05 mm")).to_be_visible()
    tab_to(page, "Write it into the log")
    page.keyboard.press("Enter")
    expect(page.get_by_text("It stands in the log.")).to_be_visible()
    # Where it stands now is in view, and marked along its top alone.
    written = page.get_by_role("article").first
    expect(written).to_be_focused()
    expect(written).to_be_in_viewport()
    expect(written).to_have_css("outline-color", "rgba(0, 0, 0, 0)")
    expect(written).to_have_css("box-shadow", re.compile("0px -4px"))
    entry = page.get_by_role("article")
    expect(entry).to_contain_text("Measured")
    expect(entry).to_contain_text("3/4 in (19.05 mm)")
    expect(entry.get_by_role("img")).to_have_count(2)
    assert entry.get_by_role("img").first.evaluate("async (i) => { await i.decode(); return i.naturalHeight; }") == 480
    entry.get_by_role("link", name="Photograph face.jpg").press("Enter")
    whole = page.get_by_role("dialog").get_by_role("img")
    expect(whole).to_be_visible()
    assert whole.evaluate("async (i) => { await i.decode(); return i.naturalHeight; }") == 1200
    page.keyboard.press("Escape")
    expect(whole).to_be_hidden()


def test_what_is_typed_is_kept_over_a_reload_until_it_is_written(page: Page, bench: Bench, tmp_path: Path) -> None:
    go(page, bench)
    page.get_by_role("radio", name="Run", exact=True).check()
    page.get_by_label("What is to be told").fill("Runs light at 0.3 bar")
    page.get_by_label("Choose photographs").set_input_files(make_photograph(tmp_path, "run.jpg"))
    page.get_by_text("Readings, parts, time, day").click()
    for count in range(1, 4):
        page.get_by_label(f"What was read {count}").fill(f"speed {count}")
        page.get_by_label(f"Figure with its unit {count}").fill("300 rpm")
    page.get_by_label("Time spent").fill("1 h")
    page.reload()
    expect(page.get_by_text("What you had written here before is still there.")).to_contain_text("chosen again")
    expect(page.get_by_role("radio", name="Run", exact=True)).to_be_checked()
    expect(page.get_by_label("What is to be told")).to_have_value("Runs light at 0.3 bar")
    expect(page.get_by_label("What was read 3")).to_have_value("speed 3")
    expect(page.get_by_label("Time spent")).to_have_value("1 h")
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_text("It stands in the log.")).to_be_visible()
    expect(page.get_by_label("What is to be told")).to_have_value("")
    expect(page.get_by_text("What you had written here before")).to_be_hidden()


def test_what_is_amiss_is_told_at_once_and_nothing_is_lost(page: Page, bench: Bench) -> None:
    go(page, bench)
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_role("alert").filter(has_text="Nothing is written yet")).to_be_visible()
    expect(page.get_by_label("What is to be told")).to_be_focused()
    page.get_by_label("What is to be told").fill("Kept.")
    page.get_by_text("Readings, parts, time, day").click()
    page.get_by_label("Time spent").fill("long")
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_role("alert").filter(has_text="cannot be read as a time spent")).to_be_visible()
    expect(page.get_by_label("Time spent")).to_have_attribute("aria-invalid", "true")
    # The bench is closed, or the tablet out of reach.
    page.get_by_label("Time spent").fill("10 min")
    page.context.set_offline(True)
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_role("alert").filter(has_text="The bench does not answer")).to_be_visible()
    page.context.set_offline(False)
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_role("article")).to_contain_text("10 min")


def test_what_was_written_before_is_not_said_of_an_entry_that_is_refused(page: Page, bench: Bench) -> None:
    write(page, bench, "The first.")
    page.get_by_text("Readings, parts, time, day").click()
    for place, figure in ((2, "0.3 mmm"), (3, "19 mm")):
        page.get_by_label(f"What was read {place}").fill("Lead")
        page.get_by_label(f"Figure with its unit {place}").fill(figure)
    page.get_by_label("Day and time").fill("11/25/2026")
    page.get_by_role("button", name="Write it into the log").click()
    wrong = (page.get_by_label("Figure with its unit 2"), page.get_by_label("Day and time"))
    for field in wrong:
        expect(field).to_have_attribute("aria-invalid", "true")
    expect(wrong[0]).to_have_accessible_description(re.compile('Unit "mmm" is not known here: write "0.3 mm"'))
    expect(wrong[1]).to_have_accessible_description(re.compile('"11/25/2026" cannot be read as a day'))
    expect(page.get_by_label("Figure with its unit 3")).not_to_have_attribute("aria-invalid", "true")
    expect(page.get_by_text("It stands in the log.")).to_have_count(0)
    wrong[0].fill("0.3 mm")
    wrong[1].fill("25.11.2026 17:37")
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_text("It stands in the log.")).to_be_visible()
    expect(page.get_by_role("article").filter(has_text="2026-11-25 17:37")).to_contain_text("0.3 mm")


def test_a_photograph_that_is_none_is_named_and_the_entry_stands(page: Page, bench: Bench, tmp_path: Path) -> None:
    text = tmp_path / "notes.jpg"
    text.write_text("not a picture", encoding="utf-8")
    go(page, bench)
    page.get_by_label("What is to be told").fill("With one of two.")
    page.get_by_label("Choose photographs").set_input_files([text, make_photograph(tmp_path, "good.jpg")])
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_role("alert").filter(has_text="notes.jpg is not a picture that can be kept")).to_be_visible()
    go(page, bench)
    expect(page.get_by_role("article").get_by_role("img")).to_have_count(1)
    expect(page.get_by_label("What is to be told")).to_have_value("")


def test_the_list_follows_the_search_as_it_is_typed_and_a_job_gets_done(page: Page, bench: Bench) -> None:
    write(page, bench, "Gland repacked.", kind="Done")
    write(page, bench, "Make a drain cock.", kind="Note", job=True)
    words = page.get_by_role("searchbox", name="Words")
    words.press_sequentially("gla")
    expect(page.get_by_role("article")).to_have_count(1)
    expect(page).to_have_url(re.compile(r"\?words=gla$"))
    words.fill("boiler")
    expect(page.get_by_text("Nothing in the log has all of that.")).to_be_visible()
    words.fill("")
    expect(page.get_by_role("article")).to_have_count(2)
    page.get_by_label("Open jobs only").check()
    expect(page.get_by_role("article")).to_have_count(1)
    jobs = page.get_by_role("region", name="Open jobs (1)")
    jobs.get_by_role("button", name=re.compile("Job done.*Make a drain cock")).press("Enter")
    expect(jobs).to_be_hidden()
    expect(page.get_by_role("article").first).to_contain_text("Job done")


def test_two_pages_at_one_entry_see_both_texts(page: Page, bench: Bench, context: BrowserContext) -> None:
    write(page, bench, "One score.")
    other = context.new_page()
    for each in (page, other):
        go(each, bench)
        each.get_by_role("link", name="Change").click()
    other.get_by_label("What is to be told").fill("Three scores.")
    other.get_by_role("button", name="Write the change").click()
    expect(other.get_by_text("It stands in the log.")).to_be_visible()
    page.get_by_label("What is to be told").fill("Two scores.")
    page.get_by_role("button", name="Write the change").click()
    expect(page.get_by_role("alert").filter(has_text="Somebody has changed this entry")).to_contain_text(
        "Three scores."
    )
    expect(page.get_by_label("What is to be told")).to_have_value("Two scores.")
    page.get_by_role("button", name="Write the change").click()
    expect(page.get_by_role("article")).to_contain_text("Two scores.")


def test_an_entry_is_taken_out_and_put_back(page: Page, bench: Bench) -> None:
    write(page, bench, "Written in haste.")
    page.get_by_role("link", name="Take out").click()
    expect(page.get_by_role("link", name="Keep it")).to_be_focused()
    page.get_by_role("button", name="Take out").click()
    expect(page.get_by_role("article")).to_have_count(0)
    page.get_by_role("button", name="Put it back").click()
    expect(page.get_by_role("article")).to_contain_text("Written in haste.")


@pytest.mark.parametrize("width", [360, 1280])
def test_no_page_of_the_log_has_a_serious_fault_or_runs_over_its_edge(
    page: Page, bench: Bench, tmp_path: Path, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    go(page, bench)
    page.get_by_label("What is to be told").fill("Make a drain cock " + "x" * 120)
    page.get_by_label("An open job").check()
    page.get_by_label("Choose photographs").set_input_files(make_photograph(tmp_path, "chest.jpg"))
    page.get_by_role("button", name="Write it into the log").click()
    expect(page.get_by_role("article").get_by_role("img")).to_have_count(1)
    for address in (LOG, "/log", f"{LOG}/1", f"{LOG}/1/remove", "/engine/tern/before-after"):
        page.goto(bench.address + address)
        found = Axe().run(page).response["violations"]
        grave = [
            (fault["id"], fault["nodes"][0]["html"]) for fault in found if fault["impact"] in ("serious", "critical")
        ]
        assert not grave, address
        assert page.evaluate("document.documentElement.scrollWidth") <= width, address
