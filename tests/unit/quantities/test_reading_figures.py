from collections.abc import Callable
from fractions import Fraction
from math import pi

import pytest

from lapwright.errors import BadInput
from lapwright.quantities import read_angle, read_length, read_pressure, read_share, read_thread, read_turns


@pytest.mark.parametrize(
    ("written", "shown", "metres"),
    [
        ("19.05 mm", "19.05 mm", "0.01905"),
        ("0.750 in", "0.750 in", "0.01905"),
        ("3/4 in", "3/4 in", "0.01905"),
        ('1 7/8"', "1 7/8 in", "0.047625"),
        ('1-3/16"', "1 3/16 in", "0.0301625"),
        ("1 3/16 in", "1 3/16 in", "0.0301625"),
        ("1  3/16inches", "1 3/16 in", "0.0301625"),
        ("1½″", "1 1/2 in", "0.0381"),
        ("¾ inch", "3/4 in", "0.01905"),
        ("3⁄4 in.", "3/4 in", "0.01905"),
        ("25 thou", "25 thou", "0.000635"),
        ("0.5 cm", "0.5 cm", "0.005"),
        ("0.019 m", "0.019 m", "0.019"),
        ("5 µm", "5 µm", "0.000005"),
        ("5 um", "5 µm", "0.000005"),
        ("5 \u03bcm", "5 µm", "0.000005"),
        ("1/2 micron", "1/2 µm", "0.0000005"),
        ("0.2 thou", "0.2 thou", "0.00000508"),
        ("19.05MM", "19.05 mm", "0.01905"),
        ("5\u00a0mm", "5 mm", "0.005"),
        (".5 mm", "0.5 mm", "0.0005"),
        ("5. mm", "5 mm", "0.005"),
        ("−0.5 mm", "-0.5 mm", "-0.0005"),
        ("-1 3/16 in", "-1 3/16 in", "-0.0301625"),
        ("+0.5 mm", "0.5 mm", "0.0005"),
        ("1e3 mm", "1e3 mm", "1"),
        ("1e-3 m", "1e-3 m", "0.001"),
    ],
)
def test_lengths_as_people_write_them(written: str, shown: str, metres: str) -> None:
    length = read_length(written)
    assert str(length) == shown
    assert length.metres == Fraction(metres)
    assert length.si == float(metres)
    assert (length.doubt_plus, length.doubt_minus) == (None, None)


@pytest.mark.parametrize(
    ("written", "shown", "plus", "minus"),
    [
        ("12.7 ± 0.02 mm", "12.7 ± 0.02 mm", 2e-5, 2e-5),
        ("12.7 +/- 0.02 mm", "12.7 ± 0.02 mm", 2e-5, 2e-5),
        ("12.7+-0.02mm", "12.7 ± 0.02 mm", 2e-5, 2e-5),
        ("12.7 mm ± 0.02", "12.7 ± 0.02 mm", 2e-5, 2e-5),
        ("12.7 +0.02 -0.01 mm", "12.7 +0.02 -0.01 mm", 2e-5, 1e-5),
        ("12.7 + 0.02 - 0.01 mm", "12.7 +0.02 -0.01 mm", 2e-5, 1e-5),
        ("12.7 +0.02/-0 mm", "12.7 +0.02 -0 mm", 2e-5, 0),
        ("12.7 -0.01 +0.02 mm", "12.7 +0.02 -0.01 mm", 2e-5, 1e-5),
        ("0.750 ±0.002 in", "0.750 ± 0.002 in", 5.08e-5, 5.08e-5),
        ("3/4 in ± 2 thou", "3/4 in ± 2 thou", 5.08e-5, 5.08e-5),
        ("3/4 in +2 thou -1 thou", "3/4 in +2 -1 thou", 5.08e-5, 2.54e-5),
        ("3/4 +1/64 -1/32 in", "3/4 +1/64 -1/32 in", 0.000396875, 0.00079375),
        ("1 1/2 ± 1/64 in", "1 1/2 ± 1/64 in", 0.000396875, 0.000396875),
    ],
)
def test_tolerances_as_people_write_them(written: str, shown: str, plus: float, minus: float) -> None:
    length = read_length(written)
    assert str(length) == shown
    assert (length.doubt_plus, length.doubt_minus) == (plus, minus)
    assert read_length(shown) == length


@pytest.mark.parametrize(
    ("read", "written", "sentence"),
    [
        (read_length, "0.75", '0.75 has no unit: write "0.75 in" or "0.75 mm"'),
        (read_length, 0.75, '0.75 has no unit: write "0.75 in" or "0.75 mm"'),
        (read_length, "3/4", '3/4 has no unit: write "3/4 in" or "3/4 mm"'),
        (read_length, "12.7 ± 0.02", '12.7 ± 0.02 has no unit: write "12.7 ± 0.02 in" or "12.7 ± 0.02 mm"'),
        (
            read_length,
            "19,05 mm",
            '"19,05 mm" has a comma in the number: write the decimals after a point: "19.05 mm"',
        ),
        (
            read_length,
            "1,000.5 mm",
            '"1,000.5 mm" has a comma in the number: write the decimals after a point: "1000.5 mm"',
        ),
        # Wrong in two ways, it is offered right in both.
        (
            read_length,
            "19,05 mmm",
            '"19,05 mmm" has a comma in the number: write the decimals after a point: "19.05 mm"',
        ),
        (read_length, "13,5", '"13,5" has a comma in the number: write the decimals after a point: "13.5 mm"'),
        (read_angle, "90", '90 has no unit: write "90 deg"'),
        (read_pressure, "30", '30 has no unit: write "30 bar" or "30 psi"'),
        (read_share, "0.6", '0.6 has no unit: write "60 %" or "0.6 stroke"'),
        (read_turns, "1/2", '1/2 has no unit: write "1/2 turn"'),
        (
            read_length,
            "3 furlongs",
            '"3 furlongs": unit "furlongs" is not known here: use one of mm, cm, m, in, thou, µm',
        ),
        (read_pressure, "1 mPa", '"1 mPa": unit "mPa" is not known here: use one of bar, psi, kPa, MPa, Pa, mbar'),
        (read_length, "3/0 in", '"3/0 in" divides by zero: write the fraction again'),
        (read_thread, "M3.3", '"M3.3" has no coarse pitch here: write the pitch too: "M3.3 x 0.5"'),
        (read_thread, "20 BA", '"20 BA" is no BA size: BA sizes run from 0 to 16'),
        (
            read_pressure,
            "-2 bar",
            '"-2 bar" is below a perfect vacuum: write gauge pressure, or absolute with abs behind it',
        ),
        (read_share, "120 %", '"120 %" is not between 0 and 100 %: check the figure and its unit'),
        (read_length, True, 'true is not text in quotes: write it as "19.05 mm"'),
        (read_length, "nan mm", '"nan mm" is not a figure: write the size as measured, or leave it out'),
        (read_length, float("inf"), '"inf" is not a figure: write the size as measured, or leave it out'),
        (read_length, "\x1b[2J5 mm", '"?[2J5 mm" holds a character that cannot be printed: write it again by hand'),
    ],
)
def test_a_refusal_says_how_to_write_it(read: Callable[[object], object], written: object, sentence: str) -> None:
    with pytest.raises(BadInput) as refusal:
        read(written)
    assert str(refusal.value) == sentence


@pytest.mark.parametrize(
    "written",
    [
        "",
        " ",
        "mm",
        "abc",
        "1 2 mm",
        "1/2/3 in",
        "3 in 4 mm",
        "5 mm 5",
        "1 in 3/16",
        "5 mm2",
        "5 m m",
        "5 mm/min",
        "7 BA",
        "6' 3\"",
        "9" * 100 + " mm",
    ],
)
def test_what_is_no_length_is_refused(written: str) -> None:
    with pytest.raises(BadInput):
        read_length(written)


@pytest.mark.parametrize("written", ["1e9 m", "1e300 mm", "1e999 mm", "10001 m", "1 ± 1e9 m"])
def test_what_no_engine_has_is_refused(written: str) -> None:
    with pytest.raises(BadInput, match="longer than anything"):
        read_length(written)


def test_equal_lengths_are_equal_however_written() -> None:
    assert read_length("3/4 in") == read_length("19.05 mm")
    assert read_length("3/4 in") != read_length("19.05 ± 0.1 mm")


@pytest.mark.parametrize("written", ["90 deg", "90°", "90 degrees", "90 Deg"])
def test_angles(written: str) -> None:
    assert read_angle(written).si == pi / 2
    assert str(read_angle(written)) == "90 deg"
    assert read_angle("1.5 ± 0.1 rad").si == pytest.approx(1.5, rel=1e-15)


@pytest.mark.parametrize(
    ("written", "shown", "si", "gauge"),
    [
        ("2 bar", "2 bar", 200_000, 200_000),
        ("150 kPa", "150 kPa", 150_000, 150_000),
        ("0.2 MPa", "0.2 MPa", 200_000, 200_000),
        ("3 bar abs", "3 bar abs", 300_000, 198_675),
        ("3 bar(a)", "3 bar abs", 300_000, 198_675),
        ("3 BAR absolute", "3 bar abs", 300_000, 198_675),
        ("10 psig", "10 psi", 68947.57293168361, 68947.57293168361),
        ("10 lb per sq in", "10 psi", 68947.57293168361, 68947.57293168361),
        ("45 psia", "45 psi abs", 310264.07819257624, 208939.07819257624),
        ("-0.5 bar", "-0.5 bar", -50_000, -50_000),
        ("3 ± 0.1 bar abs", "3 ± 0.1 bar abs", 300_000, 198_675),
    ],
)
def test_pressures_are_gauge_unless_they_say_otherwise(written: str, shown: str, si: float, gauge: float) -> None:
    pressure = read_pressure(written)
    assert (str(pressure), pressure.si) == (shown, si)
    assert pressure.gauge == pytest.approx(gauge, rel=1e-14)
    assert read_pressure(shown) == pressure


def test_a_gauge_pressure_is_not_the_same_absolute_one() -> None:
    assert read_pressure("2 bar") != read_pressure("2 bar abs")


def test_shares_and_turns() -> None:
    assert read_share("60 %").si == 0.6
    assert read_share("5/8 of the stroke").si == 0.625
    assert str(read_turns("1 1/2 turn")) == "1 1/2 turns"
    assert read_turns("1/2 Turn").si == 0.5
    with pytest.raises(BadInput, match="turns are counted"):
        read_turns("1 ± 1/4 turn")


@pytest.mark.parametrize(
    ("written", "shown", "pitch_mm", "diameter_mm"),
    [
        ("7BA", "7 BA", "0.48", "2.5"),
        ("#4 BA", "4 BA", "0.66", "3.6"),
        ("No. 4 ba", "4 BA", "0.66", "3.6"),
        ("0 BA", "0 BA", "1", "6"),
        ("16 BA", "16 BA", "0.19", "0.79"),
        ("1/4 x 40", "1/4 in x 40 tpi", "0.635", "6.35"),
        ("1/4 in x 40 tpi", "1/4 in x 40 tpi", "0.635", "6.35"),
        ('1-1/4" × 26', "1 1/4 in x 26 tpi", "25.4/26", "31.75"),
        ("M3", "M3", "0.5", "3"),
        ("m3 x .35", "M3 x 0.35", "0.35", "3"),
        ("M2.5", "M2.5", "0.45", "2.5"),
    ],
)
def test_threads_by_the_name_on_the_tap(written: str, shown: str, pitch_mm: str, diameter_mm: str) -> None:
    thread = read_thread(written)
    over, _, under = pitch_mm.partition("/")
    assert str(thread) == shown
    assert thread.pitch == Fraction(over) / Fraction(under or "1") / 1000
    assert thread.diameter == Fraction(diameter_mm) / 1000
    assert read_thread(shown) == thread


@pytest.mark.parametrize(
    "written", ["", "x", "1/4", "1/4 x 0", "0/4 x 40", "M3 x 5", "M0", "17 BA", "1/100 x 40", "3/4 in"]
)
def test_what_is_no_thread_is_refused(written: str) -> None:
    with pytest.raises(BadInput):
        read_thread(written)


def test_ba_sizes_are_those_of_the_standard() -> None:
    # BS 93, pitch and nominal diameter in mm, 0 to 16 BA.
    printed = [
        (1.00, 6.0), (0.90, 5.3), (0.81, 4.7), (0.73, 4.1), (0.66, 3.6), (0.59, 3.2), (0.53, 2.8), (0.48, 2.5),
        (0.43, 2.2), (0.39, 1.9), (0.35, 1.7), (0.31, 1.5), (0.28, 1.3), (0.25, 1.2), (0.23, 1.0), (0.21, 0.9),
        (0.19, 0.79),
    ]  # fmt: skip
    for number, (pitch, diameter) in enumerate(printed):
        thread = read_thread(f"{number} BA")
        assert (thread.si * 1000, float(thread.diameter) * 1000) == pytest.approx((pitch, diameter), rel=1e-12)


def test_quantities_of_two_kinds_are_never_equal() -> None:
    assert read_turns("1 turn") != read_share("100 %")
    assert len({read_length("3/4 in"), read_length("19.05 mm"), read_length("0.750 in")}) == 1
