"""The page of starting: no wider than a terminal, the bar that of the arcs, the sentences that of the engine."""

from __future__ import annotations

import re

import pytest

from lapwright.cli.run_summary import WIDTH
from lapwright.cli.start_summary import NEVER, PERHAPS, STARTS, summarise_start
from lapwright.job.run.notes import list_cautions
from lapwright.job.run.stand import Asked
from lapwright.job.run.start_trial import StartTrial, try_starting
from lapwright.motion.arcs import share_of_turn
from tests.unit.job.trials import RUNNERS, visit


def page(trial: StartTrial, *, with_picture: bool = True) -> str:
    cautions = list_cautions(trial.stand.conditions.fluid, by_hand=True)
    return summarise_start(trial, cautions=cautions, with_picture=with_picture)


def start(name: str, **asked: object) -> StartTrial:
    return try_starting(visit(name), Asked(**asked))  # type: ignore[arg-type]


@pytest.mark.parametrize("name", RUNNERS)
def test_a_page_is_no_wider_than_a_terminal_and_its_bar_is_that_of_the_arcs(name: str) -> None:
    trial = start(name)
    text = page(trial)
    assert max(map(len, text.splitlines())) <= WIDTH
    assert not re.search(r"\bnan\b|None|\binf\b|-0\.0+\b|e[+-]\d\d", text)
    bar = next(line.strip() for line in text.splitlines() if re.fullmatch(f" *[{STARTS}{PERHAPS}{NEVER}]{{60}}", line))
    for mark, arcs in ((STARTS, trial.forward.starts), (PERHAPS, trial.forward.perhaps), (NEVER, trial.forward.never)):
        assert bar.count(mark) / 60 == pytest.approx(share_of_turn(arcs, turn=360.0), abs=0.07)


def test_a_twin_starts_from_every_angle() -> None:
    text = " ".join(page(start("tern")).split())
    assert "It starts by itself from every angle in the running direction." in text
    assert re.search(r"From 0\.\d\d bar on it starts from every angle\.", text)
    assert "The other way round it starts from nowhere." in text
    assert "never" not in text


def test_a_single_cylinder_has_its_dead_places() -> None:
    text = " ".join(page(start("sandpiper")).split())
    assert re.search(r"It starts by itself from 9\d % of the turn in the running direction", text)
    assert re.search(r"It never starts from 17\d to 1[89]\d and 35\d to \d deg\.", text)
    assert "No pressure starts it from every angle" in text
    assert re.search(r"Set from \d+ to 1\d\d and 1\d\d to 3\d\d deg, it also gets over the next dead place", text)


def test_an_engine_set_for_the_other_direction_is_told_both_ways() -> None:
    text = " ".join(page(start("curlew")).split())
    assert "From next to no angle does it start by itself in the running direction." in text
    assert re.search(r"It starts by itself from 8\d % of the turn the other way round", text)
    assert "It starts better the other way round: look where its eccentric stands." in text


def test_without_pressure_it_starts_from_nowhere() -> None:
    trial = start("tern", pressure="0 bar")
    assert trial.forward.never == ((0.0, 360.0),)
    assert "From next to no angle" in page(trial)


def test_a_terminal_without_the_characters_gets_the_sentences_alone() -> None:
    text = page(start("tern"), with_picture=False)
    assert STARTS not in text
    assert "starts by itself" in text
