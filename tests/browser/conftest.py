"""The real bench in the real browser: a server process on a copy of the demo workshop, and headless Chromium."""

from __future__ import annotations

import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

EXAMPLES = Path(__file__).parents[2] / "examples"
CHROMIUM = shutil.which("chromium")
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@dataclass(frozen=True)
class Bench:
    """A bench that is open: its address (without a stroke at the end), and the workshop's folder."""

    address: str
    folder: Path


# Its event loop is that of the whole thread as long as it is open: tests of other files may want one of their own.
@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """One Chromium for all tests of a file."""
    if CHROMIUM is None:
        pytest.skip("Chromium is not installed: apt install chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A workshop's folder with the demo engines."""
    place = tmp_path / "harbour-museum"
    place.mkdir()
    for record in EXAMPLES.glob("*.toml"):
        shutil.copy(record, place)
    return place


@pytest.fixture
def bench(folder: Path) -> Iterator[Bench]:
    """The program itself, serving that folder on a free place of this machine."""
    command = [sys.executable, "-m", "lapwright", "bench", str(folder), "--port", "0", "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        found = re.search(r"http://127\.0\.0\.1:\d+", process.stdout.readline())
        assert found, process.stderr.read()
        yield Bench(found[0], folder)
        process.send_signal(signal.SIGINT)
        _, complaints = process.communicate(timeout=20)
        assert not complaints.strip(), complaints


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A browser that nobody has used yet."""
    context = browser.new_context(viewport={"width": 1280, "height": 800}, reduced_motion="reduce")
    context.set_default_timeout(15_000)
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext, bench: Bench) -> Iterator[Page]:
    """A page that fails its test if anything leaves the machine or any script complains."""
    page, complaints = context.new_page(), []
    page.on("console", lambda said: complaints.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("request", lambda asked: complaints.append(asked.url) if not _is_own(asked.url, bench) else None)
    yield page
    # A refusal that a test brings about is told by its status, and the browser says so too.
    assert not [line for line in complaints if not line.startswith("Failed to load resource")], complaints


def _is_own(url: str, bench: Bench) -> bool:
    return url.startswith((bench.address, bench.address.replace("http", "ws", 1), "data:", "blob:", "about:"))
