"""Areas as people write them, and as they are refused."""

from fractions import Fraction

import pytest

from lapwright.errors import BadInput
from lapwright.quantities import Area, read_area


@pytest.mark.parametrize(
    ("written", "shown", "si"),
    [
        ("35000 mm2", "35000 mm2", 0.035),
        ("350 cm²", "350 cm2", 0.035),
        ("350cm^2", "350 cm2", 0.035),
        ("0.04 m2", "0.04 m2", 0.04),
        ("2 square metres", "2 m2", 2.0),
        # 54 x 0.0254^2 = 54 x 0.00064516, by hand.
        ("54 in2", "54 in2", 0.03483864),
        ("54 sq in", "54 in2", 0.03483864),
        ("1 1/2 square inches", "1 1/2 in2", 0.00096774),
    ],
)
def test_areas_as_people_write_them(written: str, shown: str, si: float) -> None:
    area = read_area(written)
    assert str(area) == shown
    assert area.si == pytest.approx(si, rel=1e-13)
    assert area.doubt_plus is None
    assert read_area(shown) == area


def test_the_doubt_of_an_area_is_kept() -> None:
    area = read_area("350 ± 50 cm2")
    assert (area.doubt_plus, area.doubt_minus) == (0.005, 0.005)
    assert str(area) == "350 ± 50 cm2"


def test_one_area_in_four_units_is_one_area() -> None:
    assert read_area("64516 mm2") == read_area("645.16 cm2") == read_area("0.064516 m2") == read_area("100 in2")
    assert read_area("100 in2") == Area(Fraction(64516, 1_000_000))


@pytest.mark.parametrize(
    ("written", "sentence"),
    [
        ("350", '350 has no unit: write "350 cm2" or "350 in2"'),
        ("0 cm2", '"0 cm2" is not more than nothing: write it like "350 cm2"'),
        ("-5 cm2", '"-5 cm2" is not more than nothing: write it like "350 cm2"'),
        ("350 mm", '"350 mm": unit "mm" is not known here: use one of mm2, cm2, m2, in2'),
        ("350 cm3", '"350 cm3": unit "cm3" is not known here: use one of mm2, cm2, m2, in2'),
        ("200 m2", '"200 m2" is more than any part of a small engine has: check the figure and its unit'),
        ("0,04 m2", '"0,04 m2" has a comma in the number: write the decimals after a point: "0.04 m2"'),
        ("a palm", '"a palm" cannot be read as an area: write it like "350 cm2", "0.04 m2", "54 in2"'),
    ],
)
def test_a_refusal_says_how_to_write_it(written: str, sentence: str) -> None:
    with pytest.raises(BadInput) as refusal:
        read_area(written)
    assert str(refusal.value) == sentence
