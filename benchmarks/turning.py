"""How fast the section follows a slider, against an empty echo on the same line, and how smoothly it runs."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from benchmarks.bench_process import lay_out_demo, open_bench
from benchmarks.ratio import Ratio

CHROMIUM = shutil.which("chromium")
KEYS = ("valve.length", "valve_drive.eccentric_angle", "supply_pressure")
#: In turn, so that a busy machine is busy for both: an echo, then a slider's move until the openings are drawn anew.
MEASURE = """
async ([engine, key]) => {
  const line = new WebSocket(`${location.origin.replace("http", "ws")}/engine/${engine}/live`);
  await new Promise((open) => { line.onopen = open; });
  const pause = () => new Promise((done) => { setTimeout(done, 25); });
  const slider = document.querySelector(`.turn-knob[data-key="${key}"] input[type=range]`);
  const [low, high] = [Number(slider.min), Number(slider.max)];
  const plot = document.querySelector(".turn-plot");
  const echoes = [], moves = [], cards = [];
  for (let n = 0; n < 60; n += 1) {
    let begun = performance.now();
    await new Promise((back) => { line.onmessage = back; line.send('{"type":"echo"}'); });
    echoes.push(performance.now() - begun);
    await pause();
    begun = performance.now();
    const watch = (place, list) => new Promise((seen) => {
      const watcher = new MutationObserver(() => {
        watcher.disconnect();
        list.push(performance.now() - begun);
        seen();
      });
      watcher.observe(place, { subtree: true, childList: true, attributes: true, attributeFilter: ["d"] });
    });
    const drawn = [watch(plot, moves), watch(document.querySelector(".turn-pressure"), cards)];
    slider.value = low + (high - low) * (0.3 + 0.006 * n);
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    await Promise.all(drawn);
    await pause();
  }
  line.close();
  return [echoes, moves, cards];
}
"""
DRAG = """
async (key) => {
  const slider = document.querySelector(`.turn-knob[data-key="${key}"] input[type=range]`);
  const figure = slider.parentElement.querySelector(".turn-figure");
  const [low, high] = [Number(slider.min), Number(slider.max)];
  for (let n = 0; n < 120; n += 1) {
    slider.value = low + (high - low) * (0.2 + 0.005 * n);
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    await new Promise((done) => { setTimeout(done, 1000 / 60); });
  }
  const begun = performance.now();
  let before = "";
  let changed = begun;
  while (performance.now() - begun < 600) {
    if (figure.value !== before) { before = figure.value; changed = performance.now(); }
    await new Promise((done) => { setTimeout(done, 1); });
  }
  return changed - begun;
}
"""
RUN = """
async () => {
  document.querySelector(".turn-play").click();
  let frames = 0;
  const begun = performance.now();
  await new Promise((done) => {
    const count = () => { frames += 1; performance.now() - begun < 4000 ? requestAnimationFrame(count) : done(); };
    requestAnimationFrame(count);
  });
  return (frames * 1000) / (performance.now() - begun);
}
"""


def measure() -> Iterator[Ratio]:
    """A real server and a headless browser; nothing where there is no browser."""
    if CHROMIUM is None:
        return
    from playwright.sync_api import sync_playwright

    with (
        tempfile.TemporaryDirectory() as folder,
        open_bench(lay_out_demo(Path(folder))) as address,
        sync_playwright() as playwright,
    ):
        browser = playwright.chromium.launch(
            executable_path=CHROMIUM, args=["--headless", "--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page(viewport={"width": 1280, "height": 800}, reduced_motion="reduce")
        page.goto(f"{address}/engine/tern/turn")
        # The running engine's code may have to be made first.
        page.locator(".turn-card .plot-now path").first.wait_for(state="attached", timeout=180_000)
        for key in KEYS:
            echoes, moves, cards = page.evaluate(MEASURE, ["tern", key])
            echo = median(echoes)
            yield Ratio(f"slider {key}: new drawing / empty echo", median(moves) / echo, 3)
            yield Ratio(f"slider {key}: its pressure card too / empty echo", median(cards) / echo, 10)
        yield Ratio(
            "after a drag of two seconds the last figure comes within", page.evaluate(DRAG, KEYS[0]), 100, " ms"
        )
        yield Ratio("frames of the running section (60 a second: 16.7)", 1000 / page.evaluate(RUN), 1000 / 55, " ms")
        browser.close()


if __name__ == "__main__":
    for ratio in measure():
        print(ratio)
