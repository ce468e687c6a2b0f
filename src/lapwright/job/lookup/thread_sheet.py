"""A thread's sizes, two threads held against each other, and what a measured thread may be, laid out as sheets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.job.lookup.drill_sheet import list_clearance, show_tapping
from lapwright.job.lookup.sheet import Row, Sheet
from lapwright.quantities import show_inch, show_mm, show_number

if TYPE_CHECKING:
    from lapwright.job.lookup.thread_answer import ThreadAnswer
    from lapwright.workshop.identify import Candidate, Identification
    from lapwright.workshop.matching import Match


def lay_thread(answer: ThreadAnswer) -> Sheet:
    """Lay out a thread.

    Parameters
    ----------
    answer: what is shown
    """
    rows = (*_list_rows(answer),)
    return Sheet(title=f"{answer.thread.name} thread", rows=rows, notes=answer.notes, sources=answer.sources)


def _list_rows(answer: ThreadAnswer) -> Iterator[Row]:
    thread = answer.thread
    series = _SERIES.get(thread.series, f"ISO {thread.series}")
    form = "" if thread.form.partition(" ")[0] in series else f", {thread.form} form"
    yield (
        "Series",
        f"{series}{form}, {answer.flank_angle:g} degrees between the flanks",
    )
    if thread.from_memory:
        yield "", "(in part from memory, see below)"
    yield "Major diameter", _show_both(thread.major)
    to_inch = 0.0254 / thread.pitch
    places = 0 if abs(to_inch - round(to_inch)) < 1e-3 else 1
    yield "Pitch", f"{show_mm(thread.pitch, 3)} ({show_number(to_inch, places)} to the inch)"
    yield "Effective", _show_both(thread.effective)
    yield "Minor, hole", _show_both(thread.minor)
    if abs(thread.minor_external - thread.minor) > 1e-6:
        yield "Minor, screw", _show_both(thread.minor_external)
    yield "Stress area", f"{show_number(1e6 * answer.stress_area, 2)} mm²"
    if answer.spanner is not None:
        yield "Spanner", f"{show_mm(answer.spanner)} ({show_inch(answer.spanner)}), 1.75 x the diameter"
    if answer.tapping is not None:
        yield "Tap with", show_tapping(answer.tapping) + (" (from memory)" if answer.tapping.from_memory else "")
    yield from list_clearance(answer.clearance)
    if thread.twins:
        yield "Same as", ", ".join(thread.twins)
    for number, match in enumerate(answer.near):
        yield "Not the same" if number == 0 else "", match.short


#: What the tables' short words for a series mean.
_SERIES = {
    "BA": "British Association (BA)",
    "BSW": "British Standard Whitworth",
    "BSF": "British Standard Fine",
    "brass": "brass thread, 26 to the inch",
    "model": "model engineer's thread",
    "BSP": "pipe thread (its name is the pipe's bore, not its own size)",
    "UNC": "Unified coarse",
    "UNF": "Unified fine",
}


def _show_both(metres: float) -> str:
    return f"{show_mm(metres, 3)} ({show_inch(metres, 4)})"


def lay_against(pair: tuple[Match, Match]) -> Sheet:
    """Lay out two threads held against each other, each once as the screw.

    Parameters
    ----------
    pair: the two ways round
    """
    first, second = pair[0].screw, pair[0].hole
    rows = tuple(
        (label, f"{show(getattr(first, size))} and {show(getattr(second, size))}")
        for label, size, show in (
            ("Major", "major", _show_both),
            ("Pitch", "pitch", lambda pitch: f"{show_mm(pitch, 3)} ({show_number(0.0254 / pitch, 1)} to the inch)"),
            ("Effective", "effective", _show_both),
            ("Minor, hole", "minor", _show_both),
        )
    )
    return Sheet(
        title=f"{first.name} against {second.name}",
        rows=rows,
        notes=tuple(dict.fromkeys(match.sentence for match in pair)),
        sources=tuple(source for match in pair for source in match.sources),
    )


def lay_measured(found: Identification) -> Sheet:
    """Lay out what a measured thread may be.

    Parameters
    ----------
    found: the ranked threads
    """
    measured = found.measured
    what = "hole" if measured.is_hole else "screw"
    pitch = "" if measured.pitch is None else f", pitch {show_mm(measured.pitch, 3)}"
    title = f"Which thread? A {what} of {show_mm(measured.diameter)}{pitch}"
    first, second = (candidate.thread.name for candidate in found.candidates[:2])
    apart = [f"To tell {first} from {second}:", *found.tell_apart] if found.tell_apart else []
    return Sheet(
        title=title,
        rows=(
            ("Taken as", _tell_measured(found)),
            *(
                (f"{number}. {candidate.thread.name}", _tell_candidate(candidate, is_hole=measured.is_hole))
                for number, candidate in enumerate(found.candidates, 1)
            ),
        ),
        notes=(*found.notes, *apart),
        sources=found.sources,
    )


def _tell_measured(found: Identification) -> str:
    measured = found.measured
    diameter = f"{show_mm(measured.diameter)} ± {show_mm(measured.diameter_doubt)} {_OVER[measured.is_hole]}"
    if measured.pitch is None or measured.pitch_doubt is None:
        return f"{diameter}, pitch not measured"
    to_inch = show_number(0.0254 / measured.pitch, 1)
    return (
        f"{diameter}, pitch {show_mm(measured.pitch, 3)} ± {show_mm(measured.pitch_doubt, 3)} ({to_inch} to the inch)"
    )


_OVER = {False: "over the crests", True: "bore"}


def _tell_candidate(candidate: Candidate, *, is_hole: bool) -> str:
    thread = candidate.thread
    nominal = thread.minor if is_hole else thread.major
    twins = f", the same as {' and '.join(thread.twins)}" if thread.twins else ""
    return (
        f"{show_mm(nominal)} x {show_mm(thread.pitch, 3)}{twins}: {_tell_fit(candidate, is_hole=is_hole)} "
        f"({_tell_off(candidate, is_hole=is_hole)})"
    )


def _tell_fit(candidate: Candidate, *, is_hole: bool) -> str:
    """How well it fits; what is worn is told by what is gone."""
    if candidate.worn:
        off = show_mm(abs(candidate.diameter_off))
        return f"if it is worn or drilled large, {off} over" if is_hole else f"if it is worn or undersize, {off} under"
    word = next(word for most, word in _FITS if candidate.distance <= most)
    times = candidate.distance / _DOUBT
    if times <= 1:
        return word
    told = show_number(times, 1) if times < _LOST else f"over {_LOST}"
    return f"{word}, {told} times what doubt and tolerance allow"


#: A doubt is two standard deviations.
_DOUBT = 2
#: Further away than so many doubts the number says nothing.
_LOST = 10
#: Up to how many standard deviations away a thread is called what.
_FITS = ((1.0, "fits well"), (2.0, "fits"), (3.0, "perhaps"), (10.0, "hardly"), (float("inf"), "not this"))


def _tell_off(candidate: Candidate, *, is_hole: bool) -> str:
    more, less = ("wider", "narrower") if is_hole else ("thicker", "thinner")
    told = _tell_side(candidate.diameter_off, more, less) or "just its size"
    if candidate.pitch_off is None:
        return told
    pitch = _tell_side(candidate.pitch_off, "coarser", "finer")
    return f"{told}, pitch {pitch or 'agrees'}"


def _tell_side(off: float, more: str, less: str) -> str:
    size = show_mm(abs(off), 3)
    return "" if float(size.split()[0]) == 0 else f"{size} {more if off > 0 else less}"
