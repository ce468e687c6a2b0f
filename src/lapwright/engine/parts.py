"""The parts round the motion that a record may tell of: glands, fasteners, pins, and how the engine is painted."""

from __future__ import annotations

from dataclasses import dataclass

#: What a part or the hole in it may be made of.
METALS = ("steel", "stainless steel", "brass", "gunmetal", "phosphor bronze", "cast iron", "aluminium", "copper")
#: What a screw may be made of.
SCREW_METALS = ("steel", "high-tensile steel", "stainless steel", "brass")
#: Where a gland is.
GLANDS = ("piston rod", "valve spindle")
#: What may be found in a stuffing box.
PACKINGS = (
    "nothing",
    "graphite yarn",
    "expanded graphite",
    "PTFE yarn",
    "graphite and PTFE yarn",
    "aramid yarn",
    "ramie",
    "flax",
    "old string",
    "NBR O-ring",
    "HNBR O-ring",
    "EPDM O-ring",
    "silicone O-ring",
    "FKM O-ring",
    "TFE/P O-ring",
    "FFKM O-ring",
)
#: What the cylinder is oiled with: it reaches the packing.
OILS = ("mineral", "none")
HANDS = ("right", "left")
#: What a fastener does.
DUTIES = ("eccentric", "crank", "flywheel", "cover", "gland", "other")
FASTENERS = ("grub screw", "screw", "stud", "bolt")
STATES = ("sound", "worn", "stripped")
POINTS = ("cup", "cone", "flat", "dog", "oval")
#: How a thread is when it is tightened.
LUBRICATIONS = ("dry", "oiled")
#: What a grub screw bears on.
SEATS = ("plain", "flat", "dimple")
GASKETS = ("oiled paper", "graphite sheet", "soft rubber", "copper", "aluminium", "old sheet")
#: Where a pin is.
JOINTS = ("valve fork", "crosshead", "crank pin", "eccentric rod", "other")
PINS = ("plain pin", "shouldered pin", "bolt", "screw")
SHEARS = ("double", "single")
LETTERINGS = ("none", "raised", "recessed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Gland:
    """One stuffing box of a cylinder; what is None is not known.

    `rod`, `box_bore`, `box_depth` and `packing_section` in m; the depth is from the mouth to the bottom.
    `nut_thread` is a thread of the tables by its name. `packed_with` is one of `PACKINGS`.
    """

    cylinder: str
    number: int
    on: str = GLANDS[0]
    rod: float | None = None
    box_bore: float | None = None
    box_depth: float | None = None
    nut_thread: str | None = None
    nut_hand: str = HANDS[0]
    packed_with: str | None = None
    packing_section: float | None = None
    rings: int | None = None
    oil: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """One screw, or several alike; what is None is not known. `cylinder` is empty for one of the engine as a whole.

    `thread` is the hole's, `screw` that of the screw found in it, both by their names in the tables. `engagement` is
    the length of thread in the hole, `wall` the metal beside it, `shaft` the diameter it bears on, `joint_outside` the
    diameter over the joint under a cover, all in m. `torque` is what it was tightened to [N m].
    """

    name: str
    cylinder: str
    number: int
    holds: str = DUTIES[-1]
    kind: str = FASTENERS[1]
    thread: str | None = None
    screw: str | None = None
    screw_material: str | None = None
    hole_material: str | None = None
    engagement: float | None = None
    state: str | None = None
    point: str | None = None
    shaft: float | None = None
    seat: str | None = None
    wall: float | None = None
    count: int | None = None
    torque: float | None = None
    thread_is: str | None = None
    gasket: str | None = None
    joint_outside: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """One pin on which something turns; what is None is not known.

    `diameter` is the pin's where the part turns on it, `hole` the part's bore, `plain_length` the shank without thread,
    `moving_part` the length of the part that turns on it, all in m. `thread` is one of the tables by its name, or
    empty for a pin without a thread.
    """

    name: str
    cylinder: str
    number: int
    joint: str = JOINTS[-1]
    kind: str | None = None
    diameter: float | None = None
    hole: float | None = None
    thread: str | None = None
    plain_length: float | None = None
    moving_part: float | None = None
    shear: str | None = None
    material: str | None = None
    runs_in: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """What is to be painted, and how it is in service; what is None is not known.

    `temperature` [K] is the metal's in service, `surface` [m2] what is painted, `bright` the parts that stay unpainted.
    """

    part: str
    metal: str
    temperature: float | None = None
    surface: float | None = None
    old_paint: bool = False
    lettering: str = LETTERINGS[0]
    bright: tuple[str, ...] = ()
    paint: str | None = None
