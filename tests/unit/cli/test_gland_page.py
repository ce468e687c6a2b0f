"""A gland's plan as it is read in a terminal."""

from __future__ import annotations

import pytest

from lapwright.cli.gland import write_gland
from lapwright.job.gland_answer import GlandAsked, answer_gland


def write(**words: str) -> str:
    return write_gland(answer_gland(GlandAsked(**{"rod": "4 mm", "bore": "8 mm", **words})))


def head(text: str) -> str:
    """The rows above the steps."""
    return text.partition("\n 1. ")[0]


def test_what_is_asked_most_stands_first() -> None:
    text = write(depth="10 mm", nut="3/8 x 32", fluid="steam", pressure="3 bar")
    assert head(text).startswith(
        "Gland: 4 mm rod in a box of 8 mm, 10 mm deep\n"
        "============================================\n"
        "\n"
        "Section         2.00 mm (0.079 in)\n"
        "Packing         2 mm graphite yarn, 0.12 m of it.\n"
        "Rings           4 rings, each cut 18.85 mm (0.742 in)\n"
        "Joint           butt, each 90 degrees on from the one below\n"
        "If wound        clockwise from the bottom, as seen from the nut; cut rings are\n"
        "                better\n"
    )
    assert "To hold 3 bar   the gland has to press with 9.70 bar, 37 N in all" in text
    assert "Friction        4.6 N just tight (2.8 to 6.8), 9.3 N twice as tight" in text
    assert "An eighth of a turn moves 0.10 mm, a flat\n                0.13 mm." in text
    assert "Judged for      steam with mineral oil at 144 degC" in text
    assert "O-ring instead  of TFE/P or FFKM:\n" in text


def test_figures_come_back_in_the_unit_they_were_given_in() -> None:
    text = write(bore="5/16 in", pressure="40 psi", fluid="air")
    assert "box of 5/16 in" in text
    assert "To hold 40 psi" in text
    assert " psi, " in text


def test_without_a_pressure_each_bar_is_told() -> None:
    assert "To hold each bar  the gland has to press with 3.2 bar, 12 N in all" in write()


def test_a_ring_that_was_asked_for_is_judged_and_the_packing_named() -> None:
    text = head(write(material="EPDM", fluid="steam", pressure="3 bar"))
    assert "Unsuitable" in text
    assert "swells" in text
    assert "Packed with" in text


def test_a_tolerance_and_a_spacer_are_shown() -> None:
    text = head(write(rod="4 ± 0.02 mm", bore="8 ± 0.1 mm", depth="20 mm"))
    assert "Section           2.00 mm (0.079 in), ± 0.06 mm" in text
    assert "on a spacer ring of 9.00 mm" in " ".join(text.split())


def test_where_no_rubber_lives_no_ring_is_shown() -> None:
    text = head(write(fluid="steam", temperature="300 degC"))
    assert "no rubber lives here" in text
    assert "Groove" not in text


@pytest.mark.parametrize("joint", ["butt", "skive"])
def test_no_line_is_wider_than_the_page(joint: str) -> None:
    for words in ({}, {"depth": "20 mm", "nut": "M10"}, {"bore": "6 mm", "material": "flax", "fluid": "air"}):
        text = write(joint=joint, **words)
        assert max(len(line) for line in text.splitlines()) <= 80
