"""However many processes work, and whatever becomes of them, the table is the same to the byte."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from lapwright.errors import CannotSweep
from lapwright.job.sweep.crew import Span, take_in_order, work_alone
from lapwright.job.sweep.plan import SweepAsked, SweepPlan
from lapwright.job.sweep.sweeping import Progress, Swept, count_cores, sweep_settings
from lapwright.job.sweep.table import name_part
from tests.unit.job.sweeps import plan_demo


def make_plan(count: int = 100) -> SweepPlan:
    asked = SweepAsked(ideal=True, speed="300 rpm")
    return plan_demo("merganser", f"valve.length=33 mm:37 mm:{count}", "pressure=4 bar:6 bar:2", asked=asked)


def work_by_itself(plan: SweepPlan, table: Path) -> bytes:
    """The table as one process writes it."""
    assert sweep_settings(plan, table, jobs=1) == Swept(plan.rows, 0)
    return table.read_bytes()


@contextmanager
def no_process_left_over() -> Iterator[None]:
    before = set(multiprocessing.active_children())
    yield
    until = time.monotonic() + 10
    while set(multiprocessing.active_children()) - before and time.monotonic() < until:
        time.sleep(0.05)
    assert not set(multiprocessing.active_children()) - before


@pytest.mark.parametrize("kind", ["csv", "parquet"])
def test_two_processes_write_what_one_writes(kind: str, tmp_path: Path) -> None:
    plan, told = make_plan(), list[Progress]()
    with no_process_left_over():
        assert sweep_settings(plan, tmp_path / f"two.{kind}", jobs=2, report=told.append) == Swept(200, 0)
    assert (tmp_path / f"two.{kind}").read_bytes() == work_by_itself(plan, tmp_path / f"one.{kind}")
    assert told[0] == Progress(0, 200, 0)
    assert told[-1] == Progress(200, 200, 0)
    assert [each.done for each in told] == sorted({each.done for each in told})
    assert sorted(path.name for path in tmp_path.iterdir()) == [f"one.{kind}", f"two.{kind}"]


def test_a_killed_process_is_replaced_and_nothing_is_lost(tmp_path: Path) -> None:
    plan, killed = make_plan(160), list[int]()

    def kill_one(now: Progress) -> None:
        if now.done >= 64 * (1 + len(killed)) and len(killed) < 2:
            victim = multiprocessing.active_children()[0].pid
            assert victim is not None
            os.kill(victim, signal.SIGKILL)
            killed.append(victim)

    with no_process_left_over():
        assert sweep_settings(plan, tmp_path / "two.csv", jobs=2, report=kill_one).rows == 320
    assert len(killed) == 2
    assert (tmp_path / "two.csv").read_bytes() == work_by_itself(plan, tmp_path / "one.csv")


def test_processes_that_keep_being_killed_are_given_up_and_the_rows_kept(tmp_path: Path) -> None:
    plan, done = make_plan(4000), threading.Event()

    def kill_all() -> None:
        while not done.wait(0.01):
            for process in multiprocessing.active_children():
                process.kill()

    killer = threading.Thread(target=kill_all)

    def begin(now: Progress) -> None:
        if now.done and not killer.is_alive() and not done.is_set():
            killer.start()

    try:
        with pytest.raises(CannotSweep, match="its processes keep being ended from outside"):
            sweep_settings(plan, tmp_path / "t.csv", jobs=2, report=begin)
    finally:
        done.set()
        killer.join()
    assert name_part(tmp_path / "t.csv").read_bytes().count(b"\n") > 32
    assert not (tmp_path / "t.csv").exists()


@pytest.mark.parametrize("jobs", [1, 2])
def test_broken_off_by_hand_it_goes_on_to_the_same_table(jobs: int, tmp_path: Path) -> None:
    plan, table = make_plan(), tmp_path / "t.csv"

    def stop(now: Progress) -> None:
        if now.done >= 64:
            raise KeyboardInterrupt

    with no_process_left_over(), pytest.raises(KeyboardInterrupt):
        sweep_settings(plan, table, jobs=jobs, report=stop)
    assert not table.exists()
    told = list[Progress]()
    sweep_settings(plan, table, jobs=3 - jobs, report=told.append)
    assert told[0] == Progress(64, 200, 64)
    assert told[-1] == Progress(200, 200, 64)
    assert table.read_bytes() == work_by_itself(plan, tmp_path / "one.csv")
    assert not name_part(table).exists()


def test_a_part_that_is_whole_only_has_to_be_finished(tmp_path: Path) -> None:
    plan, table = make_plan(16), tmp_path / "t.csv"
    with pytest.raises(KeyboardInterrupt):
        sweep_settings(plan, table, jobs=1, report=_stop_at_the_end)
    told = list[Progress]()
    assert sweep_settings(plan, table, jobs=2, report=told.append) == Swept(32, 0)
    assert told == [Progress(32, 32, 32)]


def _stop_at_the_end(now: Progress) -> None:
    if now.done == now.rows:
        raise KeyboardInterrupt


def test_however_many_spans_there_are_few_are_out_and_order_is_kept() -> None:
    spans = [(n, n + 1) for n in range(1000)]
    out, most = set[Span](), 0

    def ask(span: Span) -> bytes:
        nonlocal most
        out.add(span)
        most = max(most, len(out))
        return b"%d" % span[0]

    def take(span: Span, ticket: bytes) -> bytes:
        out.remove(span)
        return ticket

    assert list(take_in_order(iter(spans), ask, take, ahead=8)) == [b"%d" % n for n in range(1000)]
    assert most == 8


def test_nothing_is_worked_out_before_it_is_asked_for() -> None:
    plan = make_plan()

    def endless() -> Iterator[Span]:
        yield 0, 1
        raise AssertionError("too far ahead")

    assert next(work_alone(plan, endless())).count(b"\n") == 1


def test_the_cores_are_those_this_process_may_use() -> None:
    assert 1 <= count_cores() <= (os.cpu_count() or 1)
