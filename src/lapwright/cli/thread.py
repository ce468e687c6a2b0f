"""`lapwright thread`: a thread's sizes, what a measured thread may be, and which screw goes into which hole."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Annotated, Any

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.thread_answer import ThreadAnswer
    from lapwright.workshop.identify import Candidate, Identification
    from lapwright.workshop.matching import Match


def run(
    name: Annotated[
        str | None, typer.Argument(help='A thread as it is written: 4BA, M4, "1/4 x 40", 1/4BSF.', metavar="THREAD")
    ] = None,
    *,
    measured: Annotated[
        str | None,
        typer.Option(help='What is it? A screw over its crests, like "3.55 mm" or "3.55 ± 0.02 mm".', metavar="SIZE"),
    ] = None,
    pitch: Annotated[
        str | None,
        typer.Option(help='Its pitch: "0.66 mm", "38 tpi", "38 ± 2 tpi" or "12 threads in 8 mm".', metavar="PITCH"),
    ] = None,
    hole: Annotated[bool, typer.Option("--hole", help="The bore of a tapped hole was measured instead.")] = False,
    against: Annotated[
        str | None, typer.Option(help="Another thread: does one go into the other?", metavar="THREAD")
    ] = None,
    json: AsJson = False,
) -> None:
    """Tell a thread's sizes, drills and relations, or which thread a measured one is."""
    from lapwright.job import thread_answer as job

    _refuse_mixtures(name, measured, pitch=pitch, hole=hole, against=against)
    if measured is not None:
        found = job.answer_measured(measured, pitch=pitch, is_hole=hole)
        _show(lambda: job.list_measured(found), lambda: write_measured(found), json=json)
    elif against is not None:
        pair = job.answer_against(name or "", against)
        _show(lambda: job.list_against(pair), lambda: write_against(pair), json=json)
    else:
        answer = job.answer_thread(name or "")
        _show(lambda: job.list_thread(answer), lambda: write_thread(answer), json=json)


def _show(as_list: Callable[[], dict[str, Any]], as_text: Callable[[], str], *, json: bool) -> None:
    if json:
        from lapwright.cli.as_json import print_json

        print_json(as_list())
    else:
        print(as_text())


def _refuse_mixtures(
    name: str | None, measured: str | None, *, pitch: str | None, hole: bool, against: str | None
) -> None:
    from lapwright.errors import DoesNotFit

    if measured is None and (pitch is not None or hole):
        raise DoesNotFit("a pitch alone does not tell a thread", 'give the diameter too: --measured "3.55 mm"')
    if measured is None and name is None:
        raise DoesNotFit(
            "neither a thread nor a measured size is given",
            'write "lapwright thread 4BA" or "lapwright thread --measured SIZE --pitch PITCH"',
        )
    if measured is not None and (name is not None or against is not None):
        raise DoesNotFit("a thread and a measured size are both given", "give one or the other")


def write_thread(answer: ThreadAnswer) -> str:
    """Return a thread's sheet."""
    from lapwright.cli.sheet import write_sheet

    return write_sheet(f"{answer.thread.name} thread", _list_rows(answer), notes=answer.notes, sources=answer.sources)


def _list_rows(answer: ThreadAnswer) -> Iterator[tuple[str, str]]:
    from lapwright.cli.drill import list_clearance, show_tapping
    from lapwright.quantities import show_inch, show_mm, show_number

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
    yield "Stress area", f"{show_number(1e6 * answer.stress_area, 2)} mm2"
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
    from lapwright.quantities import show_inch, show_mm

    return f"{show_mm(metres, 3)} ({show_inch(metres, 4)})"


def write_against(pair: tuple[Match, Match]) -> str:
    """Return two threads held against each other, each once as the screw.

    Parameters
    ----------
    pair: the two ways round
    """
    from lapwright.cli.sheet import write_sheet
    from lapwright.quantities import show_mm, show_number

    first, second = pair[0].screw, pair[0].hole
    rows = [
        (label, f"{show(getattr(first, size))} and {show(getattr(second, size))}")
        for label, size, show in (
            ("Major", "major", _show_both),
            ("Pitch", "pitch", lambda pitch: f"{show_mm(pitch, 3)} ({show_number(0.0254 / pitch, 1)} to the inch)"),
            ("Effective", "effective", _show_both),
            ("Minor, hole", "minor", _show_both),
        )
    ]
    sources = (source for match in pair for source in match.sources)
    notes = dict.fromkeys(match.sentence for match in pair)
    return write_sheet(f"{first.name} against {second.name}", rows, notes=notes, sources=sources)


def write_measured(found: Identification) -> str:
    """Return what a measured thread may be.

    Parameters
    ----------
    found: the ranked threads
    """
    from lapwright.cli.sheet import write_sheet
    from lapwright.quantities import show_mm

    measured = found.measured
    what = "hole" if measured.is_hole else "screw"
    pitch = "" if measured.pitch is None else f", pitch {show_mm(measured.pitch, 3)}"
    title = f"Which thread? A {what} of {show_mm(measured.diameter)}{pitch}"
    rows = [
        ("Taken as", _tell_measured(found)),
        *(
            (f"{number}. {candidate.thread.name}", _tell_candidate(candidate, is_hole=measured.is_hole))
            for number, candidate in enumerate(found.candidates, 1)
        ),
    ]
    first, second = (candidate.thread.name for candidate in found.candidates[:2])
    apart = [f"To tell {first} from {second}:", *found.tell_apart] if found.tell_apart else []
    return write_sheet(title, rows, notes=(*found.notes, *apart), sources=found.sources)


def _tell_measured(found: Identification) -> str:
    from lapwright.quantities import show_mm, show_number

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
    from lapwright.quantities import show_mm

    thread = candidate.thread
    nominal = thread.minor if is_hole else thread.major
    twins = f", the same as {' and '.join(thread.twins)}" if thread.twins else ""
    return (
        f"{show_mm(nominal)} x {show_mm(thread.pitch, 3)}{twins}: {_tell_fit(candidate, is_hole=is_hole)} "
        f"({_tell_off(candidate, is_hole=is_hole)})"
    )


def _tell_fit(candidate: Candidate, *, is_hole: bool) -> str:
    """How well it fits; what is worn is told by what is gone."""
    from lapwright.quantities import show_mm, show_number

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
    from lapwright.quantities import show_mm

    size = show_mm(abs(off), 3)
    return "" if float(size.split()[0]) == 0 else f"{size} {more if off > 0 else less}"
