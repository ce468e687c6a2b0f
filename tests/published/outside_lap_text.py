"""An instruction text for railwaymen: what the outside lap does."""

from __future__ import annotations

from tests.published.figure import Figure, Row
from tests.published.plain import shift, shift_on_card

ROWS = (
    Row(
        id="EFF-OL",
        source="outside-lap-text",
        locator='paragraph "Outside lap"',
        kind="qualitative",
        figures=(
            Figure(
                what="outside lap increased, the rest the same",
                theirs="cut-off earlier",
                ours=lambda: shift(("cut_off",), lap=0.45),
            ),
            Figure(
                what="the same on the card",
                theirs="cut-off earlier",
                ours=lambda: shift_on_card(("cut_off",), lap=0.45),
            ),
            Figure(
                what="travel increased, which brings the cut-off back",
                theirs="cut-off later",
                ours=lambda: shift(("cut_off",), throw=1.1),
            ),
            Figure(
                what="the same on the card",
                theirs="cut-off later",
                ours=lambda: shift_on_card(("cut_off",), throw=1.1),
            ),
        ),
        note="The eccentric is not touched.",
    ),
)
