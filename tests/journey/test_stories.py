"""The demo engines: each comes out as its story is told."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.journey.program import bring_example, run

pytestmark = pytest.mark.journey


def examine(name: str, folder: Path) -> dict[str, Any]:
    answer = run("examine", bring_example(name, folder), "--json", folder=folder)
    assert answer.status == 0, answer.err
    results: dict[str, Any] = json.loads(answer.out)
    return results


def roots(results: dict[str, Any]) -> list[tuple[str, str]]:
    return [(f["cylinder"], f["code"]) for f in results["findings"] if not f["instead_of"]]


def test_tern_has_two_valves_too_long_and_two_ways_out(tmp_path: Path) -> None:
    results = examine("tern", tmp_path)
    assert roots(results) == [("A", "valve-too-long"), ("B", "valve-too-long")]
    sizes = {f["cylinder"]: f["size"] for f in results["findings"] if f["code"] == "valve-too-long"}
    assert sizes == pytest.approx({"A": 1.64, "B": 1.62})
    codes = [cure["code"] for cure in results["cures"] if cure["cylinder"] == "A"]
    assert codes[0] == "shorten-valve"
    assert "turn-eccentric" in codes
    assert results["cures"][0]["set"]["valve_length_mm"] == pytest.approx(12.0)


def test_dunlin_blows_straight_to_exhaust(tmp_path: Path) -> None:
    results = examine("dunlin", tmp_path)
    assert roots(results) == [("A", "valve-too-short")]
    assert results["findings"][0]["size"] == pytest.approx(0.060 * 25.4)
    assert "chest-open-to-exhaust" in results["findings"][0]["effects"]
    assert results["cylinders"][0]["chest_to_exhaust_deg"] > 40
    assert results["cures"][0]["after"]["chest_to_exhaust_deg"] == 0


def test_curlew_is_set_for_the_other_direction(tmp_path: Path) -> None:
    results = examine("curlew", tmp_path)
    assert roots(results) == [("A", "eccentric-reversed")]
    assert results["cures"][0]["set"]["eccentric_angle_deg"] == pytest.approx(107, abs=0.5)


def test_plover_is_off_centre_by_less_than_a_step(tmp_path: Path) -> None:
    results = examine("plover", tmp_path)
    assert roots(results) == [("A", "valve-off-centre")]
    assert "turning it only makes it worse" in results["findings"][0]["because"]
    assert [cure["code"] for cure in results["cures"]] == ["change-rod-length"]


def test_knot_is_half_known_and_says_so(tmp_path: Path) -> None:
    results = examine("knot", tmp_path)
    assumed = {a["key"] for a in results["assumed"]}
    assert {"connecting_rod", "port_face.bridge", "valve_drive.eccentric_angle"} <= assumed
    assert all(a["affects"] and a["because"] for a in results["assumed"])
    events = results["cylinders"][0]["ends"]["head"]["events"]
    assert events["release"]["crank_deg"] is None
    assert events["admission"]["crank_deg"] is not None
    assert any("valve.cavity" in gap["because"] for gap in results["not_known"])
    assert results["findings"][0]["rests_on"] == ["port_face.bridge", "port_face.exhaust_port"]


def test_sandpiper_has_nothing_wrong(tmp_path: Path) -> None:
    results = examine("sandpiper", tmp_path)
    assert results["findings"] == []
    assert results["cures"] == []


def test_merganser_admits_inside_and_its_eccentric_has_slipped_back(tmp_path: Path) -> None:
    results = examine("merganser", tmp_path)
    assert roots(results) == [("A", "eccentric-behind")]
    assert results["findings"][0]["doubt_mostly_from"] == "valve_drive.eccentric_angle"
    assert results["cylinders"][0]["least_exhaust_way_mm"] is None


@pytest.mark.parametrize("name", ["tern", "dunlin", "curlew", "plover", "merganser"])
def test_the_best_cure_written_into_the_record_clears_it(name: str, tmp_path: Path) -> None:
    """What the card says, done and written into the record by hand, leaves nothing wrong."""
    from lapwright.record import change_record

    results = examine(name, tmp_path)
    path = tmp_path / f"{name}.toml"
    text = path.read_text(encoding="utf-8")
    names = {
        "valve_length_mm": ("valve.length", "mm"),
        "cavity_mm": ("valve.cavity", "mm"),
        "eccentric_angle_deg": ("valve_drive.eccentric_angle", "deg"),
        "valve_offset_mm": ("valve_drive.valve_offset", "mm"),
    }
    places = {cylinder["name"]: i for i, cylinder in enumerate(results["cylinders"])}
    done: set[str] = set()
    for cure in results["cures"]:
        if cure["cylinder"] in done:
            continue
        done.add(cure["cylinder"])
        for size, value in cure["set"].items():
            if size in names:
                key, unit = names[size]
                text = change_record(text, {f"cylinder.{places[cure['cylinder']]}.{key}": f"{value:.3f} {unit}"})
    path.write_text(text, encoding="utf-8")
    again = run("examine", path.name, "--json", folder=tmp_path)
    assert json.loads(again.out)["findings"] == []
