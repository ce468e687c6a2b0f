"""Modern Mechanism: which part of an engine's friction is the valve's."""

from __future__ import annotations

from math import pi

from lapwright.engine.running import Running
from tests.published.figure import Figure, Row
from tests.published.running import on_steam, run, small_engine


def valve_share() -> float:
    """Friction of the valve on its face over all friction, the trial's engine on steam of 3 bar."""
    engine = run(on_steam(3.0, 600, ideal=False), small_engine(), running=Running(wall_heat="none"))
    load = engine.cylinders[0].valve
    assert load is not None
    return load.work * engine.conditions.speed / (2 * pi) / engine.friction_power


ROWS = (
    Row(
        id="FRICTION-VALVE",
        source="modern-mechanism",
        locator="article on friction",
        kind="trial",
        figures=(
            Figure(
                what="friction of a flat valve over all friction of the engine",
                theirs=0.20,
                ours=valve_share,
                within=0.05,
                places=2,
            ),
        ),
        note="About a fifth in large engines (Thurston, Carpenter and Preston); ours for a small engine on steam of 3 "
        "bar, with the friction of both taken for granted: 0.08 for the valve, 0.25 bar for the whole.",
    ),
)
