"""The running engine in the real browser: by slider and by hand, refused in words, tested, noted."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser.conftest import Bench
from tests.browser.test_findings import list_serious


def open_run(page: Page, bench: Bench, engine: str = "tern") -> None:
    page.goto(f"{bench.address}/engine/{engine}/run")
    expect(page.locator(".turned")).to_be_visible()


def test_the_run_follows_slider_fields_and_fluid(page: Page, bench: Bench) -> None:
    open_run(page, bench)
    title = page.locator(".turned h2")
    expect(title).to_have_text("Run on air at 2 bar, 300 rpm")
    # Nobody gave a speed: the box shows which one is taken.
    speed = page.get_by_role("textbox", name="Speed", exact=True)
    expect(speed).to_have_attribute("placeholder", "300 rpm, as usual")
    expect(page.locator("legend", has_text="Given:")).to_be_visible()
    slider = page.get_by_role("slider", name="Pressure, by hand")
    expect(slider).to_be_enabled()
    slider.focus()
    page.keyboard.press("ArrowLeft")
    expect(page.get_by_role("textbox", name="Pressure at the chest")).to_have_value("1.98 bar")
    expect(title).to_have_text("Run on air at 1.98 bar, 300 rpm")
    page.get_by_role("textbox", name="Pressure at the chest").fill("30 psi")
    expect(title).to_have_text("Run on air at 30 psi, 300 rpm")
    # The slider goes on in the unit that was used last.
    expect(slider).to_have_value("30")
    slider.focus()
    page.keyboard.press("ArrowRight")
    expect(title).to_have_text("Run on air at 30.2 psi, 300 rpm")
    page.get_by_role("radio", name="the load").check()
    # Nobody has said yet what it drives: that is asked for, and nothing is amiss with what is shown.
    load, wanted = page.get_by_role("textbox", name="Load", exact=True), page.get_by_text("Say what it drives")
    expect(wanted).to_have_text("Say what it drives, as 30 mN m or 5 W.")
    expect(page.locator("#turn .refused, #turn.stale, [aria-invalid]")).to_have_count(0)
    page.wait_for_url("**by=load*")
    page.reload()
    expect(wanted).to_be_visible()
    expect(page.locator("#turn[aria-busy=false]")).to_be_attached()
    expect(page.locator("#turn .working, #turn .refused")).to_have_count(0)
    load.fill("90 N m")
    expect(page.locator("#amiss-load")).to_contain_text("a load of 90.0 N m stalls it")
    expect(load).to_have_attribute("aria-invalid", "true")
    expect(wanted).to_be_hidden()
    load.fill("500 mN m")
    expect(title).to_contain_text("settles at")
    expect(page.locator("#amiss-load")).to_be_empty()
    expect(load).not_to_have_attribute("aria-invalid", "true")
    page.get_by_role("combobox", name="On", exact=True).select_option("steam")
    expect(title).to_contain_text("Run on steam")
    expect(page.get_by_text("Steam scalds")).to_be_visible()
    expect(page.get_by_text("Compressed air stores energy").first).to_be_hidden()
    # The address keeps what was asked.
    expect(page).to_have_url(re.compile("fluid=steam"))
    page.reload()
    expect(title).to_contain_text("Run on steam at 30.2 psi, settles at")


def test_what_cannot_be_read_is_told_beside_the_run_before(page: Page, bench: Bench) -> None:
    open_run(page, bench)
    pressure = page.get_by_role("textbox", name="Pressure at the chest")
    pressure.fill("30")
    expect(page.locator("#amiss-pressure")).to_contain_text('30 has no unit: write "30 bar" or "30 psi"')
    expect(pressure).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#turn .refused")).to_have_count(0)
    expect(page.locator(".turned")).to_be_visible()
    pressure.fill("3 bar")
    expect(page.locator("#amiss-pressure")).to_be_empty()
    # A box that is folded away comes in sight with what is amiss in it.
    page.get_by_text("Exhaust, temperature").click()
    exhaust = page.get_by_role("textbox", name="Behind the exhaust")
    exhaust.fill("4 bar")
    expect(page.locator("#amiss-exhaust")).to_contain_text("below its exhaust")
    expect(page.locator("#turn.stale .turned")).to_be_visible()


def test_a_bench_test_is_entered_and_the_figures_follow(page: Page, bench: Bench) -> None:
    open_run(page, bench)
    page.get_by_text("It ran steadily").click()
    form = page.locator("details.enter[open] form")
    # It is run on what the stand on the same page is on.
    expect(form.get_by_label("run on")).to_have_value("air")
    page.get_by_role("combobox", name="On", exact=True).select_option("steam")
    expect(form.get_by_label("run on")).to_have_value("steam")
    page.get_by_role("combobox", name="On", exact=True).select_option("air")
    expect(form.get_by_label("run on")).to_have_value("air")
    form.get_by_label("supply pressure").fill("0.8 ± 0.05 bar")
    form.get_by_label("speed").fill("420")
    form.get_by_role("button", name="Keep this test").click()
    expect(form.get_by_role("status")).to_contain_text("420 has no unit")
    expect(form.get_by_label("supply pressure")).to_have_value("0.8 ± 0.05 bar")
    form.get_by_label("speed").fill("420 ± 10 rpm")
    form.get_by_role("button", name="Keep this test").click()
    expect(form.get_by_role("status")).to_have_text("Kept in the record.")
    expect(page.locator(".test")).to_contain_text("friction takes")
    expect(form.get_by_role("status")).to_be_in_viewport()
    expect(form.get_by_label("run on")).to_have_value("air")
    page.get_by_role("button", name="Write into the record").click()
    expect(page.locator("#tests-said")).to_have_text("Written into the record.")
    expect(page.locator("#tests-said")).to_be_in_viewport()
    text = (bench.folder / "tern.toml").read_text(encoding="utf-8")
    assert 'supply_pressure = "0.8 ± 0.05 bar"' in text
    assert 'from_tests = "friction_pressure"' in text


def test_a_run_is_noted_and_stands_in_the_log(page: Page, bench: Bench) -> None:
    open_run(page, bench)
    noting = page.locator("#note form")
    expect(noting.get_by_label("speed")).to_have_attribute("placeholder", "worked out: 300 rpm")
    noting.get_by_role("button", name="Note it").click()
    expect(noting.get_by_role("status")).to_contain_text("nothing was written down")
    noting.get_by_label("speed").fill("380 rpm")
    noting.get_by_label("How it went").fill("An even beat at last.")
    noting.get_by_role("button", name="Note it").click()
    expect(noting.get_by_role("status")).to_have_text("Noted in the log.")
    page.goto(f"{bench.address}/engine/tern/log")
    expect(page.locator("main")).to_contain_text("An even beat at last.")


def test_no_serious_fault_for_those_who_do_not_see_and_nothing_runs_off_a_phone(page: Page, bench: Bench) -> None:
    for engine in ("sandpiper", "knot"):
        page.goto(f"{bench.address}/engine/{engine}/run")
        expect(page.locator("[aria-busy=true]")).to_have_count(0)
        for box in page.locator("details").all():
            box.evaluate("box => { box.open = true; }")
        assert list_serious(page) == []
        page.set_viewport_size({"width": 360, "height": 740})
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        page.set_viewport_size({"width": 1280, "height": 800})
