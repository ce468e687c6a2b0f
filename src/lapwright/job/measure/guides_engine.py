"""How the sizes of engine, cylinder, port face, valve and drive are measured (common practice, no source)."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.job.measure.guide import OPEN_CAUTION, PRESSURE_CAUTION, TURN_CAUTION, Guide

_CALLIPER = "± 0.02 mm with a good calliper"
_RULE = "± 0.2 mm with a rule"
_LOOK = "nothing to measure: look and choose"

_ENGINE: Mapping[str, Guide] = {
    "name": Guide("no tool", "Write what the engine is called, or what you call it.", "any name"),
    "notes": Guide("no tool", "Write down where it came from, what is missing, what you heard and saw.", "any words"),
    "rotation": Guide(
        "eyes",
        "Stand on the side of the flywheel and say which way it is to run. If it is to run both ways, say either.",
        _LOOK,
    ),
    "fluid": Guide("no tool", "Say what it will be driven by when the answers are to hold.", _LOOK),
    "supply_pressure": Guide(
        "pressure gauge at the chest",
        "Read the gauge with the engine running as you mean to run it, as near to the steam chest as you can.",
        "± 0.1 bar with a small gauge",
        PRESSURE_CAUTION,
    ),
    "exhaust_pressure": Guide(
        "pressure gauge in the exhaust",
        "With an open exhaust pipe this is 0 bar. Measure only if the pipe is long, narrow or leads into a condenser.",
        "± 0.1 bar",
        PRESSURE_CAUTION,
    ),
    "purpose": Guide("no tool", "Choose what the engine is to do well; faults are judged by it.", _LOOK),
}
_CYLINDER: Mapping[str, Guide] = {
    "name": Guide("no tool", "Call the cylinders A, B and so on, beginning at the end that you stand at.", "any name"),
    "crank_phase": Guide(
        "degree disc and pointer",
        "Fix the disc to the shaft. Bring the first crank to its head-end dead centre, read the disc; bring this crank "
        "to its own, read again. The difference, as the engine turns, is the phase. The first cylinder has 0 deg.",
        "± 1 deg with a disc of 100 mm",
        TURN_CAUTION,
    ),
    "bore": Guide(
        "inside calliper, telescopic gauge or bore gauge",
        "With the cover off, measure inside the cylinder near both ends and in the middle, each time in two "
        "directions. Write the mean; more than 0.05 mm between them is wear, worth a note.",
        "± 0.02 mm with a telescopic gauge, ± 0.1 mm with calliper jaws",
        OPEN_CAUTION,
    ),
    "stroke": Guide(
        "depth gauge or calliper's tail",
        "With a cover off, turn to both dead centres and measure each time how deep the piston stands. The difference "
        "is the stroke. Or measure from shaft centre to crank-pin centre and double it.",
        "± 0.05 mm",
        TURN_CAUTION,
    ),
    "connecting_rod": Guide(
        "calliper",
        "Measure between the inner sides of the two eyes, then over their outer sides: half the sum is the length from "
        "centre to centre. On the engine, measure from pin to pin in the same way.",
        "± 0.1 mm; it bends the timing only a little",
    ),
    "piston_rod": Guide(
        "micrometer or calliper",
        "Measure the rod where it runs in the gland, and again where it does not: the difference is wear. Leave it out "
        "where the crank end is open to the air and no rod goes through a cover.",
        _CALLIPER,
    ),
    "cylinder_offset": Guide(
        "rule, square and surface table",
        "Most cylinder lines go through the middle of the shaft: leave it out then. Else measure how far the line "
        "passes the shaft's centre; plus is the side on which the crank pin stands a quarter turn after head-end "
        "dead centre.",
        _RULE,
    ),
    "clearance_head": Guide(
        "soft solder wire or plasticine, and a calliper",
        "Lay a piece of soft wire on the piston, put the cover on with its joint, turn slowly through the dead centre, "
        "take the cover off and measure how thick the wire has become. Or fill the end with oil from a measure and "
        'write the volume as a share of the swept volume: "8 %".',
        "± 0.1 mm",
        f"{OPEN_CAUTION} {TURN_CAUTION}",
    ),
    "clearance_crank": Guide(
        "rule on the crosshead",
        "Mark where the crosshead stands at crank-end dead centre, take the crosshead pin out, push the piston on "
        "until it touches the cover: how far the mark went is the clearance.",
        "± 0.2 mm",
        f"{OPEN_CAUTION} {TURN_CAUTION}",
    ),
}
_FACE: Mapping[str, Guide] = {
    "steam_port": Guide(
        "calliper's inside jaws, or a set of drills as plug gauges",
        "Chest cover and valve off. Measure the narrow way of a steam port, along the way the valve moves. Measure "
        "both: if they differ, give the six edges instead.",
        "± 0.05 mm; drills as plugs ± 0.03 mm",
        OPEN_CAUTION,
    ),
    "bridge": Guide(
        "calliper",
        "The bar of metal between a steam port and the exhaust port, along the way the valve moves. Measure both bars.",
        "± 0.05 mm",
        OPEN_CAUTION,
    ),
    "exhaust_port": Guide(
        "calliper's inside jaws",
        "The middle opening, along the way the valve moves.",
        "± 0.05 mm",
        OPEN_CAUTION,
    ),
    "port_length": Guide(
        "calliper's inside jaws",
        "The long way of a port, across the way the valve moves. Round ends count with the mean of length over all and "
        "length of the straight part.",
        "± 0.1 mm",
        OPEN_CAUTION,
    ),
    "chest_head": Guide(
        "rule or calliper",
        "From half-way between the outer edges of the two steam ports to the inner wall of the chest at the head "
        "end, which the valve must not strike. Count in a spindle boss or a nut that stands in its way.",
        _RULE,
        OPEN_CAUTION,
    ),
    "chest_crank": Guide(
        "rule or calliper",
        "From half-way between the outer edges of the two steam ports to the inner wall of the chest at the crank end.",
        _RULE,
        OPEN_CAUTION,
    ),
    "edges": Guide(
        "calliper's tail, or a travelling microscope",
        "Hold the tail against one wall of the chest and read all six port edges from there, from the head end to the "
        "crank end, without moving the datum.",
        "± 0.05 mm",
        OPEN_CAUTION,
    ),
}
_VALVE: Mapping[str, Guide] = {
    "kind": Guide(
        "eyes", "A hollow block that slides on a flat is a slide valve, a spool in a round liner a piston valve.", _LOOK
    ),
    "admission": Guide(
        "eyes",
        "Slide valves nearly always let the steam in over their outer edges: outside. Piston valves often have the "
        "steam between their heads: inside.",
        _LOOK,
    ),
    "length": Guide(
        "micrometer or calliper",
        "Valve out: measure over its two outer edges, along the way it moves, at both sides. If they are not square, "
        "the longest place counts.",
        _CALLIPER,
        OPEN_CAUTION,
    ),
    "cavity": Guide(
        "calliper's inside jaws",
        "Turn the valve over: the hollow underneath, along the way it moves, right at the face and not deeper down.",
        _CALLIPER,
        OPEN_CAUTION,
    ),
    "edges": Guide(
        "calliper's tail",
        "Only where the hollow is not in the middle: all four edges from the valve's own head-end edge, which is 0 mm.",
        _CALLIPER,
        OPEN_CAUTION,
    ),
    "width": Guide(
        "calliper", "Across the way it moves. It must cover the ports by a good margin at both sides.", "± 0.1 mm"
    ),
}
_DRIVE: Mapping[str, Guide] = {
    "throw": Guide(
        "dial gauge or calliper",
        "Turn once round and measure how far the valve spindle goes from end to end: half of it is the throw. Or "
        "measure the thickest and the thinnest place between shaft and sheave: half their difference is the throw.",
        "± 0.02 mm with a dial gauge",
        TURN_CAUTION,
    ),
    "eccentric_rod": Guide(
        "calliper or rule",
        "From the centre of the eccentric's strap to the centre of the pin in the fork.",
        "± 0.2 mm; it bends the timing only a little",
    ),
    "eccentric_angle": Guide(
        "degree disc and dial gauge",
        "Fix the disc to the shaft. Turn, the way it runs, until the spindle stands farthest towards the head end "
        "(with a reversing rocker: the crank end), and read the disc. Turn on to the crank's head-end dead centre "
        "and read again: what lies between is the angle. Find each place by halving between equal readings before "
        "and after it.",
        "± 1 deg with a disc of 100 mm",
        TURN_CAUTION,
    ),
    "valve_line_offset": Guide(
        "rule and square",
        "Where the valve spindle's line misses the shaft's centre, how far; leave it out where it goes through it. "
        "Plus is the side on which the crank pin stands a quarter turn after head-end dead centre.",
        _RULE,
    ),
    "valve_offset": Guide(
        "scriber marks or a depth gauge",
        "Chest cover off: turn to each end of the valve's travel and measure how far the port it uncovers stands "
        "open to steam, or how far the edge has gone past it. Half the difference is the offset: plus where the "
        "crank-end port opens more, with admission over the outer edges.",
        "± 0.05 mm",
        TURN_CAUTION,
    ),
    "rocker": Guide(
        "eyes",
        "If a lever on a fixed pin stands between eccentric rod and spindle, so that the two move against each "
        "other, it is a reversing rocker.",
        _LOOK,
    ),
    "spindle_thread": Guide(
        "thread gauge and calliper",
        "Measure over the crests and try the leaves of a thread gauge until one lies in without light. The page Tables "
        "names the thread from the two.",
        "the thread's name is exact",
    ),
    "spindle_step": Guide(
        "eyes",
        "How far must the spindle or its fork be turned before the pin goes in again: half a turn for a fork, a "
        "whole one where it fits one way only, a sixth for a hexagon nut against a flat.",
        "exact",
    ),
}
_TARGET: Mapping[str, Guide] = {
    "cut_off": Guide("no tool", "Only if you want a cut-off of your own; else the engine's purpose decides.", "a wish"),
    "lead": Guide("no tool", "Only if you want a lead of your own; 0 to 0.2 mm is usual on small engines.", "a wish"),
    "lap": Guide("no tool", "Only if a new valve is to have a steam lap of your own choice.", "a wish"),
    "equal": Guide("no tool", "A finite rod never lets both be alike: say which matters to you.", _LOOK),
}
#: Guidance by table and key.
ENGINE_GUIDES: Mapping[str, Mapping[str, Guide]] = {
    "": {"format": Guide("no tool", "It is 1; there is no other.", "exact")},
    "engine": _ENGINE,
    "cylinder": _CYLINDER,
    "cylinder.port_face": _FACE,
    "cylinder.valve": _VALVE,
    "cylinder.valve_drive": _DRIVE,
    "target": _TARGET,
}
