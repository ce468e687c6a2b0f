"""The bench as a person starts and closes it, and as a stranger on the network finds it."""

from __future__ import annotations

import re
import signal
import socket
import sqlite3
import time
from contextlib import closing, suppress
from http.client import HTTPResponse
from pathlib import Path

import pytest

from tests.journey.bench_program import OpenBench, make_folder, open_bench
from tests.journey.program import run

pytestmark = pytest.mark.journey


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return make_folder(tmp_path)


def find_outside_address() -> str:
    """The address of this machine on its network; nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return ""
        return str(probe.getsockname()[0])


def test_it_opens_answers_and_is_closed_by_hand(folder: Path) -> None:
    with open_bench(folder) as bench:
        assert bench.told.splitlines() == [
            f"The bench is open at http://127.0.0.1:{bench.place}/",
            "It closes with Ctrl+C. Everything you enter is kept as you enter it.",
        ]
        answer = bench.ask("GET", "/", accept="text/html")
        assert answer.status == 200
        assert "Tern" in answer.text
        assert "server" not in {name.lower() for name, _ in answer.getheaders()}
        begun = bench.ask("POST", "/new", body="name=Wren")
        assert (begun.status, begun.getheader("location")) == (303, "/engine/wren/measure")
        bench.close()
        assert bench.status == 0
        assert bench.rest + bench.complaints.strip() == ""
    assert (folder / "wren.toml").is_file()


def test_it_is_closed_with_lines_open_and_a_body_on_its_way(folder: Path) -> None:
    with open_bench(folder) as bench:
        bench.hold_line()
        bench.hold_line().sendall(b"POST /new HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nContent-L")
        head = b"POST /new HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nContent-Length: 100\r\n\r\nname="
        bench.hold_line().sendall(head)
        live = b"GET /engine/tern/live HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\n"
        live += b"Connection: Upgrade\r\nUpgrade: websocket\r\nSec-WebSocket-Version: 13\r\n"
        line = bench.hold_line()
        line.sendall(live + b"Sec-WebSocket-Key: MDEyMzQ1Njc4OWFiY2RlZg==\r\n\r\n")
        assert line.recv(20).startswith(b"HTTP/1.1 101")
        bench.close()
        assert bench.status == 0
        assert bench.rest + bench.complaints.strip() == ""


def test_one_that_is_ended_from_outside_leaves_no_traceback(folder: Path) -> None:
    with open_bench(folder) as bench:
        bench.close(signal.SIGTERM)
        assert bench.status in {0, -signal.SIGTERM}
        assert bench.rest + bench.complaints.strip() == ""


def test_it_listens_on_this_machine_only(folder: Path) -> None:
    with open_bench(folder) as bench:
        outside = find_outside_address()
        for address in {outside, "127.0.0.2"} - {""}:
            with pytest.raises(ConnectionRefusedError):
                socket.create_connection((address, bench.place), timeout=5)


def test_a_place_that_is_taken_is_told(folder: Path) -> None:
    with open_bench(folder) as bench:
        answer = run("bench", str(folder), "--port", str(bench.place), "--no-browser", folder=folder.parent)
        assert (answer.status, answer.out) == (2, "")
        assert answer.err == (
            f"lapwright: the bench cannot be opened: place {bench.place} of this machine is taken: "
            "give another with --port, or close the other bench\n"
        )


@pytest.mark.parametrize("place", ["-1", "65536", "99999999999999999999", "x", "84.6"])
def test_what_is_no_place_is_told(folder: Path, place: str) -> None:
    answer = run("bench", str(folder), "--port", place, "--no-browser", folder=folder.parent)
    assert (answer.status, answer.out) == (2, "")
    assert "--port" in answer.err


def test_a_folder_that_is_none_is_told(tmp_path: Path) -> None:
    (tmp_path / "file.toml").touch()
    for name in ("missing", "file.toml/below", "a" * 300):
        for words in ((), ("--restore",)):
            answer = run("bench", name, "--no-browser", *words, folder=tmp_path)
            assert (answer.status, answer.out) == (2, ""), name
            assert answer.err.startswith("lapwright: there is no folder")
    assert not (tmp_path / "missing").exists()


def test_changes_by_guests_want_guests(folder: Path) -> None:
    answer = run("bench", str(folder), "--allow-changes", "--no-browser", folder=folder.parent)
    assert answer.status == 2
    assert "--share" in answer.err


def test_two_benches_on_one_folder_see_what_the_other_keeps(folder: Path) -> None:
    with open_bench(folder) as first, open_bench(folder) as second:
        assert first.place != second.place
        for name, bench in (("Wren", first), ("Dunlin", second), ("Ruff", first)):
            assert bench.ask("POST", "/new", body=f"name={name}").status == 303
        for bench in (first, second):
            shelf = bench.ask("GET", "/").text
            assert all(name in shelf for name in ("Wren", "Dunlin", "Ruff", "Tern"))


def test_a_damaged_log_is_told_with_the_way_back_and_that_way_leads_back(folder: Path) -> None:
    with open_bench(folder) as bench:
        bench.ask("POST", "/new", body="name=Wren")
    with open_bench(folder):
        # A second start: the backup of this one holds what the first kept.
        pass
    log = folder / "logbook.sqlite"
    log.write_bytes(b"not a log book at all" * 500)
    answer = run("bench", str(folder), "--no-browser", "--port", "0", folder=folder.parent)
    assert (answer.status, answer.out) == (2, "")
    assert "logbook.sqlite is damaged" in answer.err
    assert "--restore" in answer.err
    with open_bench(folder, "--restore") as bench:
        assert bench.told.startswith("The log book is as it was backed up on ")
        assert bench.ask("GET", "/").status == 200
    with closing(sqlite3.connect(log)) as book:
        assert book.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    kept = list(folder.glob("logbook-put-aside-*"))
    assert [path.read_bytes()[:7] for path in kept] == [b"not a l"]


def test_a_stranger_and_a_guest(folder: Path) -> None:
    outside = find_outside_address()
    if not outside:
        answer = run("bench", str(folder), "--share", "--no-browser", "--port", "0", folder=folder.parent)
        assert (answer.status, answer.out) == (2, "")
        assert "on no network" in answer.err
        return
    with open_bench(folder, "--share") as bench:
        told = re.search(rf"link  http://{outside}:{bench.place}(/join/\S+)\n +code  (\d{{3}} \d{{3}})\n", bench.told)
        assert told, bench.told
        link, code = told[1], told[2]
        assert "may look, not change" in bench.told
        for path in ("/", "/engine/tern/measure", "/log", "/nowhere"):
            for said in ({}, {"x_forwarded_for": "127.0.0.1"}, {"forwarded": "for=127.0.0.1"}):
                assert bench.ask("GET", path, host=outside, **said).status == 403
        assert bench.ask("POST", link, host=outside, body="code=999999").status == 403
        let_in = bench.ask("POST", link, host=outside, body=f"code={code}")
        assert let_in.status == 303
        cookie = str(let_in.getheader("set-cookie")).partition(";")[0]
        assert bench.ask("POST", link, host=outside, body=f"code={code}").status == 403
        assert bench.ask("GET", link, host=outside).status == 403
        assert "Tern" in bench.ask("GET", "/", host=outside, cookie=cookie).text
        assert bench.ask("POST", "/new", host=outside, cookie=cookie, body="name=Wren").status == 403
        assert bench.ask("POST", "/new", body="name=Wren").status == 303
    assert bench.status == 0


def test_a_guest_who_may_change(folder: Path) -> None:
    outside = find_outside_address()
    if not outside:
        answer = run("bench", str(folder), "--share", "--allow-changes", "--no-browser", folder=folder.parent)
        assert answer.status == 2
        return
    with open_bench(folder, "--share", "--allow-changes") as bench:
        assert "may change everything" in bench.told
        told = re.search(r"(/join/\S+)\n +code  (\d{3}) (\d{3})", bench.told)
        assert told
        let_in = bench.ask("POST", told[1], host=outside, body=f"code={told[2]}{told[3]}")
        cookie = str(let_in.getheader("set-cookie")).partition(";")[0]
        assert bench.ask("POST", "/new", host=outside, cookie=cookie, body="name=Wren").status == 303
    assert (folder / "wren.toml").is_file()


#: What reaches the program itself, before anything of ours has read it, and the status that it is answered with.
UNKIND = [
    (b"GET / HTTP/1.1\r\nHost: harm.example\r\nConnection: close\r\n\r\n", b"403"),
    (b"GET / HTTP/1.0\r\n\r\n", b"403"),
    (b"GET http://harm.example/ HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET //harm.example/ HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"OPTIONS * HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"TRACE / HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"403"),
    (b"GET /static/../../app.py HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET /static/..%2f..%2fapp.py HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET /static/%2fetc/passwd HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET /static/%00 HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET /engine/..%2f..%2fetc/measure HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET /engine/%2e%2e/measure HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET /engine/tern%00/measure HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", b"404"),
    (b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nHost: harm.example\r\n\r\n", b"400"),
    (b"GET / HTTP/1.1\r\n\r\n", b"400"),
    (b"not a request\r\n\r\n", b"400"),
    (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + bytes(200), b"400"),
    (b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: " + b"y" * 70_000, b"400"),
    (b"POST /new HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: -5\r\n\r\n", b"400"),
    (b"POST /new HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: null\r\nContent-Length: 9999999\r\n"
     b"Connection: close\r\n\r\n", b"403"),
    (b"POST /new HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nContent-Length: 9999999\r\n"
     b"Connection: close\r\n\r\n", b"413"),
    (b"GET /engine/tern/live HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://harm.example\r\n"
     b"Connection: Upgrade\r\nUpgrade: websocket\r\nSec-WebSocket-Version: 13\r\n"
     b"Sec-WebSocket-Key: MDEyMzQ1Njc4OWFiY2RlZg==\r\n\r\n", b"403"),
]  # fmt: skip


def test_unkind_lines_are_refused_and_the_bench_stays_open(folder: Path) -> None:
    with open_bench(folder) as bench:
        got = {sent: bench.call(sent)[:12] for sent, _ in UNKIND}
        assert {sent: answer for sent, answer in got.items() if answer != b"HTTP/1.1 " + dict(UNKIND)[sent]} == {}
        assert bench.ask("GET", "/").status == 200
        bench.close()
        assert bench.complaints.strip() == ""


def test_very_many_lines_do_not_bring_it_down(folder: Path) -> None:
    outside = find_outside_address()
    with open_bench(folder, *(["--share"] if outside else [])) as bench:
        if outside:
            for _ in range(150):
                bench.hold_line(outside)
            # Whoever sits here finds a line free, however many others hold.
            assert bench.ask("GET", "/").status == 200
        for _ in range(300):
            bench.hold_line()
        for line in bench.lines:
            line.close()
        assert ask_until_free(bench).status == 200
        bench.close()
        assert bench.complaints.strip() == ""


def ask_until_free(bench: OpenBench) -> HTTPResponse:
    """Ask again as a browser does where a line is hung up."""
    for _ in range(100):
        with suppress(ConnectionError):
            return bench.ask("GET", "/")
        time.sleep(0.05)
    raise AssertionError("no line came free")
