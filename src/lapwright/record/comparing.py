"""Two texts of one record held side by side, key by key, and three of them merged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.record.changing import change_record
from lapwright.record.dropping import drop_key
from lapwright.record.problem import Problem
from lapwright.record.syntax import load_tables
from lapwright.record.written import list_written


@dataclass(frozen=True, slots=True)
class KeyChange:
    """What a key said before and what it says after, as written; None where it does not stand there."""

    key: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class Clash:
    """A key that was changed on both sides, and not to the same."""

    key: str
    base: str | None
    yours: str | None
    theirs: str | None


@dataclass(frozen=True, slots=True)
class Merged:
    """Their text with your changes in it, as far as they do not clash."""

    text: str
    clashes: tuple[Clash, ...]


def read_written(text: str) -> Mapping[str, str]:
    r"""List what a record's text says, by record path; a text that cannot be read says nothing.

    Example:
    >>> read_written('[engine]\nname = "Tern"\n')
    {'engine.name': 'Tern'}
    """
    loaded = load_tables(text)
    return {} if isinstance(loaded, Problem) else list_written(text, *loaded)


def compare_records(base_text: str, other_text: str) -> tuple[KeyChange, ...]:
    r"""Return the keys in which two texts of a record differ, in their order in the file.

    Parameters
    ----------
    base_text: the record before
    other_text: the record after; either may be flawed, and one that cannot be read says nothing

    Example:
    >>> compare_records('[engine]\nname = "Tern"\n', '[engine]\nname = "Tern"\nfluid = "air"\n')
    (KeyChange(key='engine.fluid', before=None, after='air'),)
    """
    base, other = read_written(base_text), read_written(other_text)
    changes = (KeyChange(key, base.get(key), other.get(key)) for key in {**base, **other})
    return tuple(change for change in changes if change.before != change.after)


def merge_records(base_text: str, yours: str, theirs: str) -> Merged:
    """Put what you changed into what they made of the same record, and tell where both changed one key.

    Parameters
    ----------
    base_text: the record from which both started
    yours: what you made of it; its keys are taken over, not its comments
    theirs: what they made of it, kept to the byte where you changed nothing

    Raises
    ------
    CannotChange: a change of yours has no place in their text, such as a key of a part that they took out
    """
    now, clashes = read_written(theirs), []
    dropped, changed = [], {}
    for change in compare_records(base_text, yours):
        found = now.get(change.key)
        if found == change.after:
            continue
        if found != change.before:
            clashes.append(Clash(change.key, change.before, change.after, found))
        elif change.after is None:
            dropped.append(change.key)
        else:
            changed[change.key] = change.after
    for key in dropped:
        theirs = drop_key(theirs, key)
    return Merged(change_record(theirs, changed), tuple(clashes))


def read_key(text: str, key: str) -> str | None:
    r"""Return what a key of a record says, as written, the edges of a list in one row; None where it does not stand.

    Parameters
    ----------
    text: the record
    key: record path, such as `cylinder.0.bore`

    Example:
    >>> read_key('[cylinder.valve]\nedges = ["0 mm", "3 mm"]\n', "cylinder.valve.edges")
    '0 mm, 3 mm'
    """
    written = read_written(text)
    edges = [value for path, value in written.items() if path.rpartition(".")[0] == key]
    return written.get(key, ", ".join(edges) or None)
