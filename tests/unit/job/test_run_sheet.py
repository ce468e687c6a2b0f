"""What a page tells of a run agrees with the run, and what is missing for one is named by its keys."""

from __future__ import annotations

from pathlib import Path

import pytest

from lapwright.errors import CannotRun, NotOneOf
from lapwright.job.run.sheet import list_missing, tell_run_of
from lapwright.job.run.stand import Asked
from lapwright.job.visit import examine

EXAMPLES = Path(__file__).parents[3] / "examples"


def test_the_power_comes_down_from_full_cards_to_the_shaft() -> None:
    told = tell_run_of(examine(EXAMPLES / "tern.toml"), Asked(pressure="1.5 bar", speed="400 rpm"))
    assert told.pressure == pytest.approx(1.5)
    assert (told.unit, round(told.speed_rpm)) == ("bar", 400)
    figures = {words: float(value) for words, value, _ in told.losses.rows}
    lost = sum(
        figures[name] for name in figures if name not in ("full cards", "on the pistons", "friction", "at the shaft")
    )
    assert figures["full cards"] + lost == pytest.approx(figures["on the pistons"], abs=0.06)
    assert figures["on the pistons"] + figures["friction"] == pytest.approx(figures["at the shaft"], abs=0.02)
    flows = {words: float(value) for words, value, _ in told.uses.rows}
    assert sum(flows.values()) - flows["in all"] == pytest.approx(flows["in all"], rel=0.01)


def test_a_load_tells_the_speed_that_it_settles_at() -> None:
    told = tell_run_of(examine(EXAMPLES / "tern.toml"), Asked(pressure="30 psi", load="0.5 N m"))
    assert told.settles
    assert told.unit == "psi"
    assert told.pressure == pytest.approx(30)
    assert told.racing == ()


def test_what_a_run_wants_is_named_by_its_keys() -> None:
    visit = examine(EXAMPLES / "knot.toml")
    assert list_missing(visit) == (("A", ("valve.cavity",)),)
    with pytest.raises(CannotRun):
        tell_run_of(visit, Asked())
    assert list_missing(examine(EXAMPLES / "tern.toml")) == ()
    with pytest.raises(NotOneOf):
        tell_run_of(examine(EXAMPLES / "tern.toml"), Asked(fluid="water"))
