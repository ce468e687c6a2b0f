"""The server: on this machine only, or for a tablet in the same room where that is asked for."""

from __future__ import annotations

import logging
import os
import socket
import sys
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from threading import Thread
from typing import TYPE_CHECKING

from lapwright.bench.access import Access, Sharing, is_this_machine
from lapwright.errors import CannotServe

if TYPE_CHECKING:
    from lapwright.job.shelf.workshop import Workshop

#: The first place that is tried where none is asked for, and how many after it.
FIRST_PORT, _TRIED = 8460, 20
_HERE, _EVERYWHERE = "127.0.0.1", "0.0.0.0"
#: An address of no machine (RFC 5737): nothing is sent; it tells by which of its own addresses this one is reached.
_NOBODY = ("192.0.2.1", 9)


def open_bench(
    workshop: Workshop,
    *,
    port: int | None = None,
    sharing: Sharing | None = None,
    browser: bool = True,
    tell: Callable[[str], None] = print,
) -> None:
    """Serve the bench until it is stopped.

    Parameters
    ----------
    workshop: the folder it is opened on
    port: where it listens [-]; 0 takes any free one, none given the first free one from 8460 on
    sharing: link and code for a guest; nobody but this machine without it
    browser: whether a browser is opened on it
    tell: takes each line for the person who started it

    Raises
    ------
    CannotServe: the place is taken, or there is no way to a guest
    """
    hosts = {_HERE, "localhost"}
    outside = "" if sharing is None else _find_own_address()
    with _listen(_HERE if sharing is None else _EVERYWHERE, port) as listening, _closed_by_hand():
        place = listening.getsockname()[1]
        address = f"http://{_HERE}:{place}/"
        tell(f"The bench is open at {address}")
        if sharing is not None:
            hosts.add(outside)
            _tell_guests(sharing, f"http://{outside}:{place}/join/{sharing.link}", tell)
        tell("It closes with Ctrl+C. Everything you enter is kept as you enter it.")
        if browser:
            # Some browsers are the terminal's own, and end only when they are left.
            Thread(target=webbrowser.open, args=(address,), daemon=True).start()
        _serve(workshop, Access(frozenset(hosts), sharing), listening)


def _serve(workshop: Workshop, access: Access, listening: socket.socket) -> None:
    import uvicorn

    from lapwright.bench.app import build_app
    from lapwright.bench.line import Line

    config = uvicorn.Config(
        build_app(workshop, access=access),
        http=Line,
        ws="websockets-sansio",
        ws_max_size=100_000,
        # On one's own machine packing takes longer than sending.
        ws_per_message_deflate=False,
        lifespan="off",
        log_config=None,
        access_log=False,
        # Who asks is who is at the other end of the line, whatever a request says of it.
        proxy_headers=False,
        server_header=False,
        timeout_graceful_shutdown=2,
    )
    # What a server has to say is for those who keep servers.
    logging.disable(logging.CRITICAL)
    uvicorn.Server(config).run(sockets=[listening])


@contextmanager
def _closed_by_hand() -> Iterator[None]:
    try:
        yield
    except KeyboardInterrupt:
        # What the terminal says next begins on a line of its own.
        sys.stderr.write("\n")


def _listen(host: str, port: int | None) -> socket.socket:
    places = range(FIRST_PORT, FIRST_PORT + _TRIED) if port is None else (port,)
    for place in places:
        # Named as TCP, or the server would not know to send every piece at once, and each answer came 40 ms late.
        listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        if os.name == "posix":
            # Elsewhere this would take the place away from who has it.
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((host, place))
            # At once: two that start together must not both believe that they have it.
            listening.listen()
        except OSError as error:
            listening.close()
            if isinstance(error, PermissionError):
                raise CannotServe(f"place {place} is not for everybody", "give one above 1023 with --port") from None
        else:
            return listening
    taken = f"place {places[0]}" if len(places) == 1 else f"every place from {places[0]} to {places[-1]}"
    raise CannotServe(f"{taken} of this machine is taken", "give another with --port, or close the other bench")


def _find_own_address() -> str:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        with suppress(OSError):
            probe.connect(_NOBODY)
        own = str(probe.getsockname()[0])
    if is_this_machine(own) or own == _EVERYWHERE:
        raise CannotServe("this machine is on no network", "join one, or open the bench without --share")
    return own


def _tell_guests(sharing: Sharing, link: str, tell: Callable[[str], None]) -> None:
    import segno

    right = "may change everything" if sharing.may_change else "may look, not change"
    tell(f"For one guest on the same network, who {right}; link and code work once:")
    tell(f"    link  {link}")
    tell(f"    code  {sharing.code[:3]} {sharing.code[3:]}")
    tell("Anybody on that network could read along: share on one that you trust.")
    if sys.stdout.isatty():
        segno.make(link, error="l").terminal(compact=True)
