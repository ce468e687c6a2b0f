"""What thread is this: the threads of the tables that a measured screw or hole may be, the likeliest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from math import degrees, hypot
from typing import Final

from lapwright.quantities import show_mm, show_number
from lapwright.tables.threads import SERIES, ThreadRow, list_threads
from lapwright.workshop.forms import FORMS

#: What is taken for a caliper on a small thread where no doubt is given, 95 % of readings [m].
CALIPER: Final = 0.03e-3
#: What is taken for a pitch read with a gauge or a rule, 95 % of readings, as a share of it [-].
PITCH_SHARE: Final = 0.03
#: A screw may be this much thinner than its name, in pitches (BS 93, normal class); wear takes more.
UNDER: Final = 0.2
#: So much more a screw loses by wear, or by a die set too close, before it is another thread, in pitches; a hole gains
#: as much by wear or a drill that was too large.
WORN: Final = 0.35
#: A tapped hole is mostly this much wider than the full thread leaves it, in pitches: a thread of 75 %.
OVER: Final = 0.3
#: Further away than this, in standard deviations, a thread is hardly the one [-].
FAR: Final = 3.0
#: How many are told.
MOST: Final = 6
#: Two that differ by less than this [standard deviations] are even.
_EVEN: Final = 0.3
#: Threads that can be counted without losing the place, and the longest that is worth a rule [m].
_COUNTABLE: Final = 0.05
#: Nothing on a bench is measured more closely [m].
_FINEST: Final = 1e-6
_LIMITS = (
    "a screw may be up to 0.2 of its pitch thinner than its name: BS 93, normal class, as reprinted in Machinery's "
    "Handbook, 31st edition, p. 2115; that a tapped hole is up to 0.3 of its pitch wider than its minor diameter, and "
    "what a caliper and a pitch gauge are out: from memory; that wear takes up to 0.35 of the pitch more: common "
    "practice, no source"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A thread as measured: diameter and pitch [m] with the doubt of each (95 % of readings, half-width) [m].

    `diameter` is that over the crests of a screw, or, where `is_hole`, the bore inside the crests of a nut.
    `pitch` may be None.
    """

    diameter: float
    diameter_doubt: float
    pitch: float | None = None
    pitch_doubt: float | None = None
    is_hole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A thread that it may be: how far off it is [standard deviations], and by how much in diameter and pitch [m].

    `diameter_off` and `pitch_off` are measured less nominal; `pitch_off` is None where no pitch was measured. `worn`
    says that the pitch is right and the diameter further off than is made, on the side to which a thread wears.
    """

    thread: ThreadRow
    distance: float
    diameter_off: float
    pitch_off: float | None
    worn: bool = False

    @property
    def may_be(self) -> bool:
        """Whether it may be this one: near enough as made, or else as worn."""
        return self.worn or self.distance <= FAR


@dataclass(frozen=True, slots=True, kw_only=True)
class Identification:
    """What a measured thread may be, the nearest first, and what would tell the first two apart."""

    measured: Measured
    candidates: tuple[Candidate, ...]
    tell_apart: tuple[str, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def identify_thread(measured: Measured) -> Identification:
    """Rank the threads of the tables by how far they lie from what was measured.

    A screw is hardly ever thicker than its name and often thinner, a tapped hole hardly ever narrower than its minor
    diameter and often wider: on the usual side the distance grows more slowly. Next to those near enough stand the ones
    that would have to be worn. Twins (one thread under two names) are told once.

    Parameters
    ----------
    measured: what was measured, with its doubt

    Source: bs-93 (tolerance of bolts); gum (section 5.1); from memory (what is usual in holes, calipers and gauges);
        common practice, no source (what wear takes)

    Example:
    >>> found = identify_thread(Measured(diameter=3.55e-3, diameter_doubt=3e-5, pitch=0.66e-3, pitch_doubt=2e-5))
    >>> [candidate.thread.name for candidate in found.candidates][0]
    '4 BA'
    """
    ranked = sorted(
        (_compare(thread, measured) for thread in list_threads() if is_first_name(thread)),
        key=_rank,
    )
    near = [candidate for number, candidate in enumerate(ranked[:MOST]) if candidate.may_be or number < 2]
    return Identification(
        measured=measured,
        candidates=tuple(near),
        tell_apart=tuple(_tell_apart(near[0].thread, near[1].thread, measured)) if near[0].may_be else (),
        notes=tuple(_tell(near, measured)),
        sources=(*dict.fromkeys(candidate.thread.source for candidate in near[:2]), _LIMITS),
    )


def is_first_name(thread: ThreadRow) -> bool:
    """Tell whether of a thread's names this is the one to tell: of twins, the one whose series stands first.

    Parameters
    ----------
    thread: of the tables
    """
    order = _number_names()
    return all(order[thread.name] < order[name] for name in thread.twins)


@cache
def _number_names() -> dict[str, int]:
    return {thread.name: number for number, thread in enumerate(list_threads())}


def _rank(candidate: Candidate) -> tuple[int, float, int]:
    tier = 0 if candidate.distance <= FAR else 1 if candidate.worn else 2
    return tier, round(candidate.distance, 6), SERIES.index(candidate.thread.series)


def _compare(thread: ThreadRow, measured: Measured) -> Candidate:
    nominal = thread.minor if measured.is_hole else thread.major
    off = measured.diameter - nominal
    usual = OVER * thread.pitch if measured.is_hole else UNDER * thread.pitch
    on_usual_side = (off > 0) == measured.is_hole
    # The doubt holds 95 % of readings: two standard deviations. What is usual is taken as two as well.
    deviation = hypot(max(measured.diameter_doubt, _FINEST), usual if on_usual_side else 0.0) / 2
    distance = abs(off) / deviation
    if measured.pitch is None:
        return Candidate(thread=thread, distance=distance, diameter_off=off, pitch_off=None)
    pitch_off = measured.pitch - thread.pitch
    doubt = max(measured.pitch_doubt if measured.pitch_doubt is not None else PITCH_SHARE * measured.pitch, _FINEST)
    beyond = abs(off) - usual - measured.diameter_doubt
    return Candidate(
        thread=thread,
        distance=hypot(distance, pitch_off / (doubt / 2)),
        diameter_off=off,
        pitch_off=pitch_off,
        worn=on_usual_side and 0 < beyond <= WORN * thread.pitch and abs(pitch_off) <= doubt,
    )


def count_until_apart(first: float, second: float) -> tuple[float, float] | None:
    """Work out after how many threads of one pitch another is one thread out, and over what length [m].

    Parameters
    ----------
    first, second: the two pitches [m]

    Returns
    -------
    How many threads of the first, and the length of thread they take [m]; None where the pitches are the same.

    Source: exact geometry

    Example:
    >>> count, length = count_until_apart(0.66e-3, 0.6e-3)
    >>> round(count, 1), round(1e3 * length, 2)
    (10.0, 6.6)
    """
    if abs(first - second) < 1e-9 * first:
        return None
    count = second / abs(first - second)
    return count, count * first


def _tell_apart(first: ThreadRow, second: ThreadRow, measured: Measured) -> Iterator[str]:
    """What to measure next, the easiest first."""
    yield from _tell_by_count(first, second)
    yield from _tell_by_diameter(first, second, measured)
    angles = [degrees(FORMS[thread.form].flank_angle) for thread in (first, second)]
    if angles[0] != angles[1]:
        yield (
            f"The flanks: {first.name} has {angles[0]:g} degrees, {second.name} {angles[1]:g}. Hold a thread gauge of "
            "each against the light: the right one shows none along the whole flank."
        )


def _tell_by_count(first: ThreadRow, second: ThreadRow) -> Iterator[str]:
    apart = count_until_apart(first.pitch, second.pitch)
    if apart is None:
        return
    count, length = apart
    if length <= _COUNTABLE:
        yield (
            f"The pitch: count threads along {show_mm(length, 1)}. {first.name} has {show_number(count, 0)} there, "
            f"{second.name} {'one more' if second.pitch < first.pitch else 'one fewer'}; on a short screw, lay it into "
            "the thread of a known one and look for light where they drift apart."
        )
    else:
        yield (
            f"The pitch hardly tells: {first.name} and {second.name} are one thread apart only over "
            f"{show_mm(length, 0)}."
        )


def _tell_by_diameter(first: ThreadRow, second: ThreadRow, measured: Measured) -> Iterator[str]:
    sizes = [thread.minor if measured.is_hole else thread.major for thread in (first, second)]
    apart = abs(sizes[0] - sizes[1])
    if apart > 0.5 * measured.diameter_doubt:
        tool = "a pin or a small-hole gauge" if measured.is_hole else "a micrometer, on a part that is not worn"
        yield (
            f"The diameter: {first.name} is {show_mm(sizes[0])}, {second.name} {show_mm(sizes[1])}. Measure again with "
            f"{tool}."
        )


def _tell(near: list[Candidate], measured: Measured) -> Iterator[str]:
    first = near[0]
    if first.worn:
        yield _tell_worn(first, is_hole=measured.is_hole)
    if not first.may_be:
        unusual = (first.diameter_off > 0) != measured.is_hole
        yield (
            "No thread of the tables fits: the nearest are told. Measure again at several places, and think of "
            f"{_UNUSUAL[measured.is_hole] if unusual else _USUAL[measured.is_hole]}, a special thread, or a pipe "
            "thread, whose name is not its size."
        )
    elif measured.pitch is None:
        yield "Without a pitch many threads fit: count the threads along the screw, or hold a thread gauge against it."
    elif abs(near[1].distance - first.distance) < _EVEN:
        yield f"{first.thread.name} and {near[1].thread.name} fit about equally well."


#: What may be the matter with what is further off than it should be: on the side to which it wears, and on the other.
_USUAL = {False: "a worn screw", True: "a worn or stripped hole"}
_UNUSUAL = {
    False: "a burr, paint or plating (a screw does not wear thicker)",
    True: "dirt or swarf in the thread (a hole does not wear narrower)",
}


def _tell_worn(candidate: Candidate, *, is_hole: bool) -> str:
    name, off = candidate.thread.name, show_mm(abs(candidate.diameter_off))
    if is_hole:
        return (
            f"{name}, if the hole is worn or was drilled large: {off} over. A hole wears larger, never smaller: try a "
            "good screw in it, and measure at the far end, where it wears least."
        )
    return (
        f"{name}, if the screw is worn or was cut undersize: {off} under. A screw wears smaller, never larger: measure "
        "again where it was not used, close under the head or at the far end."
    )
