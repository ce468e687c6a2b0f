"""Travelling engineers' examination: where the eccentric stands for each kind of valve and drive."""

from __future__ import annotations

from math import asin, degrees, pi

from lapwright.motion.answers import describe_motion
from tests.published.engines import build, name_faults, read_laps
from tests.published.figure import Figure, Row

ADVANCE = degrees(asin(0.34))
#: Admission, rocker, and whether the eccentric leads the crank by 90 deg and the advance.
TABLE = (
    ("outside", "none", True),
    ("outside", "reversing", False),
    ("inside", "reversing", True),
    ("inside", "none", False),
)


def found_at(angle: float, admission: str, rocker: str) -> str:
    """What the program finds with the eccentric so many degrees ahead of the crank."""
    sizes = build(throw=1, lap=0.3, lead=0.04, port=0.7, admission=admission, rocker=rocker)
    return name_faults(sizes.replacing({"valve_drive.eccentric_angle": angle % 360 * pi / 180}))


def longer_rod() -> str:
    """What an eccentric rod a little too long does to the laps and to the greatest openings."""
    before, after = (build(throw=1, lap=0.3, lead=0.04, port=1, offset=offset) for offset in (0.0, 0.05))
    laps = "laps kept" if read_laps(before) == read_laps(after) else "laps changed"
    gains = []
    for end in ("head", "crank"):
        old, new = (describe_motion(sizes).ends[end].greatest_steam_opening_mm for sizes in (before, after))
        assert old is not None
        assert new is not None
        gains.append(new - old)
    shifted = gains[0] < 0 < gains[1] and abs(sum(gains)) < 1e-6
    return f"{laps}, opening {'shifted from one end to the other' if shifted else 'changed'}"


def make_figures() -> tuple[Figure, ...]:
    figures = []
    for admission, rocker, ahead in TABLE:
        right = 90 + ADVANCE if ahead else 270 + ADVANCE
        drive = "direct" if rocker == "none" else "indirect"
        stands = "90 deg and the advance ahead" if ahead else "less than 90 deg behind"
        for angle, place, theirs in (
            (right, stands, "sound"),
            (-right, "the other direction's place", "eccentric-reversed"),
        ):
            figures.append(
                Figure(
                    what=f"{admission} admission, {drive}: {place}",
                    theirs=theirs,
                    ours=lambda angle=angle, a=admission, r=rocker: found_at(angle, a, r),  # type: ignore[misc]
                )
            )
    return tuple(figures)


ROWS = (
    Row(
        id="TEA-40",
        source="travelling-engineers",
        locator="Q40-41",
        kind="qualitative",
        figures=(
            *make_figures(),
            Figure(
                what="eccentric rod of another length",
                theirs="laps kept, opening shifted from one end to the other",
                ours=longer_rod,
            ),
        ),
        note="What the program finds with the eccentric set so.",
    ),
)
