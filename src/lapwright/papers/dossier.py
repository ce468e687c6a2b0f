"""The engine's dossier as PDF: what it is, what was found and done with photographs, its sizes as they are now."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Pictures, Table
from lapwright.papers.card import MARGIN, NAMES, TITLE_WORD, WIDTHS, quote_pairs, quote_text, set_block, typeset
from lapwright.papers.dossier_matter import DossierEntry, DossierMatter, Photo, Rows, SizeTable
from lapwright.papers.lettering import clip_text

#: Room for the date beside an entry, and between two photographs [mm]; the height of the tallest photograph [mm].
_BESIDE, _GUTTER, _TALLEST = 30.0, 4.0, 70.0

#: Letters of a word that finds room in a narrow column, and of the pieces into which a longer one may be broken.
_LONG_WORD, _PIECE = 16, 12
#: Letters of the title over a table of sizes.
_TITLE = 60
#: An entry of fewer letters, and of so many readings and photographs at most, finds room on one page.
_SHORT, _FEW, _FEW_PHOTOGRAPHS = 1500, 10, 4


def dossier_bytes(matter: DossierMatter, *, paper: str = "a4") -> bytes:
    """Return the dossier as PDF; the same matter gives the same bytes.

    Parameters
    ----------
    matter: what is told
    paper: "a4" or "letter"

    Raises
    ------
    OSError: the photographs found no room on the disk while it was made
    """
    # The typesetter takes photographs from files under its root alone.
    with tempfile.TemporaryDirectory(prefix="dossier-") as folder:
        room = Path(folder)
        return typeset(typst_text(matter, room, paper=paper), root=room)


def typst_text(matter: DossierMatter, room: Path, *, paper: str) -> str:
    """Return the dossier as it is handed to the typesetter, and lay its photographs into a folder.

    Parameters
    ----------
    matter: what is told
    room: where the photographs go
    paper: "a4" or "letter"
    """
    here = Path(__file__).parent
    frames = [(here / name).read_text(encoding="utf-8") for name in ("card.typ", "dossier.typ")]
    name = quote_text(clip_text(matter.name, 60), TITLE_WORD)
    foot = f"{clip_text(matter.record_name, 40)}  ·  {matter.record_digest[:12]}  ·  {matter.date}"
    width = WIDTHS[paper] - 2 * MARGIN
    head = f"#show: dossier.with(paper: {quote_text(NAMES[paper])}, name: {name}, foot: {quote_text(foot)})"
    title = f"#dossier-title({name}, {quote_pairs(_list_title(matter), TITLE_WORD)})"
    pages = _Pages(room, (width - _BESIDE - _GUTTER) / 2)
    return "\n".join([*frames, head, title, *_lay_pages(matter, pages), ""])


@dataclass(slots=True)
class _Pages:
    """The pages in the making: where the photographs lie, how wide each may be, and how many there are."""

    room: Path
    width: float
    names: dict[bytes, str] = field(default_factory=dict)

    def lay_photo(self, photo: Photo) -> str:
        """Lay a photograph into the folder, each but once, and return its place and its width on paper."""
        name = self.names.get(photo.data)
        if name is None:
            name = self.names[photo.data] = f"{len(self.names) + 1}.jpg"
            (self.room / name).write_bytes(photo.data)
        width = min(self.width, _TALLEST * photo.width / max(photo.height, 1))
        return f"({quote_text(name)}, {width:.2f}mm), "


def _list_title(matter: DossierMatter) -> tuple[tuple[str, str], ...]:
    entries = [entry for chapter in matter.chapters for entry in chapter.entries]
    days = sorted(entry.day for entry in entries)
    return (
        ("Date", matter.date),
        ("Record", f"{clip_text(matter.record_name, 40)} ({matter.record_digest[:12]})"),
        ("Log", f"{days[0]} to {days[-1]}" if days else "nothing written yet"),
        ("Entries", str(len(entries))),
        ("Time spent", matter.spent or "none noted"),
        ("Open jobs", str(len(matter.open_jobs)) if matter.open_jobs else "none"),
    )


def _lay_pages(matter: DossierMatter, pages: _Pages) -> Iterator[str]:
    yield from _tell_engine(matter)
    if matter.open_jobs:
        yield from _set([Heading("Still to be done"), Table(("Since", "Job"), matter.open_jobs)])
    for chapter in matter.chapters:
        yield from _set([Heading(chapter.title)])
        for entry in chapter.entries:
            yield _set_entry(entry, pages)
    if matter.parts_used:
        yield from _set([Heading("Parts used"), Table(("Day", "Parts"), matter.parts_used)])
    if matter.sizes:
        yield from _set([Heading("The sizes as they are now"), Paragraph(f"From the record on {matter.date}.")])
        tables = "".join(_set_sizes(table) for table in matter.sizes)
        yield f"#sizes(({tables}))"


def _tell_engine(matter: DossierMatter) -> Iterator[str]:
    yield from _set([Heading("What it is")])
    if matter.picture is not None:
        yield from _set([Pictures((matter.picture,))])
    if matter.about:
        yield _set_facts("", matter.about)
    yield from _set(Paragraph(line) for line in _list_lines(matter.notes))
    if matter.cautions:
        yield from _set([Cautions(matter.cautions)])


def _set_facts(title: str, rows: Rows) -> str:
    return f"#facts({quote_text(title)}, {_quote_narrow(rows)})"


def _set_sizes(table: SizeTable) -> str:
    rows = _quote_narrow(table.rows)
    whole = "true" if len(rows) < _SHORT else "false"
    return f"({_quote_word(clip_text(table.title, _TITLE))}, {rows}, {whole}), "


def _quote_narrow(rows: Iterable[tuple[str, str]]) -> str:
    """Quote rows for narrow columns: a word that might not find room on a line may be broken."""
    return "(" + "".join(f"({_quote_word(name)}, {_quote_word(value)}), " for name, value in rows) + ")"


def _quote_word(words: str) -> str:
    is_wide = any(len(word) > _LONG_WORD for word in words.split())
    return quote_text(words, _PIECE) if is_wide else quote_text(words)


def _set(blocks: Iterable[Block]) -> Iterator[str]:
    return (set_block(block) for block in blocks)


def _set_entry(entry: DossierEntry, pages: _Pages) -> str:
    marks = [
        word for word in (entry.hour, entry.spent, {"open": "OPEN JOB", "closed": "job done"}.get(entry.job)) if word
    ]
    notes = [("Parts", ", ".join(entry.parts_used))] if entry.parts_used else []
    photographs = "".join(pages.lay_photo(photo) for photo in entry.photographs)
    lines = "".join(f"{quote_text(line)}, " for line in _list_lines(entry.text))
    marked = "".join(f"{quote_text(mark)}, " for mark in marks)
    rows = _quote_narrow([*entry.readings, *notes])
    # A short entry stays on one page with its photographs.
    letters = len(entry.text) + len(rows)
    is_short = letters < _SHORT and len(entry.readings) <= _FEW and len(entry.photographs) <= _FEW_PHOTOGRAPHS
    whole = "true" if is_short else "false"
    return f"#entry({quote_text(entry.day)}, ({marked}), ({lines}), {rows}, ({photographs}), {whole})"


def _list_lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if line.strip()]
