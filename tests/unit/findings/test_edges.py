"""The edges one wants, put back into the record's own keys: what is set is what is then read."""

import pytest

from lapwright.engine.sizes import FACE_EDGES, VALVE_EDGES, Sizes
from lapwright.findings.edges import read_valve, set_exhaust_laps, set_middle_port, set_steam_laps, set_valve_edges
from lapwright.findings.reading import Reading
from tests.unit.findings.engines import MATCHED, MM, read

BY_EDGES = {f"valve.edges.{i}": at * MM for i, at in enumerate((5.0, 7.1, 14.9, 17.0))}
FACE = {f"port_face.edges.{i}": at * MM for i, at in enumerate((1.0, 3.0, 5.0, 9.0, 11.0, 13.0))}


def by_edges(*, admission: str = "outside") -> Reading:
    numbers = {key: value for key, value in MATCHED.items() if not key.startswith("valve.")}
    return Reading(Sizes("A", {**numbers, **BY_EDGES}, admission=admission))


@pytest.mark.parametrize("admission", ["outside", "inside"])
@pytest.mark.parametrize("given", ["widths", "edges"])
def test_laps_that_are_set_are_read_again(admission: str, given: str) -> None:
    reading = read(admission=admission) if given == "widths" else by_edges(admission=admission)
    steam, exhaust = dict.fromkeys(("head", "crank"), 0.7 * MM), dict.fromkeys(("head", "crank"), -0.2 * MM)
    half_way = reading.changed(set_steam_laps(reading, steam))
    done = half_way.changed(set_exhaust_laps(half_way, exhaust))
    assert done.steam_laps == pytest.approx(steam)
    assert done.exhaust_laps == pytest.approx(exhaust)
    assert ("valve.edges.0" in done.sizes.numbers) == (given == "edges")


def test_a_cavity_off_the_middle_makes_widths_into_edges() -> None:
    reading = read()
    changes = set_exhaust_laps(reading, {"head": 0.3 * MM, "crank": -0.1 * MM})
    assert set(changes) == set(VALVE_EDGES)
    done = reading.changed(changes)
    assert done.exhaust_laps == pytest.approx({"head": 0.3 * MM, "crank": -0.1 * MM})
    assert done.steam_laps == pytest.approx(reading.steam_laps or {})


def test_a_valve_given_by_edges_keeps_its_datum() -> None:
    reading = by_edges()
    changes = set_valve_edges(reading, outer=5.5 * MM)
    assert changes["valve.edges.0"] == pytest.approx(5.5 * MM)
    assert changes["valve.edges.3"] == pytest.approx(16.5 * MM)
    assert changes["valve.edges.1"] == pytest.approx(7.1 * MM)


def test_nothing_is_changed_that_is_right_already() -> None:
    assert set_valve_edges(read(), outer=6 * MM) == {}


def test_a_cavity_that_nobody_measured_stays_unknown() -> None:
    numbers = {key: value for key, value in MATCHED.items() if key != "valve.cavity"}
    reading = Reading(Sizes("A", numbers))
    assert set_steam_laps(reading, dict.fromkeys(("head", "crank"), 0.5 * MM)) == {"valve.length": 13 * MM}


def test_the_middle_port_is_widened_off_the_bridges() -> None:
    reading = read()
    done = reading.changed(set_middle_port(reading, 0.4 * MM))
    assert done.sizes.numbers["port_face.exhaust_port"] == pytest.approx(4.8 * MM)
    assert done.sizes.numbers["port_face.bridge"] == pytest.approx(1.6 * MM)
    assert done.steam_laps == pytest.approx(reading.steam_laps or {}, abs=1e-12)


def test_the_middle_port_of_a_face_given_by_edges_too() -> None:
    numbers = {key: value for key, value in MATCHED.items() if not key.startswith("port_face.")}
    reading = Reading(Sizes("A", {**numbers, **FACE}))
    done = reading.changed(set_middle_port(reading, 0.4 * MM))
    assert done.sizes.numbers["port_face.edges.2"] == pytest.approx(4.6 * MM)
    assert done.sizes.numbers["port_face.edges.3"] == pytest.approx(9.4 * MM)
    assert {key: done.sizes.numbers[key] for key in FACE_EDGES if key[-1] in "0145"} == {
        key: FACE[key] for key in FACE_EDGES if key[-1] in "0145"
    }


def test_a_valve_is_read_however_it_is_given() -> None:
    assert read_valve(read().sizes) == (12 * MM, 8 * MM)
    assert read_valve(by_edges().sizes) == pytest.approx((12 * MM, 7.8 * MM))
    assert read_valve(Sizes("A", {})) == (None, None)
