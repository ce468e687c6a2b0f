"""An answer of the workshop tables as it is read in a terminal: a title, labelled figures, notes, sources."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lapwright.job.lookup.sheet import Sheet

WIDTH = 80
#: Width of a column, where figures stand under those of the row above.
_COLUMN = 21


def write_sheet(sheet: Sheet) -> str:
    """Return one answer as text: what is asked most stands first, what it rests on last.

    Parameters
    ----------
    sheet: the answer; what goes on from it for who asks why is left out
    """
    pairs = [(label, _join(figure)) for label, figure in sheet.rows]
    column = max((len(label) for label, _ in pairs), default=0) + 2
    parts = [f"{sheet.title}\n{'=' * len(sheet.title)}", "\n".join(_row(*pair, column) for pair in pairs)]
    parts.append("\n".join(_wrap(step, f"{number:2}. ") for number, step in enumerate(sheet.steps, 1)))
    parts.extend(_wrap(note) for note in sheet.notes)
    parts.extend(_wrap(caution, "Caution: ", "") for caution in sheet.cautions)
    parts.append("\n".join(_wrap(source, "Source: ") for source in dict.fromkeys(sheet.sources)))
    return "\n\n".join(part for part in parts if part)


def _join(figure: str | tuple[str, ...]) -> str:
    if isinstance(figure, str):
        return figure
    *first, last = figure
    return "".join(f"{each:<{_COLUMN}}" for each in first) + last


def _row(label: str, figure: str, column: int) -> str:
    return _wrap(figure, label.ljust(column), " " * column).rstrip()


def _wrap(text: str, head: str = "", rest: str | None = None) -> str:
    return fill(text, WIDTH, initial_indent=head, subsequent_indent=" " * len(head) if rest is None else rest)
