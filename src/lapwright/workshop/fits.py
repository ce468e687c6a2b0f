"""Which limits hole and shaft of a size are made to, and what each fit is for."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Final

from lapwright.errors import NotInTable, OutOfRange
from lapwright.quantities import show_mm
from lapwright.tables.fits import FitRow, list_fits

#: What each fit of the table is called, and what it is for at the bench.
PURPOSES: Final[dict[str, tuple[str, str]]] = {
    "H7/h6": ("sliding", "goes together by hand, oiled, without shake: what locates and may come apart"),
    "H7/g6": ("close running", "turns or rocks a little, oiled, with no play to be felt: fork pins, spindle guides"),
    "H7/f7": ("running", "turns with room for oil: shaft in its bearings, crank pin, eccentric"),
    "H8/f7": ("easy running", "the same where hole and shaft may be a little rough or out of line"),
    "H7/p6": ("press", "pressed home and left there: pin in a crank web, bush in its housing"),
}
_TRADE: Final = "What each fit is for: common practice, no source."
#: The bands of the table [m]: over the first, up to and including the second.
BANDS: Final = ((0.0, 3e-3), (3e-3, 6e-3), (6e-3, 10e-3), (10e-3, 18e-3), (18e-3, 30e-3))
_LARGEST: Final = 30e-3


@dataclass(frozen=True, slots=True)
class FitLimits:
    """A fit worked out for one size, all in m: (least, greatest) of hole and shaft, and the clearance that comes of it.

    A negative clearance is metal too much. `kind` is one word for the fit, `purpose` says what it is for.
    """

    fit: str
    size: float
    hole: tuple[float, float]
    shaft: tuple[float, float]
    kind: str
    purpose: str
    source: str
    from_memory: bool = False
    notes: tuple[str, ...] = ()

    @property
    def least_clearance(self) -> float:
        """The smallest hole on the largest shaft [m]."""
        return self.hole[0] - self.shaft[1]

    @property
    def most_clearance(self) -> float:
        """The largest hole on the smallest shaft [m]."""
        return self.hole[1] - self.shaft[0]

    @property
    def sources(self) -> tuple[str, ...]:
        """What the limits and the words rest on."""
        return (self.source, _TRADE)


def find_fit(size: float, fit: str) -> FitLimits:
    """Work out the limits of hole and shaft for a size and a named fit.

    Parameters
    ----------
    size: the nominal size [m], more than 0 and up to 30 mm
    fit: "H7/h6", "H7/g6", "H7/f7", "H8/f7" or "H7/p6", however it is spaced

    Raises
    ------
    NotInTable: the size or the fit is not in the table; says what is nearest
    OutOfRange: the size is nothing or less

    Source: iso-286 (part 2: limits)

    Example:
    >>> limits = find_fit(6e-3, "H7/g6")
    >>> [round(1e3 * size, 3) for size in (*limits.hole, *limits.shaft)]
    [6.0, 6.012, 5.988, 5.996]
    """
    _check_size(size)
    name = name_fit(fit)
    row = next(row for row in list_fits() if row.fit == name and row.over < size <= row.up_to)
    return _work_out(size, row)


def list_fits_of(size: float) -> tuple[FitLimits, ...]:
    """Work out every fit of the table for a size, from sliding to press.

    Parameters
    ----------
    size: the nominal size [m], more than 0 and up to 30 mm

    Raises
    ------
    NotInTable, OutOfRange: as `find_fit`

    Source: iso-286 (part 2: limits)
    """
    return tuple(find_fit(size, fit) for fit in PURPOSES)


def choose_fits(size: float, clearance: float) -> tuple[FitLimits, ...]:
    """Find which fits give a wanted clearance, the one that gives it most surely first; empty where none does.

    Parameters
    ----------
    size: the nominal size [m], more than 0 and up to 30 mm
    clearance: hole less shaft [m]; negative for metal too much

    Raises
    ------
    NotInTable, OutOfRange: as `find_fit`

    Source: iso-286 (part 2: limits); nearest the middle of its clearances comes first: common practice, no source

    Example:
    >>> [limits.fit for limits in choose_fits(6e-3, 15e-6)]
    ['H7/g6', 'H7/h6', 'H7/f7', 'H8/f7']
    """
    giving = [limits for limits in list_fits_of(size) if limits.least_clearance <= clearance <= limits.most_clearance]
    return tuple(sorted(giving, key=lambda limits: abs(limits.least_clearance + limits.most_clearance - 2 * clearance)))


def name_fit(written: str) -> str:
    """Return a fit by the name it has in the table, however it was spaced.

    Parameters
    ----------
    written: "H7/g6", "H7g6", "h7 / G6": the hole stands first

    Raises
    ------
    NotInTable: it is none of the table's; says which is nearest

    Source: definition

    Example:
    >>> name_fit("h7 - g6")
    'H7/g6'
    """
    plain = _strip(written)
    by_plain = {_strip(name): name for name in PURPOSES}
    if plain in by_plain:
        return by_plain[plain]
    # Only a message needs it.
    from difflib import get_close_matches

    near = get_close_matches(plain, by_plain, n=1, cutoff=0.0)
    every = ", ".join(PURPOSES)
    raise NotInTable(f'"{written}"', "fits", f'the nearest is "{by_plain[near[0]]}"; the table has {every}')


def _work_out(size: float, row: FitRow) -> FitLimits:
    kind, purpose = PURPOSES[row.fit]
    return FitLimits(
        fit=row.fit,
        size=size,
        hole=(size + row.hole_lower, size + row.hole_upper),
        shaft=(size + row.shaft_lower, size + row.shaft_upper),
        kind=kind,
        purpose=purpose,
        source=row.source,
        from_memory=row.from_memory,
        notes=_list_notes(row),
    )


def _list_notes(row: FitRow) -> tuple[str, ...]:
    notes = []
    if row.over == 0:
        notes.append(
            "Up to 3 mm the table is not what the standard's formulas give (grade 7: 10 µm against 8.7; g: 2 "
            "against 3.0; p: 6 against 8.7); the table is used."
        )
    if row.fit == "H7/p6" and row.least_clearance < 0 <= row.most_clearance:
        loose = f"{1e6 * row.most_clearance:.0f} µm of play" if row.most_clearance > 0 else "no grip at all"
        notes.append(
            f"At the far ends of its limits H7/p6 leaves {loose}: measure pin and hole, and match them or fix the pin "
            "with retaining compound (common practice, no source)."
        )
    return tuple(notes)


def _check_size(size: float) -> None:
    if not 0 < size < inf:
        raise OutOfRange(show_mm(size), "is no size for a fit", 'write it like "6 mm" or "1/4 in"')
    if size > _LARGEST:
        raise NotInTable(show_mm(size), "fits", f"it ends at {show_mm(_LARGEST, 0)}")


def _strip(written: str) -> str:
    return "".join(c for c in written.lower() if c.isalnum())
