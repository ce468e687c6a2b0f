"""A cure tried with figures of one's own, and what was chosen kept in the log book."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from datetime import datetime
from math import radians
from pathlib import Path

import pytest

from lapwright.cures import Cure
from lapwright.errors import DoesNotFit, NotThere
from lapwright.job.cure.choosing import accept_cure, drop_choice, find_cure, list_choices, remake, visit_as_chosen
from lapwright.job.cure.cure_trial import draw_trial, list_figures_of, list_rows, read_figures, try_cure
from lapwright.job.papers import gather_matter
from lapwright.job.run.rows import list_run_rows
from lapwright.job.shelf.workshop import Workshop, open_workshop
from lapwright.job.visit import Visit, examine

EXAMPLES = Path(__file__).parents[3] / "examples"
NOW = datetime(2026, 3, 2, 9, 0)
LATER = datetime(2026, 3, 2, 10, 0)
LENGTH, ANGLE = "valve.length", "valve_drive.eccentric_angle"


@pytest.fixture(scope="module")
def tern() -> Visit:
    return examine(EXAMPLES / "tern.toml")


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    for name in ("tern", "knot"):
        shutil.copy(EXAMPLES / f"{name}.toml", tmp_path)
    opened = open_workshop(tmp_path, clock=lambda: NOW)
    yield opened
    opened.close()


def shorten(visit: Visit) -> Cure:
    return find_cure(visit, "A", "shorten-valve")


def test_a_trial_runs_the_engine_with_the_figures_tried(tern: Visit) -> None:
    cure = shorten(tern)
    as_it_is, tried = try_cure(tern, cure, {}), try_cure(tern, cure, {LENGTH: 13.0e-3})
    assert as_it_is.cure is cure
    assert tried.cure.changes == {LENGTH: 13.0e-3}
    assert tried.after is not None
    assert as_it_is.after is not None
    assert as_it_is.found is not None
    # The valve that is cut less leaves more of what was gained undone.
    powers = [showing.run.brake_power for showing in (as_it_is.found, tried.after, as_it_is.after)]
    assert powers == sorted(powers)


def test_both_valves_of_a_pair_gain_more_than_one(tern: Visit) -> None:
    cure = shorten(tern)
    alone, both = try_cure(tern, cure, {}), try_cure(tern, cure, {LENGTH: 12.5e-3}, together=True)
    assert [other.cylinder for other in both.others] == ["B"]
    assert both.others[0].changes == {LENGTH: 12.5e-3}
    assert both.after is not None
    assert alone.after is not None
    assert both.after.run.brake_power > alone.after.run.brake_power


def test_one_table_tells_the_run_and_the_events_and_pictures_go_with_it(tern: Visit) -> None:
    trial = try_cure(tern, shorten(tern), {})
    header, rows = list_rows(trial)
    assert header == ("", "as found", "after the cure")
    assert {len(row) for row in rows} == {3}
    words = [row[0] for row in rows]
    assert "Turns over slowly at" in words
    assert "Head end: cut-off" in words
    assert [drawing.about for drawing in draw_trial(trial, width=120.0)] == [
        "Pressure card, head end",
        "Pressure card, crank end",
        "Port openings against crank angle",
        "Torque at rest, against crank angle",
    ]


def test_an_engine_that_cannot_be_run_still_shows_its_events() -> None:
    visit = examine(EXAMPLES / "knot.toml")
    trial = try_cure(visit, visit.cures[0], {})
    assert "valve.cavity" in trial.no_run
    assert "Head end: cut-off" in [row[0] for row in list_rows(trial)[1]]
    assert len(draw_trial(trial, width=120.0)) == 1


def test_a_valve_that_is_cut_cannot_be_moved_beyond_its_metal(tern: Visit) -> None:
    (figure,) = list_figures_of(tern, shorten(tern), now={})
    assert (figure.key, figure.unit) == (LENGTH, "mm")
    assert figure.found == pytest.approx(13.64)
    assert figure.high == figure.found
    assert figure.low < 12.0 < figure.high
    with pytest.raises(DoesNotFit):
        remake(tern, shorten(tern), {LENGTH: 14.0e-3})


def test_figures_are_read_as_the_page_sends_them(tern: Visit) -> None:
    figures = list_figures_of(tern, find_cure(tern, "A", "turn-eccentric"), now={})
    for text in ("110.5", " 110.5 deg", "110.5°"):
        read = read_figures(figures, {ANGLE: text, "code": "turn-eccentric"})
        assert (read.figures, read.problems) == ({ANGLE: pytest.approx(radians(110.5))}, ())


@pytest.mark.parametrize(
    ("text", "message", "instead"),
    [
        ("14 mm", '"14 mm" is outside of what this cure allows', "write a figure between 11.18 and 13.64 mm"),
        ("14", '"14" is outside of what this cure allows', "write a figure between 11.18 and 13.64 mm"),
        ("13,5", "has a comma in the number", 'write the decimals after a point: "13.5 mm"'),
        ("forty", "forty", ""),
        ("", "no figure is written", "12.00 mm"),
        ("nan", "not a figure", ""),
        ("1e4", "is outside of", "between 11.18 and 13.64 mm"),
        ("12 deg", "", ""),
    ],
)
def test_a_figure_that_cannot_be_is_refused_with_the_true_reason(
    tern: Visit, text: str, message: str, instead: str
) -> None:
    read = read_figures(list_figures_of(tern, shorten(tern), now={}), {LENGTH: text})
    (problem,) = read.problems
    assert (read.figures, problem.field) == ({}, LENGTH)
    assert message in problem.message
    assert instead in problem.instead
    assert "check the figure and its unit" not in problem.instead


def test_brackets_that_do_not_tell_two_figures_apart_are_left_out(tern: Visit) -> None:
    trial = try_cure(tern, shorten(tern), {LENGTH: 13.5e-3})
    assert trial.found is not None
    assert trial.after is not None
    for name, *cells in list_run_rows(trial.found, trial.after):
        brackets = [re.findall(r"\(.*?\)", cell) for cell in cells]
        assert cells[0] == cells[1] or brackets == [[], []] or brackets[0] != brackets[1], name


def test_a_choice_comes_back_with_its_figures_and_goes_before_the_others(workshop: Workshop) -> None:
    visit = workshop.visit("tern")
    cure = remake(visit, find_cure(visit, "A", "turn-eccentric"), {ANGLE: radians(110.0)})
    entry = accept_cure(workshop, "tern", cure, now=NOW)
    assert entry.job == "open"
    assert "110.0 deg" in entry.text
    chosen = visit_as_chosen(workshop, "tern")
    assert (chosen.cures[0].code, chosen.cures[0].cylinder) == ("turn-eccentric", "A")
    assert chosen.cures[0].changes[ANGLE] == pytest.approx(radians(110.0), abs=1e-4)
    assert chosen.cures[0].gain
    assert len(chosen.cures) == len(visit.cures)
    card = gather_matter(chosen, date="2026-03-02")
    assert next(each for each in card.cures if each.cylinder == "A").steps == chosen.cures[0].steps
    assert next(each for each in card.cures if each.cylinder == "B").code == "shorten-valve"


def test_another_choice_takes_the_place_of_the_first_and_can_be_taken_back(workshop: Workshop) -> None:
    visit = workshop.visit("tern")
    accept_cure(workshop, "tern", find_cure(visit, "A", "turn-eccentric"), now=NOW)
    accept_cure(workshop, "tern", find_cure(visit, "A", "new-valve"), now=LATER)
    accept_cure(workshop, "tern", find_cure(visit, "B", "new-valve"), now=LATER)
    assert {name: choice.code for name, choice in list_choices(workshop, "tern").items()} == {
        "A": "new-valve",
        "B": "new-valve",
    }
    assert len(workshop.log.find_entries(engine="tern")) == 2
    drop_choice(workshop, "tern", "A")
    assert set(list_choices(workshop, "tern")) == {"B"}
    drop_choice(workshop, "tern", "A")


def test_what_the_record_no_longer_allows_is_passed_over(workshop: Workshop) -> None:
    visit = workshop.visit("tern")
    accept_cure(workshop, "tern", find_cure(visit, "A", "shorten-valve"), now=NOW)
    record = workshop.open_engine("tern")
    workshop.change("tern", "cylinder.0.valve.length", "12.00 mm", digest=record.digest, seen="13.64 ± 0.02 mm")
    after = visit_as_chosen(workshop, "tern")
    assert "shorten-valve" not in [cure.code for cure in after.cures if cure.cylinder == "A"]
    assert set(list_choices(workshop, "tern")) == {"A"}
    with pytest.raises(NotThere):
        find_cure(after, "A", "shorten-valve")
