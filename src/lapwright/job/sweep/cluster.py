"""A sweep on many machines: the rows handed to a running Dask cluster."""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Generator, Iterable
from concurrent.futures import CancelledError
from importlib.metadata import version
from typing import TYPE_CHECKING

from lapwright.errors import CannotSweep
from lapwright.job.sweep.crew import Span, take_in_order
from lapwright.job.sweep.plan import SweepPlan
from lapwright.job.sweep.rows import work_out

if TYPE_CHECKING:
    from distributed import Client, Future

#: How long the scheduler may take to answer, how long it may be without a worker, how often that is looked at [s].
_ANSWER, _WITHOUT, _LOOK = 10, 60, 2
#: Spans handed out at a time to each thread of the cluster, and the fewest.
_AHEAD, _FEWEST = 4, 16
_GO_ON = "the same command goes on from what is done"


def work_on_cluster(plan: SweepPlan, spans: Iterable[Span], *, address: str) -> Generator[bytes, None, None]:
    """Work out spans of rows on a cluster; yield the lines of each in their order.

    What a lost worker had in hand is worked out again by another.

    Parameters
    ----------
    plan: what is worked out
    spans: of rows
    address: of the cluster's scheduler, like `tcp://192.0.2.7:8786`

    Raises
    ------
    CannotSweep: no cluster is there, or one that cannot do it
    """
    client = _join(address)
    try:
        _check_workers(client, address)
        ahead = max(_FEWEST, _AHEAD * sum(client.nthreads().values()))

        def ask(span: Span) -> Future[bytes]:
            return client.submit(work_out, plan, *span, pure=False)

        yield from take_in_order(spans, ask, lambda _, future: _wait(client, future, address), ahead=ahead)
    finally:
        client.close(timeout=_LOOK)


def _join(address: str) -> Client:
    try:
        from distributed import Client
        from distributed.comm.core import connect
    except ImportError:
        missing = "the part that speaks to clusters is not installed"
        raise CannotSweep(missing, "install lapwright[cluster], or leave out --cluster") from None
    # What goes wrong is told in one sentence, not in the pages that the cluster's own library writes.
    for name in ("distributed", "distributed.client"):
        logging.getLogger(name).setLevel(logging.CRITICAL)

    async def knock() -> None:
        (await connect(address, timeout=_ANSWER)).abort()

    try:
        # A client that finds nobody goes on trying in the background, so it is made only where somebody answers.
        asyncio.run(knock())
        return Client(address, timeout=_ANSWER, set_as_default=False)
    except (OSError, ValueError, TypeError) as error:
        instead = 'start a scheduler and workers, and give its address, like "tcp://192.0.2.7:8786"'
        raise CannotSweep(f"no cluster answers at {address}", instead) from error


def _check_workers(client: Client, address: str) -> None:
    """Every worker must be this very program: another one would answer with other figures."""
    own = tell_version()
    mend = f"install lapwright {own} on every worker"
    try:
        versions = client.run(tell_version)
    except Exception as error:
        raise CannotSweep(f"a worker of the cluster at {address} does not know lapwright ({error})", mend) from error
    for worker, other in versions.items():
        if other != own:
            raise CannotSweep(f"the worker at {worker} has lapwright {other}", mend)


def tell_version() -> str:
    """Return the version of the program, asked of a worker."""
    return version("lapwright")


def _wait(client: Client, future: Future[bytes], address: str) -> bytes:
    """Wait for some rows, as long as there is a worker to bring them."""
    seen = time.monotonic()
    while True:
        try:
            return bytes(future.result(timeout=_LOOK))
        except TimeoutError:
            if client.nthreads():
                seen = time.monotonic()
            if time.monotonic() - seen > _WITHOUT:
                why = f"the cluster at {address} has been without workers for a minute"
                raise CannotSweep(why, f"start some; {_GO_ON}") from None
        except CancelledError:
            raise CannotSweep(f"the scheduler at {address} is gone", _GO_ON) from None
        except Exception as error:
            first = str(error).partition("\n")[0]
            raise CannotSweep(f"the cluster at {address} gave up ({type(error).__name__}: {first})", _GO_ON) from error
