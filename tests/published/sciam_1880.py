"""Scientific American, 1880: a model engine with all its sizes."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.power import HORSE_POWER, PSI
from tests.published.running import on_steam, run, small_engine


def model_power() -> float:
    """Brake power [hp]: 1 1/2 by 2 in, single-acting, port 1/16 by 1 in, cut-off at five eighths."""
    throw = 25.4 * 3 / 16
    sizes = small_engine(
        bore=38.1, stroke=50.8, rod=None, connecting_rod=139.7, port=25.4 / 16, port_length=25.4, throw=throw,
        lap=0.64 * throw, lead=0.1, exhaust_lap=0.0,
    )  # fmt: skip
    return run(on_steam(50 * PSI / 1e5, 225, ideal=False), sizes).brake_power / HORSE_POWER


ROWS = (
    Row(
        id="HOP-80",
        source="sciam-1880",
        locator='"A simple single-acting steam engine"',
        kind="trial",
        figures=(
            Figure(
                what="power on steam of 50 lb at 225 turns a minute",
                theirs=0.05,
                ours=model_power,
                unit="hp",
                within=0.005,
                explained=0.03,
            ),
        ),
        note="About 1/20, says the source, and no brake. Its valve oscillates, which no record describes: ours slides, "
        "with the same port and cut-off. Assumed: clearance 8 %, steam of dryness 0.98, leaks, walls and friction as "
        "this program takes them.",
    ),
)
