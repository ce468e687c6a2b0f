"""The page of agreement, written from the rows: every source with its figures, ours beside them, and the verdict."""

from __future__ import annotations

from collections import Counter
from functools import cache
from math import floor, log10

from lapwright.sources import SOURCES, cite
from tests.published import (
    agrawal,
    ahrons,
    babcock_1919,
    babcock_1919_flow,
    bourne_1865,
    bourne_1865_power,
    brooks_1888,
    closed_forms,
    cushion_trials,
    derr_1911,
    dole_1914,
    ewing_1911,
    iapws_r6_95,
    iapws_r7_97,
    iapws_r7_97_steam,
    joel,
    langley_1911,
    langley_1911_trials,
    lardner_1840,
    lineham,
    low_1887,
    machinery_70,
    maggard_1900,
    modern_mechanism,
    molesworth,
    outside_lap_text,
    riedler_1891,
    rohan_1899,
    rose_1877,
    rose_1887,
    sarkar,
    sciam_1880,
    sinclair_1885,
    singh,
    solberg_1946,
    thurston_1878,
    travelling_engineers,
    tredgold_1838,
    trial_program,
    unwin_1911,
    van_cleve,
    williams_1906,
)
from tests.published.figure import AGREES, CORRECTED, EXPLAINED, IN_BAND, Figure, Row, Value, judge
from tests.published.not_compared import LEFT

ROWS: tuple[Row, ...] = (
    *agrawal.ROWS,
    *ahrons.ROWS,
    *babcock_1919.ROWS,
    *babcock_1919_flow.ROWS,
    *bourne_1865.ROWS,
    *bourne_1865_power.ROWS,
    *brooks_1888.ROWS,
    *closed_forms.ROWS,
    *cushion_trials.ROWS,
    *derr_1911.ROWS,
    *dole_1914.ROWS,
    *ewing_1911.ROWS,
    *iapws_r6_95.ROWS,
    *iapws_r7_97.ROWS,
    *iapws_r7_97_steam.ROWS,
    *joel.ROWS,
    *langley_1911.ROWS,
    *langley_1911_trials.ROWS,
    *lardner_1840.ROWS,
    *lineham.ROWS,
    *low_1887.ROWS,
    *machinery_70.ROWS,
    *maggard_1900.ROWS,
    *modern_mechanism.ROWS,
    *molesworth.ROWS,
    *outside_lap_text.ROWS,
    *riedler_1891.ROWS,
    *rohan_1899.ROWS,
    *rose_1877.ROWS,
    *rose_1887.ROWS,
    *sarkar.ROWS,
    *sciam_1880.ROWS,
    *sinclair_1885.ROWS,
    *singh.ROWS,
    *solberg_1946.ROWS,
    *thurston_1878.ROWS,
    *travelling_engineers.ROWS,
    *tredgold_1838.ROWS,
    *trial_program.ROWS,
    *unwin_1911.ROWS,
    *van_cleve.ROWS,
    *williams_1906.ROWS,
)

KINDS = {
    "check": "a figure",
    "rule": "a rule",
    "erratum": "a misprint",
    "derived": "worked out from the source's sizes",
    "qualitative": "a statement in words",
    "trial": "a trial of a running engine",
}

#: Sources that are no books.
OWN = {"closed-forms", "trial-program"}

HEAD = """# Agreement with published figures

<!-- written by `make docs`: change the tests in tests/published, not this page -->

{total} places were gathered that say something about steam engines, water or steam which can be checked: in {sources}
books, standards and papers, in closed forms, and in what a trial program made of one engine.
{compared} of them are compared here, in {figures} figures: {counts}.
{left} are not compared yet; the table at the end says why.

*Theirs* is what the source has, or, where it gives a rule or a drawing and no number, that worked out by hand, as the
note says; *ours* is what this program works out from the source's sizes every time the tests run.
A number **agrees** where it lies within the source's own rounding. **Explained** is one that does not, for the reason
in the note. **Corrected** is a misprint: ours equals the corrected figure and not the printed one. **In the band** is
a figure of ours where the source gives two limits. A statement in words agrees where exact kinematics, the card of a
run, the findings, or the words of a cure or of the setting procedure come out the same. A trial is a running engine
measured, of which the source seldom tells all: the note says what had to be assumed, and where that is much, only the
order of size is held.
"""


@cache
def work_out(figure: Figure) -> Value:
    """Our figure; worked out once."""
    return figure.ours()


def write_page() -> str:
    """Return the whole page."""
    parts = [_write_head()]
    for source in dict.fromkeys(row.source for row in ROWS):
        parts.append(_write_source(source))
    parts.append(_write_left())
    return "\n".join(parts)


def _write_head() -> str:
    verdicts = Counter(judge(figure, work_out(figure)) for row in ROWS for figure in row.figures)
    order = (AGREES, IN_BAND, CORRECTED, EXPLAINED)
    names = {AGREES: "agree", IN_BAND: "lie in the source's band"}
    known = [f"{verdicts[verdict]} {names.get(verdict, verdict)}" for verdict in order]
    rest = [f"{count} {verdict}" for verdict, count in verdicts.items() if verdict not in order]
    return HEAD.format(
        total=len(ROWS) + len(LEFT),
        sources=len(({row.source for row in ROWS} | {left.source for left in LEFT}) - OWN),
        compared=len(ROWS),
        figures=verdicts.total(),
        counts=", ".join(known + rest),
        left=len(LEFT),
    )


def _write_source(key: str) -> str:
    rows = [row for row in ROWS if row.source == key]
    note = SOURCES[key].note
    lines = [f"## {cite(key)}", "", *([f"Of this source: {note}.", ""] if note else [])]
    lines += ["| Id | Place | What | Theirs | Ours | Off by | Verdict |", "|---|---|---|---|---|---|---|"]
    for row in rows:
        for number, figure in enumerate(row.figures):
            lines.append(_write_figure(figure, (row.id, f"{row.locator} ({KINDS[row.kind]})") if number == 0 else None))
    lines += ["", *(f"- {'; '.join(places)}: {note}" for note, places in _gather_notes(rows).items())]
    return "\n".join(lines).rstrip() + "\n"


def _gather_notes(rows: list[Row]) -> dict[str, dict[str, None]]:
    """Each note with the places it belongs to, in order."""
    notes: dict[str, dict[str, None]] = {}
    for row in rows:
        if row.note:
            notes.setdefault(row.note, {})[row.locator] = None
    return notes


def _write_figure(figure: Figure, first: tuple[str, str] | None) -> str:
    ours = work_out(figure)
    unit = f" {figure.unit}" if figure.unit else ""
    shown = ours if isinstance(ours, str) else f"{_show(ours, figure.places)}{unit}"
    cells = (*(first or ("", "")), figure.what, _show_theirs(figure, unit), shown, _show_off(figure, ours))
    return "| " + " | ".join((*cells, judge(figure, ours))) + " |"


def _show(value: float, places: int) -> str:
    """A number to so many places, without a minus before nothing."""
    return f"{round(value, places) + 0.0:.{places}f}"


def _show_theirs(figure: Figure, unit: str) -> str:
    if isinstance(figure.theirs, str):
        return figure.theirs
    if isinstance(figure.theirs, tuple):
        low, high = (_show(value, figure.places) for value in figure.theirs)
        return f"{low} to {high}{unit}"
    misprint = "" if figure.printed is None else f" (printed {_show(figure.printed, figure.places)})"
    return f"{_show(figure.theirs, figure.places)}{unit}{misprint}"


def _show_off(figure: Figure, ours: Value) -> str:
    """How far off ours lies; what is below a tenth of the last place shown is nothing."""
    if isinstance(figure.theirs, str | tuple) or isinstance(ours, str):
        return ""
    off = abs(ours - figure.theirs)
    if off < 10.0 ** -(figure.places + 1):
        return "nothing"
    return f"{off:.{max(1 - floor(log10(off)), 0)}f}"


def _write_left() -> str:
    lines = ["## Not compared yet", "", "| Id | Source | What | Why not |", "|---|---|---|---|"]
    for left in sorted(LEFT, key=lambda left: left.source):
        lines.append(f"| {left.id} | {cite(left.source, left.locator)} | {left.what} | {left.why} |")
    return "\n".join(lines) + "\n"
