"""The Turnstone's figures by hand, and the real examination of it, run once.

The sizes of a thread are those of BS 93, as Machinery's Handbook reprints them (31st ed., p. 2115), in mm:

    number   pitch   major   effective   minor   tapping drill   clearance
    4 BA     0.66    3.60    3.205       2.81    3.0
    5 BA     0.59    3.20    2.845       2.49    2.65
    6 BA     0.53    2.80    2.480       2.16    2.3
    7 BA     0.48    2.50    2.210       1.92    2.05            2.65 (medium, from memory)

Nothing here is taken from the program: the arithmetic stands in the code, its result behind it. Lengths are in mm,
forces in N, stresses in MPa, torques in N mm unless something else is said.
"""

from __future__ import annotations

import html
import json
import re
import tempfile
from collections.abc import Iterable, Mapping
from functools import cache
from math import pi, radians, tan
from pathlib import Path
from typing import Any

from tests.journey.program import bring_example, run

#: A figure as it stands in a sentence: not a part of a word such as M3 or H7.
FIGURE = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:/\d+)?")
#: A figure re-derived, or why it is not one: the name of a thread, a count of the record.
Hand = float | str

# --- the engine as its record has it -------------------------------------------------------------------------------
BORE, PRESSURE, THROW = 25.0, 0.3, 3.0  # 3 bar above the atmosphere is 0.3 MPa
CELSIUS = 143.73  # IAPWS R7-97: 4.0 bar abs boils at 143.61 degC; 0.01325 bar more at 8.9 K a bar is 0.12 K more
# --- the valve's friction, by hand ----------------------------------------------------------------------------------
# The chest presses on the back, 16.2 x 18 = 291.6 mm2; under the cavity, 10.2 x 14 = 142.8 mm2, there is nothing; under
# the lands, 148.8 mm2, half of the chest's pressure: 0.3 x (291.6 - 148.8 / 2) = 65.2 N. What is in the two ports, 33.6
# mm2 each, comes instead of that half where a land covers it: between nothing and 0.3 MPa. Just after release there is
# next to nothing in either, so the lands are pressed down by up to 0.15 x 2 x 33.6 = 10.1 N more: 75.2 N.
LEAST_LOAD = PRESSURE * (16.2 * 18 - (16.2 * 18 - 10.2 * 14) / 2)  # 65.2 N
MOST_LOAD = LEAST_LOAD + PRESSURE / 2 * 2 * 2.4 * 14  # 75.2 N
# Greased metal on metal, 0.03 to 0.15 (Bourne, Q55-57), of which 0.08 is taken.
FRICTION = 0.08 * (LEAST_LOAD + MOST_LOAD) / 2  # 5.6 N, right to 7 %
# --- the cover's joint (ASME VIII, appendix 2: oiled paper has y = 7.58 MPa and m = 1.75) ----------------------------
WIDTH, MEAN = (30 - BORE) / 2, (30 + BORE) / 2  # 2.5 and 27.5
SEATING = pi * MEAN * WIDTH * 7.58  # 1637 N to bed it over its whole width
HOLDING = PRESSURE * pi / 4 * 30**2 + 2 * WIDTH * pi * MEAN * 1.75 * PRESSURE  # 212 + 227 = 439 N under pressure
PULL = SEATING / 6  # 273 N in each of six
# A 7 BA stud breaks across the mean of effective and minor diameter, D - 0.9 p: 2.5 - 0.432 = 2.068, so 3.36 mm2.
STUD_AREA = pi / 4 * (2.5 - 0.9 * 0.48) ** 2
PROOF = 225.0  # class 4.6 (ISO 898-1)
# T = K d F with K = 0.20 on dry threads: 0.2 x 2.5 mm = 0.5 N mm for each N.
STUD_ARM = 0.2 * 2.5
JOINT_TORQUE = PULL * STUD_ARM  # 136 N mm
MOST_TORQUE = 0.75 * PROOF * STUD_AREA * STUD_ARM  # 0.75 x 225 x 3.36 = 567 N, so 283 N mm
FOUND_PULL = 450 / STUD_ARM  # 0.45 N m: 900 N
# --- the eccentric's new screw, 4 BA in brass -------------------------------------------------------------------------
SEAT = 1020.0  # the 1.5 mm key of an M3 grub screw yields at 1.02 N m (a maker's table of keys)
THRUST = SEAT / (0.2 * 3.6)  # 1417 N
# The brass shears off round the screw's crests: pi D / p (p / 2 + tan(47.5 / 2) (D - E)) for each mm of thread, that is
# 17.14 x (0.33 + 0.44 x 0.395) = 8.63 mm2; brass shears at 210 MPa. The length that just bears the thrust is doubled.
FLANK = tan(radians(47.5 / 2))
BRASS_A_MM = pi * 3.6 / 0.66 * (0.33 + FLANK * (3.6 - 3.205)) * 210  # 1813 N
THREAD = 2 * THRUST / BRASS_A_MM  # 1.56 mm
# Half of the thrust becomes hold at the skin of the 6 mm shaft (an estimate, and said to be one).
HELD = THRUST / 2 * 3.0  # 2125 N mm
# --- the fork pin: the reamer above 2.8 mm, by half mm, is 3.0; ISO 286 up to 3 mm: H7 0 to +10, g6 -2 to -8 um -----
SHANK = 3.0


def agree(shown: str, value: float) -> bool:
    """Whether a shown figure is a value, rounded to the places that are shown."""
    places = len(shown.partition(".")[2])
    return abs(float(shown) - value) <= 0.5 * 0.1**places * 1.001


def check_figures(texts: Iterable[str], by_hand: Mapping[str, Hand | tuple[Hand, ...]]) -> None:
    """Every figure in the texts is told of by hand, and every one that was worked out stands there as it came out."""
    told = set(FIGURE.findall(" ".join(texts)))
    assert told <= set(by_hand), f"not worked out by hand: {told - set(by_hand)}"
    for shown, values in by_hand.items():
        for value in values if isinstance(values, tuple) else (values,):
            assert isinstance(value, str) or (shown in told and agree(shown, value)), (shown, value)


@cache
def examine_turnstone() -> tuple[str, dict[str, Any]]:
    """The job card's words, and all results."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        answer = run("examine", bring_example("turnstone", folder), "--json", "--html", "card.html", folder=folder)
        assert answer.status == 0, answer.err
        page = (folder / "card.html").read_text(encoding="utf-8")
    plain = re.sub(r"<(style|svg).*?</\1>|<[^>]+>", " ", page, flags=re.DOTALL)
    return " ".join(html.unescape(plain).split()), json.loads(answer.out)


def find(kind: str, code: str) -> dict[str, Any]:
    """The one finding or cure of a code."""
    (found,) = [each for each in examine_turnstone()[1][kind] if each["code"] == code]
    assert isinstance(found, dict)
    return found


def read_cure(code: str) -> list[str]:
    """Everything that a cure says but its sources."""
    cure = find("cures", code)
    return [cure["title"], *cure["steps"], *cure["notes"], *cure["before_you_start"]]


def read_finding(code: str) -> list[str]:
    """Everything that a finding says."""
    finding = find("findings", code)
    return [finding[name] for name in ("title", "because", "effect", "check_next")]
