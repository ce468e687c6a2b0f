"""The card and the page of a visit, put on disk."""

from __future__ import annotations

import datetime
import os
from pathlib import Path

from lapwright.errors import CannotSave
from lapwright.job.visit import Visit
from lapwright.papers.card import write_card
from lapwright.papers.matter import CardMatter, Section
from lapwright.papers.page import write_page

#: Cautions that hold for all work on an engine, whatever is done.
CAUTIONS = (
    "Compressed air and steam store energy: keep to the pressure the weakest part is known to stand, wear eye "
    "protection, and "
    "never lean over a cover under pressure. This card says nothing of the soundness of boiler, chest or "
    "cylinder: that is for the "
    "local rules, the inspector and the insurer.",
    "Before turning the engine by hand shut off and vent the supply; keep fingers, sleeves and rags out of rods "
    "and flywheel.",
    "Old packing and lagging may hold asbestos, old paint lead: make no dust, and follow the local rules.",
)

_NOT_MEASURED = "Measure it, and write the sizes as made into the record."


def write_papers(visit: Visit, *, card: Path | None, html: Path | None, paper: str) -> list[Path]:
    """Write the job card as PDF, as a web page, or both; return what was written.

    Raises
    ------
    CannotSave: the file system says no
    """
    matter = gather_matter(visit, date=datetime.date.today().isoformat())
    written = [path for path in (card, html) if path is not None]
    for path in written:
        _check_place(visit, path)
    try:
        if card is not None:
            write_card(matter, card, paper=paper)
        if html is not None:
            write_page(matter, html)
    except OSError as error:
        raise CannotSave(" and ".join(map(str, written)), error.strerror or "unknown reason") from error
    return written


def _check_place(visit: Visit, path: Path) -> None:
    """Refuse to write a paper over the record it is made from, which a slip of the keys can ask for."""
    if path.is_dir():
        raise CannotSave(str(path), "it is a folder")
    if path.exists() and visit.record.source and os.path.samefile(path, visit.record.source):
        raise CannotSave(str(path), "it is the record itself")


def gather_matter(visit: Visit, *, date: str) -> CardMatter:
    """Return everything that goes on a visit's card.

    Parameters
    ----------
    visit: the engine with its answers
    date: as it shall be printed, year-month-day
    """
    # The running engine is heavy, and the bench opens without it.
    from lapwright.job.run.papers import gather_runs

    runs, no_run = gather_runs(visit)
    not_known = [(f"Cylinder {gap.cylinder}, {gap.words}", gap.because) for gap in visit.gaps]
    not_known += [(f"Cylinder {name}", f"{told} {_NOT_MEASURED}") for name, told in visit.told_done.items()]
    if runs is None:
        not_known.append(("How it runs", no_run))
    return CardMatter(
        engine=visit.engine,
        record_name=Path(visit.record.source).name,
        record_digest=visit.record.digest,
        date=date,
        before=visit.motions,
        sizes={sizes.name: sizes for sizes in visit.cylinders},
        problems=visit.record.problems,
        assumed=visit.assumed,
        not_known=tuple(not_known),
        aim=visit.aim,
        findings=visit.findings,
        cures=visit.cures,
        setting={
            name: tuple(Section(part.title, part.steps) for part in parts) for name, parts in visit.setting.items()
        },
        spread=visit.spreads,
        cautions=CAUTIONS,
        runs=runs,
        part_findings=visit.part_findings,
        part_cures=visit.part_cures,
        finish=visit.finish,
        have_ready=visit.have_ready,
    )
