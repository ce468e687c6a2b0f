"""A cure with figures of the person's own."""

from __future__ import annotations

from math import degrees, radians
from pathlib import Path

import pytest

from lapwright.cures.cure import Cure
from lapwright.cures.own_figures import find_objection, remake_cure, takes_figures
from lapwright.errors import DoesNotFit
from lapwright.job.visit import Visit, examine

EXAMPLES = Path(__file__).parents[3] / "examples"


def pick(visit: Visit, code: str) -> Cure:
    return next(cure for cure in visit.cures if cure.code == code)


@pytest.fixture(scope="module")
def tern() -> Visit:
    return examine(EXAMPLES / "tern.toml")


@pytest.mark.parametrize("name", ["tern", "curlew", "dunlin", "merganser", "plover"])
def test_a_cure_with_its_own_figures_is_that_cure_again(name: str) -> None:
    visit = examine(EXAMPLES / f"{name}.toml")
    assert visit.cures
    for cure in visit.cures:
        assert takes_figures(cure)
        again = remake_cure(visit.engine, visit.findings, cure, changes={})
        for part in ("code", "title", "steps", "set", "changes", "work", "left", "answers", "have_ready"):
            assert getattr(again, part) == getattr(cure, part), part


def test_steps_sizes_and_events_follow_the_figure(tern: Visit) -> None:
    cure = pick(tern, "shorten-valve")
    own = remake_cure(tern.engine, tern.findings, cure, changes={"valve.length": 12.8e-3})
    assert own.title == "Shorten the valve to 12.80 mm (0.504 in)"
    assert own.set["valve_length_mm"] == pytest.approx(12.8)
    assert "down to 12.80 mm" in own.steps[1]
    # Half of what comes off lies at each end, and so much less lap is left there.
    was, now = tern.motions["A"].laps_mm["head"].steam, own.after.laps_mm["head"].steam
    assert was is not None
    assert now == pytest.approx(was - (13.64 - 12.8) / 2)
    assert own.left == ("valve-too-long",)


def test_the_eccentric_is_turned_to_the_angle(tern: Visit) -> None:
    own = remake_cure(
        tern.engine,
        tern.findings,
        pick(tern, "turn-eccentric"),
        changes={"valve_drive.eccentric_angle": radians(110.0)},
    )
    assert own.set["turn_deg"] == pytest.approx(20.0)
    assert degrees(own.changes["valve_drive.eccentric_angle"]) == pytest.approx(110.0)
    assert "20.0 deg on, the way the engine turns" in own.steps[1]


def test_no_metal_is_put_on_and_nothing_to_do_is_no_cure(tern: Visit) -> None:
    cure = pick(tern, "shorten-valve")
    with pytest.raises(DoesNotFit, match="metal would have to be put on"):
        remake_cure(tern.engine, tern.findings, cure, changes={"valve.length": 14.0e-3})
    with pytest.raises(DoesNotFit, match="nothing would be done"):
        remake_cure(tern.engine, tern.findings, cure, changes={"valve.length": 13.64e-3})


def test_rods_that_do_not_reach_are_refused(tern: Visit) -> None:
    cure = pick(tern, "turn-eccentric+new-throw")
    with pytest.raises(DoesNotFit, match="could not be turned over"):
        remake_cure(tern.engine, tern.findings, cure, changes={"valve_drive.throw": 0.1})


def test_what_the_geometry_has_against_it_is_told(tern: Visit) -> None:
    cure = pick(tern, "turn-eccentric+new-throw")
    assert find_objection(tern.engine, cure) == ""
    own = remake_cure(tern.engine, tern.findings, cure, changes={"valve_drive.throw": 1.2e-3})
    assert find_objection(tern.engine, own) == "the travel could not uncover the port"
