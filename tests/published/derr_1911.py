"""Derr, Cyclopedia of Engineering: what the inside lap does."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.plain import shift, shift_on_card

ROWS = (
    Row(
        id="EFF-DERR",
        source="derr-1911",
        locator="captions 77772 and 77770",
        kind="qualitative",
        figures=(
            Figure(
                what="inside lap increased",
                theirs="admission unchanged, cut-off unchanged, release later, compression earlier",
                ours=lambda: shift(exhaust_lap=0.15),
            ),
            Figure(
                what="the same on the card",
                theirs="admission unchanged, cut-off unchanged, release later, compression earlier",
                ours=lambda: shift_on_card(exhaust_lap=0.15),
            ),
            Figure(
                what="inside lap decreased",
                theirs="admission unchanged, cut-off unchanged, release earlier, compression later",
                ours=lambda: shift(exhaust_lap=0.05),
            ),
            Figure(
                what="the same on the card",
                theirs="admission unchanged, cut-off unchanged, release earlier, compression later",
                ours=lambda: shift_on_card(exhaust_lap=0.05),
            ),
        ),
        note="That the steam side stays as it is goes without saying in the source.",
    ),
)
