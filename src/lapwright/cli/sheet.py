"""An answer of the workshop tables as it is read in a terminal: a title, labelled figures, notes, sources."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import fill

WIDTH = 80


def write_sheet(
    title: str,
    rows: Iterable[tuple[str, str]],
    *,
    steps: Iterable[str] = (),
    notes: Iterable[str] = (),
    cautions: Iterable[str] = (),
    sources: Iterable[str] = (),
) -> str:
    """Return one answer as text: what is asked most stands first, what it rests on last.

    Parameters
    ----------
    title: what is answered
    rows: label and figure, in the order in which they are wanted; a row without a label goes on from the one above
    steps: things to do, in order
    notes: what a person should know besides, in sentences
    cautions: what can hurt
    sources: what the figures rest on
    """
    pairs = list(rows)
    column = max((len(label) for label, _ in pairs), default=0) + 2
    parts = [f"{title}\n{'=' * len(title)}", "\n".join(_row(label, figure, column) for label, figure in pairs)]
    parts.append("\n".join(_wrap(step, f"{number:2}. ") for number, step in enumerate(steps, 1)))
    parts.extend(_wrap(note) for note in notes)
    parts.extend(_wrap(caution, "Caution: ", "") for caution in cautions)
    parts.append("\n".join(_wrap(source, "Source: ") for source in dict.fromkeys(sources)))
    return "\n\n".join(part for part in parts if part)


def _row(label: str, figure: str, column: int) -> str:
    return _wrap(figure, label.ljust(column), " " * column).rstrip()


def _wrap(text: str, head: str = "", rest: str | None = None) -> str:
    return fill(text, WIDTH, initial_indent=head, subsequent_indent=" " * len(head) if rest is None else rest)
