"""Every published figure is held against what the program works out, and the page says so."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from lapwright.sources import SOURCES
from tests.house.reading import TOP
from tests.published.figure import CORRECTED, DISAGREES, EXPLAINED, Figure, judge
from tests.published.ids import IDS
from tests.published.not_compared import LEFT
from tests.published.page import KINDS, ROWS, work_out, write_page

PAGE = TOP / "docs" / "reference" / "agreement.md"
CASES = [pytest.param(figure, id=f"{row.id}: {figure.what}") for row in ROWS for figure in row.figures]


@pytest.mark.parametrize("figure", CASES)
def test_a_published_figure_is_met(figure: Figure) -> None:
    ours = work_out(figure)
    assert judge(figure, ours) != DISAGREES, f"theirs {figure.theirs}, ours {ours}"


def test_what_misses_the_sources_rounding_is_explained_and_a_misprint_is_corrected() -> None:
    for row in ROWS:
        verdicts = {judge(figure, work_out(figure)) for figure in row.figures}
        if verdicts & {EXPLAINED, CORRECTED}:
            assert row.note, row.id
        if row.kind == "erratum":
            assert verdicts == {CORRECTED}, row.id


@pytest.mark.parametrize(
    ("figure", "ours", "verdict"),
    [
        (Figure(what="", theirs=1.0, ours=float, within=0.1), 1.2, DISAGREES),
        (Figure(what="", theirs=1.0, ours=float, within=0.1, explained=0.5), 1.2, EXPLAINED),
        (Figure(what="", theirs=1.0, ours=float, within=0.01, printed=2.0), 2.0, DISAGREES),
        (Figure(what="", theirs=1.0, ours=float, within=0.01, printed=1.02), 1.0, DISAGREES),
        (Figure(what="", theirs=(1.0, 2.0), ours=float), 2.1, DISAGREES),
        (Figure(what="", theirs="later", ours=str), "earlier", DISAGREES),
        (Figure(what="", theirs=1.0, ours=float, within=0.1), float("nan"), DISAGREES),
    ],
)
def test_a_figure_that_is_off_is_noticed(figure: Figure, ours: float | str, verdict: str) -> None:
    assert judge(figure, ours) == verdict


def test_every_gathered_place_is_accounted_for_once() -> None:
    assert len(IDS) == len(set(IDS)) == 190
    on_page = re.findall(r"^\| ([A-Z]\S*) \|", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    assert Counter(on_page) - Counter(["Id"] * on_page.count("Id")) == Counter(IDS)


def test_every_row_names_a_source_of_the_shelf_and_its_kind() -> None:
    assert {row.source for row in ROWS} | {left.source for left in LEFT} <= SOURCES.keys()
    assert {row.kind for row in ROWS} == KINDS.keys()
    assert all(row.figures and row.locator for row in ROWS)


def test_the_page_is_what_would_be_written_now() -> None:
    """Word for word; a run's figures may differ in their last digit from one kind of processor to the next."""
    number = re.compile(r"\d+\.\d+")
    printed, now = PAGE.read_text(encoding="utf-8"), write_page()
    assert number.split(printed) == number.split(now), "run `make docs`"
    for old, new in zip(number.findall(printed), number.findall(now), strict=True):
        assert float(old) == pytest.approx(float(new), abs=1.1 * 10.0 ** -len(old.partition(".")[2])), "run `make docs`"
