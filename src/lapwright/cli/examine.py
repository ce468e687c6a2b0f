"""`lapwright examine`: the main job, from a record to findings, cures and the card."""

from __future__ import annotations

import enum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.visit import Visit


class Paper(enum.StrEnum):
    """Sheet sizes a card can be set on."""

    a4 = "a4"
    letter = "letter"


def run(
    record: Annotated[Path, typer.Argument(help="The engine record to examine.", metavar="RECORD")],
    *,
    json: AsJson = False,
    card: Annotated[Path | None, typer.Option(help="Write the job card as PDF.", metavar="FILE.pdf")] = None,
    html: Annotated[Path | None, typer.Option(help="Write the job card as one web page.", metavar="FILE")] = None,
    paper: Annotated[Paper, typer.Option(help="Sheet size of the PDF.")] = Paper.a4,
) -> None:
    """Tell when every port opens and closes, what is wrong and why, and what to cut or set."""
    from lapwright.cli.as_json import print_json
    from lapwright.cli.problems import print_problems
    from lapwright.cli.run import warn_of_preparing
    from lapwright.job.records import open_record
    from lapwright.job.results import list_problems, list_results
    from lapwright.job.visit import examine_opened

    opened = open_record(record)
    if opened.problems:
        print_problems(opened)
    if not opened.is_sound:
        if json:
            print_json(list_problems(opened))
        raise typer.Exit(2)
    warn_of_preparing()
    visit = examine_opened(opened)
    written = _write_papers(visit, card=card, html=html, paper=paper.value)
    if json:
        print_json(list_results(visit))
        return
    from lapwright.cli.summary import summarise

    print(summarise(visit))
    for path in written:
        print(f"Written: {path}")


def _write_papers(visit: Visit, *, card: Path | None, html: Path | None, paper: str) -> list[Path]:
    if card is None and html is None:
        return []
    from lapwright.job.papers import write_papers

    return write_papers(visit, card=card, html=html, paper=paper)
