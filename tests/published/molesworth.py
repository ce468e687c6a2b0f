"""Molesworth, Pocket-Book of Engineering Formulae: lap and lead as shares of the travel."""

from __future__ import annotations

from lapwright.findings.aim import ECONOMICAL_CUT_OFF, LEAD_SHARE
from tests.published.engines import build, read_event
from tests.published.figure import Figure, Row


def cut_off() -> float:
    return read_event(build(throw=0.5, lap=0.22, lead=0.07, port=0.28), "cut_off")


ROWS = (
    Row(
        id="MOL-LAP",
        source="molesworth",
        locator="p. 501, lap and lead",
        kind="rule",
        figures=(
            Figure(
                what="cut-off aimed at for economy, against that of lap 0.22 and lead 0.07 of the travel",
                theirs=0.738,
                ours=lambda: ECONOMICAL_CUT_OFF,
                unit="stroke",
                within=0.005,
            ),
            Figure(
                what="cut-off for that lap and lead, against bourne-1865, Q190",
                theirs=0.7399,
                ours=cut_off,
                unit="stroke",
                within=0.00005,
                explained=0.0025,
                places=4,
            ),
            Figure(
                what="greatest lead that this program aims at",
                theirs=(0.0, 0.07),
                ours=lambda: max(LEAD_SHARE.values()) / 2,
                unit="of the travel",
            ),
        ),
        note="The source gives the proportions, to two decimals, and no cut-off; 0.738 is worked out by hand. "
        "Bourne's rule holds to a quarter of a per cent of the stroke where there is lead.",
    ),
)
