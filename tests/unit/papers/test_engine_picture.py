"""The whole engine in section: true to scale, all on its paper, and moving as the exact motion says."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, pi, radians
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.engine.sizes import NUMBER_KEYS, Sizes
from lapwright.job.turn.turning import reverse_sizes
from lapwright.papers.drawing import Line
from lapwright.papers.engine_picture import EnginePicture, draw_engine, draw_engine_picture, move_shapes
from lapwright.papers.engine_svg import list_places, moving_svg, view_valve, view_whole, write_valve
from tests.property.engines import any_engines
from tests.unit.papers.matters import NAMES, cylinder, examine_demo
from tests.unit.papers.test_pictures import lies_on_its_paper

WIDTH = 260.0


def picture_of(sizes: Sizes, *, clockwise: bool = True) -> EnginePicture:
    picture = draw_engine_picture(sizes, width=WIDTH, clockwise=clockwise)
    assert picture is not None
    return picture


@pytest.mark.parametrize("name", NAMES)
def test_every_demo_engine_is_drawn_on_its_paper_at_every_angle(name: str) -> None:
    visit = examine_demo(name)
    for sizes in visit.engine.cylinders:
        for deg in range(0, 360, 45):
            drawing = draw_engine(
                sizes, width=WIDTH, clockwise=visit.engine.rotation != "anticlockwise", angle=radians(deg)
            )
            assert drawing is not None
            lies_on_its_paper(drawing)


@settings(max_examples=60, deadline=None)
@given(
    found=any_engines(),
    lost=st.sets(st.sampled_from(NUMBER_KEYS), max_size=4),
    clockwise=st.booleans(),
    angle=st.floats(0, 2 * pi),
)
def test_any_engine_that_can_turn_is_drawn(found: Sizes, lost: set[str], clockwise: bool, angle: float) -> None:
    sizes = replace(found, numbers={key: value for key, value in found.numbers.items() if key not in lost})
    drawing = draw_engine(sizes, width=WIDTH, clockwise=clockwise, angle=angle)
    if drawing is None:
        assert {"bore", "stroke"} <= lost or "connecting_rod" in lost
        return
    lies_on_its_paper(drawing)
    picture = picture_of(sizes, clockwise=clockwise)
    for key, view in (("whole", view_whole(picture)), ("near", view_valve(picture))):
        if view is not None:
            text = moving_svg(picture, view, key=key)
            assert "nan" not in text.lower()
            ElementTree.fromstring(text)


def test_bore_ports_valve_and_throws_are_to_scale() -> None:
    sizes = examine_demo("tern").cylinders[0]
    picture = picture_of(sizes)
    unit, known = picture.plan.unit, sizes.numbers
    bore = next(space.ring for space in picture.spaces if space.name == "bore")
    assert max(y for _, y in bore) - min(y for _, y in bore) == pytest.approx(known["bore"] * unit)
    port = next(space.ring for space in picture.spaces if space.name == "head")
    top = max(y for _, y in port)
    mouth = sorted(x for x, y in port if y == top)
    assert mouth[-1] - mouth[0] == pytest.approx(known["port_face.steam_port"] * unit)
    valve = next(part for part in picture.parts if part.name == "valve")
    spans = [
        max(x for x, _ in shape.points) - min(x for x, _ in shape.points)
        for shape in valve.shapes
        if isinstance(shape, Line)
    ]
    assert any(span == pytest.approx(known["valve.length"] * unit) for span in spans)


@pytest.mark.parametrize("name", ["tern", "merganser", "dunlin"])
def test_parts_stay_joined_at_their_pins_all_round_the_turn(name: str) -> None:
    """The rods keep their lengths: what moves along its line and what turns meet at the same pins."""
    visit = examine_demo(name)
    picture = picture_of(visit.cylinders[0], clockwise=visit.engine.rotation != "anticlockwise")
    plan, gear = picture.plan, picture.plan.moving.cylinder.gear
    assert gear is not None
    for deg in range(0, 360, 15):
        stands = picture.place_parts(radians(deg))
        turned = stands["crank"].turned
        pin = Line(((-plan.throw, 0.0),))
        (placed,) = move_shapes([pin], stands["crank"])
        assert isinstance(placed, Line)
        (end,) = placed.points
        cross = stands["rod"].at
        assert hypot(end[0] - cross[0], end[1] - cross[1]) == pytest.approx(plan.rod, rel=1e-9)
        assert turned == pytest.approx(plan.up * deg)
        eccentric = move_shapes([Line(((-gear.slider.throw * plan.unit, 0.0),))], stands["eccentric"])[0]
        assert isinstance(eccentric, Line)
        (centre,) = eccentric.points
        held = stands["eccentric-rod"].at
        assert hypot(centre[0] - held[0], centre[1] - held[1]) == pytest.approx(gear.slider.rod * plan.unit, rel=1e-9)
        spindle = stands["valve"].at[0] + plan.spindle_end
        assert spindle == pytest.approx(held[0], abs=1e-9)


def test_an_engine_that_turns_the_other_way_looks_the_same() -> None:
    """The mirror image of its figures, drawn turning the other way, is the same iron."""
    sizes = cylinder(cylinder_offset=1.5, valve_line_offset=-2.0)
    one, other = picture_of(sizes), picture_of(reverse_sizes(sizes), clockwise=False)
    for name, stand in one.place_parts(1.1).items():
        mirrored = other.place_parts(-1.1)[name]
        assert mirrored.at == pytest.approx(stand.at)
        assert (mirrored.turned - stand.turned) % 360 == pytest.approx(0.0, abs=1e-9) or name in {"crank", "eccentric"}


def test_what_is_missing_is_named_and_what_was_taken_too() -> None:
    picture = picture_of(examine_demo("knot").engine.cylinders[0])
    assert picture.wanted == ("valve.cavity",)
    assert {one.key for one in picture.taken} >= {"connecting_rod", "port_face.bridge"}
    bare = picture_of(cylinder(steam_port=None, bridge=None, exhaust_port=None, stroke=None, connecting_rod=None))
    assert bare.wanted[0] == "port_face.steam_port"
    assert "stroke" in {one.key for one in bare.taken}
    assert view_valve(bare) is None
    assert draw_engine_picture(Sizes("A", {"piston_rod": 0.004}), width=WIDTH) is None
    assert draw_engine_picture(cylinder(connecting_rod=9.0), width=WIDTH) is None


def test_a_page_gets_the_figures_by_which_parts_move() -> None:
    sizes = examine_demo("tern").cylinders[0]
    picture = picture_of(sizes)
    places = list_places(picture)
    stand = picture.place_parts(0.0)["piston"].at
    assert places["x"] - picture.plan.high == pytest.approx(stand[0])
    assert picture.height - places["line"] == pytest.approx(stand[1])
    assert places["gear"]["throw"] == pytest.approx(2.2 * places["unit"])


def test_a_valve_that_is_tried_is_drawn_as_it_would_be() -> None:
    sizes = examine_demo("tern").cylinders[0]
    picture = picture_of(sizes)
    found, longer = (
        write_valve(picture, key="k"),
        write_valve(picture, sizes.replacing({"valve.length": 0.016}), key="k"),
    )
    assert found == write_valve(picture, sizes, key="k")
    assert found != longer


def test_reversing_rocker_single_action_and_piston_valve_have_their_parts() -> None:
    rocking = replace(cylinder(), rocker="reversing")
    assert "rocker" in {part.name for part in picture_of(rocking).parts}
    single = picture_of(cylinder(piston_rod=None))
    assert {space.holds for space in single.spaces if not space.carried_by} == {"head", "outer", "middle"}
    piston = picture_of(replace(cylinder(), kind="piston", admission="inside"))
    assert "middle belt" in {space.name for space in piston.spaces}
