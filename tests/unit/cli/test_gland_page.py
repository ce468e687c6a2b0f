"""A gland's plan as it is read in a terminal."""

from __future__ import annotations

import pytest

from lapwright.cli.gland import write_gland
from lapwright.job.lookup.gland_answer import GlandAsked, answer_gland


def write(*, why: bool = False, **words: str) -> str:
    return write_gland(answer_gland(GlandAsked(**{"rod": "4 mm", "bore": "8 mm", **words})), why=why)


def head(text: str) -> str:
    """The rows above the steps."""
    return text.partition("\n 1. ")[0]


FULL = {"depth": "10 mm", "nut": "3/8 x 32", "fluid": "steam", "pressure": "3 bar"}


def test_what_is_asked_most_stands_first() -> None:
    text = write(**FULL)
    assert head(text).startswith(
        "Gland: 4 mm rod in a box of 8 mm, 10 mm deep\n"
        "============================================\n"
        "\n"
        "Section        2.00 mm (0.079 in)\n"
        "Packing        2 mm graphite yarn, 0.12 m of it\n"
        "Rings          4 rings of 18.85 mm (0.742 in), butt joints 90 degrees apart\n"
        "If wound       clockwise from the bottom, seen from the nut; better cut rings\n"
        "Nut            3/8 x 32 ME, right hand: 1/8 turn moves 0.10 mm, a flat 0.13 mm\n"
        "To hold 3 bar  the gland presses with about 9.7 bar, 37 N in all\n"
        "Friction       4.6 N just tight (2.8 to 6.8), 9.3 N twice as tight\n"
    )
    assert "Or an O-ring   of TFE/P or FFKM, BS 4518 0041-16: in a bush" in text
    assert "Judged for     steam with mineral oil at 144 degC. The steam is taken as" in text


@pytest.mark.parametrize(
    "words",
    [FULL, {"fluid": "air", "material": "NBR"}, {"bore": "6.55 mm", "fluid": "air", "material": "NBR"}],
)
def test_the_plan_stays_on_one_page_and_the_rest_is_told_on_asking_why(words: dict[str, str]) -> None:
    short, long = write(**words), write(why=True, **words)
    assert len(short.splitlines()) <= 52
    for said in ("Source:", "Books differ", "Also suits", "Have ready"):
        assert said not in short
        assert said in long
    assert "asbestos" in short
    assert "With --why" in short
    assert "With --why" not in long
    # What can hurt is told in full either way.
    assert long.count("\nCaution: ") == (4 if words["fluid"] == "steam" else 3)
    assert long.partition("\nCaution: ")[2].split()[:20] == short.partition("\nCaution: ")[2].split()[:20]


def test_figures_come_back_in_the_unit_they_were_given_in_and_no_finer_than_they_are_known() -> None:
    text = write(bore="5/16 in", pressure="45 psi", fluid="air")
    assert "box of 5/16 in" in text
    assert "To hold 45 psi  the gland presses with about 150 psi, " in text


def test_without_a_pressure_each_bar_is_told() -> None:
    assert "To hold each bar  the gland presses with about 3.2 bar, 12 N in all" in write()


def test_a_ring_that_was_asked_for_is_judged_and_the_packing_named() -> None:
    text = head(write(material="EPDM", fluid="steam", pressure="3 bar"))
    assert "Unsuitable" in text
    assert "swells" in text
    assert "Packed with" in text


def test_a_ring_that_was_asked_for_and_suits_is_the_answer() -> None:
    text = write(rod="1/8 in", bore="1/4 in", fluid="air", material="NBR")
    assert head(text).startswith(
        "Gland: 1/8 in rod in a box of 1/4 in\n"
        "====================================\n"
        "\n"
        "O-ring       AS568 / ISO 3601-1 006, NBR: 2.90 x 1.78 mm (0.114 x 0.070 in)\n"
        "How          in the box as it stands, between two washers 2.41 mm apart;\n"
    )
    assert "Groove       none: 2.41 mm (0.095 in) between the washers" in text
    assert "Squeeze      8 % (4 % to 12 %), 61 % full" in text
    assert "stretched 9 %, more\n             than the 5 % makers allow" in text
    assert "Or           BS 4518 0031-16" in text
    assert "Or packing   1/16 in graphite yarn, 4 rings of 14.96 mm (0.589 in)" in text
    assert "Wind the packing" not in text
    assert "graphite yarn" not in text.partition("\n 1. ")[2]


def test_a_ring_whose_tolerance_is_not_printed_says_whose_is_taken() -> None:
    text = " ".join(write(fluid="air", material="NBR").split())
    assert "Squeeze 20 % (14 % to 25 %, with the tolerance of AS568, for none is printed)" in text


def test_the_rubbers_that_would_do_name_the_one_asked_for() -> None:
    # The box is too shallow for it: packed, and the ring is told of.
    text = " ".join(write(depth="4 mm", fluid="air", material="NBR").split())
    assert "Or an O-ring of NBR, HNBR, silicone, FKM, TFE/P or FFKM, BS 4518 0041-16: needs a box 4.22 mm deep" in text


def test_a_tolerance_and_a_spacer_are_shown() -> None:
    text = head(write(rod="4 ± 0.02 mm", bore="8 ± 0.1 mm", depth="20 mm"))
    assert "2.00 mm (0.079 in), ± 0.06 mm" in text
    assert "on a spacer ring of 9.00 mm" in " ".join(text.split())


def test_where_no_rubber_lives_no_ring_is_shown() -> None:
    text = head(write(fluid="steam", temperature="300 degC"))
    assert "no rubber lives here" in text
    assert "Nothing in the tables" not in text
    assert "Groove" not in text


def test_where_nothing_lasts_it_is_said() -> None:
    assert "Nothing in the tables lasts there" in head(write(fluid="steam", temperature="600 degC"))


@pytest.mark.parametrize("joint", ["butt", "skive"])
def test_no_line_is_wider_than_the_page(joint: str) -> None:
    for words in ({}, {"depth": "20 mm", "nut": "M10"}, {"bore": "6 mm", "material": "flax", "fluid": "air"}):
        for why in (False, True):
            text = write(joint=joint, why=why, **words)
            assert max(len(line) for line in text.splitlines()) <= 80
