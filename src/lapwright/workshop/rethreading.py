"""A worn or stripped hole cut to a larger thread: what the old thread leaves of the new one, and which sizes help.

Two helices of different pitch slide past each other along the hole. Where the new groove falls into the old one, only
the ring between the two major diameters is fresh metal (the worst place); a turn or more further it falls on an old
ridge, and more is left. Over a whole beat of the two pitches every phase occurs, and the mean can be counted on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from lapwright.errors import DoesNotFit
from lapwright.tables.reading import is_from_memory
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop.forms import FORMS, find_hole, measure_depth
from lapwright.workshop.strength import refuse_pipe_thread

#: Equal within rounding [m].
_SAME = 1e-9
#: The depth that is given where the tables have no tapping drill [-].
_USUAL_DEPTH = 0.75
#: How much larger than the old thread a new one is looked for [-]; the least share of depth that helps at all [-].
_FARTHEST, _LEAST = 1.6, 0.40
#: Below this share in the worst place, and with no room to drill, a bush or an insert is better [-].
ENOUGH = 0.50
#: Wall beside the new thread, in its diameters, under which a bush or an insert is better: from memory.
WALL_SHARE = 0.5
#: Pipe threads are no screws.
_NO_SCREWS = frozenset({"BSP"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Rethread:
    """What is left of a new thread in a hole that had a smaller one; shares are of the new thread's full depth [-].

    `worst` and `mean` are of the tap put straight in, without drilling; `drilled_worst` and `drilled_mean` after the
    new thread's tapping drill `tapping_drill` [m]. `counted` is the one of the first two that may be relied on. `beat`
    [m] is the length in which the two helices pass each other once, None for equal pitches. `wall_left` [m] is the
    metal beside the new thread. What was not given leaves None: `shorter_than_beat`, `wall_left` and `wall_allows`.
    """

    old: ThreadRow
    new: ThreadRow
    stripped: bool
    worst: float
    mean: float
    counted: float
    beat: float | None
    shorter_than_beat: bool | None
    cleans_up: bool
    tapping_drill: float
    drill_source: str
    drilled_worst: float
    drilled_mean: float
    wall_left: float | None
    wall_allows: bool | None
    notes: tuple[str, ...]

    @property
    def is_poor(self) -> bool:
        """Whether what can be counted on is too little to be taken without need."""
        return not self.cleans_up and self.counted < ENOUGH

    @property
    def drill_from_memory(self) -> bool:
        """Whether the new thread's tapping drill was recalled and not read."""
        return is_from_memory(self.drill_source)

    @property
    def same_pitch(self) -> bool:
        """Whether the new tap, put straight in, can fall into the old thread and follow it."""
        return self.beat is None and not self.stripped


def describe_rethread(
    old: ThreadRow,
    new: ThreadRow,
    *,
    stripped: bool = False,
    depth: float | None = None,
    wall: float | None = None,
) -> Rethread:
    """Work out what a larger thread gets in a hole that already has one.

    Parameters
    ----------
    old: the thread in the hole, worn or stripped
    new: the thread it is cut to
    stripped: whether the old thread is gone altogether, so that the hole is as wide as its major diameter
    depth: length of thread in the hole [m]; left out, the worst place is counted on
    wall: the thinnest metal beside the old thread, from its major diameter to the outside [m]

    Raises
    ------
    DoesNotFit: the new thread is not larger than the old one, a length is none, or one is a pipe thread

    Source: exact geometry; wall beside the thread: from memory

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> up = describe_rethread(find_thread("4 BA"), find_thread("3 BA"))
    >>> round(100 * up.worst), round(100 * up.mean), up.cleans_up
    (57, 84, False)
    """
    for row in (old, new):
        refuse_pipe_thread(row)
    _check(old, new, depth=depth, wall=wall)
    drill = find_tapping_drill(new)
    bore = old.major if stripped else max(old.minor, old.tapping_drill or 0.0)
    worst, mean = _share_from(old, new, old.major), _share_from(old, new, bore)
    beat = find_beat(old, new)
    short = None if depth is None else beat is None or depth < beat
    left = None if wall is None else wall - (new.major - old.major) / 2
    rethread = Rethread(
        old=old,
        new=new,
        stripped=stripped,
        worst=worst,
        mean=mean,
        counted=mean if short is False else worst,
        beat=beat,
        shorter_than_beat=short,
        cleans_up=drill >= old.major - _SAME,
        tapping_drill=drill,
        drill_source=new.drill_source if new.tapping_drill else "75 % depth: common practice, no source",
        drilled_worst=_share_from(old, new, max(drill, old.major)),
        drilled_mean=_share_from(old, new, max(drill, bore)),
        wall_left=left,
        wall_allows=None if left is None else left >= WALL_SHARE * new.major - _SAME,
        notes=(),
    )
    return replace(rethread, notes=tuple(_list_notes(rethread)))


def _check(old: ThreadRow, new: ThreadRow, *, depth: float | None, wall: float | None) -> None:
    if new.major <= old.major + _SAME:
        larger = [row.name for row in list_threads(old.series) if row.major > old.major + _SAME][:2]
        ways = f": write {' or '.join(larger)}" if larger else ""
        raise DoesNotFit(
            f"{new.name} ({1e3 * new.major:.2f} mm) is not larger than {old.name} ({1e3 * old.major:.2f} mm)",
            f"a hole can only be cut to a larger thread{ways}",
        )
    for length, what in ((depth, "the depth of the hole"), (wall, "the wall beside the hole")):
        if length is not None and length <= 0:
            raise DoesNotFit(f"{what} is {1e3 * length:.2f} mm", "give what is there, or leave it out")


def find_tapping_drill(row: ThreadRow) -> float:
    """Return the tapping drill of the tables [m], or the hole for three quarters of the depth where they have none.

    Parameters
    ----------
    row: a thread of the tables

    Source: common practice, no source (three quarters)
    """
    return row.tapping_drill or find_hole(row, _USUAL_DEPTH)


def find_beat(old: ThreadRow, new: ThreadRow) -> float | None:
    """Work out the length in which two helices pass each other once [m]; None where the pitches are equal.

    Parameters
    ----------
    old, new: the two threads

    Source: exact geometry
    """
    difference = abs(old.pitch - new.pitch)
    return None if difference < _SAME else old.pitch * new.pitch / difference


def _share_from(old: ThreadRow, new: ThreadRow, bore: float) -> float:
    """Share of the new depth, mean over phase, in a hole opened to a bore [m] and still with the old groove beyond it.

    At a diameter x the old groove takes the fraction g/p = 1/2 - (x - E) t/p of the surface; outside the old major
    diameter it takes nothing.
    """
    inner = max(bore, new.minor)
    fresh = new.major - max(inner, old.major)
    if inner < old.major:
        slope = FORMS[old.form].half_angle_tangent / old.pitch
        outside, inside = old.major - old.effective, inner - old.effective
        fresh += 0.5 * (old.major - inner) + 0.5 * slope * (outside**2 - inside**2)
    return min(1.0, max(0.0, fresh / measure_depth(new)))


def list_successors(
    old: ThreadRow, *, stripped: bool = False, depth: float | None = None, wall: float | None = None
) -> tuple[Rethread, ...]:
    """List every thread of the tables, up to 1.6 times as thick, that helps a hole: best first.

    What leaves too little wall stands last. Before it come the threads that clean the hole up, then those that leave
    enough without drilling, then the poor ones; among each those of the same series first, the thinnest first.

    Parameters
    ----------
    old: the thread in the hole, worn or stripped
    stripped: whether the old thread is gone altogether
    depth: length of thread in the hole [m]
    wall: the thinnest metal beside the old thread [m]

    Raises
    ------
    DoesNotFit: a length is none

    Source: exact geometry; the order: common practice, no source
    """
    wider = [
        row
        for row in list_threads()
        if old.major + _SAME < row.major <= _FARTHEST * old.major and row.series not in _NO_SCREWS
    ]
    told = (describe_rethread(old, row, stripped=stripped, depth=depth, wall=wall) for row in wider)
    ranked = sorted((up for up in told if up.cleans_up or up.counted >= _LEAST), key=_rank)
    return tuple(_drop_twins(ranked))


def _rank(up: Rethread) -> tuple[bool, int, bool, float, float]:
    tier = 0 if up.cleans_up else 2 if up.is_poor else 1
    return up.wall_allows is False, tier, up.new.series != up.old.series, up.new.major, -up.worst


def _drop_twins(ranked: list[Rethread]) -> Iterator[Rethread]:
    """Leave out a thread that is another series' name for one that has been told."""
    told: set[str] = set()
    for up in ranked:
        if up.new.name not in told:
            told |= {up.new.name, *up.new.twins}
            yield up


def _list_notes(up: Rethread) -> Iterator[str]:
    old, new = up.old.name, up.new.name
    if not up.cleans_up:
        yield (
            f"The old {old} groove stays in the wall. What is lost is contact of the flanks, not the strength of the "
            f"hole: its thread would shear at {1e3 * up.new.major:.2f} mm, and the old groove ends at "
            f"{1e3 * up.old.major:.2f} mm."
        )
        yield "A tap in a hole with half a thread follows the weak side: check that it stands square, from two sides."
        yield from _tell_phase(up)
    if up.same_pitch:
        yield (
            f"{new} has the pitch of {old}: put straight in, the tap may drop into the old thread and run out of true. "
            f"{'Drill first, or start' if up.cleans_up else 'Start'} it in a guide."
        )
    if up.wall_allows is False and up.wall_left is not None:
        yield (
            f"Only {1e3 * max(0.0, up.wall_left):.2f} mm of metal would stay beside it, less than half its diameter "
            f"({1e3 * WALL_SHARE * up.new.major:.2f} mm, from memory): rather a bush or an insert."
        )


def _tell_phase(up: Rethread) -> Iterator[str]:
    if up.stripped or up.beat is None:
        return
    if up.shorter_than_beat is None:
        yield f"Count on the worst figure unless the thread is longer than one beat of the two pitches, {_mm(up.beat)}."
    elif up.shorter_than_beat:
        yield f"The hole is shorter than one beat of the two pitches, {_mm(up.beat)}: count on the worst figure."
    else:
        yield f"The hole is longer than one beat of the two pitches, {_mm(up.beat)}: the mean can be counted on."


def _mm(length: float) -> str:
    return f"{1e3 * length:.1f} mm"
