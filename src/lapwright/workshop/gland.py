"""The space round a rod in its stuffing box, and the rings that fill it."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, hypot, pi

from lapwright.errors import DoesNotFit, NotInTable, OutOfRange
from lapwright.quantities import show_mm, show_share
from lapwright.tables.packings import list_widths

#: Sections commonly sold, by name [m]; from memory, but 3, 5, 6.5, 8 and 10 mm (tribology-handbook, table 25.2).
SOLD = {
    "1/16 in": 0.0015875, "2 mm": 0.002, "3/32 in": 0.00238125, "3 mm": 0.003, "1/8 in": 0.003175, "4 mm": 0.004,
    "3/16 in": 0.0047625, "5 mm": 0.005, "6 mm": 0.006, "6.5 mm": 0.0065, "8 mm": 0.008, "10 mm": 0.010,
    "12 mm": 0.012, "1/2 in": 0.0127, "5/8 in": 0.015875, "3/4 in": 0.01905, "1 in": 0.0254,
}  # fmt: skip
#: Below this nothing can be packed [m]; from memory.
LEAST_SPACE = 0.0003
#: By what share of the space a packing may differ from it: thinner, thicker, thicker but rolled down; from memory.
THIN, THICK, ROLLED = -0.08, 0.05, 0.15
#: Rings that seal at bench size, from memory; more add friction, since the inner ones are hardly pressed.
FEWEST, USUAL, MOST = 3, 4, 5
#: How far the gland's nose has to enter before it presses, in sections; common practice, no source.
ENTRY = 0.5
#: By how much rings are pressed down in seating, as makers say; what friction is worked out with.
SEATING_RANGE, SEATING = (0.15, 0.20), 0.20
#: The most that rings end up pressed down by, as makers of valves say (25 to 35 %): the gland has to follow so far.
FINAL = 0.35


@dataclass(frozen=True, slots=True)
class SectionVerdict:
    """How a packing fits the space round a rod: by what share of the space it differs, and what that does.

    `verdict` is "fits", "roll down", "too thick" or "too thin"; `space` and `section` [m]; `off` is positive for a
    packing that is too thick.
    """

    space: float
    section: float
    off: float
    verdict: str
    reason: str

    @property
    def fits(self) -> bool:
        """Whether it can be fitted, as it is or rolled down."""
        return self.verdict in {"fits", "roll down"}


@dataclass(frozen=True, slots=True)
class Bought:
    """The packing to buy: its name and section [m], how it fits, and what share of its strands to keep (1: all)."""

    name: str
    section: float
    verdict: str
    strands: float
    advice: str


@dataclass(frozen=True, slots=True)
class Rings:
    """The rings a box takes: how many, what is left to fill at the bottom, and the depth that they need [m]."""

    count: int
    spacer: float
    depth_needed: float


def packing_section(rod: float, bore: float) -> float:
    """Work out the section of square packing that fills the space between a rod and its stuffing box [m].

    Parameters
    ----------
    rod: diameter of the rod [m, above 0]
    bore: diameter of the stuffing box [m, above the rod's]

    Raises
    ------
    OutOfRange: a size is nothing or negative
    DoesNotFit: the rod does not go into the box, or leaves no room for packing

    Source: exact geometry

    Example:
    >>> packing_section(0.004, 0.008)
    0.002
    """
    for size, what in ((rod, "rod"), (bore, "stuffing box")):
        if size <= 0:
            raise OutOfRange(show_mm(size), f"is no diameter of a {what}")
    if bore <= rod:
        raise DoesNotFit(
            f"a rod of {show_mm(rod)} does not go into a box of {show_mm(bore)}",
            "measure both again, or swap them: a box is bored larger than its rod",
        )
    space = (bore - rod) / 2
    if space < LEAST_SPACE:
        raise DoesNotFit(
            f"a rod of {show_mm(rod)} in a box of {show_mm(bore)} leaves {show_mm(space)} all round, too little to "
            "pack",
            f"the box of such a rod is bored to about {show_mm(rod + 2 * usual_section(rod)[0], 1)} or more",
        )
    return space


def usual_section(rod: float) -> tuple[float, float, str]:
    """Tell which sections are usual on a rod: least and most [m], and what says so.

    Parameters
    ----------
    rod: diameter of the rod [m]

    Source: tribology-handbook, table 25.2; from memory for rods up to 6 mm

    Example:
    >>> [usual_section(rod)[:2] for rod in (0.004, 0.010, 0.020)]
    [(0.0012, 0.002), (0.003, 0.003), (0.0065, 0.0065)]
    """
    if rod <= _SMALL_ROD:
        return round(max(0.0008, 0.3 * rod), 6), round(min(0.0024, 0.5 * rod), 6), "0.3 to 0.5 of the rod, from memory"
    rows = [row for row in list_widths() if row.kind == "soft packing"]
    for row in rows:
        if row.over < rod <= row.up_to:
            return row.width, row.width, row.source
    return rows[-1].width, SOLD["1 in"], f"{rows[-1].source}, which ends at {show_mm(rows[-1].up_to, 0)}"


#: Up to here the bench's own proportion holds [m]; the handbook's narrowest packing is made for pumps.
_SMALL_ROD = 0.006


def ring_length(rod: float, section: float) -> float:
    """Work out how long a ring of packing is cut: once round, on the line through its middle [m].

    Parameters
    ----------
    rod: diameter of the rod [m]
    section: of the packing [m]

    Source: mobley-1999, p. 226

    Example:
    >>> f"{1000 * ring_length(0.004, 0.002):.1f} mm"
    '18.8 mm'
    """
    return pi * (rod + section)


def wound_length(rod: float, section: float, turns: int) -> float:
    """Work out how long a string is that is wound round the rod in one piece [m].

    Parameters
    ----------
    rod: diameter of the rod [m]
    section: of the packing [m]
    turns: how many times it goes round

    Source: exact geometry (a helix whose turns touch)

    Example:
    >>> f"{1000 * wound_length(0.004, 0.002, 4):.1f} mm"
    '75.8 mm'
    """
    return turns * hypot(ring_length(rod, section), section)


def count_rings(section: float, depth: float | None = None) -> Rings:
    """Count the rings that a stuffing box takes while the gland's nose still enters; without a depth, four.

    Parameters
    ----------
    section: of the packing [m]
    depth: of the box, from its mouth to its bottom [m]; None where it could not be reached

    Raises
    ------
    OutOfRange: the depth is nothing or negative
    DoesNotFit: the box does not hold one ring

    Source: from memory (three to five rings at bench size); common practice, no source (the gland's nose enters)

    Example:
    >>> count_rings(0.002, 0.010).count, count_rings(0.002, 0.016)
    (4, Rings(count=5, spacer=0.005, depth_needed=0.011))
    """
    if depth is None:
        return Rings(USUAL, 0.0, round((USUAL + ENTRY) * section, 9))
    if depth <= 0:
        raise OutOfRange(show_mm(depth), "is no depth of a stuffing box")
    # Half a micrometre's grace, so that a box of exactly so many rings holds them.
    count = floor(depth / section - ENTRY + 5e-7 / section)
    if count < 1:
        raise DoesNotFit(
            f"a box {show_mm(depth)} deep does not hold one ring of {show_mm(section)} and the gland's nose",
            f"three rings need a depth of {show_mm((FEWEST + ENTRY) * section)}; measure it again, to the bottom",
        )
    count = min(count, MOST)
    needed = round((count + ENTRY) * section, 9)
    spare = round(depth - needed, 9)
    return Rings(count, spare if spare >= section else 0.0, needed)


def judge_section(rod: float, bore: float, section: float) -> SectionVerdict:
    """Judge a packing in the space round a rod: how far it is off, and what that does.

    Parameters
    ----------
    rod: diameter of the rod [m]
    bore: diameter of the stuffing box [m]
    section: of the packing that is there, or at hand [m]

    Raises
    ------
    OutOfRange: a size is nothing or negative
    DoesNotFit: the rod does not go into the box, or leaves no room for packing

    Source: from memory (how far a packing may be off)

    Example:
    >>> judge_section(0.004, 0.008, 0.003).verdict, judge_section(0.004, 0.008, 0.0015).verdict
    ('too thick', 'too thin')
    """
    space = packing_section(rod, bore)
    if section <= 0:
        raise OutOfRange(show_mm(section), "is no section of packing")
    return _judge_space(space, section)


def _judge_space(space: float, section: float) -> SectionVerdict:
    # Rounded, so that a packing right on a limit is on its near side.
    off = round(section / space - 1, 9)
    both = f"{show_mm(section)} packing in a space of {show_mm(space)}"
    amount = show_share(abs(off))
    if off < THIN:
        verdict, reason = "too thin", f"{both} is {amount} too thin: the gland cannot spread it, and it leaks past."
    elif off <= THICK:
        verdict, reason = "fits", f"{both} fits."
    elif off <= ROLLED:
        verdict = "roll down"
        reason = f"{both} is {amount} too thick: roll it down between two flat pieces; never hammer it."
    else:
        verdict = "too thick"
        reason = (
            f"{both} is {amount} too thick: forced in, it grips before it is down, keeps the oil off, and the rod runs "
            "dry and scores."
        )
    return SectionVerdict(space, section, off, verdict, reason)


def choose_packing(space: float) -> Bought:
    """Choose the packing to buy for a space, or the next thicker one and how much of it to keep when braided down.

    Parameters
    ----------
    space: between rod and box [m]

    Raises
    ------
    NotInTable: no packing of a bench is so thick

    Source: from memory (sections sold); exact geometry (strands to keep go as the area)

    Example:
    >>> choose_packing(0.002).name, choose_packing(0.0012).advice
    ('2 mm', 'Unlay a 1/16 in string and keep 57 % of its strands, twisted or plaited again to 1.20 mm.')
    """
    judged = {name: _judge_space(space, section) for name, section in SOLD.items()}
    nearest = min(judged, key=lambda name: abs(judged[name].off))
    for wanted, advice in (("fits", ""), ("roll down", "Roll it down between two flat pieces; never hammer it.")):
        if fitting := [name for name in judged if judged[name].verdict == wanted]:
            name = min(fitting, key=lambda name: abs(judged[name].off))
            return Bought(name, SOLD[name], wanted, 1.0, advice)
    thicker = [name for name in judged if SOLD[name] > space]
    if not thicker:
        raise NotInTable(f"a packing of {show_mm(space)}", "sections commonly sold", f"the thickest is {nearest}")
    name = thicker[0]
    strands = (space / SOLD[name]) ** 2
    advice = (
        f"Unlay a {name} string and keep {show_share(strands)} of its strands, twisted or plaited again to "
        f"{show_mm(space)}."
    )
    return Bought(name, SOLD[name], "braid down", strands, advice)
