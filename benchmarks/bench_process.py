"""The program itself on a workshop, as a process of its own, and a line to it."""

from __future__ import annotations

import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path

EXAMPLES = Path(__file__).parents[1] / "examples"


def lay_out_demo(folder: Path) -> Path:
    """Copy the demo engines into a folder, which is made where it is not there, and return it."""
    folder.mkdir(exist_ok=True)
    for record in EXAMPLES.glob("*.toml"):
        shutil.copy(record, folder)
    return folder


@contextmanager
def open_bench(folder: Path | str) -> Iterator[str]:
    """Open the bench on a folder; its address is told as soon as the program tells it."""
    command = [sys.executable, "-m", "lapwright", "bench", str(folder), "--port", "0", "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as process:
        try:
            assert process.stdout is not None
            found = re.search(r"http://127\.0\.0\.1:\d+", process.stdout.readline())
            assert found
            yield found[0]
        finally:
            process.send_signal(signal.SIGINT)


def call(address: str) -> HTTPConnection:
    """Take a line to a bench."""
    return HTTPConnection(address.removeprefix("http://"), timeout=60)


def ask(line: HTTPConnection, path: str) -> bytes:
    """Ask for a page as a browser does, and read it whole."""
    line.request("GET", path, headers={"accept": "text/html"})
    answer = line.getresponse()
    page = answer.read()
    assert answer.status == 200, (path, answer.status)
    return page
