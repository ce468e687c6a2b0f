"""How an engine runs before and after, in rows of figures."""

from __future__ import annotations

import re

from lapwright.cycle.comparing import Showing
from lapwright.papers.matter import RunSheet
from lapwright.papers.run_block import list_figures

#: The same in the other unit.
_BRACKET = re.compile(r" \([^()]*\)")
Rows = tuple[tuple[str, ...], ...]


def list_run_rows(before: Showing, after: Showing) -> Rows:
    """Return how an engine runs before and after, as rows of figure, before and after.

    Where the other unit in brackets does not tell the two apart, it is left out.

    Parameters
    ----------
    before, after: the runs
    """
    # The last column is a blank for the card.
    rows = (row[:-1] for row in list_figures(RunSheet(before=before, after=after)).rows)
    return tuple((name, *_leave_out_alike(was, now)) for name, was, now in rows)


def _leave_out_alike(*cells: str) -> tuple[str, ...]:
    plain = tuple(_BRACKET.sub("", cell) for cell in cells)
    brackets = {tuple(_BRACKET.findall(cell)) for cell in cells}
    return plain if len({*plain}) > 1 and len(brackets) == 1 else cells
