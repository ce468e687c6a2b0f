"""What is known of a thread, what a measured thread may be, and whether one goes into another: texts in, answer out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import degrees, isinf
from typing import Any, Final

from lapwright.errors import DoesNotFit, OutOfRange, Unreadable
from lapwright.quantities import Length, Quantity, read_length
from lapwright.quantities.figure import Kind, read_either
from lapwright.quantities.length import INCH, LENGTH
from lapwright.tables.naming import find_thread, find_threads
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.clearance import Clearance, find_clearance
from lapwright.workshop.disagreements import tell_disagreements
from lapwright.workshop.drawers import name_drill
from lapwright.workshop.forms import FORMS
from lapwright.workshop.identify import CALIPER, PITCH_SHARE, Identification, Measured, identify_thread
from lapwright.workshop.matching import Match, list_near, match_threads
from lapwright.workshop.strength import stress_area
from lapwright.workshop.tapping_hole import TappingHole, list_hole, tell_bases, tell_hole

_INCH: Final = float(INCH)
#: Across the flats of a BA nut, in diameters (BS 93).
_BA_SPANNER: Final = 1.75
#: What a rule read by eye is out, where threads are counted along it [m].
_RULE: Final = 0.25e-3
#: How much of the depth two threads must have in common to be told as near, and how many are told.
_NEAR_DEPTH, _NEAR_MOST = 0.6, 5
_PITCH_LENGTH: Final = replace(LENGTH, noun="a pitch", examples=("0.66 mm", "38 tpi"), usual=("mm",))
_TPI_UNIT = ("tpi", Fraction(1))
_TPI: Final = Kind(
    noun="a pitch",
    units=dict.fromkeys(
        ("tpi", "t.p.i", "threads to the inch", "threads per inch", "per inch", "to the inch"), _TPI_UNIT
    ),
    examples=("38 tpi",),
    usual=("tpi",),
)
_PITCHES: Final = ('"0.66 mm"', '"38 tpi"', '"38 ± 2 tpi"', '"12 threads in 8 mm"')
_COUNTED = re.compile(
    r"(\d{1,4})\s*(?:threads?|turns?|pitches)\s*(?:in|over|along|to)\s+(?!the\s+inch)(.+)", re.I | re.A
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadAnswer:
    """All that the tables say of one thread; `spanner` [m] is known for BA only, `stress_area` is in m2."""

    thread: ThreadRow
    stress_area: float
    spanner: float | None
    tapping: TappingHole | None
    clearance: Clearance
    near: tuple[Match, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def flank_angle(self) -> float:
        """The angle between the flanks [deg]."""
        return degrees(FORMS[self.thread.form].flank_angle)


def answer_thread(text: str) -> ThreadAnswer:
    """Tell what the tables know of a thread.

    Parameters
    ----------
    text: any way in which people write it: `4BA`, `1/4 x 40`, `M4`

    Raises
    ------
    BadInput: there is no such thread; the sentence names the nearest
    """
    thread, *others = find_threads(text)
    tapping, clearance = list_hole(thread), find_clearance(thread)
    near = [match for match in list_near(thread) if match.depth >= _NEAR_DEPTH][:_NEAR_MOST]
    return ThreadAnswer(
        thread=thread,
        stress_area=thread.stress_area or stress_area(thread),
        spanner=_BA_SPANNER * thread.major if thread.series == "BA" else None,
        tapping=tapping,
        clearance=clearance,
        near=tuple(near),
        notes=(
            *_tell_others(text, thread, others),
            *tell_hole(thread, tapping),
            *tell_bases(thread),
            *tell_disagreements(thread),
            *clearance.notes,
            *_tell_near(near),
        ),
        sources=tuple(
            dict.fromkeys(
                (
                    f"sizes: {thread.source}",
                    *((f"tapping drill: {thread.drill_source}",) if tapping else ()),
                    f"clearance: {clearance.source}",
                    f"stress area: {thread.stress_area_source or 'mean of effective and minor diameter, derived here'}",
                )
            )
        ),
    )


def _tell_others(text: str, thread: ThreadRow, others: list[ThreadRow]) -> Iterator[str]:
    names = [other.name for other in others if other.name not in thread.twins]
    if names:
        yield f'"{text.strip()}" may also mean {" or ".join(names)}: another form of thread.'


def _tell_near(near: list[Match]) -> Iterator[str]:
    if any(FORMS[match.screw.form].flank_angle != FORMS[match.hole.form].flank_angle for match in near):
        yield (
            "Where a screw goes into a hole of another form, the flanks touch along a line only and indent: it holds "
            "less than it seems to."
        )


def answer_measured(measured: str, *, pitch: str | None = None, is_hole: bool = False) -> Identification:
    """Tell which threads a measured screw or hole may have.

    Parameters
    ----------
    measured: over the crests of the screw, or the bore inside those of the hole, with its unit and doubt
    pitch: as a length, in threads to the inch, or counted: `0.66 mm`, `38 tpi`, `12 threads in 8 mm`; None if not known
    is_hole: whether a hole was measured

    Raises
    ------
    BadInput: something cannot be read, or cannot be a thread
    """
    diameter, doubt = _read_measured(measured)
    step, step_doubt = (None, None) if pitch is None else _read_pitch(pitch)
    if step is not None and step >= diameter:
        raise DoesNotFit(f"a pitch of {pitch} is no smaller than the thread", "check the pitch and its unit")
    return identify_thread(
        Measured(diameter=diameter, diameter_doubt=doubt, pitch=step, pitch_doubt=step_doubt, is_hole=is_hole)
    )


def _read_measured(text: str) -> tuple[float, float]:
    read = read_length(text)
    _demand_more_than_nothing(read, '"3.55 mm"')
    return _centre(read, CALIPER)


def _demand_more_than_nothing(read: Quantity, example: str) -> None:
    if read.value <= 0:
        raise OutOfRange(read.shown, "is not more than nothing", f"write it like {example}")


def _centre(read: Length, usual: float) -> tuple[float, float]:
    """The middle of what it may be and half of the span; the usual doubt where none was given."""
    if read.doubt_plus is None or read.doubt_minus is None:
        return read.si, usual
    return read.si + (read.doubt_plus - read.doubt_minus) / 2, (read.doubt_plus + read.doubt_minus) / 2


def _read_pitch(text: str) -> tuple[float, float]:
    """Read a pitch and its doubt [m]."""
    if counted := _COUNTED.fullmatch(text.strip()):
        return _count_pitch(int(counted[1]), counted[2])
    try:
        kind, read = read_either(text, (_PITCH_LENGTH, _TPI), noun="a pitch")
    except Unreadable as error:
        error.instead = f"write it like {', '.join(_PITCHES)}; what is only about right gets a ±"
        raise
    given = Length(read.value, read.plus, read.minus, read.unit, read.shown)
    _demand_more_than_nothing(given, '"0.66 mm" or "38 tpi"')
    middle, doubt = _centre(given, PITCH_SHARE * given.si)
    # Threads to the inch turn into a pitch; what they are out is the same share of either.
    return (middle, doubt) if kind is _PITCH_LENGTH else (_INCH / middle, _INCH / middle * doubt / middle)


def _count_pitch(count: int, along: str) -> tuple[float, float]:
    length = read_length(along)
    _demand_more_than_nothing(length, '"12 threads in 8 mm"')
    if count == 0:
        raise OutOfRange(f"{count} threads", "are none to count", 'write it like "12 threads in 8 mm"')
    middle, doubt = _centre(length, _RULE)
    return middle / count, doubt / count


def answer_against(text: str, other: str) -> tuple[Match, Match]:
    """Tell whether a screw of one thread goes into a hole of another, and the other way round.

    Parameters
    ----------
    text, other: any way in which people write threads

    Raises
    ------
    BadInput: there is no such thread; the sentence names the nearest
    """
    first, second = find_thread(text), find_thread(other)
    return match_threads(first, second), match_threads(second, first)


def list_thread(answer: ThreadAnswer) -> dict[str, Any]:
    """Return a thread as plain lists and dictionaries: `lapwright thread NAME --json`."""
    thread, tapping = answer.thread, answer.tapping
    return {
        "format": 1,
        "thread": thread.name,
        "series": thread.series,
        "form": thread.form,
        "form_angle_deg": round(answer.flank_angle, 3),
        "major_mm": _in_mm(thread.major),
        "pitch_mm": _in_mm(thread.pitch),
        "threads_per_inch": round(_INCH / thread.pitch, 3),
        "effective_mm": _in_mm(thread.effective),
        "minor_mm": _in_mm(thread.minor),
        "minor_of_screw_mm": _in_mm(thread.minor_external),
        "stress_area_mm2": round(1e6 * answer.stress_area, 4),
        "spanner_mm": None if answer.spanner is None else _in_mm(answer.spanner),
        "tapping_drill_mm": None if tapping is None else _in_mm(tapping.diameter),
        "tapping_drill": None if tapping is None or tapping.drill is None else name_drill(tapping.drill),
        "engagement_percent": None if tapping is None else round(100 * tapping.engagement, 2),
        "engagement_american_percent": None
        if tapping is None or tapping.american is None
        else round(100 * tapping.american, 2),
        "clearance_mm": {hole.fit: _in_mm(hole.diameter) for hole in answer.clearance.holes},
        "twins": list(thread.twins),
        "near": [list_match(match) for match in answer.near],
        "source": thread.source,
        "drill_source": thread.drill_source if tapping else "",
        "clearance_source": answer.clearance.source,
        "notes": list(answer.notes),
        "sources": list(answer.sources),
    }


def list_match(match: Match) -> dict[str, Any]:
    """Return one pairing as plain data."""
    return {
        "screw": match.screw.name,
        "hole": match.hole.name,
        "verdict": match.verdict,
        "enters": match.enters,
        "play_mm": _in_mm(match.play),
        "turns_before_it_binds": None if isinf(match.turns) else round(match.turns, 2),
        "turns_in_one_diameter": round(match.wanted, 2),
        "depth_percent": round(100 * match.depth, 1),
        "sentence": match.sentence,
    }


def list_against(pair: tuple[Match, Match]) -> dict[str, Any]:
    """Return two threads held against each other: `lapwright thread NAME --against NAME --json`."""
    sources = dict.fromkeys(source for match in pair for source in match.sources)
    return {"format": 1, "pairs": [list_match(match) for match in pair], "sources": list(sources)}


def list_measured(found: Identification) -> dict[str, Any]:
    """Return what a measured thread may be: `lapwright thread --measured SIZE --json`."""
    measured = found.measured
    sizes: Mapping[str, float | None] = {
        "bore_mm" if measured.is_hole else "major_mm": measured.diameter,
        "diameter_doubt_mm": measured.diameter_doubt,
        "pitch_mm": measured.pitch,
        "pitch_doubt_mm": measured.pitch_doubt,
    }
    return {
        "format": 1,
        "measured": {name: None if size is None else _in_mm(size) for name, size in sizes.items()},
        "candidates": [
            {
                "thread": candidate.thread.name,
                "twins": list(candidate.thread.twins),
                "distance_sd": round(candidate.distance, 3),
                "diameter_off_mm": _in_mm(candidate.diameter_off),
                "pitch_off_mm": None if candidate.pitch_off is None else _in_mm(candidate.pitch_off),
            }
            for candidate in found.candidates
        ],
        "tell_apart": list(found.tell_apart),
        "notes": list(found.notes),
        "sources": list(found.sources),
    }


def _in_mm(metres: float) -> float:
    return round(1e3 * metres, 5)
