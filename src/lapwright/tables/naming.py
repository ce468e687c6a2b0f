"""Threads found by any name that people write: `7BA`, `1/4 Whit`, `3/16 x 40`, `M3x0.5`, `#5-40`, `G1/8`.

A size and a pitch can fit threads of different form: 1/4 x 20 is a BSW and a UNC. Then the way of writing decides: with
an x the British series come first, with a dash the unified ones; `find_threads` tells the others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from fractions import Fraction
from math import inf

from lapwright.errors import BadInput, OverZero, UnknownThread, Unreadable
from lapwright.quantities.figure import read_number
from lapwright.quantities.length import INCH
from lapwright.tables.designations import (
    AMERICAN_TAPER,
    SEALING,
    TAPER,
    THREAD,
    Designation,
    OddWord,
    read_designation,
)
from lapwright.tables.threads import SERIES, ThreadRow, list_threads

#: In which order the series are taken where a name fits several: written with a dash, and otherwise.
_WITH_DASH = ("UNC", "UNF", "BSW", "BSF", "brass", "model")
_WITH_X = ("brass", "model", "BSW", "BSF", "UNC", "UNF")
_MM = Fraction(1, 1000)
#: Two lengths of a table that are meant to be the same differ by less [m].
_SAME = 1e-9
#: A decimal size may be rounded to three places of an inch [m].
_ROUNDED = 0.0006 * 0.0254
#: The diameter of a numbered unified thread: No 0, and how much each number is more [in].
_NUMBER_ZERO, _NUMBER_STEP = Fraction("0.060"), Fraction("0.013")
#: How far from the size written a thread is still suggested, as a share of the size, and how many are.
_NEAR, _MOST = 0.15, 3
#: No thread of the tables has a pitch of more millimetres, nor fewer threads to the inch.
_MOST_PITCH, _LEAST_TPI = 2, 7


def find_thread(text: object) -> ThreadRow:
    """Return the thread that goes by a name; of several that fit, the first that the way of writing suggests.

    Parameters
    ----------
    text: `7BA`, `no 7 BA`, `M3`, `M3 x 0.5`, `1/4 BSW`, `1/4 x 26 brass`, `3/16 x 40`, `G1/8`, `5-40 UNC`, `1/4-20`

    Raises
    ------
    BadInput: one of its kinds; `UnknownThread` names the nearest threads that there are

    Source: bs-93; bs-84; iso-228-1; iso-261; asme-b1-1

    Example:
    >>> [find_thread(name).name for name in ("#7ba", "1/4 Whit", "3/16 x 40", "m3x0.5", "5-40", "1/8 BSP")]
    ['7 BA', '1/4 BSW', '3/16 x 40 ME', 'M3', 'No 5-40 UNC', 'G1/8']
    """
    return find_threads(text)[0]


def find_threads(text: object) -> tuple[ThreadRow, ...]:
    """Return all threads that a name fits: one size and pitch, perhaps in several series and forms.

    Parameters
    ----------
    text: what was written

    Raises
    ------
    BadInput: one of its kinds; `UnknownThread` names the nearest threads that there are

    Source: bs-93; bs-84; iso-228-1; iso-261; asme-b1-1

    Example:
    >>> [thread.name for thread in find_threads("1/4-20")], [thread.name for thread in find_threads("1/4 x 20")]
    (['1/4-20 UNC', '1/4 BSW'], ['1/4 BSW', '1/4-20 UNC'])
    """
    try:
        read = read_designation(text)
    except ZeroDivisionError:
        raise OverZero(str(text)) from None
    if isinstance(read, OddWord):
        raise _refuse_word(read)
    _refuse_pipe(read)
    fitting = _find_fitting(_read_as_number(read) or read)
    if not fitting:
        raise _refuse_size(read)
    if len({(row.major, row.pitch) for row in fitting}) > 1:
        no_coarse = "metric coarse" in read.series and all(row.series == "metric fine" for row in fitting)
        why = "has no coarse pitch in the tables" if no_coarse else "fits more than one thread"
        raise UnknownThread(read.plain, tuple(row.name for row in fitting), why, lead="say which")
    if read.is_left:
        why = "is left-handed, and its sizes are those of the right-hand one"
        raise UnknownThread(read.plain, (fitting[0].name,), why, lead="write it without the hand")
    return tuple(fitting)


def _find_fitting(read: Designation) -> list[ThreadRow]:
    return _prefer(read, [row for row in list_threads() if _fits(row, read)])


def _read_as_number(read: Designation) -> Designation | None:
    """Read 10/32 as No 10-32, where there is such a thread and nobody divides an inch so; else None."""
    number, stroke, threads = read.written.partition("/")
    if read.step is not None or not stroke or not number.isdigit() or read.words - _WITH_NUMBER:
        return None
    parts = read.size.denominator
    is_measure = read.written == f"{read.size.numerator}/{parts}" and parts & (parts - 1) == 0
    if is_measure and not read.words:
        return None
    numbered = replace(read, written=number, size=Fraction(number), step=Fraction(threads), mark="-")
    return numbered if any(row.name.startswith("No ") for row in _find_fitting(numbered)) else None


def _refuse_pipe(read: Designation) -> None:
    """Refuse the pipe threads that are not in the tables: those that taper, and the one that a taper one seals in."""
    if not read.words & (TAPER | SEALING):
        return
    alike = tuple(row.name for row in list_threads("BSP") if _nominal(row) == read.size)
    if read.words & AMERICAN_TAPER:
        why = "is an American taper pipe thread, of which there is no table here, and which no other thread replaces"
        raise UnknownThread(read.plain, (), why)
    if read.words & TAPER:
        why = "is a taper pipe thread, of which there is no table here"
        raise UnknownThread(read.plain, alike, why, lead="the parallel one of that size")
    why = "is the parallel pipe thread that a taper one seals in, of which there is no table here"
    raise UnknownThread(read.plain, alike, why, lead="form and basic sizes are those of the plain parallel one")


def _refuse_word(read: OddWord) -> BadInput:
    """Say which thread may be meant by a name with an unknown word in it."""
    try:
        meant = find_threads(read.meant) if read.meant else ()
    except BadInput:
        meant = ()
    if not meant:
        return Unreadable(read.plain, THREAD.noun, THREAD.examples)
    return UnknownThread(read.plain, _name(meant))


def _name(rows: Iterable[ThreadRow]) -> tuple[str, ...]:
    return tuple(row.name for row in rows)[:_MOST]


def _nominal(row: ThreadRow) -> Fraction:
    """Return the size by which a BA or a pipe thread goes, which is none of its measures."""
    return read_number(row.name.removeprefix("G").removesuffix(" BA"))


def _fits(row: ThreadRow, read: Designation) -> bool:
    return row.series in read.series and _size_fits(row, read) and _step_fits(row, read)


def _size_fits(row: ThreadRow, read: Designation) -> bool:
    if row.series in ("BA", "BSP"):
        return bool(read.words & _TELLING[row.series]) and _nominal_fits(row, read)
    if row.series.startswith("metric"):
        return bool(read.words & _TELLING["metric"]) and abs(read.size * _MM - row.major) < _SAME
    if read.words & _TELLING["metric"]:
        return False
    if row.name.startswith("No "):
        by_number = read.is_numbered and _same(_NUMBER_ZERO + read.size * _NUMBER_STEP, row)
        return by_number or (read.is_decimal and _same(read.size, row, _ROUNDED))
    return "no" not in read.words and _same(read.size, row, _ROUNDED if read.is_decimal else _SAME)


#: The words without which a number is no BA, pipe or metric size.
_TELLING = {
    "BA": frozenset({"ba", "association"}),
    "BSP": frozenset({"g", "bsp", "bspp", "pipe", "gas"}),
    "metric": frozenset({"m", "mf", "mm", "metric", "iso"}),
}
#: The words that may stand by a number of a unified thread.
_WITH_NUMBER = frozenset({"no", "unc", "nc", "unf", "nf", "unified", "tpi", "t"})
_INCH_SERIES = frozenset({*_WITH_X})


def _nominal_fits(row: ThreadRow, read: Designation) -> bool:
    """Whether a number of BA or a pipe size is that of a row; G11/4 is the name without its space."""
    return read.size == _nominal(row) or read.plain.lower() == row.name.lower().replace(" ", "")


def _same(inches: Fraction, row: ThreadRow, most: float = _SAME) -> bool:
    return abs(float(inches * INCH) - row.major) <= most


def _step_fits(row: ThreadRow, read: Designation) -> bool:
    return read.step is None or abs(_pitch(row.series, read.step) - row.pitch) < _SAME


def _pitch(series: str, step: Fraction) -> float:
    """Work out the pitch [m] from a pitch in mm or from threads to the inch, as the series counts."""
    if series == "BA" or series.startswith("metric"):
        return float(step * _MM)
    return float(INCH / step) if step else inf


def _prefer(read: Designation, rows: list[ThreadRow]) -> list[ThreadRow]:
    """Put those first that the way of writing suggests; a metric size without a pitch is the coarse one."""
    if read.step is None:
        coarse = [row for row in rows if row.series == "metric coarse"]
        return coarse or rows
    order = _WITH_DASH if read.mark == "-" else _WITH_X
    return sorted(rows, key=lambda row: order.index(row.series) if row.series in order else 0)


def _refuse_size(read: Designation) -> BadInput:
    """Name the threads nearest in size, then in pitch, of the series that may be meant; say where a table ends."""
    if read.is_numbered and read.step is None and not read.words:
        named = _name(row for row in list_threads() if row.name in (f"{read.size} BA", f"M{read.size}"))
        return UnknownThread(read.plain, named) if named else Unreadable(read.plain, THREAD.noun, THREAD.examples)
    found = _name(_turn_round(read)) or _list_measured(read)
    if found:
        return UnknownThread(read.plain, found)
    series = [name for name in SERIES if name in read.series and _may_be_meant(name, read)]
    if read.step is None and len(read.series) > 1 and "metric coarse" in series:
        series = ["metric coarse"]
    rows = _list_rows(series)
    end = _tell_end(read, rows)
    if end and read.mark:
        # The mark says less than the size: no unified thread is as thick as the thickest British one.
        rows = _list_rows(name for name in SERIES if name in read.series & _INCH_SERIES) or rows
        end = _tell_end(read, rows) or end
    near = _list_near(rows, lambda row: _distance(row, read))
    return UnknownThread(read.plain, near, f"is no thread of the tables{end}")


def _list_near(rows: Iterable[ThreadRow], distance: Callable[[ThreadRow], tuple[float, float]]) -> tuple[str, ...]:
    """Name the few threads nearest in size, then in pitch; where none is near, the one least far."""
    far = sorted((*distance(row), place, row.name) for place, row in enumerate(rows))
    near = [name for off, _, _, name in far if off <= _NEAR]
    return tuple(near[:_MOST] or [name for *_, name in far[:1]])


def _turn_round(read: Designation) -> list[ThreadRow]:
    """Find the threads of a name written the wrong way round: 40 x 1/4, or 40-1/4, which reads as 40 and a quarter."""
    if read.step is not None:
        size, step = read.step, read.size
    elif "/" in read.written and read.size > _LEAST_TPI:
        size, step = read.size % 1, Fraction(int(read.size))
    else:
        return []
    return _find_fitting(replace(read, written=str(size), size=size, step=step))


def _list_measured(read: Designation) -> tuple[str, ...]:
    """Name the threads near a size over 1 that can only be in mm: 6.35 x 40 is 1/4 x 40, and 4 x 0.7 is M4."""
    is_mm = "mm" in read.words or (read.size > 1 and "/" not in read.written)
    if not is_mm or read.words - {"mm", "tpi", "t"}:
        return ()
    if read.step is None:
        series = ("metric coarse", *_INCH_SERIES)
    elif read.step <= _MOST_PITCH:
        series = ("metric coarse", "metric fine")
    elif read.step >= _LEAST_TPI and not read.is_numbered:
        series = tuple(_INCH_SERIES)
    else:
        return ()
    rows = _list_rows(name for name in SERIES if name in series)
    size = float(read.size * _MM)
    return _list_near(
        [row for row in rows if _share(size, row.major) <= _NEAR],
        lambda row: (round(_share(size, row.major), 6), _miss_pitch(row, read)),
    )


def _tell_end(read: Designation, rows: Iterable[ThreadRow]) -> str:
    """Say where the threads of some series end or begin, of a size beyond them; else nothing."""
    sizes = sorted(((_measure(row, read), row) for row in rows), key=lambda pair: pair[0][1])
    if not sizes:
        return ""
    (wanted, least), first = sizes[0]
    (_, most), last = sizes[-1]
    if least <= wanted <= most:
        return ""
    verb, row = ("begin", first) if wanted < least else ("end", last)
    series = {row.series for _, row in sizes}
    kind = next((name for name, all_of in _KINDS.items() if series <= all_of), "inch")
    return f", where {kind if len(series) > 1 else row.series} threads {verb} at {_name_size(row)}"


_KINDS = {"metric": {"metric coarse", "metric fine"}, "unified": {"UNC", "UNF"}}


def _name_size(row: ThreadRow) -> str:
    """Name the size of a thread without its pitch."""
    if row.series in _INCH_SERIES and not row.name.startswith("No "):
        return f"{Fraction(row.major / float(INCH)).limit_denominator(64)} in"
    return row.name.partition("-")[0].partition(" x ")[0]


def _list_rows(series: Iterable[str]) -> list[ThreadRow]:
    return [row for name in series for row in list_threads(name)]


def _may_be_meant(series: str, read: Designation) -> bool:
    """Whether a series can be what was written: by its words, else by its mark (x: British, dash: unified)."""
    telling = next((name for name, words in _TELLING.items() if read.words & words), None)
    if telling or series in ("BA", "BSP") or series.startswith("metric"):
        return telling is not None and series.startswith(telling)
    unified = series in ("UNC", "UNF")
    if read.step is None or len(read.series & {*_WITH_X}) < len(_WITH_X):
        return True
    return unified == (read.mark == "-")


def _measure(row: ThreadRow, read: Designation) -> tuple[float, float]:
    """Return the size that was written and that of a thread, as the series counts: a diameter [m] or a nominal size."""
    if row.series in ("BA", "BSP"):
        return float(read.size), float(_nominal(row))
    if row.series.startswith("metric"):
        return float(read.size * _MM), row.major
    numbered = read.is_numbered and ("no" in read.words or read.size > 1)
    inches = _NUMBER_ZERO + read.size * _NUMBER_STEP if numbered else read.size
    return float(inches * INCH), row.major


def _distance(row: ThreadRow, read: Designation) -> tuple[float, float]:
    """Return how far a thread is from what was written: in size, as a share of it, and in pitch [m]."""
    wanted, has = _measure(row, read)
    # Numbers of BA are steps of a series, in which the diameter falls by an eighth.
    off = abs(wanted - has) / 8 if row.series == "BA" else _share(wanted, has)
    return round(off, 6), _miss_pitch(row, read)


def _miss_pitch(row: ThreadRow, read: Designation) -> float:
    return 0.0 if read.step is None else abs(_pitch(row.series, read.step) - row.pitch)


def _share(wanted: float, has: float) -> float:
    return abs(wanted - has) / (wanted or _SAME)
