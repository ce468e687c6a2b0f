"""A line to one browser: there are only so many, and nobody holds one without saying what for."""

from __future__ import annotations

import asyncio

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

from lapwright.bench.access import is_this_machine

#: Lines at once, and how many of them others than this machine may hold together [-]: a browser opens six or so.
_MOST, _MOST_OTHERS = 120, 60
#: Seconds in which the head of a request has to have come.
_PATIENCE = 15.0


class Line(H11Protocol):
    """One line, hung up where it is one too many, or where its request does not come to the point."""

    _late: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a line, if one is free."""
        super().connection_made(transport)
        is_ours = is_this_machine(self.client[0] if self.client else "")
        if len(self.connections) > (_MOST if is_ours else _MOST_OTHERS):
            transport.abort()
        self._watch()

    def data_received(self, data: bytes) -> None:
        """Take what came, and watch how long the rest takes."""
        super().data_received(data)
        self._watch()

    def connection_lost(self, exc: Exception | None) -> None:
        """Give the line back."""
        super().connection_lost(exc)
        self._rest()

    def _watch(self) -> None:
        if self.conn.their_state is not h11.IDLE or self.transport.is_closing():
            self._rest()
        elif self._late is None:
            self._late = self.loop.call_later(_PATIENCE, self.transport.abort)

    def _rest(self) -> None:
        if self._late is not None:
            self._late.cancel()
            self._late = None
