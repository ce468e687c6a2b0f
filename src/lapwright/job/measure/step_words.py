"""What undo and redo do to a record, in the words of the page Measure."""

from __future__ import annotations

import re
from dataclasses import dataclass

from lapwright.job.shelf.changes import WORK_DONE
from lapwright.papers.measure_terms import TERMS, name_key, split_key

_PARTS = {
    "cylinder": "cylinder",
    "cylinder.gland": "gland",
    "fastener": "screw",
    "pin": "pin",
    "bench_test": "bench test",
}
_MORE = re.compile(r" and \d+ more$")


@dataclass(frozen=True, slots=True)
class StepWords:
    """A change that is undone or made again: in a few words, and with its value; `key` is the first size that changes.

    `is_work` says that somebody wrote the sizes of work that was done, of which the log tells, too.
    """

    words: str
    told: str
    key: str = ""
    is_work: bool = False


def word_step(what: str) -> StepWords:
    """Say a change as the history keeps it in the words of a person.

    Parameters
    ----------
    what: the change; empty where nobody knows it

    Example:
    >>> word_step("work done: cylinder.0.valve.cavity: 9.82 mm")
    StepWords(words='cavity', told='cavity: 9.82 mm', key='cylinder.0.valve.cavity', is_work=True)
    >>> word_step("cylinder.0.bore: 19 mm and 2 more").words, word_step("fastener.1 taken out").words
    ('bore and 2 more', 'screw 2 taken out')
    """
    start = f"{WORK_DONE}: "
    change = what.removeprefix(start)
    path = re.split(": | ", change, maxsplit=1)[0]
    told = _call(path) + change.removeprefix(path)
    more = _MORE.search(change)
    words = f"{_call(path)}{more[0] if more else ''}" if change.startswith(f"{path}: ") else told
    return StepWords(words, told, path if _is_size(path) else "", what.startswith(start))


def _call(path: str) -> str:
    kind = re.sub(r"\.\d+", "", path)
    if kind not in _PARTS:
        return name_key(path) if _is_size(path) else path
    last = path.rpartition(".")[2]
    return f"{_PARTS[kind]} {int(last) + 1}" if last.isdigit() else _PARTS[kind]


def _is_size(path: str) -> bool:
    return split_key(path)[0] in TERMS
