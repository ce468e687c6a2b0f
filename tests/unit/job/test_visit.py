"""A visit works everything out once, refuses flawed records, and puts its papers on disk without harming the record."""

from __future__ import annotations

import dataclasses
import datetime
from functools import cached_property
from pathlib import Path

import pytest

from lapwright.errors import CannotSave, FlawedRecord
from lapwright.findings import find_faults
from lapwright.job.figures import flatten_figures
from lapwright.job.papers import gather_matter, write_papers
from lapwright.job.results import list_results
from lapwright.job.visit import Visit, examine, examine_opened
from lapwright.motion.answers import describe_motion
from lapwright.record import read_record
from tests.unit.papers.matters import EXAMPLES, NAMES, card_of, cylinder, examine_demo, visit_of

ANSWERS = tuple(name for name, each in vars(Visit).items() if isinstance(each, cached_property))
FLAWED = b'format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\nbore = 19.05\n'


def test_each_answer_is_worked_out_on_first_use_and_kept() -> None:
    # Not the visit that the tests share: somebody may have asked it already.
    visit = examine(EXAMPLES / "tern.toml")
    assert set(ANSWERS) >= {"motions", "spreads", "findings", "cures", "gaps", "assumed", "aim", "setting"}
    assert not set(ANSWERS) & set(vars(visit))
    for name in ANSWERS:
        assert getattr(visit, name) is getattr(visit, name)
    assert set(ANSWERS) <= set(vars(visit))


def test_asking_in_another_order_gives_the_same_answers() -> None:
    one, other = examine(EXAMPLES / "tern.toml"), examine(EXAMPLES / "tern.toml")
    for name in ANSWERS:
        getattr(one, name)
    for name in reversed(ANSWERS):
        getattr(other, name)
    assert list_results(one) == list_results(other)
    card, again = card_of(one), card_of(other)
    # Runs hold arrays, which do not compare as a whole; their figures are among the results.
    for name in {field.name for field in dataclasses.fields(card)} - {"runs"}:
        assert getattr(card, name) == getattr(again, name), name


@pytest.mark.parametrize("name", NAMES)
def test_a_visit_answers_for_every_cylinder_of_its_record(name: str) -> None:
    visit = examine_demo(name)
    names = [sizes.name for sizes in visit.engine.cylinders]
    assert list(visit.motions) == list(visit.spreads) == list(visit.setting) == names
    # A run weighs what was found from sizes; it neither adds to it nor takes from it.
    found = {(finding.cylinder, finding.code) for finding in find_faults(visit.engine)}
    assert {(finding.cylinder, finding.code) for finding in visit.findings} == found
    assert {cure.cylinder for cure in visit.cures} <= set(names)
    assert [each["name"] for each in list_results(visit)["cylinders"]] == names


def test_results_of_any_two_engines_have_the_same_shape() -> None:
    whole = list_results(visit_of(cylinder()))
    bare = list_results(visit_of(cylinder(**dict.fromkeys(("length", "throw", "stroke", "bore", "steam_port")))))
    assert whole.keys() == bare.keys()
    known, unknown = whole["cylinders"][0], bare["cylinders"][0]
    assert known.keys() == unknown.keys()
    for end in ("head", "crank"):
        assert known["ends"][end].keys() == unknown["ends"][end].keys()
        assert known["ends"][end]["events"].keys() == unknown["ends"][end]["events"].keys()
    assert unknown["ends"]["head"]["events"]["cut_off"] == {"crank_deg": None, "stroke_percent": None}


def test_a_flawed_record_is_refused_with_its_problems(tmp_path: Path) -> None:
    record = read_record(FLAWED)
    with pytest.raises(FlawedRecord) as refused:
        examine_opened(record)
    assert [problem.code for problem in refused.value.problems] == ["no-unit"]
    (tmp_path / "wren.toml").write_bytes(FLAWED)
    with pytest.raises(FlawedRecord, match=r"wren\.toml"):
        examine(tmp_path / "wren.toml")


def test_figures_are_those_of_the_motion_and_leave_out_what_is_not_one_number() -> None:
    motion = describe_motion(cylinder())
    figures = flatten_figures(motion)
    assert figures["crank.lead_mm"] == motion.ends["crank"].lead_mm
    assert figures["crank.release.stroke_percent"] == motion.ends["crank"].events["release"].stroke_percent[0]
    assert len(figures) >= 2 * (3 + 8) + 2
    # A throw of 0.2 mm never carries the valve over its lap of 0.3 mm.
    short = flatten_figures(describe_motion(cylinder(throw=0.2)))
    assert "head.cut_off.crank_deg" not in short
    assert short["valve_travel_mm"] == pytest.approx(0.4, abs=1e-3)
    # A throw of 11 mm carries the far end of the 12 mm valve over the port as well: it opens and shuts twice a turn.
    long = describe_motion(cylinder(throw=11.0))
    twice = [name for name, times in long.ends["head"].events.items() if len(times.crank_deg or ()) == 2]
    assert twice
    assert not any(f"head.{name}.crank_deg" in flatten_figures(long) for name in twice)


def test_papers_are_written_where_they_are_asked_for_and_dated_today(tmp_path: Path) -> None:
    card, page = tmp_path / "card.pdf", tmp_path / "card.html"
    assert write_papers(examine_demo("knot"), card=card, html=page, paper="letter") == [card, page]
    assert card.read_bytes().startswith(b"%PDF")
    assert datetime.date.today().isoformat() in page.read_text(encoding="utf-8")
    assert write_papers(examine_demo("knot"), card=None, html=None, paper="a4") == []


def test_papers_never_replace_the_record(tmp_path: Path) -> None:
    record, link = tmp_path / "knot.toml", tmp_path / "same.pdf"
    record.write_bytes((EXAMPLES / "knot.toml").read_bytes())
    link.symlink_to(record)
    before = record.read_bytes()
    visit = examine(record)
    for path in (record, link, tmp_path / "." / "knot.toml"):
        with pytest.raises(CannotSave, match="the record itself"):
            write_papers(visit, card=path, html=None, paper="a4")
        with pytest.raises(CannotSave, match="the record itself"):
            write_papers(visit, card=tmp_path / "card.pdf", html=path, paper="a4")
    assert record.read_bytes() == before
    assert not (tmp_path / "card.pdf").exists()


def test_papers_that_cannot_be_written_are_refused_in_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(CannotSave, match="it is a folder"):
        write_papers(examine_demo("knot"), card=tmp_path, html=None, paper="a4")
    with pytest.raises(CannotSave, match="No such file"):
        write_papers(examine_demo("knot"), card=tmp_path / "no" / "card.pdf", html=None, paper="a4")


def test_the_card_says_what_the_visit_says() -> None:
    visit = examine_demo("tern")
    matter = gather_matter(visit, date="2026-11-25")
    assert (matter.findings, matter.cures, matter.before) == (visit.findings, visit.cures, visit.motions)
    assert (matter.record_name, matter.record_digest) == ("tern.toml", visit.record.digest)
    assert len(matter.not_known) == len(visit.gaps)
    assert set(matter.setting) == set(visit.motions)
