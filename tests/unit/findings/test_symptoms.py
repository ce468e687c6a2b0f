"""What is out of order, one thing at a time, each with the size at which it begins."""

from math import pi, radians

import pytest

from lapwright.engine.engine import PURPOSES, Target
from lapwright.engine.sizes import Sizes
from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.symptoms import add_weights, cut_offs, find_symptoms, overtravel_by, way_share
from tests.unit.findings.engines import MATCHED, MM, read, read_lapped

ANGLE, OFFSET, THROW = (f"valve_drive.{name}" for name in ("eccentric_angle", "valve_offset", "throw"))
STEADY, AIR, ECONOMICAL = PURPOSES
LAPPED = {"valve.length": 13.2 * MM, ANGLE: radians(110)}


def look(reading: Reading, purpose: str = STEADY, **target: object) -> dict[str, float]:
    symptoms = find_symptoms(reading, Aim(purpose, True, Target(**target)))  # type: ignore[arg-type]
    return {symptom.code + (f" {symptom.end}" if symptom.end else ""): symptom.weight for symptom in symptoms}


def test_a_matched_engine_shows_nothing() -> None:
    assert look(read()) == {}
    assert look(read_lapped(0.6 * MM, 0.1 * MM)) == {}
    assert look(read_lapped(0.6 * MM, 0.1 * MM, admission="inside")) == {}


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({ANGLE: radians(80)}, "late-admission"),
        ({ANGLE: radians(101)}, "early-admission"),
        ({ANGLE: 3 * pi / 2}, "eccentric-reversed"),
        ({"valve.length": 16.5 * MM}, "port-never-opens"),
        ({OFFSET: 0.4 * MM}, "valve-off-centre"),
        ({"valve.cavity": 8.4 * MM}, "exhaust-lap"),
        ({"valve.cavity": 8.4 * MM}, "chest-open-to-exhaust"),
        ({THROW: 1.2 * MM}, "port-starved"),
        ({THROW: 3.5 * MM, "port_face.exhaust_port": 1.4 * MM, "port_face.bridge": 3.3 * MM}, "exhaust-choked"),
        ({THROW: 4.2 * MM}, "overtravel"),
        ({"port_face.chest_head": 7.5 * MM}, "valve-strikes-chest head"),
        ({"port_face.chest_crank": 7.5 * MM}, "valve-strikes-chest crank"),
        ({"valve_drive.eccentric_rod": 10 * MM, OFFSET: 0.0}, "late-admission crank"),
    ],
)
def test_each_thing_out_of_order_shows(changes: dict[str, float], code: str) -> None:
    assert code in look(read(changes))


def test_economy_without_lap_is_out_of_order_and_nothing_else_is() -> None:
    assert set(look(read(), ECONOMICAL)) == {"no-expansion-possible"}
    assert look(read_lapped(1.0 * MM, 0.1 * MM), ECONOMICAL).keys() <= {"port-starved", "exhaust-starved"}


def test_targets_are_held_to() -> None:
    assert "no-expansion-possible" in look(read(), cut_off=0.8)
    assert "no-expansion-possible" in look(read(), lap=0.5 * MM)
    assert "late-admission" in look(read(), lead=0.2 * MM)
    assert "ends-unequal" in look(read({"connecting_rod": 25 * MM, **LAPPED}), equal="cut-off")
    assert "valve-off-centre" in look(read({"valve_drive.eccentric_rod": 25 * MM}), equal="leads")


def test_the_worse_it_is_the_more_it_weighs() -> None:
    for changes in (
        [{ANGLE: radians(at)} for at in (86, 80, 70, 50)],
        [{"valve.length": (12 + x) * MM} for x in (0.2, 0.8, 2.0, 5.0)],
        [{OFFSET: x * MM} for x in (0.2, 0.5, 1.0)],
        [{THROW: x * MM} for x in (1.3, 1.0, 0.5)],
    ):
        weights = [sum(look(read(change)).values()) for change in changes]
        assert weights == sorted(weights)
        assert weights[0] > 0
    assert add_weights(()) == 0


def test_cavity_and_bridges_off_the_middle_are_unequal_ends() -> None:
    edges = {f"valve.edges.{i}": at * MM for i, at in enumerate((0.0, 2.3, 10.3, 12.0))}
    shown = look(Reading(Sizes("A", {**without("valve."), **edges})))
    assert "ends-unequal" in shown
    assert "port-never-opens crank" not in shown
    far = {f"valve.edges.{i}": at * MM for i, at in enumerate((0.0, 4.2, 12.2 - 0.3, 12.0))}
    assert "port-never-opens head" in look(Reading(Sizes("A", {**without("valve."), **far})))


def without(start: str) -> dict[str, float]:
    return {key: value for key, value in MATCHED.items() if not key.startswith(start)}


def test_a_single_acting_cylinder_has_no_ends_to_compare() -> None:
    edges = {f"valve.edges.{i}": at * MM for i, at in enumerate((0.0, 2.3, 10.3, 12.0))}
    numbers = {**without("valve."), **edges}
    del numbers["piston_rod"]
    assert not any(code.startswith("ends-unequal") for code in look(Reading(Sizes("A", numbers))))


def test_overtravel_is_counted_from_the_edge_that_is_bared() -> None:
    """The valve's end stands 6 mm from its centre, the exhaust port's edge 2 mm from the face's: 4 mm cover it."""
    assert overtravel_by(read({THROW: 3.9 * MM})) == 0
    assert overtravel_by(read({THROW: 4.3 * MM})) == pytest.approx(0.3 * MM)
    assert overtravel_by(read({THROW: 3.9 * MM, OFFSET: 0.25 * MM})) == pytest.approx(0.15 * MM)


def test_the_way_left_in_the_middle_port() -> None:
    """Half of port and cavity together, less the throw: 2 + 4 - 2 = 4 mm, twice the steam port."""
    assert way_share(read()) == pytest.approx(2.0)
    assert way_share(read({THROW: 3.0 * MM})) == pytest.approx(1.5)
    assert way_share(Reading(Sizes("A", {}))) is None


def test_cut_off_of_a_square_engine_is_the_whole_stroke() -> None:
    assert cut_offs(read()) == pytest.approx([1.0, 1.0], abs=1e-3)
    assert all(share < 0.95 for share in cut_offs(read_lapped(0.6 * MM, 0.1 * MM)))


def test_nothing_is_made_of_sizes_that_are_not_known() -> None:
    assert look(Reading(Sizes("A", {}))) == {}
    for key in MATCHED:
        numbers = {name: value for name, value in MATCHED.items() if name != key}
        assert look(Reading(Sizes("A", numbers))) == {}
