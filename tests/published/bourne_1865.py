"""Bourne, A Catechism of the Steam Engine: rules of lap, exhaust, travel and setting, two of them misprinted."""

from __future__ import annotations

import re
from functools import cache
from math import asin, pi, sqrt

import numpy as np

from lapwright.cures import find_cures
from lapwright.engine.assume import assume_missing
from lapwright.engine.engine import Engine, Target
from lapwright.engine.sizes import Sizes
from lapwright.findings import find_faults
from lapwright.findings.aim import ECONOMICAL_CUT_OFF, choose_aim
from lapwright.findings.causes.travel import right_throw
from lapwright.findings.reading import Reading
from lapwright.motion.many import EVENT_ROWS, EngineArrays, find_events_of_many
from tests.published.engines import INCH, LONG, build, name_faults, read_event, read_laps, read_opening
from tests.published.figure import Figure, Row

SOURCE = "bourne-1865"
CUT_OFFS = (0.5, 0.6, 2 / 3, 0.7, 0.75, 0.8, 0.9)


def lap_by_rule(cut_off: float, lead: float) -> float:
    """The source's rule, in half-travels: lap = sqrt((S - cut) / S) * travel / 2 - lead / 2."""
    return sqrt(1 - cut_off) - lead / 2


def cut_off_by_rule(cut_off: float) -> float:
    lap = lap_by_rule(cut_off, 0.0)
    return read_event(build(throw=1, lap=lap, port=1), "cut_off")


@cache
def worst_cut_off(lead: float) -> float:
    """How far the rule's laps miss their cut-off at a lead of so many half-travels, all seven at once."""
    laps = np.array([lap_by_rule(cut_off, lead) for cut_off in CUT_OFFS])
    answers = find_events_of_many(
        EngineArrays(
            stroke=2.0,
            connecting_rod=LONG,
            cylinder_offset=0.0,
            throw=1.0,
            eccentric_rod=LONG,
            eccentric_angle=pi / 2 + np.arcsin(laps + lead),
            valve_line_offset=0.0,
            valve_offset=0.0,
            head_steam_lap=laps,
            head_exhaust_lap=0.0,
            crank_steam_lap=laps,
            crank_exhaust_lap=0.0,
        )
    )
    return float(np.max(np.abs(answers.stroke_share[EVENT_ROWS.index("head.cut_off")] - np.array(CUT_OFFS))))


def exhaust_engine() -> Sizes:
    return build(throw=1, lap=0.4, lead=0.05, exhaust_lap=0.1, port=0.6)


def travel_without_lap() -> float:
    """Travel in port widths that the program calls right for a valve without lap, its eccentric square."""
    engine = Engine(name="Wren", cylinders=(build(throw=0.8, lap=0, port=1, advance=0.0),))
    throw = right_throw(Reading(engine.cylinders[0]), choose_aim(engine))
    return 2 * (throw or 0.0) / INCH


def chord_in_cure() -> float:
    """Chord as a share of the diameter, read out of the words of the cure for a square eccentric."""
    engine = Engine(
        name="Wren",
        cylinders=(build(throw=1, lap=0.4, port=0.6, advance=0.0),),
        target=Target(lead=0.05 * INCH),
    )
    cures = {cure.code: cure for cure in find_cures(engine, find_faults(engine))}
    told = re.search(r"straight across, ([0-9.]+) mm on 20 mm", " ".join(cures["turn-eccentric"].steps))
    assert told
    return float(told[1]) / 20


def judge_angle(degrees_ahead: float, *, lap: float, lead: float, rocker: str) -> str:
    sizes = build(throw=1, lap=lap, lead=lead, port=1 - lap, rocker=rocker)
    return name_faults(sizes.replacing({"valve_drive.eccentric_angle": degrees_ahead * pi / 180}))


ADVANCE = asin(0.35) * 180 / pi
LAPPED = {"lap": 0.3, "lead": 0.05}
BARE = {"lap": 0.0, "lead": 0.0}


def assumed_rod() -> float:
    return assume_missing(Sizes("A", {"stroke": 1.0})).numbers["connecting_rod"]


ROWS = (
    Row(
        id="B-Q189",
        source=SOURCE,
        locator="Q189",
        kind="rule",
        figures=(
            Figure(what="travel without lap", theirs=2, ours=travel_without_lap, unit="port widths", within=1e-6),
            Figure(
                what="opening at that travel",
                theirs=1,
                ours=lambda: read_opening(build(throw=1, lap=0, port=1)),
                unit="port widths",
                within=1e-6,
            ),
            Figure(
                what="lap of a face as long as the port",
                theirs=0,
                ours=lambda: sum(read_laps(build(throw=1, lap=0, port=1))),
                unit="in",
                within=1e-6,
            ),
        ),
    ),
    Row(
        id="B-Q190",
        source=SOURCE,
        locator="Q190",
        kind="check",
        figures=(
            *(
                Figure(
                    what=f"cut-off with the rule's lap for {cut_off:.4g}, no lead",
                    theirs=cut_off,
                    ours=lambda cut_off=cut_off: cut_off_by_rule(cut_off),  # type: ignore[misc]
                    unit="stroke",
                    within=1e-5,
                    places=5,
                )
                for cut_off in CUT_OFFS
            ),
            *(
                Figure(
                    what=f"greatest miss of the seven, lead {lead:.0%} of the half-travel",
                    theirs=0,
                    ours=lambda lead=lead: worst_cut_off(lead),  # type: ignore[misc]
                    unit="stroke",
                    within=1e-5,
                    explained=allowed,
                    places=5,
                )
                for lead, allowed in ((0.04, 0.0005), (0.10, 0.0026))
            ),
        ),
        note="Without lead the rule is exact. With lead it puts the sine of half a sum for half the sum of two sines, "
        "and misses by a quarter of a per cent of the stroke at most. Infinite rods, as the source takes them.",
    ),
    Row(
        id="B-Q191",
        source=SOURCE,
        locator="Q191",
        kind="erratum",
        figures=(
            Figure(
                what="exhaust shut so far from the end",
                theirs=0.1564,
                printed=1.1564,
                ours=lambda: 2 * read_event(exhaust_engine(), "compression"),
                unit="half-strokes",
                within=0.00005,
                places=4,
            ),
        ),
        note="Printed: 2 - cos, which puts the piston past the middle (1.1564 for lap 0.4, lead 0.05, exhaust lap 0.1 "
        "of the half-travel). With 1 - cos it is exact.",
    ),
    Row(
        id="B-Q192",
        source=SOURCE,
        locator="Q192",
        kind="erratum",
        figures=(
            Figure(
                what="release so far before the end",
                theirs=0.0664,
                printed=0.463,
                ours=lambda: 2 * (1 - read_event(exhaust_engine(), "release")),
                unit="half-strokes",
                within=0.00005,
                places=4,
            ),
        ),
        note="Printed: the arc whose sine is exhaust lap over half-travel (gives 0.463). With the arc whose cosine it "
        "is, the rule is exact.",
    ),
    Row(
        id="B-Q194",
        source=SOURCE,
        locator="Q194",
        kind="rule",
        figures=(
            Figure(
                what="earliest cut-off that this program aims at",
                theirs=(2 / 3, 1.0),
                ours=lambda: ECONOMICAL_CUT_OFF,
                unit="stroke",
            ),
            Figure(
                what="cut-off with lap sqrt(1/3) of the half-travel",
                theirs=2 / 3,
                ours=lambda: cut_off_by_rule(2 / 3),
                unit="stroke",
                within=1e-5,
                places=5,
            ),
        ),
        note="A rule of thumb: lap alone should not be asked to cut off earlier than two thirds.",
    ),
    Row(
        id="ROD-PRACT",
        source=SOURCE,
        locator="Q345; with molesworth, p. 499, and langley-1911, p. 116",
        kind="rule",
        figures=(
            Figure(
                what="connecting rod assumed where none is given",
                theirs=(15 / 7, 3.5),
                ours=assumed_rod,
                unit="strokes",
            ),
        ),
        note="3.5 strokes for land engines, 3 (Molesworth), 2 1/7 in Langley's small engine; the assumption keeps to "
        "the short side, as small engines do.",
    ),
    Row(
        id="B-Q520",
        source=SOURCE,
        locator="Q520",
        kind="qualitative",
        figures=(
            Figure(
                what="direct, more than 90 deg ahead",
                theirs="sound",
                ours=lambda: judge_angle(90 + ADVANCE, rocker="none", **LAPPED),
            ),
            Figure(
                what="direct, more than 90 deg behind",
                theirs="eccentric-reversed",
                ours=lambda: judge_angle(270 - ADVANCE, rocker="none", **LAPPED),
            ),
            Figure(
                what="reversing lever, less than 90 deg behind",
                theirs="sound",
                ours=lambda: judge_angle(270 + ADVANCE, rocker="reversing", **LAPPED),
            ),
            Figure(
                what="reversing lever, less than 90 deg ahead",
                theirs="eccentric-reversed",
                ours=lambda: judge_angle(90 - ADVANCE, rocker="reversing", **LAPPED),
            ),
            Figure(
                what="no lap or lead, direct, 90 deg ahead",
                theirs="sound",
                ours=lambda: judge_angle(90, rocker="none", **BARE),
            ),
            Figure(
                what="no lap or lead, reversing lever, 90 deg behind",
                theirs="sound",
                ours=lambda: judge_angle(270, rocker="reversing", **BARE),
            ),
        ),
        note="Outside admission; what the program finds with the eccentric set so.",
    ),
    Row(
        id="B-Q521",
        source=SOURCE,
        locator="Q521",
        kind="rule",
        figures=(
            Figure(
                what="chord for 26.74 deg, as the cure tells it",
                theirs=0.2312,
                ours=chord_in_cure,
                unit="shaft diameters",
                within=0.00005,
                explained=0.0004,
                places=4,
            ),
        ),
        note="d sin(advance / 2), the source's construction in figures; the cure tells it to 0.01 mm on 20 mm.",
    ),
)
