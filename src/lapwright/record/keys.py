"""Every key of a record of format 1: what reads it, what it means, how it is written."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.engine.engine import FLUIDS, PURPOSES, ROTATIONS
from lapwright.engine.running import WALL_HEATS
from lapwright.quantities import (
    read_angle,
    read_clearance,
    read_coefficient,
    read_dryness,
    read_duration,
    read_flow,
    read_gap,
    read_inertia,
    read_load,
    read_pressure,
    read_share,
    read_speed,
    read_temperature,
    read_thread,
    read_turns,
    read_volume,
)
from lapwright.record.key import Key, length_key, word_key
from lapwright.record.part_keys import PART_TABLES
from lapwright.record.words import read_fitted, read_format, read_name, read_notes, read_purpose

_CLEARANCE = "piston to cover at dead centre, or the clearance volume in % of the swept volume"
_ENGINE = {
    "name": Key(read_name, "what the engine is called", "Tern"),
    "notes": Key(read_notes, "anything worth keeping", "found seized, freed with oil"),
    "rotation": word_key("which way it turns, seen from the flywheel end", *ROTATIONS),
    "fluid": word_key("what drives it", *FLUIDS),
    "supply_pressure": Key(read_pressure, "at the steam chest, gauge", "2 bar"),
    "exhaust_pressure": Key(read_pressure, "behind the exhaust, gauge", "0 bar"),
    "purpose": Key(read_purpose, "what it is to do well: decides what counts as right", PURPOSES[0]),
}
_CYLINDER = {
    "name": Key(read_name, "A, B, ... where left out", "A"),
    "crank_phase": Key(read_angle, "how far its crank leads the first cylinder's as it turns", "0 deg"),
    "bore": length_key("inside diameter of the cylinder", "3/4 in"),
    "stroke": length_key("twice the crank throw", "3/4 in"),
    "connecting_rod": length_key("centre to centre", "45 mm"),
    "piston_rod": length_key("diameter; leave out where the crank end is open to air", "3.2 mm"),
    "cylinder_offset": length_key("cylinder line from the shaft centre", "0 mm"),
    "clearance_head": Key(read_clearance, f"{_CLEARANCE}; head end", "0.8 mm"),
    "clearance_crank": Key(read_clearance, f"{_CLEARANCE}; crank end", "0.8 mm"),
}
_FACE = {
    "steam_port": length_key("steam port, along the valve line", "2.0 mm"),
    "bridge": length_key("bar between a steam port and the exhaust port", "2.0 mm"),
    "exhaust_port": length_key("exhaust port, along the valve line", "4.0 mm"),
    "port_length": length_key("the ports across the valve line", "8 mm"),
    "chest_head": length_key("middle of the port face to the chest wall, head end", "11 mm"),
    "chest_crank": length_key("middle of the port face to the chest wall, crank end", "11 mm"),
    "edges": length_key("the six port edges from any datum, head end to crank end", "2.0 mm", count=6),
}
_VALVE = {
    "kind": word_key("slide valve or piston valve", "slide", "piston"),
    "admission": word_key("which edges let the steam in", "outside", "inside"),
    "length": length_key("over the outer edges", "14.0 mm"),
    "cavity": length_key("the hollow underneath, along the valve line", "8.0 mm"),
    "edges": length_key("the four edges from the valve's head-end edge", "0 mm", count=4),
    "width": length_key("across the valve line", "11 mm"),
}
_DRIVE = {
    "throw": length_key("eccentric's centre to the shaft's: half the valve travel", "3.0 mm"),
    "eccentric_rod": length_key("centre to centre", "60 mm"),
    "eccentric_angle": Key(read_angle, "how far the eccentric leads the crank as it turns", "90 deg"),
    "valve_line_offset": length_key("valve line from the shaft centre", "0 mm"),
    "valve_offset": length_key("valve off the middle of the ports, + towards the head end", "0 mm"),
    "rocker": word_key("a rocker between that turns the motion round", "none", "reversing"),
    "spindle_thread": Key(read_thread, "thread that moves the valve along its spindle", "7 BA"),
    "spindle_step": Key(read_turns, "smallest turn that brings the fork back square", "1/2 turn"),
}
_TARGET = {
    "cut_off": Key(read_share, "share of the stroke at which steam is cut off", "75 %"),
    "lead": length_key("opening to steam at dead centre", "0.1 mm"),
    "lap": length_key("steam lap at each end", "0.5 mm"),
    "equal": word_key("what is to be alike at both ends", "leads", "cut-off"),
}
_RUNNING = {
    "discharge_coefficient": Key(read_coefficient, "of the port openings", "0.70", is_number=True),
    "friction_pressure": Key(read_pressure, "mean effective pressure that its own friction takes", "0.25 bar"),
    "ring_gap": Key(read_gap, "gap past the piston, with its rings or packing", "4 µm"),
    "valve_face_gap": Key(read_gap, "gap between valve and face", "2 µm"),
    "gland_gap": Key(read_gap, "gap round the piston rod in its gland", "5 µm"),
    "wall_heat": word_key("whether the walls take up heat and give it back", *WALL_HEATS),
    "supply_temperature": Key(read_temperature, "at the steam chest; of steam only if superheated", "20 degC"),
    "steam_dryness": Key(read_dryness, "share of dry steam in what arrives", "0.98", is_number=True),
    "load": Key(read_load, "what it drives: a torque or a power", "30 mN m"),
    "flywheel_inertia": Key(read_inertia, "moment of inertia of flywheel, crank and what turns with them", "3 kg cm2"),
    "supply_bore": length_key("narrowest place of supply pipe or throttle, as a round hole", "4 mm"),
    "exhaust_bore": length_key("narrowest place of the exhaust pipe, as a round hole", "5 mm"),
    "passage_bore": length_key("narrowest place between port and cylinder, as a round hole", "4 mm"),
    "valve_friction": Key(read_coefficient, "coefficient of friction of valve on face", "0.08", is_number=True),
    "from_tests": Key(
        read_fitted, "which of these figures were worked out from the bench tests", "friction_pressure, ring_gap"
    ),
}
_BENCH_TEST = {
    "fluid": word_key("what it was run on; the engine's own where left out", *FLUIDS),
    "supply_pressure": Key(read_pressure, "running steadily: at the steam chest, gauge", "0.8 bar"),
    "exhaust_pressure": Key(read_pressure, "behind the exhaust, gauge; the engine's own where left out", "0 bar"),
    "speed": Key(read_speed, "running steadily: how fast", "420 ± 10 rpm"),
    "load": Key(read_load, "what it drove then; left out, it ran light", "12 mN m"),
    "air_flow": Key(read_flow, "free air that it took then", "14 L/min"),
    "dead": Key(read_name, "name of a cylinder that was only dragged, its pipes off", "B"),
    "run_down_from": Key(read_speed, "running down, supply shut and drains open: from this speed ...", "400 rpm"),
    "run_down_time": Key(read_duration, "... to rest in this time", "8.5 s"),
    "decay_from": Key(read_pressure, "valve over shut ports, air shut in at a tap: from this pressure ...", "1 bar"),
    "decay_to": Key(read_pressure, "... down to this one", "0.5 bar"),
    "decay_time": Key(read_duration, "... in this time", "40 s"),
    "decay_volume": Key(read_volume, "what was shut in: chest, and pipe up to the tap", "25 cm3"),
    "note": Key(read_notes, "anything worth keeping", "oil cups full, glands just drawn up"),
}
#: Every table by its dotted name, without the number of the cylinder; "" is the top of the file.
TABLES: Mapping[str, Mapping[str, Key]] = {
    "": {"format": Key(read_format, "the format of this record", "1")},
    "engine": _ENGINE,
    "cylinder": _CYLINDER,
    "cylinder.port_face": _FACE,
    "cylinder.valve": _VALVE,
    "cylinder.valve_drive": _DRIVE,
    "cylinder.gland": PART_TABLES["cylinder.gland"],
    "target": _TARGET,
    "running": _RUNNING,
    "bench_test": _BENCH_TEST,
    **{name: keys for name, keys in PART_TABLES.items() if "." not in name},
}
#: Tables of which a record may have several, each with its place in the list before its keys.
LISTS = ("cylinder", "cylinder.gland", "bench_test", "fastener", "pin")


def find_subtables(table: str) -> tuple[str, ...]:
    """List the names of the tables right below a table."""
    start = f"{table}." if table else ""
    names = (name.removeprefix(start) for name in TABLES if name and name.startswith(start))
    return tuple(name for name in names if name and "." not in name)


def show_heading(table: str) -> str:
    """Write the heading under which a table's keys stand."""
    return f"[[{table}]]" if table in LISTS else f"[{table}]" if table else "the top of the file"
