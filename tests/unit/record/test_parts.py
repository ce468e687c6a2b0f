"""Glands, fasteners, pins and paint as a record tells of them."""

import tomllib

import jsonschema
import pytest

from lapwright.engine.parts import Finish
from lapwright.record import read_record, record_schema
from lapwright.record.changing import change_record
from tests.unit.record.records import PARTED, TWIN


def test_parts_are_read_in_si_with_the_owner_of_each() -> None:
    found = read_record(PARTED.encode())
    assert found.problems == ()
    engine = found.engine
    piston, valve = engine.glands
    # The piston rod's own diameter is the cylinder's; the other rod says its own.
    assert (piston.cylinder, piston.on, piston.rod, piston.box_bore) == ("A", "piston rod", 0.0032, 0.0064)
    assert (piston.nut_thread, piston.packed_with, piston.nut_hand) == ("3/8 x 32 ME", "nothing", "right")
    assert (valve.number, valve.rod, valve.packed_with, valve.rings) == (2, 0.00238125, "PTFE yarn", 3)
    screw, studs = engine.fasteners
    assert (screw.cylinder, screw.thread, screw.screw, screw.count) == ("A", "7 BA", "8 BA", None)
    assert (studs.cylinder, studs.name, studs.count, studs.torque) == ("B", "cover stud", 6, 0.4)
    (pin,) = engine.pins
    assert (pin.name, pin.cylinder, pin.plain_length, pin.moving_part) == ("valve fork pin", "A", 0.0, 0.004)
    assert engine.finish == Finish(
        part="the engine", metal="cast iron", surface=0.06, old_paint=True, bright=("flanges", "cover edge")
    )


def test_an_engine_without_such_tables_has_no_parts() -> None:
    engine = read_record(TWIN.encode()).engine
    assert (engine.glands, engine.fasteners, engine.pins, engine.finish) == ((), (), (), None)


def test_the_schema_takes_what_the_reader_takes() -> None:
    jsonschema.validate(
        tomllib.loads(PARTED.replace('"ptfe yarn"', '"PTFE yarn"').replace('"steady"', '"steady stationary running"')),
        record_schema(),
    )


@pytest.mark.parametrize(
    ("old", "new", "code", "key"),
    [
        ('box_bore = "6.4 mm"', 'box_bore = "3 mm"', "does-not-fit", "cylinder.0.gland.0.box_bore"),
        (
            'packing_section = "1.2 mm"',
            'packing_section = "3 mm"',
            "does-not-fit",
            "cylinder.0.gland.1.packing_section",
        ),
        ("rings = 3", "rings = 0", "out-of-range", "cylinder.0.gland.1.rings"),
        ("rings = 3", 'rings = "some"', "out-of-range", "cylinder.0.gland.1.rings"),
        ('"ptfe yarn"', '"string"', "not-one-of", "cylinder.0.gland.1.packed_with"),
        ('nut_thread = "3/8 x 32"', 'nut_thread = "3/8 x 33"', "unknown-thread", "cylinder.0.gland.0.nut_thread"),
        ('box_depth = "8 mm"', 'box_depth = "-8 mm"', "absurd", "cylinder.0.gland.0.box_depth"),
        ('box_depth = "8 mm"', 'boxdepth = "8 mm"', "unknown-key", "cylinder.0.gland.0.boxdepth"),
        ("[[cylinder.gland]]\non", "[cylinder.glands]\non", "unknown-key", "cylinder.0.glands"),
        ('thread = "7BA"\nscrew', 'thread = "7AB"\nscrew', "unknown-thread", "fastener.0.thread"),
        ('cylinder = "B"', 'cylinder = "C"', "no-such-cylinder", "fastener.1.cylinder"),
        ('torque = "0.4 N m"', 'torque = "4000 N m"', "absurd", "fastener.1.torque"),
        ('torque = "0.4 N m"', 'torque = "0.4 mm"', "unknown-unit", "fastener.1.torque"),
        (
            'moving_part = "4 mm"',
            'moving_part = "4 mm"\ndiameter = "3 mm"\nhole = "2 mm"',
            "does-not-fit",
            "pin.0.hole",
        ),
        ('joint_outside = "30 mm"', 'joint_outside = "19 mm"', "does-not-fit", "fastener.1.joint_outside"),
        ('shaft = "5 mm"', 'shaft = "2.5 mm"', "does-not-fit", "fastener.0.shaft"),
        ('nut_thread = "3/8 x 32"', 'nut_thread = "M3"', "does-not-fit", "cylinder.0.gland.0.nut_thread"),
        ('\nthread = "7BA"\nscrew', '\nthread = "G1/16"\nscrew', "does-not-fit", "fastener.0.thread"),
        ('moving_part = "4 mm"', 'diameter = "1 mm"\nhole = "4.3 mm"', "absurd", "pin.0.hole"),
        ('surface = "600 cm2"', 'surface = "600 mm"', "unknown-unit", "finish.surface"),
        ('metal = "cast iron"', 'metal = "pot metal"', "not-one-of", "finish.metal"),
    ],
)
def test_what_cannot_be_true_is_noted_and_left_out(old: str, new: str, code: str, key: str) -> None:
    assert old in PARTED
    found = read_record(PARTED.replace(old, new, 1).encode())
    assert [(p.code, p.key) for p in found.problems if p.severity == "error"] == [(code, key)]
    assert found.problems[0].line > 30
    assert found.engine is not None


def test_what_is_struck_out_is_kept_from_the_part() -> None:
    engine = read_record(PARTED.replace('box_bore = "6.4 mm"', 'box_bore = "3 mm"').encode()).engine
    assert engine.glands[0].box_bore is None


def test_a_heading_with_nothing_under_it_is_no_part() -> None:
    text = TWIN + "\n[[fastener]]\n[[pin]]\n[finish]\n"
    found = read_record(text.encode())
    assert found.problems == ()
    assert (found.engine.fasteners, found.engine.pins, found.engine.finish) == ((), (), None)


def test_a_figure_of_one_gland_changes_and_the_other_stays() -> None:
    changed = change_record(PARTED, {"cylinder.0.gland.1.rod": "2.4 mm", "cylinder.0.gland.1.box_depth": "7 mm"})
    engine = read_record(changed.encode()).engine
    assert (engine.glands[0].rod, engine.glands[1].rod, engine.glands[1].box_depth) == (0.0032, 0.0024, 0.007)
