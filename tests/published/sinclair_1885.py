"""Sinclair, Locomotive Engine Running and Management: valve motion, slanting rods, dead centres, effects of changes."""

from __future__ import annotations

from math import cos, degrees, pi, radians, sin

from lapwright.engine.sizes import Sizes
from lapwright.findings.aim import ECONOMICAL_CUT_OFF, LEAD_SHARE
from lapwright.motion.answers import set_moving
from lapwright.motion.linkage import slide_position
from lapwright.motion.solve import find_zero
from lapwright.motion.travel import PistonTravel, ValveTravel
from tests.published.engines import INCH, build, read_event, read_opening
from tests.published.figure import Figure, Row
from tests.published.plain import ADVANCE, ALL_EARLIER, EXHAUST, shift, shift_on_card
from tests.published.van_cleve import travel_by_program

SOURCE = "sinclair-1885"
#: Crank angle at half stroke, worked out by hand from the construction: cos = 1 / (2 n).
HALF_STROKE = {3: 80.406, 4: 82.819, 5: 84.261, 6: 85.220, 7: 85.904, 7.5: 86.177, 8: 86.417}


def passenger_engine() -> Sizes:
    return build(throw=2.5, lap=1, lead=1 / 16, port=1.5, n=7.5)


def mean_of_ends(event: str) -> float:
    """Where an event lies on the mean of the two ends, in inches of a 24 in stroke."""
    return sum(24 * read_event(passenger_engine(), event, end=end) for end in ("head", "crank")) / 2


def piston(n: float) -> PistonTravel:
    moving = set_moving(build(throw=1, lap=0, port=1, n=n))
    assert moving.piston is not None
    return moving.piston


def valve(sizes: Sizes) -> ValveTravel:
    moving = set_moving(sizes)
    assert moving.valve is not None
    return moving.valve


def half_stroke(n: float) -> float:
    return degrees(piston(n).find_angles("head", 0.5)[0])


def shortfall(n: float) -> float:
    """How far a tram as long as the rod, set on mid-stroke, falls short of the pin at the quarter [in]."""
    return float(12 * (n - slide_position(1.0, n, 0.0, cosine=cos(pi / 2), sine=sin(pi / 2))))


def say_shortfall() -> str:
    falls = "falls short" if shortfall(7.5) > 0 else "reaches past"
    return f"{falls}; a shorter rod falls {'shorter' if shortfall(5) > shortfall(7.5) else 'less short'}"


def quarter(end: str, n: float) -> float:
    return piston(n).share_of_stroke(end, pi / 2 if end == "head" else 3 * pi / 2)


def say_quarter(end: str) -> str:
    return "more than half" if quarter(end, 7.5) > 0.5 else "less than half"


def miss_dead_centre(end: str) -> float:
    """How far the middle between the two readings lies from the true dead centre [deg]."""
    travel = piston(7.5)
    before, after = travel.find_angles(end, 0.5 / 24)
    middle = (before + after) / 2 if end == "crank" else (before + after - 2 * pi) / 2
    return abs(degrees(middle - travel.dead_centre(end)))


def stop_angle(end: str) -> float:
    travel = piston(7.5)
    outward = travel.find_angles(end, 0.5 / 24)[0]
    return degrees(outward - travel.dead_centre(end))


def valve_in_a_degree() -> float:
    travel = valve(build(throw=2.5, lap=1, lead=1 / 16, port=1.5))
    return abs(travel.position(radians(1)) - travel.position(0.0)) / INCH


def lap_for_economy() -> float:
    """Lap in inches that cuts off where economy is aimed at, 5 in travel and the lead aimed at."""
    lead = LEAD_SHARE["economical on steam"] * 2.5

    def miss(lap: float) -> float:
        return read_event(build(throw=2.5, lap=lap, lead=lead, port=1.5), "cut_off") - ECONOMICAL_CUT_OFF

    return find_zero(miss, 0.6, 1.8) or 0.0


ROWS = (
    Row(
        id="SIN-5IN",
        source=SOURCE,
        locator="chap. XVIII, valve motion of a fast passenger engine",
        kind="check",
        figures=(
            Figure(
                what="cut-off, mean of both ends",
                theirs=18,
                ours=lambda: mean_of_ends("cut_off"),
                unit="in of 24",
                within=0.5,
                explained=2,
                places=2,
            ),
            Figure(
                what="release, mean of both ends",
                theirs=22,
                ours=lambda: mean_of_ends("release"),
                unit="in of 24",
                within=0.5,
                explained=1,
                places=2,
            ),
        ),
        note="The source says about; a link and a rocker stand between its eccentric and its valve, where ours has one "
        "eccentric. A band to fall into, no tolerance.",
    ),
    Row(
        id="SIN-OPEN",
        source=SOURCE,
        locator="chap. XVIII, why less travel expands more",
        kind="check",
        figures=tuple(
            Figure(
                what=f"valve past the port's edge at {travel} in travel",
                theirs=past,
                ours=lambda travel=travel: read_opening(build(throw=travel / 2, lap=1, port=2)),  # type: ignore[misc]
                unit="in",
                within=1e-6,
            )
            for travel, past in ((5, 1.5), (3, 0.5))
        ),
    ),
    Row(
        id="SIN-K",
        source=SOURCE,
        locator="chapter on the Class K engine",
        kind="check",
        figures=(
            Figure(
                what="steam port opened at 5 1/2 in travel",
                theirs=1.5,
                ours=lambda: read_opening(build(throw=2.75, lap=1.25, lead=1 / 16, port=1.5)),
                unit="in",
                within=1e-6,
            ),
            Figure(
                what="travel for its lap and port",
                theirs=5.5,
                ours=lambda: travel_by_program(1.25, 1.5),
                unit="in",
                within=1e-6,
            ),
        ),
        note="Its pull, its piston speed and its turns in a mile are no matter of the valve and are not compared.",
    ),
    Row(
        id="SIN-HALF",
        source=SOURCE,
        locator="chap. XX, problem 1, figs. 20-21",
        kind="check",
        figures=tuple(
            Figure(
                what=f"crank angle at half stroke, rod of {n:g} cranks",
                theirs=angle,
                ours=lambda n=n: half_stroke(n),  # type: ignore[misc]
                unit="deg",
                within=0.0005,
            )
            for n, angle in HALF_STROKE.items()
        ),
        note="The source draws it; its construction in figures is cos = 1 / (2 n).",
    ),
    Row(
        id="SIN-TRAM",
        source=SOURCE,
        locator="chap. XVII, fig. 11",
        kind="check",
        figures=(
            Figure(
                what="rod-length tram at the quarter",
                theirs="falls short; a shorter rod falls shorter",
                ours=say_shortfall,
            ),
            Figure(
                what="shortfall, 24 in stroke, rod of 7 1/2 cranks",
                theirs=0.804,
                ours=lambda: shortfall(7.5),
                unit="in",
                within=0.0005,
            ),
        ),
        note="The figure is the source's triangle worked out by hand.",
    ),
    Row(
        id="SIN-ANG",
        source=SOURCE,
        locator="chap. XVII, effect of the rod's slant",
        kind="check",
        figures=(
            *(
                Figure(
                    what=f"valve shut at the quarters: cut-off at the {end} end",
                    theirs=words,
                    ours=lambda end=end: say_quarter(end),  # type: ignore[misc]
                )
                for end, words in (("head", "more than half"), ("crank", "less than half"))
            ),
            Figure(
                what="the head end's, rod of 5 cranks",
                theirs=0.5505,
                ours=lambda: quarter("head", 5),
                unit="stroke",
                within=0.00005,
                places=4,
            ),
        ),
        note="The head end is the one away from the crank. The figure is the source's triangle worked out by hand.",
    ),
    Row(
        id="DC-TRAM",
        source=SOURCE,
        locator="chap. XIX; the same in maggard-1900, rohan-1899, ahrons and rose-1877",
        kind="qualitative",
        figures=(
            *(
                Figure(
                    what=f"middle of the two readings off dead centre, {end} end",
                    theirs=0,
                    ours=lambda end=end: miss_dead_centre(end),  # type: ignore[misc]
                    unit="deg",
                    within=1e-6,
                )
                for end in ("head", "crank")
            ),
            *(
                Figure(
                    what=f"crank angle with 1/2 in of 24 to go, {end} end",
                    theirs=angle,
                    ours=lambda end=end: stop_angle(end),  # type: ignore[misc]
                    unit="deg",
                    within=0.0005,
                )
                for end, angle in (("head", 15.601), ("crank", 17.806))
            ),
            Figure(
                what="piston moved by one degree off dead centre",
                theirs=0.00207,
                ours=lambda: 24 * piston(7.5).share_of_stroke("head", radians(1)),
                unit="in",
                within=0.000005,
                places=5,
            ),
            Figure(
                what="valve moved by the same degree, 5 in travel",
                theirs=0.0393,
                ours=valve_in_a_degree,
                unit="in",
                within=0.00005,
                places=4,
            ),
        ),
        note="The source gives the method, which is exact for any rod; the figures, worked out by hand for a rod of "
        "7 1/2 cranks, show why it is wanted.",
    ),
    Row(
        id="EFF-SIN",
        source=SOURCE,
        locator="chap. XVII: lead, inside lap, inside clearance",
        kind="qualitative",
        figures=(
            Figure(what="more advance", theirs=ALL_EARLIER, ours=lambda: shift(advance=ADVANCE + 0.05)),
            Figure(what="on the card", theirs=ALL_EARLIER, ours=lambda: shift_on_card(advance=ADVANCE + 0.05)),
            Figure(
                what="more exhaust lap",
                theirs="release later, compression earlier",
                ours=lambda: shift(EXHAUST, exhaust_lap=0.15),
            ),
            Figure(
                what="on the card",
                theirs="release later, compression earlier",
                ours=lambda: shift_on_card(EXHAUST, exhaust_lap=0.15),
            ),
            Figure(
                what="exhaust clearance",
                theirs="release earlier, compression later",
                ours=lambda: shift(EXHAUST, exhaust_lap=-0.05),
            ),
            Figure(
                what="on the card",
                theirs="release earlier, compression later",
                ours=lambda: shift_on_card(EXHAUST, exhaust_lap=-0.05),
            ),
        ),
    ),
    Row(
        id="EFF-LINK",
        source=SOURCE,
        locator="chap. XVIII, notching up",
        kind="qualitative",
        figures=(
            Figure(
                what="less travel with more advance, as a link gives",
                theirs="cut-off earlier, release earlier, compression earlier",
                ours=lambda: shift(("cut_off", *EXHAUST), throw=0.8, advance=radians(42)),
            ),
            Figure(
                what="on the card",
                theirs="cut-off earlier, release earlier, compression earlier",
                ours=lambda: shift_on_card(("cut_off", *EXHAUST), throw=0.8, advance=radians(42)),
            ),
            Figure(
                what="less travel at the same advance: not so",
                theirs="release later",
                ours=lambda: shift(("release",), throw=0.8),
            ),
            Figure(
                what="on the card",
                theirs="release later",
                ours=lambda: shift_on_card(("release",), throw=0.8),
            ),
        ),
        note="Holds only because a link gives more advance as it takes travel away; a fixed eccentric of less throw "
        "makes release later (ewing-1911, section 65).",
    ),
    Row(
        id="LAPS",
        source=SOURCE,
        locator="chap. XVII",
        kind="rule",
        figures=(
            Figure(
                what="lap where economy is aimed at, 5 in travel",
                theirs=(7 / 8, 1.25),
                ours=lap_for_economy,
                unit="in",
            ),
        ),
        note="The band is that for fast engines; 1/2 to 1 1/4 in for all of standard gauge.",
    ),
)
