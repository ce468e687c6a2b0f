"""How the limits of a fit are read in a terminal."""

from __future__ import annotations

import pytest

from lapwright.cli.fit import write_fit
from lapwright.job.lookup.fit_answer import answer_fit

ONE = """\
H7/g6 for 6 mm
==============

       hole                 shaft                clearance
H7/g6  6.000 to 6.012       5.988 to 5.996       0.004 to 0.024 mm
       0.2362 to 0.2367     0.2357 to 0.2361     0.2 to 0.9 thou

H7/g6  close running: turns or rocks a little, oiled, with no play to be felt:
       fork pins, spindle guides
"""


def test_one_fit_in_mm_and_thou() -> None:
    assert write_fit(answer_fit("6 mm", "H7/g6")).startswith(ONE)


def test_an_inch_size_is_read_in_inches_first() -> None:
    lines = write_fit(answer_fit("1/4 in", "H7/g6")).splitlines()
    assert lines[0] == "H7/g6 for 1/4 in (6.350 mm)"
    # 6.350 to 6.365 mm is 0.2500 to 0.2506 in.
    assert lines[4].startswith("H7/g6  0.2500 to 0.2506")
    assert lines[5].lstrip().startswith("6.350 to 6.365")


@pytest.mark.parametrize(
    ("size", "shown"),
    [
        ("25 mm", "0.001 to 0.035 mm tight"),
        ("6 mm", "0.000 to 0.020 mm tight"),
        ("2 mm", "0.012 tight to 0.004 mm loose"),
    ],
)
def test_metal_too_much_is_called_tight(size: str, shown: str) -> None:
    assert shown in write_fit(answer_fit(size, "H7/p6"))


def test_a_clearance_shows_all_rules_and_marks_the_one_used() -> None:
    text = write_fit(answer_fit("6 mm", clearance="0.09 mm"))
    assert "0.090 mm on 6.00 mm is worn" in text
    assert "none of the table gives that clearance" in text
    assert text.count("for each inch") == 4
    assert "from memory" in text


def test_a_measured_pair_is_told_before_the_limits() -> None:
    lines = write_fit(answer_fit("4.02 mm", pin="3.98 mm")).splitlines()
    assert lines[0] == "A hole of 4.020 mm with a pin of 3.980 mm"
    assert lines[3:5] == [
        "hole     4.020 mm: 0.002 mm over H8 (4.000 to 4.018 mm)",
        "pin      3.980 mm: inside f7 (3.978 to 3.990 mm)",
    ]
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize(
    ("hole", "pin", "told"),
    [
        ("4.015 mm", "3.97 mm", "over H7 (4.000 to 4.012 mm), still inside H8 (4.000 to 4.018 mm)"),
        ("4.015 mm", "3.97 mm", "0.008 mm under f7 (3.978 to 3.990 mm)"),
        ("3.998 mm", "3.997 mm", "0.002 mm under H7 (4.000 to 4.012 mm)"),
        ("3.998 mm", "3.993 mm", "inside h6 (3.992 to 4.000 mm) and g6 (3.988 to 3.996 mm)"),
        ("4.003 mm", "4.006 mm", "over h6 (3.992 to 4.000 mm), not inside p6 (4.012 to 4.020 mm)"),
    ],
)
def test_how_hole_and_pin_stand_is_told(hole: str, pin: str, told: str) -> None:
    assert told in " ".join(write_fit(answer_fit(hole, pin=pin)).split())


@pytest.mark.parametrize("size", ["0.5 mm", "3 mm", "1/8 in", "25.4 mm", "1 in", "30 mm"])
def test_no_line_is_too_long_for_a_terminal(size: str) -> None:
    text = write_fit(answer_fit(size, clearance="10 µm"))
    assert max(map(len, text.splitlines())) <= 80
    assert "common practice, no source" in text
