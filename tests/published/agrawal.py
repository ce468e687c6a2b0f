"""Agrawal, Basic Mechanical Engineering: mean effective pressures, with and without clearance."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.power import mean_bar

SOURCE = "agrawal"
#: Supply and back pressure [bar], cut-off, mean pressure [bar] and its rounding.
CASES = (
    (10, 1.5, "0.35", 0.35, 5.67, 0.005),
    (14, 0.15, "0.2", 0.2, 7.156, 0.0005),
    (9, 1.5, "0.25", 0.25, 3.87, 0.005),
    (10, 1, "1/3", 1 / 3, 6.0, 0.05),
)

ROWS = (
    Row(
        id="AGR-1",
        source=SOURCE,
        locator="examples 1, 6, 7 and 8, pp. 281-288",
        kind="check",
        figures=(
            *(
                Figure(
                    what=f"{supply:g} bar, back {back:g} bar, cut-off {shown}",
                    theirs=mean,
                    ours=lambda supply=supply, back=back, cut_off=cut_off: mean_bar(supply, cut_off, back=back),  # type: ignore[misc]
                    unit="bar",
                    within=rounding,
                )
                for supply, back, shown, cut_off, mean, rounding in CASES
            ),
            Figure(
                what="real card over ideal one, 4.84 bar, example 8",
                theirs=0.807,
                ours=lambda: 4.84 / mean_bar(10, 1 / 3, back=1),
                within=0.0005,
                places=4,
            ),
        ),
    ),
    Row(
        id="AGR-2",
        source=SOURCE,
        locator="example 2, p. 283",
        kind="check",
        figures=(
            Figure(
                what="12 bar, back 1.1 bar, cut-off 1/3, clearance 5 %",
                theirs=7.54,
                ours=lambda: mean_bar(12, 1 / 3, back=1.1, clearance=0.05),
                unit="bar",
                within=0.005,
            ),
        ),
    ),
)
