"""An answer of the workshop tables as a sheet: a title, labelled figures, what to do, what it rests on."""

from __future__ import annotations

from dataclasses import dataclass

#: A label and its figure, or figures that stand under those of the row above; a row without a label goes on from it.
Row = tuple[str, str | tuple[str, ...]]
#: A row of nothing sets one part of a sheet apart from the next.
GAP: Row = ("", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One answer: what is asked most stands first, what it rests on last.

    `rows` are in the order in which they are wanted, `steps` are things to do, `notes` what a person should know
    besides, `cautions` what can hurt, `sources` what the figures rest on. `more` and `background` go on from rows and
    notes for who asks why.
    """

    title: str
    rows: tuple[Row, ...]
    more: tuple[Row, ...] = ()
    steps: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    background: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
