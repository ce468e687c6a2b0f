"""Riedler's trials of small motors on compressed air, as far as a crank engine can stand beside them."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.power import FOOT, HORSE_POWER, HOUR, PSI
from tests.published.running import on_air, run, small_engine


def air_used(pressure: float, rpm: float) -> float:
    """Free air [cu ft] of a horse-power hour on the brake: the trial's engine with a bore and a stroke of 25 mm."""
    sizes = small_engine(bore=25.0, stroke=25.0, rod=5.0, connecting_rod=60.0, port=2.5, port_length=11.0)
    engine = run(on_air(pressure * PSI / 1e5, rpm, ideal=False), sizes)
    return engine.free_air * HOUR / FOOT**3 / (engine.brake_power / HORSE_POWER)


ROWS = (
    Row(
        id="RIE-91",
        source="riedler-1891",
        locator="tables of small air motors, cold air",
        kind="trial",
        figures=(
            Figure(
                what="free air of 86 lb, a motor of 0.1 hp at 384 turns",
                theirs=1377,
                ours=lambda: air_used(86, 384),
                unit="cu ft/hp h",
                within=0.5,
                explained=0.35 * 1377,
                places=0,
            ),
            Figure(
                what="free air of 71.8 lb, a motor of 0.5 hp at 243 turns",
                theirs=1148,
                ours=lambda: air_used(71.8, 243),
                unit="cu ft/hp h",
                within=0.5,
                explained=0.35 * 1148,
                places=0,
            ),
        ),
        note="Theirs are rotary motors, worn or new, ours a crank engine of 25 by 25 mm in good order with the trial's "
        "proportions: no more than the order of size is held. The trials on heated air are left out.",
    ),
)
