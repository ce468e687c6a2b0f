"""Who may use the bench: this machine, and a tablet that came in by the link and the code shown here."""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field
from hmac import compare_digest
from ipaddress import ip_address

from lapwright.errors import NotAllowed

COOKIE = "lapwright_guest"
#: A wrong code may be a slip of the finger; more than these are not.
_TRIES = 5


@dataclass
class Sharing:
    """A link and a code that let one other device in, once; `may_change` says whether guests may write."""

    may_change: bool = False
    link: str = field(default_factory=lambda: secrets.token_urlsafe(16))
    code: str = field(default_factory=lambda: f"{secrets.randbelow(10**6):06d}")
    _tries: int = _TRIES
    _guests: set[str] = field(default_factory=set)

    @property
    def is_open(self) -> bool:
        """Whether the link can still be used."""
        return self._tries > 0

    def knows_link(self, link: str) -> bool:
        """Whether this is the link that was shown, and it was not used up."""
        return self.is_open and compare_digest(_bytes(link), self.link.encode())

    def let_in(self, link: str, code: str) -> str:
        """Return the token of a new guest; the link is used up by it, or by too many wrong codes.

        Parameters
        ----------
        link, code: as shown beside the bench

        Raises
        ------
        NotAllowed: one of them is wrong
        """
        if not self.knows_link(link):
            raise NotAllowed("this link is not open", "start the bench with --share again for a new one")
        if not compare_digest(_bytes(code.strip()), self.code.encode()):
            self._tries -= 1
            left = _count_tries(self._tries) if self.is_open else "start the bench again for a new link"
            raise NotAllowed("the code is not the one shown at the bench", left)
        self._tries = 0
        token = secrets.token_urlsafe(24)
        self._guests.add(token)
        return token

    def knows_guest(self, token: str) -> bool:
        """Whether a token was given out here."""
        return any(compare_digest(_bytes(token), guest.encode()) for guest in self._guests)


@dataclass(frozen=True)
class Access:
    """Names by which the bench may be called, and whom it is shared with (nobody, unless asked for)."""

    hosts: frozenset[str] = frozenset({"127.0.0.1", "localhost"})
    sharing: Sharing | None = None


def _bytes(sent: str) -> bytes:
    # Half letters too can be sent, and are simply not it.
    return sent.encode("utf-8", "replace")


def _count_tries(count: int) -> str:
    return "1 try is left" if count == 1 else f"{count} tries are left"


def is_this_machine(address: str) -> bool:
    """Whether a request comes from this machine itself.

    Parameters
    ----------
    address: of who asks

    Example:
    >>> is_this_machine("127.0.0.1"), is_this_machine("192.0.2.7"), is_this_machine("")
    (True, False, False)
    """
    try:
        return ip_address(address).is_loopback
    except ValueError:
        return False
