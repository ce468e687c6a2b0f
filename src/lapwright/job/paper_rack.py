"""The papers of an engine, each by its name: what there is, and each as PDF, as a page or as a picture."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from lapwright.errors import CannotSave, NotThere
from lapwright.job.cure.choosing import visit_as_chosen
from lapwright.job.papers import gather_matter
from lapwright.job.shelf.workshop import Workshop
from lapwright.job.visit import Visit
from lapwright.papers.card import WIDTHS, card_bytes
from lapwright.papers.drawing import Drawing
from lapwright.papers.kinds import KINDS
from lapwright.papers.matter import CardMatter
from lapwright.papers.page import page_style, page_text, sheet_page, sheet_style
from lapwright.papers.single_sheet import SHEETS, draw_sheet, sheet_bytes
from lapwright.papers.svg import svg_text

#: The sizes of paper.
SIZES: Final = tuple(WIDTHS)
#: How the papers are called in the names of files.
_FILE_NAMES: Final[Mapping[str, str]] = {"card": "job-card", "run": "pressure-cards"}
_MEDIA: Final[Mapping[str, str]] = {"pdf": "application/pdf", "html": "text/html", "svg": "image/svg+xml"}


@dataclass(frozen=True, slots=True)
class PaperName:
    """One paper of an engine: its key, of which kind it is, its title, and of a drawing the cylinder.

    `forms` are those in which it is had.
    """

    key: str
    kind: str
    title: str
    cylinder: str = ""
    forms: tuple[str, ...] = ("pdf", "html")


@dataclass(frozen=True, slots=True)
class MadePaper:
    """A paper as it goes out: the name of its file, its media type, its bytes, and of a page the style it carries."""

    file_name: str
    media_type: str
    data: bytes
    style: str = ""


@dataclass(frozen=True, slots=True)
class Missing:
    """A drawing for which too little is known: its title, and what is wanting."""

    title: str
    reasons: tuple[str, ...]


def list_papers(cylinders: tuple[str, ...]) -> tuple[PaperName, ...]:
    """List the papers of an engine, those that can be read first, then the drawings of each cylinder.

    Parameters
    ----------
    cylinders: by their names
    """
    read = (PaperName(kind, kind, each.title) for kind, each in KINDS.items())
    many = len(cylinders) > 1
    drawn = (
        PaperName(f"{kind}-{place}", kind, title, name if many else "", ("pdf", "svg", "html"))
        for place, name in enumerate(cylinders, 1)
        for kind, (title, _) in SHEETS.items()
    )
    return (*read, *drawn)


def make_paper(workshop: Workshop, engine: str, key: str, *, form: str, size: str) -> MadePaper | Missing:
    """Make one of an engine's papers, or say what is wanting for it; it follows the cures that were chosen.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine
    key: of the paper
    form: "pdf", "html" or "svg"
    size: one of `SIZES`; of a page that is read it does not matter

    Raises
    ------
    NotThere: there is no such engine, paper or form of it
    FlawedRecord: the record has errors; they are listed in its `problems`
    """
    visit = _visit(workshop, engine)
    names = tuple(sizes.name for sizes in visit.engine.cylinders)
    paper = next((each for each in list_papers(names) if each.key == key and form in each.forms), None)
    if paper is None or size not in SIZES:
        raise NotThere("such paper", "choose one of those that the page of papers lists")
    matter = gather_matter(visit, date=date.today().isoformat())
    file_name = _name_file(engine, paper, form=form, size=size)
    if paper.kind in KINDS:
        return _make_read(matter, paper.kind, form=form, size=size, file_name=file_name)
    cylinder = names[int(key.rpartition("-")[2]) - 1]
    sheet = draw_sheet(matter, paper.kind, cylinder, paper=size)
    if sheet is None:
        return Missing(paper.title, _list_missing(visit, matter, kind=paper.kind, cylinder=cylinder))
    return _make_drawn(sheet, form, file_name)


def _visit(workshop: Workshop, engine: str) -> Visit:
    try:
        return visit_as_chosen(workshop, engine)
    except CannotSave:
        # In a folder that cannot be written to nothing was chosen.
        return workshop.visit(engine)


def _make_read(matter: CardMatter, kind: str, *, form: str, size: str, file_name: str) -> MadePaper:
    if form == "html":
        return MadePaper(file_name, _MEDIA[form], page_text(matter, kind=kind).encode(), page_style())
    return MadePaper(file_name, _MEDIA[form], card_bytes(matter, paper=size, kind=kind))


def _make_drawn(sheet: Drawing, form: str, file_name: str) -> MadePaper:
    make: dict[str, Callable[[Drawing], bytes]] = {
        "pdf": sheet_bytes,
        "svg": lambda drawing: svg_text(drawing).encode(),
        "html": lambda drawing: sheet_page(drawing).encode(),
    }
    return MadePaper(file_name, _MEDIA[form], make[form](sheet), sheet_style() if form == "html" else "")


def _name_file(engine: str, paper: PaperName, *, form: str, size: str) -> str:
    name = _FILE_NAMES.get(paper.kind, paper.kind)
    place = paper.key.rpartition("-")[2] if paper.cylinder else ""
    return f"{'-'.join(filter(None, (engine, name, place, size if form == 'pdf' else '')))}.{form}"


def _list_missing(visit: Visit, matter: CardMatter, *, kind: str, cylinder: str) -> tuple[str, ...]:
    """What to measure for the drawings of a cylinder, or why it does not run."""
    if kind == "run" and visit.no_run:
        return (visit.no_run,)
    told = (gap.because.removeprefix("not known, ") for gap in visit.gaps if gap.cylinder == cylinder)
    return tuple(dict.fromkeys(told)) or tuple(why for _, why in matter.not_known)
