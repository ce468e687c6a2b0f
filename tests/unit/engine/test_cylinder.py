"""The geometry of a cylinder, put together from widths or from edges read off any datum."""

import pytest

from lapwright.engine.cylinder import FaceSide, Slider, ValveSide, assemble_cylinder
from lapwright.engine.sizes import Sizes

WIDTHS = {"port_face.steam_port": 2.0, "port_face.bridge": 3.0, "port_face.exhaust_port": 4.0}


def edges(key: str, values: tuple[float, ...]) -> dict[str, float]:
    return {f"{key}.edges.{i}": value for i, value in enumerate(values)}


def test_a_face_from_widths_lies_alike_on_both_sides_of_its_centre() -> None:
    face = assemble_cylinder(Sizes("A", WIDTHS)).face
    assert face == {"head": FaceSide(5.0, 7.0, 2.0), "crank": FaceSide(5.0, 7.0, 2.0)}


@pytest.mark.parametrize("datum", [0.0, -30.0, 2.5])
def test_the_same_face_from_edges_off_any_datum(datum: float) -> None:
    read = edges("port_face", tuple(datum + edge for edge in (0.0, 2.0, 5.0, 9.0, 12.0, 14.0)))
    assert assemble_cylinder(Sizes("A", read)).face == assemble_cylinder(Sizes("A", WIDTHS)).face


def test_a_face_that_is_not_alike_keeps_each_end_its_own_edges() -> None:
    """Read from the head end: port 2, bridge 2, exhaust 5, bridge 3, port 4; centre 8 from the first edge."""
    face = assemble_cylinder(Sizes("A", edges("port_face", (0.0, 2.0, 4.0, 9.0, 12.0, 16.0)))).face
    assert face is not None
    assert face["head"] == FaceSide(inner=6.0, outer=8.0, middle=4.0)
    assert face["crank"] == FaceSide(inner=4.0, outer=8.0, middle=1.0)
    assert [face[end].width for end in ("head", "crank")] == [2.0, 4.0]


def test_edges_win_over_widths_and_five_edges_are_none() -> None:
    read = edges("port_face", (0.0, 2.0, 4.0, 9.0, 12.0, 16.0))
    both = assemble_cylinder(Sizes("A", {**WIDTHS, **read})).face
    assert both is not None
    assert both["head"].inner == 6.0
    read.pop("port_face.edges.5")
    assert assemble_cylinder(Sizes("A", read)).face is None


def test_a_valve_from_length_and_cavity_or_from_edges() -> None:
    plain = assemble_cylinder(Sizes("A", {"valve.length": 14.0, "valve.cavity": 8.0})).valve
    assert plain == {"head": ValveSide(7.0, 4.0), "crank": ValveSide(7.0, 4.0)}
    lopsided = assemble_cylinder(Sizes("A", edges("valve", (1.0, 4.0, 13.0, 15.0)))).valve
    assert lopsided == {"head": ValveSide(7.0, 4.0), "crank": ValveSide(7.0, 5.0)}


def test_half_a_valve_is_told_by_half() -> None:
    assert assemble_cylinder(Sizes("A", {"valve.length": 14.0})).valve["head"] == ValveSide(7.0, None)
    assert assemble_cylinder(Sizes("A", {"valve.cavity": 8.0})).valve["crank"] == ValveSide(None, 4.0)


def test_the_piston_needs_stroke_and_rod_and_the_gear_its_three_sizes() -> None:
    whole = {
        "stroke": 20.0,
        "connecting_rod": 45.0,
        "valve_drive.throw": 3.0,
        "valve_drive.eccentric_rod": 60.0,
        "valve_drive.eccentric_angle": 1.6,
    }
    cylinder = assemble_cylinder(Sizes("A", whole, rocker="reversing"))
    assert cylinder.piston == Slider(10.0, 45.0, 0.0)
    assert cylinder.gear is not None
    assert cylinder.gear.sign == -1
    for key in whole:
        less = assemble_cylinder(Sizes("A", {k: v for k, v in whole.items() if k != key}))
        assert less.piston is None or less.gear is None


def test_no_piston_rod_means_single_acting() -> None:
    assert not assemble_cylinder(Sizes("A", {"bore": 20.0})).double_acting
    assert assemble_cylinder(Sizes("A", {"bore": 20.0, "piston_rod": 3.0})).double_acting
    assert assemble_cylinder(Sizes("A", {})).area == {"head": None, "crank": None}
