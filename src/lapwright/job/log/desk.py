"""Where entries of the log are written, changed, closed, removed and put back, with their photographs."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from threading import Lock

from lapwright.errors import LapwrightError, NotThere
from lapwright.job.log.draft import draft_of
from lapwright.job.shelf.workshop import Workshop
from lapwright.logbook import Entry, EntryDraft

#: Removed entries that can still be put back.
_KEPT = 5


@dataclass(frozen=True, slots=True)
class NewPhotograph:
    """The file of a photograph as it was sent."""

    name: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Written:
    """An entry that stands in the log now, and what was said of photographs that could not be taken."""

    entry: Entry
    refused: tuple[str, ...] = ()


class LogDesk:
    """The log of a workshop, written by people. Any thread may use it."""

    def __init__(self, workshop: Workshop, *, clock: Callable[[], datetime] = datetime.now) -> None:
        self._workshop = workshop
        self._clock = clock
        self._removed: OrderedDict[int, tuple[Entry, tuple[NewPhotograph, ...]]] = OrderedDict()
        self._lock = Lock()

    def find(self, engine: str, number: int) -> Entry:
        """Find an entry of an engine.

        Parameters
        ----------
        engine: whose it must be
        number: the entry's [-]

        Raises
        ------
        NotThere
        """
        entry = self._workshop.log.find_entry(number)
        if entry.engine != engine:
            raise NotThere(f"entry {number} in the log of {engine}", "look at the log again; it may have been removed")
        return entry

    def write(self, draft: EntryDraft, photographs: Sequence[NewPhotograph] = ()) -> Written:
        """Write a new entry; one of its photographs that cannot be taken does not keep the entry back.

        Parameters
        ----------
        draft: what it says
        photographs: what goes with it

        Raises
        ------
        BadInput, NotThere, TooLarge, CannotSave
        """
        self._workshop.open_engine(draft.engine)
        entry = self._workshop.log.add_entry(draft, now=self._clock())
        return self.add_photographs(entry, photographs)

    def change(self, entry: Entry, draft: EntryDraft, *, seen: int) -> Entry:
        """Write an entry anew.

        Parameters
        ----------
        entry: the one that is changed
        draft: what it is to say
        seen: the version that the change was made from [-]

        Raises
        ------
        LogChanged: it has another by now
        BadInput, TooLarge, CannotSave
        """
        if draft.when == entry.when.replace(second=0):
            # A form shows no seconds: the time was not touched.
            draft = replace(draft, when=None)
        return self._workshop.log.change_entry(entry.id, draft, seen=seen, now=self._clock())

    def close_job(self, entry: Entry, *, seen: int) -> Entry:
        """Say of an open job that it is done.

        Parameters
        ----------
        entry: the job
        seen: the version that was looked at [-]

        Raises
        ------
        LogChanged, CannotSave
        """
        return self.change(entry, replace(draft_of(entry), job="closed"), seen=seen)

    def add_photographs(self, entry: Entry, photographs: Sequence[NewPhotograph]) -> Written:
        """Add photographs to an entry, as many as can be taken.

        Parameters
        ----------
        entry: where they belong
        photographs: the files
        """
        refused = []
        for photograph in photographs:
            try:
                self._workshop.log.add_photograph(entry.id, photograph.data, name=photograph.name, now=self._clock())
            except LapwrightError as error:
                refused.append(str(error))
        return Written(self._workshop.log.find_entry(entry.id) if photographs else entry, tuple(refused))

    def take_off(self, entry: Entry, digests: Sequence[str]) -> None:
        """Take photographs off an entry; those that it does not have are passed over.

        Parameters
        ----------
        entry: that has them
        digests: which of them
        """
        for photograph in entry.photographs:
            if photograph.digest in digests:
                self._workshop.log.remove_photograph(entry.id, photograph.digest)

    def remove(self, entry: Entry, *, seen: int) -> None:
        """Take an entry out of the log; it can be put back for as long as the bench is open.

        Parameters
        ----------
        entry: the one
        seen: the version that was looked at [-]

        Raises
        ------
        LogChanged, CannotSave
        """
        log = self._workshop.log
        photographs = []
        for kept in entry.photographs:
            try:
                photographs.append(NewPhotograph(kept.name, log.photograph(kept.digest)))
            except NotThere:
                # Its file was lost before; there is nothing to put back.
                continue
        log.remove_entry(entry.id, seen=seen)
        with self._lock:
            self._removed[entry.id] = entry, tuple(photographs)
            while len(self._removed) > _KEPT:
                self._removed.popitem(last=False)

    def put_back(self, engine: str, number: int) -> Entry:
        """Put an entry back that was removed, with its photographs, under a new number.

        Parameters
        ----------
        engine: whose it was
        number: the one it had [-]

        Raises
        ------
        NotThere: it was not removed, or too long ago
        CannotSave
        """
        with self._lock:
            entry, photographs = self._removed.get(number, (None, ()))
        if entry is None or entry.engine != engine:
            raise NotThere(f"removed entry {number}", "write it again")
        made = self.write(draft_of(entry), photographs).entry
        with self._lock:
            self._removed.pop(number, None)
        return made
