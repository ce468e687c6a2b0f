"""Parts and paint through a whole visit: without a run, with sizes that nobody gave, and with every wish for paint."""

from __future__ import annotations

import re

import pytest

from lapwright.engine.engine import Engine
from lapwright.engine.parts import LETTERINGS, METALS, Finish
from lapwright.engine.running import Running
from lapwright.job.finishing import list_finish, list_painting_assumed, plan_painting
from lapwright.job.results import list_results
from lapwright.job.visit import Visit, examine_opened
from lapwright.record import read_record
from lapwright.tables.paints import list_paint_rows
from tests.unit.papers.matters import EXAMPLES

TURNSTONE = (EXAMPLES / "turnstone.toml").read_text(encoding="utf-8")


def visit_without(*keys: str) -> Visit:
    """The Turnstone with lines left out of her record."""
    text = TURNSTONE
    for key in keys:
        text, count = re.subn(rf"^{key} = .*\n", "", text, flags=re.MULTILINE)
        assert count
    return examine_opened(read_record(text.encode()))


@pytest.mark.parametrize(
    ("missing", "unsaid"),
    [("stroke", set()), ("bore", {"stud-overloaded"})],
)
def test_an_engine_that_cannot_run_still_tells_of_its_parts(missing: str, unsaid: set[str]) -> None:
    visit = visit_without(missing)
    assert visit.ground is None
    assert visit.loads == {}
    known = {"gland-leaks", "thread-worn", "thread-as-bearing", "stud-overloaded"}
    assert {finding.code for finding in visit.part_findings} == known - unsaid
    assert len(visit.part_cures) == len(visit.part_findings)
    # What a screw has to hold is told by a run alone.
    assert not any("the run puts" in note for cure in visit.part_cures for note in cure.notes)


def test_what_nobody_gave_of_the_parts_stands_among_the_assumptions() -> None:
    visit = visit_without("stroke", "hole_material", "engagement", "joint_outside", "thread_is", "box_depth", "runs_in")
    keys = {assumed.key for assumed in visit.assumed}
    assert keys >= {
        "fastener.1.hole_material",
        "fastener.1.engagement",
        "fastener.2.joint_outside",
        "fastener.2.thread_is",
        "cylinder.A.gland.1.box_depth",
        "cylinder.A.gland.2.box_depth",
        "pin.1.runs_in",
        "pin.1.diameter",
        "finish.temperature",
    }
    assert {each["key"] for each in list_results(visit)["assumed"]} == keys


def make_engine(**finish: object) -> Engine:
    given = {"part": "bed", "metal": "cast iron", **finish}
    return Engine(name="Dunlin", cylinders=(), fluid="steam", supply_pressure=3e5, finish=Finish(**given))  # type: ignore[arg-type]


@pytest.mark.parametrize("paint", [None, *(row.name for row in list_paint_rows())])
@pytest.mark.parametrize("temperature", [None, 293.15, 423.15, 923.15])
def test_every_paint_of_the_tables_may_be_wished_for(paint: str | None, temperature: float | None) -> None:
    plan = plan_painting(make_engine(paint=paint, temperature=temperature, surface=0.05))
    assert plan is not None
    assert plan.steps
    assert plan.paint == paint or paint is None or plan.instead_of == paint
    assert list_finish(plan)["why"] == plan.why


def test_a_primer_is_no_last_coat() -> None:
    plan = plan_painting(make_engine(paint="single-pack etch primer"))
    assert plan is not None
    assert plan.instead_of == "single-pack etch primer"
    assert plan.why.startswith("Single-pack etch primer is a primer and no last coat. ")
    assert plan.paint == "oil/styrene aluminium heat paint"


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("lettering", LETTERINGS)
def test_every_metal_and_lettering_is_painted(metal: str, lettering: str) -> None:
    for old_paint in (False, True):
        plan = plan_painting(make_engine(metal=metal, lettering=lettering, old_paint=old_paint, bright=("flanges",)))
        assert plan is not None
        assert plan.steps


@pytest.mark.parametrize(
    ("fluid", "pressure", "supply", "celsius", "whose"),
    [
        # 4.013 bar abs boils at 143.7 degC, 1.013 at 100; nothing boils over 220.64 bar, at 373.9 degC.
        ("steam", 3e5, None, 143.7, "the steam"),
        ("steam", None, None, 100.0, "steam at the atmosphere's pressure, for no other is given"),
        ("steam", 4e7, None, 373.9, "the steam"),
        ("steam", 3e5, 473.15, 200.0, "the steam"),
        ("air", 3e5, None, 20.0, "the room"),
        ("air", 3e5, 423.15, 150.0, "the air that arrives"),
        (None, None, None, 20.0, "the room"),
    ],
)
def test_a_part_is_as_warm_as_what_arrives(
    fluid: str | None, pressure: float | None, supply: float | None, celsius: float, whose: str
) -> None:
    engine = Engine(
        name="Dunlin",
        cylinders=(),
        fluid=fluid,
        supply_pressure=pressure,
        running=Running(supply_temperature=supply),
        finish=Finish(part="bed", metal="cast iron"),
    )
    plan = plan_painting(engine)
    assert plan is not None
    assert plan.temperature - 273.15 == pytest.approx(celsius, abs=0.06)
    (assumed,) = list_painting_assumed(engine)
    assert (assumed.key, assumed.because) == ("finish.temperature", f"not given: taken as that of {whose}")


def test_nothing_asked_for_is_nothing_planned() -> None:
    engine = Engine(name="Dunlin", cylinders=())
    assert plan_painting(engine) is None
    assert list_painting_assumed(engine) == ()
    assert list_painting_assumed(make_engine(temperature=300.0)) == ()
