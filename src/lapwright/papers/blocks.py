"""What a card is made of, before it is a PDF or a page: headings, findings, steps, tables, pictures."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Heading:
    """The title of a part; `level` 1 is a whole part, 2 one within it. `fresh` starts a new sheet."""

    words: str
    level: int = 1
    fresh: bool = False


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Plain words."""

    words: str


@dataclass(frozen=True, slots=True)
class Remark:
    """One finding: how bad it is, its title, and sentences each with a word in front."""

    mark: str
    title: str
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Steps:
    """Things to do in order, each with a box to tick."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cautions:
    """What can hurt, where the work is described."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Points:
    """Short notes without an order."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a header; an empty cell of the columns in `blanks` is a blank to write in."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    blanks: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Pictures:
    """Drawings side by side."""

    drawings: tuple[Drawing, ...]


@dataclass(frozen=True, slots=True)
class Ticks:
    """Things to have ready under one name, each with a box to tick: what, how much, what for."""

    name: str
    rows: tuple[tuple[str, str, str], ...]


Block = Heading | Paragraph | Remark | Steps | Cautions | Points | Table | Pictures | Ticks
