"""Ewing, "Steam Engine": the relation of lap, lead and advance (misprinted), and what changes of the gear do."""

from __future__ import annotations

from tests.published.engines import build, read_advance
from tests.published.figure import Figure, Row
from tests.published.plain import ADVANCE, ALL_EARLIER, shift

SOURCE = "ewing-1911"

ROWS = (
    Row(
        id="EB-61",
        source=SOURCE,
        locator="section 61",
        kind="erratum",
        figures=(
            Figure(
                what="angle of advance for lap 0.4 and lead 0.05 of the half-travel",
                theirs=26.744,
                printed=63.256,
                ours=lambda: read_advance(build(throw=1, lap=0.4, port=0.6), 0.05),
                unit="deg",
                within=0.0005,
            ),
        ),
        note="Printed: lap + lead = half-travel times cos of the advance (gives 63.256). The source itself defines the "
        "advance as the excess over a right angle, so it has to be sin.",
    ),
    Row(
        id="EFF-EB",
        source=SOURCE,
        locator="section 65",
        kind="qualitative",
        figures=(
            Figure(
                what="travel reduced",
                theirs="admission later, cut-off earlier, release later, compression earlier",
                ours=lambda: shift(throw=0.9),
            ),
            Figure(what="angle of advance increased", theirs=ALL_EARLIER, ours=lambda: shift(advance=ADVANCE + 0.05)),
        ),
        note="The eccentric keeps its angle while the travel is reduced, so the lead falls.",
    ),
)
