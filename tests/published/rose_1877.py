"""Rose, "Setting locomotive slide valves": lost motion taken up on the running side."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.rohan_1899 import says

ROWS = (
    Row(
        id="LASH-1877",
        source="rose-1877",
        locator="whole article",
        kind="qualitative",
        figures=(
            Figure(
                what="the setting procedure: come to every reading in the running direction",
                theirs="said",
                ours=lambda: says("Come to every reading in the running direction"),
            ),
            Figure(
                what="the setting procedure: if overshot, well back and come again",
                theirs="said",
                ours=lambda: says("go well back and come again"),
            ),
        ),
    ),
)
