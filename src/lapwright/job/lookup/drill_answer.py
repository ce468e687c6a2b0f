"""What to drill for a thread, and what a drill is good for: texts in, answer out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from lapwright.errors import NotInTable, NoUnit, OutOfRange, UnknownUnit, Unreadable
from lapwright.quantities import read_length, show_inch, show_mm
from lapwright.quantities.figure import Kind, read_figure, read_number
from lapwright.tables.drills import DrillRow, list_drills
from lapwright.tables.naming import find_thread
from lapwright.tables.threads import CLEARANCES, ThreadRow, list_threads
from lapwright.workshop.cautions import CUTTING, SNATCHING
from lapwright.workshop.clearance import Clearance, find_clearance
from lapwright.workshop.drawers import SAME_SIZE, find_neighbours, name_drill
from lapwright.workshop.tapping import TappingAdvice, advise_tapping
from lapwright.workshop.tapping_hole import OVERSIZE, TappingHole, tell_hole, weigh_hole

#: What goes with drilling and tapping.
CAUTIONS: Final = (CUTTING, SNATCHING)
#: A drill is told as a tapping drill where it leaves this much [-], on the customary basis; the best is in the middle.
_USEFUL = (0.60, 0.88)
_MIDDLE = 0.75
#: How many threads are told of either kind.
_MOST: Final = 8
#: Drill series without the one that says all, in the order of being told.
_SERIES: Final = ("metric", "number-letter", "fraction")
_PERCENT = ("%", Fraction(1, 100))
_DEPTH: Final = Kind(
    noun="a share of the depth of thread",
    units=dict.fromkeys(("%", "percent", "per cent"), _PERCENT),
    examples=("70 %",),
    usual=("%",),
)
_NUMBER = re.compile(r"(?:no|number|#)\.?\s*(\d{1,3})", re.IGNORECASE | re.ASCII)
_LETTER = re.compile(r"(?:letter\s*)?([a-z])", re.IGNORECASE | re.ASCII)
#: What may stand behind the name of a drill.
_DRILL = re.compile(r"\s*drill$", re.IGNORECASE)
#: A size with its unit. 1/4-20 is none: it is a thread.
_LENGTH = re.compile(r"[-+−]?\s*[\d.,][\d.,/\s-]*(?:mm|cm|m|in\.?|inch|inches|thou|\"|″)", re.IGNORECASE)
#: A bare number, which is asked for its unit, unless it is a fraction that stands on a drill.
_BARE = re.compile(r"[-+−]?\s*(?:\d+[.,]?\d*|[.,]\d+|(?:\d+\s+)?\d+/\d+)")
#: A number with a word that is no length.
_MEASURED = re.compile(r"[-+−]?\s*\d[\d.,/\s]*[^\W\d]+")
_WAYS: Final = 'write it like "3.1 mm", "1/8 in", "No 30" or "letter F"'
#: The numbers that are stamped on drills.
_NUMBERS: Final = range(1, 81)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadDrills:
    """Advice for one thread: the tapping drill and the holes to clear it."""

    advice: TappingAdvice
    clearance: Clearance
    notes: tuple[str, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillUse:
    """What a drill is good for: its size [m], its names (none where no drill has that size), its neighbours by series.

    `neighbours` are (drawers, next under, next over); `tapping` pairs a thread with what the hole leaves of it, the
    best first; `clearing` pairs a thread with how freely it passes.
    """

    name: str
    diameter: float
    drills: tuple[DrillRow, ...]
    neighbours: tuple[tuple[str, DrillRow | None, DrillRow | None], ...]
    tapping: tuple[tuple[ThreadRow, TappingHole], ...]
    clearing: tuple[tuple[ThreadRow, str], ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def answer_drill(
    text: str, *, metal: str | None = None, engagement: str | None = None, drawers: str = "all"
) -> ThreadDrills | DrillUse:
    """Tell the drills for a thread, or, where a drill is named, what it is good for.

    Parameters
    ----------
    text: a thread (`4BA`) or a drill (`3.1 mm`, `No 30`, `letter F`, `1/8 in`)
    metal: what is to be tapped: a metal or its grade, or "thin plate"; None where it is not told
    engagement: the share of the full depth wanted instead, like `70 %`
    drawers: one of `lapwright.workshop.drawers.DRAWERS`

    Raises
    ------
    BadInput: something cannot be read, or is not in the tables; the sentence names the nearest
    """
    diameter = _read_drill(text.strip())
    if diameter is not None:
        return _use_drill(diameter)
    thread = _find_thread(text.strip())
    share = None if engagement is None else _read_depth(engagement)
    advice = advise_tapping(thread, metal=metal, engagement=share, drawers=drawers)
    clearance = find_clearance(thread, drawers=drawers)
    return ThreadDrills(
        advice=advice,
        clearance=clearance,
        notes=(*advice.notes, *clearance.notes),
        sources=(*advice.sources, f"clearance: {clearance.source}"),
    )


def _read_drill(text: str) -> float | None:
    """The size of the drill that is named [m], or None where the text names none."""
    named = _DRILL.sub("", text)
    if found := _NUMBER.fullmatch(named):
        return _find_named("number", f"No {int(found[1])}", text).diameter
    if found := _LETTER.fullmatch(named):
        return _find_named("letter", found[1].upper(), text).diameter
    if _BARE.fullmatch(named):
        return _read_bare(named)
    if not _LENGTH.fullmatch(named):
        return None
    read = read_length(named)
    if read.value <= 0:
        raise OutOfRange(read.shown, "is no size of a drill", _WAYS)
    return read.si


def _read_bare(text: str) -> float:
    """The fraction drill of that name [m]; any other number could be a size or a name, and is asked back."""
    stamped = {drill.name.removesuffix(" in"): drill.diameter for drill in list_drills("fraction")}
    if " ".join(text.split()) in stamped:
        return stamped[" ".join(text.split())]
    try:
        return float(read_length(text).si)
    except NoUnit as error:
        if text[0] in "-−":
            raise OutOfRange(text, "is no size of a drill", _WAYS) from None
        if text.isdigit() and int(text) in _NUMBERS:
            error.instead = f'write "No {int(text)}", "{text} mm" or "{text} in"'
        raise


def _find_thread(text: str) -> ThreadRow:
    """Find a thread; what is a number with a word that no thread has is taken for a size."""
    try:
        return find_thread(text)
    except Unreadable:
        if not _MEASURED.fullmatch(text):
            raise
    try:
        read = read_length(text)
    except UnknownUnit as error:
        error.instead = f"of a drill, {_WAYS}"
        raise
    raise OutOfRange(read.shown, "is no size of a drill", _WAYS)


def _read_depth(text: str) -> float:
    """Read a share of the depth of thread; 0.7 without a unit is taken for 70 % and asked back."""
    try:
        return float(read_figure(text, _DEPTH).value)
    except NoUnit as error:
        share = float(read_number(text.strip()))
        error.instead = f'write "{100 * share if share <= 1 else share:g} %"'
        raise


def _find_named(series: str, name: str, text: str) -> DrillRow:
    named = {drill.name: drill for drill in list_drills(series)}
    if name not in named:
        raise NotInTable(text, f"{series} drills", "they run from No 1 to No 80")
    return named[name]


def _use_drill(diameter: float) -> DrillUse:
    drills = tuple(drill for drill in list_drills() if abs(drill.diameter - diameter) <= SAME_SIZE)
    tapping, clearing = tuple(_list_tapping(diameter)), tuple(_list_clearing(diameter))
    return DrillUse(
        name=f"Drill {', '.join(map(name_drill, drills))}" if drills else f"Hole of {show_mm(diameter, 3)}",
        diameter=diameter,
        drills=drills,
        neighbours=tuple((series, *_find_next(diameter, series)) for series in _SERIES),
        tapping=tapping,
        clearing=clearing,
        notes=tuple(_tell_use(diameter, drills)),
        sources=tuple(_cite(drills, tapping, clearing)),
    )


def _find_next(diameter: float, series: str) -> tuple[DrillRow | None, DrillRow | None]:
    """The next smaller and the next larger drill, the size itself left out."""
    under, _ = find_neighbours(diameter - 2 * SAME_SIZE, drawers=series)
    _, over = find_neighbours(diameter, drawers=series)
    return under, over


def _list_tapping(diameter: float) -> Iterator[tuple[ThreadRow, TappingHole]]:
    holes = ((thread, weigh_hole(thread, diameter)) for thread in list_threads() if thread.pitch < diameter)
    low, high = _USEFUL
    useful = [(thread, hole) for thread, hole in holes if low <= hole.share <= high and not _is_tight(thread, hole)]
    # The handbooks' own drill first, then by how near to three quarters it comes.
    useful.sort(key=lambda pair: (not _is_listed(*pair), abs(pair[1].share - _MIDDLE)))
    yield from useful[:_MOST]


def _is_tight(thread: ThreadRow, hole: TappingHole) -> bool:
    return not _is_listed(thread, hole) and any(True for _ in tell_hole(thread, hole))


def _is_listed(thread: ThreadRow, hole: TappingHole) -> bool:
    return thread.tapping_drill is not None and abs(thread.tapping_drill - hole.diameter) < 3e-6


def _list_clearing(diameter: float) -> Iterator[tuple[ThreadRow, str]]:
    """Threads that pass: the closest of their holes that is no larger than the drill names the fit."""
    found = []
    for thread in list_threads():
        holes = find_clearance(thread).holes
        if not holes or not holes[0].diameter - SAME_SIZE <= diameter <= holes[-1].diameter + SAME_SIZE:
            continue
        fit = [hole.fit for hole in holes if hole.diameter <= diameter + SAME_SIZE][-1]
        found.append((thread, fit))
    found.sort(key=lambda pair: abs(pair[0].major - diameter))
    yield from sorted(found[:_MOST], key=lambda pair: CLEARANCES.index(pair[1]))


def _tell_use(diameter: float, drills: tuple[DrillRow, ...]) -> Iterator[str]:
    if not drills:
        yield f"No drill of the tables is {show_mm(diameter, 3)}: what follows is for a hole of that size."
    near, far = OVERSIZE
    yield (
        f"A drill cuts larger than itself: count on a hole of {show_mm(diameter + near)} to {show_mm(diameter + far)} "
        "(from memory)."
    )


def _cite(
    drills: tuple[DrillRow, ...], tapping: tuple[tuple[ThreadRow, TappingHole], ...], clearing: tuple[object, ...]
) -> Iterator[str]:
    yield from dict.fromkeys(f"drill: {drill.source}" for drill in drills)
    if tapping or clearing:
        yield "threads: the tables of this program; what each rests on stands with that thread"


def show_drill(drill: DrillRow | None, diameter: float) -> str:
    """Show a drill by what is stamped on it, with its size both ways; a metric one is its size.

    Parameters
    ----------
    drill: None for a hole without a drill of its own
    diameter: of drill or hole [m]

    Example:
    >>> show_drill(list_drills("number")[50], 0.1285 * 0.0254)
    'No 30, 3.264 mm (0.1285 in)'
    """
    is_metric = abs(diameter * 1e5 - round(diameter * 1e5)) < 1e-6
    size = f"{show_mm(diameter, 2 if is_metric else 3)} ({show_inch(diameter, 4)})"
    return size if drill is None or drill.series == "metric" else f"{name_drill(drill)}, {size}"


def list_drill(answer: ThreadDrills | DrillUse) -> dict[str, Any]:
    """Return an answer as plain lists and dictionaries: `lapwright drill --json`."""
    return _list_use(answer) if isinstance(answer, DrillUse) else _list_thread_drills(answer)


def _list_thread_drills(answer: ThreadDrills) -> dict[str, Any]:
    advice = answer.advice
    return {
        "format": 1,
        "thread": advice.thread.name,
        "metal": advice.metal,
        "drawers": advice.drawers,
        "wanted_percent": [round(100 * share, 2) for share in advice.wanted],
        "wanted_basis": advice.basis,
        "ideal_mm": _in_mm(advice.ideal),
        "advised": _list_hole(advice.advised),
        "under": _list_hole(advice.under),
        "over": _list_hole(advice.over),
        "listed": _list_hole(advice.listed),
        "clearance": [
            {
                "fit": hole.fit,
                "diameter_mm": _in_mm(hole.diameter),
                "drill": None if hole.drill is None else name_drill(hole.drill),
                "drill_mm": None if hole.drill is None else _in_mm(hole.drill.diameter),
            }
            for hole in answer.clearance.holes
        ],
        "notes": list(answer.notes),
        "sources": list(answer.sources),
    }


def _list_hole(hole: TappingHole | None) -> dict[str, Any] | None:
    if hole is None:
        return None
    return {
        "drill": None if hole.drill is None else name_drill(hole.drill),
        "diameter_mm": _in_mm(hole.diameter),
        "engagement_percent": round(100 * hole.engagement, 2),
        "engagement_american_percent": None if hole.american is None else round(100 * hole.american, 2),
        "really_percent": [round(100 * share, 2) for share in hole.really],
        "source": hole.source,
    }


def _list_use(use: DrillUse) -> dict[str, Any]:
    return {
        "format": 1,
        "diameter_mm": _in_mm(use.diameter),
        "drills": [name_drill(drill) for drill in use.drills],
        "neighbours": [
            {
                "drawers": series,
                "under": None if under is None else name_drill(under),
                "under_mm": None if under is None else _in_mm(under.diameter),
                "over": None if over is None else name_drill(over),
                "over_mm": None if over is None else _in_mm(over.diameter),
            }
            for series, under, over in use.neighbours
        ],
        "tapping": [
            {
                "thread": thread.name,
                "engagement_percent": round(100 * hole.engagement, 2),
                "engagement_american_percent": None if hole.american is None else round(100 * hole.american, 2),
                "listed": _is_listed(thread, hole),
            }
            for thread, hole in use.tapping
        ],
        "clearing": [{"thread": thread.name, "fit": fit} for thread, fit in use.clearing],
        "notes": list(use.notes),
        "sources": list(use.sources),
    }


def _in_mm(metres: float) -> float:
    return round(1e3 * metres, 5)
