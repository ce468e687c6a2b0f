"""A visit's results: plain, complete, and the same whenever they are asked for."""

from __future__ import annotations

import json
from random import Random

import pytest

from lapwright.engine.sizes import Sizes
from lapwright.job.figures import flatten_figures
from lapwright.job.gaps import find_gaps
from lapwright.job.results import list_results
from lapwright.job.visit import Visit
from lapwright.papers.contents import list_blocks
from tests.unit.papers.matters import NAMES, card_of, examine_demo, without


def list_missing(value: object, path: str = "") -> list[str]:
    """Every place of the results that holds nothing."""
    if isinstance(value, dict):
        return [p for key, each in value.items() for p in list_missing(each, f"{path}.{key}")]
    return [path] if value is None else []


@pytest.mark.parametrize("name", NAMES)
def test_results_are_plain_json(name: str) -> None:
    text = json.dumps(list_results(examine_demo(name)), allow_nan=False)
    assert json.loads(text)["format"] == 1


def test_results_of_half_known_engines_are_plain_json_and_say_why() -> None:
    rng = Random(4)
    for _ in range(40):
        visit: Visit = examine_demo(rng.choice(NAMES))
        for key in rng.sample(sorted(visit.engine.cylinders[0].numbers), 3):
            visit = without(visit, key)
        results = list_results(visit)
        json.dumps(results, allow_nan=False)
        for cylinder in results["cylinders"]:
            missing = list_missing(cylinder["ends"])
            if any("crank_deg" in path for path in missing):
                assert results["not_known"], missing


def test_a_gap_names_the_missing_size() -> None:
    gaps = {gap.figure: gap.because for gap in find_gaps(Sizes("A", {"bore": 0.02}))}
    assert "stroke is not given" in gaps["cylinders.A.ends.*.events.*.stroke_percent"]
    assert "valve_drive.throw is not given" in gaps["cylinders.A.valve_travel_mm"]
    assert "cylinders.A.piston_area_mm2" not in gaps


def test_figures_of_a_demo_engine_are_each_one_number() -> None:
    visit = examine_demo("tern")
    figures = flatten_figures(visit.motions["A"])
    assert figures["valve_travel_mm"] == pytest.approx(4.4, abs=0.01)
    assert figures["head.cut_off.crank_deg"] == visit.motions["A"].ends["head"].events["cut_off"].crank_deg[0]
    assert visit.spreads["A"]["valve_travel_mm"].mostly_from == "valve_drive.throw"
    assert set(visit.list_culprits("A")) <= set(visit.cylinders[0].doubts)


def test_what_rests_on_an_angle_nobody_read_has_no_doubt_and_the_angle_is_to_be_measured_first() -> None:
    visit = without(examine_demo("tern"), "valve_drive.eccentric_angle")
    spreads = visit.spreads["A"]
    assert visit.list_culprits("A")[0] == "valve_drive.eccentric_angle"
    assert "valve_travel_mm" in spreads
    assert not [name for name in spreads if name.endswith((".crank_deg", ".stroke_percent", ".lead_mm"))]
    card = "".join(str(block) for block in list_blocks(card_of(visit), width=178.0))
    assert "What rests on eccentric angle is only as good as what was taken for it: measure that first." in card
