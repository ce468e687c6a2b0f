"""Thurston, A History of the Growth of the Steam-Engine: what expansion gains."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.power import mean_factor


def gain(cut_off: float) -> float:
    """Work during expansion over work before it."""
    return mean_factor(cut_off) / cut_off - 1


ROWS = (
    Row(
        id="THU-EXP",
        source="thurston-1878",
        locator="expansive working, fig. 28",
        kind="check",
        figures=(
            Figure(
                what="work during expansion over work before it, cut-off 1/4",
                theirs=1.4,
                ours=lambda: gain(1 / 4),
                within=0.05,
            ),
            Figure(
                what="work of a pound of steam against full pressure all the stroke, cut-off 1/4",
                theirs=2.4,
                ours=lambda: 1 + gain(1 / 4),
                within=0.05,
            ),
            Figure(what="work added by cutting off at 1/7", theirs=2, ours=lambda: gain(1 / 7), within=0.1),
        ),
        note="The gain at 1/7, amounting to twice by the source, is the added work; the whole is three times.",
    ),
)
