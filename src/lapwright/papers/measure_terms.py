"""What every key of a record is called in trade words, as it is written on a picture and beside a field."""

from __future__ import annotations

from collections.abc import Mapping

#: Terms by table and key, the number of the cylinder left out.
TERMS: Mapping[str, str] = {
    "format": "format",
    "engine.name": "name",
    "engine.notes": "notes",
    "engine.rotation": "rotation",
    "engine.fluid": "driven by",
    "engine.supply_pressure": "supply pressure",
    "engine.exhaust_pressure": "exhaust pressure",
    "engine.purpose": "purpose",
    "cylinder.name": "name",
    "cylinder.crank_phase": "crank phase",
    "cylinder.bore": "bore",
    "cylinder.stroke": "stroke",
    "cylinder.connecting_rod": "connecting rod",
    "cylinder.piston_rod": "piston rod",
    "cylinder.cylinder_offset": "cylinder offset",
    "cylinder.clearance_head": "clearance, head end",
    "cylinder.clearance_crank": "clearance, crank end",
    "cylinder.port_face.steam_port": "steam port",
    "cylinder.port_face.bridge": "bridge",
    "cylinder.port_face.exhaust_port": "exhaust port",
    "cylinder.port_face.port_length": "port length",
    "cylinder.port_face.chest_head": "chest wall, head end",
    "cylinder.port_face.chest_crank": "chest wall, crank end",
    "cylinder.port_face.edges": "edge",
    "cylinder.valve.kind": "kind of valve",
    "cylinder.valve.admission": "admission",
    "cylinder.valve.length": "valve length",
    "cylinder.valve.cavity": "cavity",
    "cylinder.valve.edges": "edge",
    "cylinder.valve.width": "valve width",
    "cylinder.valve_drive.throw": "throw",
    "cylinder.valve_drive.eccentric_rod": "eccentric rod",
    "cylinder.valve_drive.eccentric_angle": "eccentric angle",
    "cylinder.valve_drive.valve_line_offset": "valve line offset",
    "cylinder.valve_drive.valve_offset": "valve offset",
    "cylinder.valve_drive.rocker": "rocker",
    "cylinder.valve_drive.spindle_thread": "spindle thread",
    "cylinder.valve_drive.spindle_step": "spindle step",
    "cylinder.gland.on": "packed round",
    "cylinder.gland.rod": "rod",
    "cylinder.gland.box_bore": "box bore",
    "cylinder.gland.box_depth": "box depth",
    "cylinder.gland.nut_thread": "gland nut thread",
    "cylinder.gland.nut_hand": "hand",
    "cylinder.gland.packed_with": "packed with",
    "cylinder.gland.packing_section": "packing section",
    "cylinder.gland.rings": "rings",
    "cylinder.gland.oil": "oil",
    "fastener.name": "name",
    "fastener.cylinder": "cylinder",
    "fastener.holds": "holds",
    "fastener.kind": "kind of screw",
    "fastener.thread": "thread of the hole",
    "fastener.screw": "thread of the screw",
    "fastener.screw_material": "screw of",
    "fastener.hole_material": "hole in",
    "fastener.engagement": "engagement",
    "fastener.state": "state of the thread",
    "fastener.point": "point",
    "fastener.shaft": "shaft",
    "fastener.seat": "seat",
    "fastener.wall": "wall",
    "fastener.count": "how many",
    "fastener.torque": "torque",
    "fastener.thread_is": "tightened",
    "fastener.gasket": "joint",
    "fastener.joint_outside": "over the joint",
    "pin.name": "name",
    "pin.cylinder": "cylinder",
    "pin.joint": "where it is",
    "pin.kind": "kind of pin",
    "pin.diameter": "pin diameter",
    "pin.hole": "hole",
    "pin.thread": "thread",
    "pin.plain_length": "plain length",
    "pin.moving_part": "moving part",
    "pin.shear": "held",
    "pin.material": "pin of",
    "pin.runs_in": "runs in",
    "finish.part": "part",
    "finish.metal": "metal",
    "finish.temperature": "temperature",
    "finish.surface": "surface",
    "finish.old_paint": "old paint",
    "finish.lettering": "cast letters",
    "finish.bright": "stays bright",
    "finish.paint": "paint",
    "target.cut_off": "cut-off wanted",
    "target.lead": "lead wanted",
    "target.lap": "steam lap wanted",
    "target.equal": "alike at both ends",
    "running.discharge_coefficient": "discharge coefficient",
    "running.friction_pressure": "friction pressure",
    "running.ring_gap": "ring gap",
    "running.valve_face_gap": "valve face gap",
    "running.gland_gap": "gland gap",
    "running.wall_heat": "wall heat",
    "running.supply_temperature": "supply temperature",
    "running.steam_dryness": "dryness",
    "running.load": "load",
    "running.flywheel_inertia": "moment of inertia",
    "running.supply_bore": "supply pipe",
    "running.exhaust_bore": "exhaust pipe",
    "running.passage_bore": "passage",
    "running.valve_friction": "valve friction",
    "running.from_tests": "from bench tests",
    "bench_test.fluid": "run on",
    "bench_test.supply_pressure": "supply pressure",
    "bench_test.exhaust_pressure": "exhaust pressure",
    "bench_test.speed": "speed",
    "bench_test.load": "load",
    "bench_test.air_flow": "free air",
    "bench_test.dead": "dragged cylinder",
    "bench_test.run_down_from": "run-down from",
    "bench_test.run_down_time": "run-down time",
    "bench_test.decay_from": "pressure fall from",
    "bench_test.decay_to": "pressure fall to",
    "bench_test.decay_time": "pressure fall time",
    "bench_test.decay_volume": "volume shut in",
    "bench_test.note": "note",
}


def split_key(key: str) -> tuple[str, int | None]:
    """Take a record path apart into table and key without numbers, and the place in a list of edges, if any.

    Parameters
    ----------
    key: a record path, with the number of the cylinder

    Example:
    >>> split_key("cylinder.0.valve.edges.2"), split_key("fastener.1.thread")
    (('cylinder.valve.edges', 2), ('fastener.thread', None))
    """
    parts = key.split(".")
    place = int(parts.pop()) if parts[-1].isdigit() else None
    return ".".join(part for part in parts if not part.isdigit()), place


def name_key(key: str) -> str:
    """Return what a size is called, by its record path; an edge has its number, counted from the head end.

    Parameters
    ----------
    key: a record path, with the number of the cylinder

    Example:
    >>> name_key("cylinder.0.bore"), name_key("cylinder.0.valve.edges.2")
    ('bore', 'edge 3')
    """
    name, place = split_key(key)
    term = TERMS.get(name, name.rpartition(".")[2].replace("_", " "))
    return term if place is None else f"{term} {place + 1}"


def call_size(key: str) -> str:
    """Return what a size is called on paper, by the key that an answer gives it: that of a cylinder has no number.

    Parameters
    ----------
    key: a record path; within a cylinder from there on

    Example:
    >>> call_size("port_face.steam_port"), call_size("running.ring_gap"), call_size("finish.temperature")
    ('steam port', 'ring gap', 'finish: temperature')
    """
    known = (path for path in (key, f"cylinder.{key}", f"engine.{key}") if split_key(path)[0] in TERMS)
    term = name_key(next(known, key))
    return f"finish: {term}" if key.startswith("finish.") else term
