"""A small engine whose glands, screws, pin and cover are as they should be, and what a run would put on them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener, Gland, Pin
from lapwright.engine.sizes import Sizes
from tests.unit.findings.engines import MATCHED, MM

#: Steam of 3 bar: 143.7 degC; a piston of 25 mm and a flat valve.
LOAD = PartLoads(
    fluid="steam", pressure=3e5, temperature=416.9, rod_force=147.0, valve_friction=5.6, eccentric_torque=0.0165
)
LOADS = {"A": LOAD}
GLAND = Gland(
    cylinder="A",
    number=1,
    rod=5 * MM,
    box_bore=9 * MM,
    box_depth=10 * MM,
    nut_thread="1/2 x 32 ME",
    packed_with="graphite yarn",
    packing_section=2 * MM,
    oil="mineral",
)
SPINDLE = replace(GLAND, number=2, on="valve spindle", rod=3.2 * MM, box_bore=6.4 * MM, packing_section=1.6 * MM)
SCREW = Fastener(
    name="eccentric screw",
    cylinder="A",
    number=1,
    holds="eccentric",
    kind="grub screw",
    thread="4 BA",
    screw="4 BA",
    screw_material="steel",
    hole_material="brass",
    engagement=4 * MM,
    state="sound",
    shaft=6 * MM,
    wall=3.5 * MM,
    point="cup",
    seat="plain",
)
STUDS = Fastener(
    name="cover stud",
    cylinder="A",
    number=2,
    holds="cover",
    kind="stud",
    thread="7 BA",
    screw_material="steel",
    hole_material="cast iron",
    state="sound",
    count=6,
    torque=0.14,
    thread_is="dry",
    gasket="oiled paper",
    joint_outside=30 * MM,
)
PIN = Pin(
    name="fork pin",
    cylinder="A",
    number=1,
    joint="valve fork",
    kind="shouldered pin",
    diameter=3 * MM,
    thread="7 BA",
    plain_length=4.05 * MM,
    moving_part=4 * MM,
    shear="double",
    material="steel",
    runs_in="gunmetal",
)


def make_engine(
    *,
    glands: tuple[Gland, ...] = (GLAND, SPINDLE),
    fasteners: tuple[Fastener, ...] = (SCREW, STUDS),
    pins: tuple[Pin, ...] = (PIN,),
    **changes: Any,
) -> Engine:
    """The engine, with other parts or on something else."""
    sizes = Sizes("A", {**MATCHED, "bore": 25 * MM})
    known: dict[str, Any] = {"fluid": "steam", "supply_pressure": 3e5, "cylinders": (sizes,), **changes}
    return Engine(name="Dunlin", glands=glands, fasteners=fasteners, pins=pins, **known)


def with_gland(**changes: Any) -> Engine:
    """The engine with something else about its piston rod's gland."""
    return make_engine(glands=(replace(GLAND, **changes), SPINDLE))


def with_screw(**changes: Any) -> Engine:
    """The engine with something else about its eccentric's screw."""
    return make_engine(fasteners=(replace(SCREW, **changes), STUDS))


def with_studs(**changes: Any) -> Engine:
    """The engine with something else about its cover's studs."""
    return make_engine(fasteners=(SCREW, replace(STUDS, **changes)))


def with_pin(**changes: Any) -> Engine:
    """The engine with something else about its fork pin."""
    return make_engine(pins=(replace(PIN, **changes),))


#: One fault each, with the code it is found by and the part it is found in.
FAULTS: dict[str, tuple[Engine, str, str]] = {
    "empty box": (with_gland(packed_with="nothing", packing_section=None), "gland-leaks", "gland of the piston rod"),
    "thin packing": (with_gland(packing_section=1.5 * MM), "gland-leaks", "gland of the piston rod"),
    "thick packing": (with_gland(packing_section=2.4 * MM), "gland-leaks", "gland of the piston rod"),
    "rubber in steam": (with_gland(packed_with="NBR O-ring"), "packing-unsuitable", "gland of the piston rod"),
    "flax in steam": (with_gland(packed_with="flax"), "packing-unsuitable", "gland of the piston rod"),
    "old string": (with_gland(packed_with="old string"), "packing-unsuitable", "gland of the piston rod"),
    "stripped": (with_screw(state="stripped"), "thread-worn", "eccentric screw"),
    "worn": (with_screw(state="worn"), "thread-worn", "eccentric screw"),
    "another screw": (with_screw(screw="5 BA"), "thread-worn", "eccentric screw"),
    "worn stud hole": (with_studs(state="worn"), "thread-worn", "cover stud"),
    "one screw in a crank": (with_screw(holds="crank"), "screw-will-not-hold", "eccentric screw"),
    "bolt": (with_pin(kind="bolt", plain_length=1 * MM), "thread-as-bearing", "fork pin"),
    "screw": (with_pin(kind="screw", plain_length=None), "thread-as-bearing", "fork pin"),
    "pulled too far elsewhere": (
        make_engine(fasteners=(SCREW, replace(STUDS, holds="gland", torque=2.0, gasket=None))),
        "stud-overloaded",
        "cover stud",
    ),
    "key past its end": (with_screw(torque=9.0), "stud-overloaded", "eccentric screw"),
    "too many rings": (with_gland(rings=9), "gland-leaks", "gland of the piston rod"),
    "one ring": (with_gland(rings=1), "gland-leaks", "gland of the piston rod"),
    "worn loose": (with_pin(hole=3.1 * MM), "pin-worn", "fork pin"),
    "rubber joint in steam": (with_studs(gasket="soft rubber"), "packing-unsuitable", "cover stud"),
    "old joint": (with_studs(gasket="old sheet"), "packing-unsuitable", "cover stud"),
    "pulled too far": (with_studs(torque=0.45), "stud-overloaded", "cover stud"),
    "pulled too far, oiled": (with_studs(torque=0.25, thread_is="oiled"), "stud-overloaded", "cover stud"),
}
