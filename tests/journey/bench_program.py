"""The bench as the installed program: started, asked over the network, and closed by hand."""

from __future__ import annotations

import os
import re
import shutil
import signal
import socket
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path

from tests.journey.program import PROGRAM, TOP


@dataclass
class OpenBench:
    """One that is open: its process, what it told when it opened, and where it listens."""

    process: subprocess.Popen[str]
    told: str
    place: int
    #: Filled in when it has been closed.
    status: int | None = None
    rest: str = ""
    complaints: str = ""
    lines: list[socket.socket] = field(default_factory=list)

    def ask(self, method: str, path: str, *, host: str = "127.0.0.1", body: str = "", **headers: str) -> HTTPResponse:
        """Ask it something as its own page would; the body has been read when this returns."""
        address = f"{host}:{self.place}"
        line = HTTPConnection(host, self.place, timeout=20)
        own = {"origin": f"http://{address}", "content-type": "application/x-www-form-urlencoded"}
        line.request(method, path, body or None, own | {name.replace("_", "-"): text for name, text in headers.items()})
        answer = line.getresponse()
        answer.text = answer.read().decode()  # type: ignore[attr-defined]
        line.close()
        return answer

    def call(self, sent: bytes) -> bytes:
        """Send raw bytes over a line of their own and return what comes back until it is hung up."""
        with socket.create_connection(("127.0.0.1", self.place), timeout=20) as line:
            line.sendall(sent)
            got = b""
            while part := line.recv(65_536):
                got += part
        return got

    def hold_line(self, host: str = "127.0.0.1") -> socket.socket:
        """Take a line and say nothing."""
        line = socket.create_connection((host, self.place), timeout=20)
        self.lines.append(line)
        return line

    def close(self, by: signal.Signals = signal.SIGINT) -> None:
        """Close it as Ctrl+C does."""
        self.process.send_signal(by)
        self.rest, self.complaints = self.process.communicate(timeout=20)
        self.status = self.process.returncode


@contextmanager
def open_bench(folder: Path, *words: str) -> Iterator[OpenBench]:
    """Open the bench on a folder, on a free place, and see that it is closed in the end."""
    home = folder.parent / "home"
    home.mkdir(exist_ok=True)
    env = {"PATH": os.environ["PATH"], "HOME": str(home), "LANG": "C.UTF-8", "FORWARDED_ALLOW_IPS": "*"}
    command = [str(PROGRAM), "bench", str(folder), "--no-browser", *(("--port", "0") * ("--port" not in words)), *words]
    with subprocess.Popen(command, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        told = ""
        for line in process.stdout:
            told += line
            if "Ctrl+C" in line:
                break
        found = re.search(r"open at http://127\.0\.0\.1:(\d+)/", told)
        if found is None:
            raise AssertionError(process.communicate())
        bench = OpenBench(process, told, int(found[1]))
        try:
            yield bench
            if bench.status is None:
                bench.close()
        finally:
            for held in bench.lines:
                held.close()
            process.kill()
    assert "Traceback" not in told + bench.rest + bench.complaints, bench.complaints


def make_folder(where: Path) -> Path:
    """A workshop's folder with one demo engine."""
    folder = where / "harbour-museum"
    folder.mkdir()
    shutil.copy(TOP / "examples" / "tern.toml", folder)
    return folder
