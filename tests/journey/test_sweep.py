"""`lapwright sweep` as a stranger runs it: stopped, killed, gone on with, on a terminal, and with bad input."""

from __future__ import annotations

import csv
import os
import pty
import signal
import subprocess
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from pyarrow import parquet

from tests.journey.program import PROGRAM, bring_example, list_files, run

pytestmark = pytest.mark.journey

#: 300 rows, some of which cannot be run.
WIDE = ("--vary", "valve.cavity=4 mm:12.8 mm:30", "--vary", "pressure=1 bar:3 bar:10", "--speed", "300 rpm")

#: 30,000 rows: not done before somebody else has looked in.
LONG = ("--vary", "valve.cavity=4 mm:12.8 mm:3000", *WIDE[2:])


def start(*words: str, folder: Path, err: int = subprocess.PIPE) -> subprocess.Popen[str]:
    """Start the program, the head of a group of its own as under a shell."""
    env = {"PATH": os.environ["PATH"], "HOME": str(folder), "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8"}
    return subprocess.Popen(
        [str(PROGRAM), *words],
        cwd=folder, env=env, stdout=subprocess.PIPE, stderr=err, encoding="utf-8", start_new_session=True,
    )  # fmt: skip


def wait_for(true: Callable[[], bool], seconds: float = 60) -> None:
    until = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < until, "it did not come"
        time.sleep(0.01)


def list_group(leader: int) -> list[int]:
    """The processes of a group that still run."""
    listed = subprocess.run(["ps", "-eo", "pid=,pgid=,stat="], capture_output=True, text=True, check=True).stdout
    rows = [line.split() for line in listed.splitlines()]
    return [int(row[0]) for row in rows if int(row[1]) == leader and not row[2].startswith("Z")]


def test_a_table_is_written_and_named_and_the_parquet_is_the_same(tmp_path: Path) -> None:
    name = bring_example("tern", tmp_path)
    words = ("sweep", name, "--vary", "A.valve.length=12 mm:13.6 mm:3", "--vary", "pressure=20 psi:30 psi:2")
    answer = run(*words, "--out", "t.csv", folder=tmp_path)
    assert (answer.status, answer.out, answer.err) == (0, "Written: t.csv (6 rows)\n", "")
    assert run(*words, "--out", "t.parquet", "--jobs", "1", folder=tmp_path).status == 0
    assert list_files(tmp_path) == {name, "t.csv", "t.parquet"}
    with (tmp_path / "t.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [(row["row"], row["A.valve.length_mm"], row["pressure_psi"]) for row in rows] == [
        ("1", "12", "20"), ("2", "12", "30"), ("3", "12.8", "20"), ("4", "12.8", "30"), ("5", "13.6", "20"),
        ("6", "13.6", "30"),
    ]  # fmt: skip
    told = parquet.read_table(tmp_path / "t.parquet").to_pylist()
    assert [each["brake_power_w"] for each in told] == [float(row["brake_power_w"]) for row in rows]
    assert all(each["settled"] and each["problem"] is None for each in told)
    powers = [float(row["brake_power_w"]) for row in rows]
    assert powers[1::2] > powers[::2]


def test_stopped_in_every_way_it_goes_on_to_the_same_bytes(tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    whole = run("sweep", name, *WIDE, "--out", "whole.csv", "--jobs", "1", folder=tmp_path)
    assert whole.out.startswith("Written: whole.csv (300 rows, 10 of which could not be run: see the column problem)")
    part, before = tmp_path / "t.csv.part", 0
    for number, stopping in enumerate((signal.SIGINT, signal.SIGTERM, signal.SIGKILL)):
        process = start("sweep", name, *WIDE, "--out", "t.csv", folder=tmp_path)
        wait_for(lambda least=before + 1500: part.exists() and part.stat().st_size > least)
        if stopping == signal.SIGINT:
            os.killpg(process.pid, stopping)
        else:
            process.send_signal(stopping)
        out, err = process.communicate(timeout=30)
        assert out == ""
        assert "Traceback" not in err
        assert ("Going on after row" in err) == (number > 0)
        if stopping == signal.SIGKILL:
            assert process.returncode == -signal.SIGKILL
        else:
            assert process.returncode == 130
            assert "are kept in t.csv.part, and the same command goes on" in err
        wait_for(lambda leader=process.pid: not list_group(leader), 20)
        before = part.stat().st_size
    part.write_bytes(part.read_bytes() + b"17,half a r")
    answer = run("sweep", name, *WIDE, "--out", "t.csv", folder=tmp_path)
    assert answer.out == whole.out.replace("whole", "t")
    assert "Going on after row" in answer.err
    assert (tmp_path / "t.csv").read_bytes() == (tmp_path / "whole.csv").read_bytes()
    assert list_files(tmp_path) == {name, "t.csv", "whole.csv"}


def test_another_sweeps_part_is_refused_by_name_and_kept(tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    process = start("sweep", name, *LONG, "--out", "t.csv", folder=tmp_path)
    part = tmp_path / "t.csv.part"
    wait_for(lambda: part.exists() and part.stat().st_size > 1500)
    second = run("sweep", name, *LONG, "--out", "t.csv", folder=tmp_path)
    assert second.status == 2
    assert "t.csv.part is being written by another run" in second.err
    process.kill()
    process.communicate()
    kept = part.read_bytes()
    for words in ((*LONG, "--fluid", "steam"), ("--vary", "pressure=1 bar:3 bar:10")):
        answer = run("sweep", name, *words, "--out", "t.csv", folder=tmp_path)
        assert answer.status == 2
        assert "t.csv.part holds rows of another sweep: write to another table, or move that file away" in answer.err
    assert part.read_bytes() == kept
    assert list_files(tmp_path) == {name, "t.csv.part"}


def test_a_full_disk_is_a_sentence_and_no_loss(tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    line = f"ulimit -f 8; exec '{PROGRAM}' sweep {name} --vary 'speed=100 rpm:500 rpm:100' --out t.csv --jobs 1"
    done = subprocess.run(["/bin/bash", "-c", line], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.startswith("lapwright: t.csv.part cannot be written (File too large): choose another")
    words = ("sweep", name, "--vary", "speed=100 rpm:500 rpm:100", "--out")
    assert "Going on after row" in run(*words, "t.csv", folder=tmp_path).err
    run(*words, "whole.csv", folder=tmp_path)
    assert (tmp_path / "t.csv").read_bytes() == (tmp_path / "whole.csv").read_bytes()


def test_on_a_terminal_it_says_how_far_it_is(tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    ours, theirs = pty.openpty()
    process = start("sweep", name, *WIDE, "--out", "t.csv", folder=tmp_path, err=theirs)
    os.close(theirs)
    told = b""
    try:
        while piece := os.read(ours, 1000):
            told += piece
    except OSError:
        # A terminal whose other end is closed reads as an error.
        os.close(ours)
    out, _ = process.communicate(timeout=30)
    assert process.returncode == 0
    assert out.startswith("Written: t.csv")
    # Where kernels have to be compiled first that is said on a line of its own.
    said = told.decode().rpartition("...\r\n")[2]
    lines = said.split("\r")
    assert any(
        " of 300 rows, " in line and " a second, " in line and line.rstrip().endswith(" s left") for line in lines
    )
    assert "\n" not in said
    assert lines[-1].strip() == ""


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--vary", "valve.lenght=13 mm:14 mm:5"), "valve.lenght cannot be varied: no such key: write valve.length"),
        (("--vary", "valve.length=13:14:5"), '13 has no unit: write "13 in" or "13 mm"'),
        (("--vary", "valve.length=13 mm:14 mm"), "does not say from where to where"),
        (("--vary", "valve.length=13 mm:14 mm:0"), "0 steps leave nothing to work out"),
        (("--vary", "valve.length=13 mm:14 mm:1000000000"), "1,000,000,000 steps are too many"),
        (("--vary", "bore=9 mm:10 mm:9999", "--vary", "stroke=9 mm:10 mm:9999"), "99,980,001 settings are too many"),
        (("--vary", "bore=9 mm:10 mm:5", "--speed", "600"), '600 has no unit: write "600 rpm"'),
        (("--vary", "bore=9 mm:10 mm:5", "--speed", "6 rpm", "--load", "1 W"), "keep one of the two"),
        (("--vary", "bore=9 mm:10 mm:5", "--out", "sandpiper.toml"), "it is the record itself"),
        (("--vary", "bore=9 mm:10 mm:5", "--out", "."), "it is a folder"),
        (("--vary", "bore=9 mm:10 mm:5", "--out", ""), "it is a folder"),
        (("--vary", "bore=9 mm:10 mm:5", "--out", "none/t.csv"), "there is no folder none"),
        (("--vary", "bore=9 mm:10 mm:5", "--out", "t.xls"), "a table's name ends in .csv or .parquet"),
        (("--vary", "bore=9 mm:10 mm:5", "--jobs", "0"), "--jobs"),
        (("--vary", "bore=9 mm:10 mm:5", "--fluid", "water"), "--fluid"),
        (("--vary", "bore=9 mm:10 mm:5", "--cluster", "127.0.0.1:1:1"), "no cluster answers at 127.0.0.1:1:1"),
        ((), "--vary"),
    ],
)
def test_bad_input_is_a_sentence_and_leaves_nothing(words: tuple[str, ...], told: str, tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    text = (tmp_path / name).read_bytes()
    out = () if "--out" in words else ("--out", "t.csv")
    answer = run("sweep", name, *words, *out, folder=tmp_path)
    assert answer.status == 2
    assert told in answer.err
    assert answer.out == ""
    assert (tmp_path / name).read_bytes() == text
    assert list_files(tmp_path) == {name}


def test_a_flawed_record_is_told_as_everywhere(tmp_path: Path) -> None:
    (tmp_path / "flawed.toml").write_text("format = 1\n[engine]\nname = 'Wren'\n[[cylinder]]\nbore = 19\n")
    answer = run("sweep", "flawed.toml", "--vary", "bore=9 mm:10 mm:5", "--out", "t.csv", folder=tmp_path)
    assert answer.status == 2
    assert "flawed.toml:5: error:" in answer.err
    assert run("sweep", "none.toml", "--vary", "bore=9 mm:10 mm:5", "--out", "t.csv", folder=tmp_path).status == 2
    assert list_files(tmp_path) == {"flawed.toml"}
