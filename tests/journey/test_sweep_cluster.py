"""A sweep on a running cluster, a scheduler and two workers, one of them killed on the way: the same bytes."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

import pytest

from tests.journey.program import bring_example, run
from tests.journey.test_sweep import start, wait_for

pytestmark = [pytest.mark.journey, pytest.mark.slow]

WORDS = (
    "--vary",
    "valve.length=12 mm:13.5 mm:30",
    "--vary",
    "pressure=1 bar:3 bar:10",
    "--ideal",
    "--speed",
    "300 rpm",
)


@contextmanager
def serve(*words: str) -> Iterator[subprocess.Popen[bytes]]:
    """One process of the cluster, heard of on this machine alone."""
    line = [sys.executable, "-m", *words, "--host", "127.0.0.1", "--no-dashboard"]
    process = subprocess.Popen(line, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        yield process
    finally:
        process.kill()
        process.wait()


def test_with_a_worker_killed_on_the_way_it_is_the_same_table(tmp_path: Path) -> None:
    name, place, part = bring_example("sandpiper", tmp_path), tmp_path / "place.json", tmp_path / "t.csv.part"
    with ExitStack() as stack:
        scheduler = ("distributed.cli.dask_scheduler", "--port", "0", "--scheduler-file", str(place))
        stack.enter_context(serve(*scheduler))
        wait_for(place.exists)
        address = json.loads(place.read_text(encoding="utf-8"))["address"]
        worker = (
            "distributed.cli.dask_worker",
            address,
            "--nthreads",
            "1",
            "--no-nanny",
            "--local-directory",
            str(tmp_path),
        )
        workers = [stack.enter_context(serve(*worker)) for _ in range(2)]
        process = start("sweep", name, *WORDS, "--out", "t.csv", "--cluster", address, folder=tmp_path)
        wait_for(lambda: part.exists() and part.stat().st_size > 3000)
        workers[0].kill()
        out, err = process.communicate(timeout=60)
        assert (process.returncode, out, err) == (0, "Written: t.csv (300 rows)\n", "")
        assert workers[1].poll() is None
    run("sweep", name, *WORDS, "--out", "alone.csv", folder=tmp_path)
    assert (tmp_path / "t.csv").read_bytes() == (tmp_path / "alone.csv").read_bytes()
    late = run("sweep", name, *WORDS, "--out", "t.csv", "--cluster", address, folder=tmp_path)
    assert late.status == 2
    assert f"no cluster answers at {address}" in late.err
