"""Van Cleve, The English and American Mechanic: the rule for the stroke of a slide valve."""

from __future__ import annotations

from lapwright.engine.engine import Engine
from lapwright.findings.aim import choose_aim
from lapwright.findings.causes.travel import right_throw
from lapwright.findings.reading import Reading
from tests.published.engines import INCH, build, read_opening
from tests.published.figure import Figure, Row

SOURCE = "van-cleve"
#: Lap, port and the travel that their own sources give (in): a small engine, low-1887 fig. 58, sinclair-1885 Class K.
BUILT = ((0.25, 0.75, 2.0), (0.375, 0.625, 2.0), (1.25, 1.5, 5.5))


def travel_by_program(lap: float, port: float) -> float:
    """Travel in inches that the program calls right, asked of an engine with too little of it, its eccentric square."""
    engine = Engine(name="Wren", cylinders=(build(throw=0.8 * (lap + port), lap=lap, port=port, advance=0.0),))
    return 2 * (right_throw(Reading(engine.cylinders[0]), choose_aim(engine)) or 0.0) / INCH


ROWS = (
    Row(
        id="VC-1",
        source=SOURCE,
        locator="rule for the stroke of a slide valve",
        kind="rule",
        figures=(
            *(
                Figure(
                    what=f"travel for lap {lap:g} in and port {port:g} in",
                    theirs=travel,
                    ours=lambda lap=lap, port=port: travel_by_program(lap, port),  # type: ignore[misc]
                    unit="in",
                    within=1e-6,
                )
                for lap, port, travel in BUILT
            ),
            *(
                Figure(
                    what=f"port of {port:g} in opened at that travel",
                    theirs=port,
                    ours=lambda lap=lap, port=port: read_opening(build(throw=lap + port, lap=lap, port=port)),  # type: ignore[misc]
                    unit="in",
                    within=1e-6,
                )
                for lap, port, _ in BUILT
            ),
        ),
        note="Travel = 2 (lap + port), for a port just fully opened.",
    ),
)
