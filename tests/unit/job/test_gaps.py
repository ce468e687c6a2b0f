"""What is not known is said, and what is said not to be known is not: held figure by figure against the results."""

from __future__ import annotations

import re
from collections.abc import Iterator
from random import Random
from typing import Any

import pytest

from lapwright.engine.assume import assume_missing
from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import FACE_EDGES, Sizes
from lapwright.job.gaps import find_gaps
from lapwright.job.results import list_results
from tests.property.engines import random_engine
from tests.unit.papers.matters import NAMES, cylinder, examine_demo, visit_of, without

#: Figures that have a value, or want a size of their own that only some engines have.
FREE = re.compile(r"\.(least_\w+_way_mm|chest_room_mm\.\w+|spread\.\w+)$")


def list_nulls(value: object, path: str) -> Iterator[str]:
    """Every place of the results that holds nothing."""
    if isinstance(value, dict):
        for key, each in value.items():
            yield from list_nulls(each, f"{path}.{key}")
    elif value is None:
        yield path


def covers(gap: str, path: str) -> bool:
    """Whether a figure lies under a gap: `*` is any name, and several last names stand with commas."""
    *upper, last = gap.split(".")
    pattern = r"\.".join(r"\w+" if name == "*" else re.escape(name) for name in upper)
    names = "|".join(r"\w+" if name == "*" else re.escape(name) for name in last.split(", "))
    return re.match(rf"{pattern}\.({names})(\.|$)", path) is not None


def check_gaps(results: dict[str, Any]) -> None:
    gaps = [gap["figure"] for gap in results["not_known"]]
    for each in results["cylinders"]:
        name = f"cylinders.{each['name']}"
        nulls = [path for path in list_nulls(each, name) if not FREE.search(path)]
        for path in nulls:
            assert any(covers(gap, path) for gap in gaps), path
        for gap in gaps:
            if gap.startswith(f"{name}."):
                assert any(covers(gap, path) for path in nulls), gap


@pytest.mark.parametrize("name", NAMES)
def test_of_the_demo_engines_nothing_is_null_without_a_reason(name: str) -> None:
    check_gaps(list_results(examine_demo(name)))


def test_of_half_known_engines_every_null_has_a_reason_and_every_reason_a_null() -> None:
    rng = Random(5)
    for _ in range(40):
        sizes = random_engine(rng) if rng.random() < 0.5 else cylinder()
        visit = visit_of(sizes)
        for key in rng.sample(sorted(sizes.numbers), rng.randint(1, 6)):
            visit = without(visit, key)
        check_gaps(list_results(visit))


@pytest.mark.parametrize(
    ("lost", "figure", "words"),
    [
        ("bore", "piston_area_mm2", "bore is not given"),
        ("stroke", "ends.*.events.*.stroke_percent", "stroke is not given"),
        ("throw", "valve_travel_mm", "valve_drive.throw is not given"),
        ("length", "laps_mm.*.steam", r"valve.length \(or valve.edges\) is not given"),
        ("cavity", "laps_mm.*.exhaust", r"valve.cavity \(or valve.edges\) is not given"),
        ("steam_port", "laps_mm.*.steam", r"port_face.steam_port \(or port_face.edges\) is not given"),
    ],
)
def test_a_gap_names_the_size_that_fills_it(lost: str, figure: str, words: str) -> None:
    (gap,) = [g for g in find_gaps(assume_missing(cylinder(**{lost: None}))) if g.figure == f"cylinders.A.{figure}"]
    assert re.search(words, gap.because)
    assert gap.cylinder == "A"
    assert gap.words[0].islower()
    assert "_" not in gap.words
    assert figure not in [g.figure.removeprefix("cylinders.A.") for g in find_gaps(assume_missing(cylinder()))]


def test_with_inside_admission_the_cavity_is_what_the_steam_lap_wants() -> None:
    sizes = cylinder(cavity=None)
    inside = Sizes("A", sizes.numbers, kind="piston", admission="inside")
    gaps = {gap.figure.removeprefix("cylinders.A."): gap.because for gap in find_gaps(inside)}
    assert "valve.cavity" in gaps["laps_mm.*.steam"]
    assert "laps_mm.*.exhaust" not in gaps


def test_edges_fill_the_gap_of_a_face_not_measured_by_widths() -> None:
    sizes = cylinder(steam_port=None, bridge=None, exhaust_port=None)
    edges = dict(zip(FACE_EDGES, (0.0, 0.002, 0.004, 0.0074, 0.0094, 0.0114), strict=True))
    assert any("port_face" in gap.because for gap in find_gaps(sizes))
    assert find_gaps(sizes.replacing(edges)) == ()


def test_of_a_fully_known_engine_there_is_no_gap() -> None:
    assert find_gaps(cylinder()) == ()
    results = list_results(visit_of(cylinder()))
    assert results["not_known"] == []
    for end in ENDS:
        assert results["cylinders"][0]["ends"][end]["events"]["cut_off"]["crank_deg"]
