"""Rohan, Young Engineer's Guide: setting a plain slide valve."""

from __future__ import annotations

from dataclasses import replace
from math import degrees

from lapwright.cures import find_cures
from lapwright.cures.setting import describe_setting
from lapwright.engine.assume import assume_missing
from lapwright.engine.engine import Engine
from lapwright.findings import find_faults
from tests.published.ahrons import lengthening
from tests.published.engines import build
from tests.published.figure import Figure, Row

ANGLE = "valve_drive.eccentric_angle"


def setting_words() -> str:
    sizes = build(throw=1, lap=0.3, lead=0.04, port=0.7)
    parts = describe_setting(Engine(name="Wren", cylinders=(sizes,)), sizes)
    return " ".join(step for part in parts for step in part.steps)


def says(words: str) -> str:
    return "said" if words in setting_words() else "not said"


def way_to_move() -> str:
    """The end towards which the valve goes when the back (crank) end shows the greater lead."""
    return "towards the end with the greater lead" if lengthening() < 0 else "away from it"


def way_to_turn(lead: float) -> str:
    """Which way the cure turns the eccentric when both leads are so large, in throws."""
    engine = Engine(name="Wren", cylinders=(build(throw=1, lap=0.3, lead=lead, port=0.7),))
    turns = [cure.set["turn_deg"] for cure in find_cures(engine, find_faults(engine)) if "turn_deg" in cure.set]
    assert len(turns) == 1
    assert isinstance(turns[0], float)
    return "back" if turns[0] < 0 else "on"


def side(rocker: str) -> str:
    """Whether the program, told nothing of the eccentric's angle, takes it to stand ahead of the crank or behind."""
    sizes = build(throw=1, lap=0.3, port=0.7, rocker=rocker)
    told = {key: value for key, value in sizes.numbers.items() if key != ANGLE}
    return "ahead" if degrees(assume_missing(replace(sizes, numbers=told)).numbers[ANGLE]) < 180 else "behind"


ROWS = (
    Row(
        id="YEG-SET",
        source="rohan-1899",
        locator='"Setting a plain slide valve"',
        kind="qualitative",
        figures=(
            Figure(
                what="the valve moved by, for leads that differ by 1/8 in",
                theirs=0.0625,
                ours=lambda: abs(lengthening()),
                unit="in",
                within=1e-5,
                places=4,
            ),
            Figure(what="and which way", theirs="towards the end with the greater lead", ours=way_to_move),
            Figure(
                what="the setting procedure: by half the difference towards the end that shows more",
                theirs="said",
                ours=lambda: says("by half the difference towards the end that shows more"),
            ),
            Figure(what="both leads too large: turn the eccentric", theirs="back", ours=lambda: way_to_turn(0.3)),
            Figure(what="both too small: turn it", theirs="on", ours=lambda: way_to_turn(-0.2)),
            Figure(what="eccentric, direct", theirs="ahead", ours=lambda: side("none")),
            Figure(what="eccentric, reversing rocker", theirs="behind", ours=lambda: side("reversing")),
        ),
        note="Outside admission. The source also wants lost motion taken up first (rose-1877).",
    ),
)
