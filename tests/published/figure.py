"""What a comparison consists of: rows as the sources have them, each with its figures and who worked ours out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

Value = float | str
Band = tuple[float, float]

AGREES, IN_BAND, CORRECTED, EXPLAINED, DISAGREES = "agrees", "in the band", "corrected", "explained", "DISAGREES"
#: A misprint has to lie this many roundings away before agreeing with the corrected figure means anything.
CLEARLY = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of a source beside ours.

    `theirs` is a number, a band of two numbers, or words that ours must equal. `within` is the source's rounding;
    `explained` is how far off ours may lie where the row's note gives the reason; `printed` is a misprint, which
    ours must not agree with, `theirs` then being the corrected figure. `places` is for showing only.
    """

    what: str
    theirs: float | Band | str
    ours: Callable[[], Value]
    unit: str = ""
    within: float = 0.0
    places: int = 3
    explained: float = 0.0
    printed: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One place in a source: its id, where it stands, of what kind it is, and what is compared."""

    id: str
    source: str
    locator: str
    kind: str
    figures: tuple[Figure, ...]
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """A row that cannot be compared, and why."""

    id: str
    source: str
    locator: str
    what: str
    why: str


def judge(figure: Figure, ours: Value) -> str:
    """Return the verdict on one figure."""
    theirs = figure.theirs
    if isinstance(theirs, str) or isinstance(ours, str):
        return AGREES if theirs == ours else DISAGREES
    if isinstance(theirs, tuple):
        return IN_BAND if theirs[0] <= ours <= theirs[1] else DISAGREES
    off = abs(ours - theirs)
    if figure.printed is not None:
        clear = abs(ours - figure.printed) > CLEARLY * figure.within
        return CORRECTED if off <= figure.within and clear else DISAGREES
    if off <= figure.within:
        return AGREES
    return EXPLAINED if off <= figure.explained else DISAGREES
