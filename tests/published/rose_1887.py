"""Rose, Modern Machine Shop Practice: lap from the crank's arc to cut-off, on paper."""

from __future__ import annotations

from tests.published.engines import LONG, build, read_event, read_opening
from tests.published.figure import Figure, Row

#: End, rod in cranks, and the lap in throws that the construction gives for cut-off at three quarters.
LAPS = (("head", 6.0, 0.5330), ("crank", 6.0, 0.4703), ("head", LONG, 0.5))

ROWS = (
    Row(
        id="ROSE-LAP",
        source="rose-1887",
        locator="figs. 3312-3313",
        kind="rule",
        figures=(
            *(
                Figure(
                    what=f"cut-off at the {end} end with lap {lap:.4f} of the throw, "
                    + ("infinite rod" if n == LONG else "rod of three strokes"),
                    theirs=0.75,
                    ours=lambda end=end, n=n, lap=lap: read_event(  # type: ignore[misc]
                        build(throw=1, lap=lap, port=1 - lap, n=n), "cut_off", end=end
                    ),
                    unit="stroke",
                    within=0.00005,
                    places=5,
                )
                for end, n, lap in LAPS
            ),
            Figure(
                what="port that the throw leaves for the lap 0.5330",
                theirs=0.467,
                ours=lambda: read_opening(build(throw=1, lap=0.533, port=1)),
                unit="throws",
                within=1e-6,
            ),
        ),
        note="The source draws it: half the crank's arc to cut-off; how far its chord lies from the shaft is the lap. "
        "The laps are that drawing worked out by hand; it is exact without lead. Each lap goes with its own advance: "
        "one eccentric cannot serve both ends so.",
    ),
)
