from math import pi

import pytest

from lapwright.quantities import (
    read_length,
    read_pressure,
    show_angle,
    show_inch,
    show_length_both,
    show_length_like,
    show_mm,
    show_number,
    show_pressure_like,
    show_share,
)


def test_a_length_for_the_lathe_has_both_units() -> None:
    assert show_length_both(0.014) == "14.00 mm (0.551 in)"
    assert show_mm(0.0127, places=1) == "12.7 mm"
    assert show_inch(0.0127, places=2) == "0.50 in"


@pytest.mark.parametrize(
    ("like", "shown"),
    [
        ("3/4 in", "0.551 in"),
        ("1 mm", "14.00 mm"),
        ("1 cm", "1.400 cm"),
        ("1 m", "0.01400 m"),
        ("5 thou", "551.2 thou"),
    ],
)
def test_a_length_is_shown_in_the_unit_of_another(like: str, shown: str) -> None:
    assert show_length_like(0.014, read_length(like)) == shown


@pytest.mark.parametrize(("like", "shown"), [("1 bar", "2.00 bar"), ("1 psi", "29.0 psi"), ("1 kPa abs", "200 kPa")])
def test_a_pressure_is_shown_in_the_unit_of_another(like: str, shown: str) -> None:
    assert show_pressure_like(200_000, read_pressure(like)) == shown


def test_nothing_has_no_minus_sign() -> None:
    assert show_number(-0.0004, 2) == "0.00"
    assert show_number(-0.5, 0) == "0"
    assert show_number(-0.51, 0) == "-1"


def test_angles_and_shares() -> None:
    assert show_angle(-pi / 2) == "-90.0 deg"
    assert show_angle(pi, places=0) == "180 deg"
    assert show_share(0.6252, places=1) == "62.5 %"
