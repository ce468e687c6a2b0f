"""Unwin, "Hydraulics": Weisbach's trials of air through openings, and the coefficient taken for a port."""

from __future__ import annotations

from lapwright.engine.engine import Engine
from lapwright.engine.running import assume_running
from tests.published.figure import Figure, Row


def taken() -> float:
    running, _ = assume_running(Engine(name="Wren", cylinders=()), fluid="air", stroke=0.02)
    return running.discharge_coefficient or 0.0


ROWS = (
    Row(
        id="CD-WEISBACH",
        source="unwin-1911",
        locator="sections 63 and 64",
        kind="rule",
        figures=(
            Figure(what="discharge coefficient taken where none is given", theirs=(0.563, 0.84), ours=taken, places=3),
        ),
        note="A port edge lies between a sharp edge (0.563 at small drops to 0.788 at large ones) and a short cylinder "
        "(0.81 to 0.84).",
    ),
)
