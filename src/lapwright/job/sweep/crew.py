"""Who works out the rows: this process, or others beside it on all cores; always handed back in their order."""

from __future__ import annotations

import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing import active_children, get_context, parent_process
from typing import TypeVar

from lapwright.errors import CannotSweep
from lapwright.job.sweep.plan import SweepPlan
from lapwright.job.sweep.rows import work_out

#: First row and the row behind the last of what is handed out at a time.
Span = tuple[int, int]
Ticket = TypeVar("Ticket")

#: Spans handed out at a time to each process: enough that none waits for the others.
_AHEAD = 4
#: How often in a row processes may end by themselves before the whole is given up.
_MOST_LOSSES = 3


def work_alone(plan: SweepPlan, spans: Iterable[Span]) -> Generator[bytes, None, None]:
    """Work out spans of rows in this process; yield the lines of each."""
    for span in spans:
        yield work_out(plan, *span)


def work_together(plan: SweepPlan, spans: Iterable[Span], *, jobs: int) -> Generator[bytes, None, None]:
    """Work out spans of rows in processes beside this one; yield the lines of each in their order.

    Parameters
    ----------
    plan: what is worked out
    spans: of rows
    jobs: how many processes

    Raises
    ------
    CannotSweep: processes keep ending by themselves
    """
    crew = _Crew(plan, jobs)
    try:
        yield from take_in_order(spans, crew.ask, crew.take, ahead=_AHEAD * jobs)
    finally:
        crew.dismiss()


def take_in_order(
    spans: Iterable[Span], ask: Callable[[Span], Ticket], take: Callable[[Span, Ticket], bytes], *, ahead: int
) -> Generator[bytes, None, None]:
    """Ask for spans of rows some way ahead, and yield what comes of them in their order.

    However many spans there are, no more than `ahead` are out at a time.

    Parameters
    ----------
    spans: of rows
    ask: sets a span going
    take: waits for what was asked for
    ahead: how many spans may be out
    """
    out: deque[tuple[Span, Ticket]] = deque()
    for span in spans:
        out.append((span, ask(span)))
        if len(out) >= ahead:
            yield take(*out.popleft())
    while out:
        yield take(*out.popleft())


class _Crew:
    """Processes that can be replaced when one of them is killed."""

    def __init__(self, plan: SweepPlan, jobs: int) -> None:
        self.plan, self.jobs, self.losses = plan, jobs, 0
        self.strangers = set(active_children())
        self.pool = self._hire()

    def _hire(self) -> ProcessPoolExecutor:
        # Started afresh and not split off, so that it is done alike on all systems and no lock is inherited held.
        return ProcessPoolExecutor(
            self.jobs, mp_context=get_context("spawn"), initializer=_stand_by, initargs=(self.plan,)
        )

    def ask(self, span: Span) -> tuple[ProcessPoolExecutor, Future[bytes]]:
        with _uninterrupted():
            while True:
                try:
                    return self.pool, self.pool.submit(_work, *span)
                except BrokenProcessPool:
                    self._replace(self.pool)

    def take(self, span: Span, ticket: tuple[ProcessPoolExecutor, Future[bytes]]) -> bytes:
        while True:
            pool, future = ticket
            try:
                lines = future.result()
            except BrokenProcessPool:
                self._replace(pool)
                ticket = self.ask(span)
            else:
                self.losses = 0
                return lines

    def dismiss(self) -> None:
        """End the processes at once, whatever they are at: nobody waits for it any more."""
        self.pool.shutdown(wait=False, cancel_futures=True)
        for process in set(active_children()) - self.strangers:
            process.terminate()

    def _replace(self, broken: ProcessPoolExecutor) -> None:
        """Hire anew, once for all that was asked of the broken pool."""
        if broken is not self.pool:
            return
        self.losses += 1
        if self.losses > _MOST_LOSSES:
            raise CannotSweep("its processes keep being ended from outside", "see whether the memory suffices")
        broken.shutdown(wait=False)
        self.pool = self._hire()


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """Let processes be started deaf to Ctrl-C, which the terminal sends to all: this one alone answers to it."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


_plan: SweepPlan | None = None


def _stand_by(plan: SweepPlan) -> None:
    """Make a new process ready: it has the plan, and ends when the one that hands out the rows is gone."""
    global _plan  # noqa: PLW0603 - a process of a pool has no other place for what it is given once
    _plan = plan
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _work(start: int, stop: int) -> bytes:
    assert _plan is not None
    return work_out(_plan, start, stop)
