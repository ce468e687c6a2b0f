"""What belongs to a running engine: loads, speeds, temperatures, inertias, plain numbers, durations, flows, volumes."""

from collections.abc import Callable
from fractions import Fraction
from math import pi

import pytest

from lapwright.errors import BadInput
from lapwright.quantities import (
    Length,
    Power,
    Quantity,
    Share,
    Torque,
    read_clearance,
    read_coefficient,
    read_dryness,
    read_duration,
    read_flow,
    read_inertia,
    read_load,
    read_power,
    read_speed,
    read_temperature,
    read_torque,
    read_volume,
)

#: A pound-force [N] and a foot [m], worked out by hand from 0.45359237 kg, 9.80665 m/s2 and 0.3048 m.
POUND_FORCE, FOOT = 4.4482216152605, 0.3048


@pytest.mark.parametrize(
    ("read", "written", "shown", "si"),
    [
        (read_torque, "30 mN m", "30 mN m", 0.03),
        (read_torque, "30mNm", "30 mN m", 0.03),
        (read_torque, "0.03 N·m", "0.03 N m", 0.03),
        (read_torque, "0.03 newton metres", "0.03 N m", 0.03),
        (read_torque, "3 N.cm", "3 N cm", 0.03),
        (read_torque, "3 kg-cm", "3 kgf cm", 0.2941995),
        (read_torque, "1 lbf in", "1 lbf in", POUND_FORCE * FOOT / 12),
        (read_torque, "1 ft lb", "1 lbf ft", POUND_FORCE * FOOT),
        (read_torque, "16 oz-in", "16 ozf in", POUND_FORCE * FOOT / 12),
        (read_torque, "-3 N m", "-3 N m", -3.0),
        (read_power, "5 W", "5 W", 5.0),
        (read_power, "5 mW", "5 mW", 0.005),
        (read_power, "1/20 HP", "1/20 hp", 550 * POUND_FORCE * FOOT / 20),
        (read_power, "1.5 kw", "1.5 kW", 1500.0),
        (read_speed, "600 rpm", "600 rpm", 20 * pi),
        (read_speed, "600 turns per minute", "600 rpm", 20 * pi),
        (read_speed, "600 rev/min", "600 rpm", 20 * pi),
        (read_speed, "10 rev / s", "10 rev/s", 20 * pi),
        (read_temperature, "20 C", "20 degC", 293.15),
        (read_temperature, "20℃", "20 degC", 293.15),
        (read_temperature, "68 °F", "68 degF", 293.15),
        (read_temperature, "-40 deg. F", "-40 degF", 233.15),
        (read_temperature, "293 K", "293 K", 293.0),
        (read_inertia, "0.002 kg m2", "0.002 kg m2", 0.002),
        (read_inertia, "20 kg cm²", "20 kg cm2", 0.002),
        (read_inertia, "20 kg.cm^2", "20 kg cm2", 0.002),
        (read_inertia, "1 lb ft2", "1 lb ft2", 0.45359237 * FOOT**2),
        (read_inertia, "144 lb-in²", "144 lb in2", 0.45359237 * FOOT**2),
        (read_coefficient, "0.70", "0.70", 0.7),
        (read_coefficient, ".7", "0.7", 0.7),
        (read_coefficient, 0.7, "0.7", 0.7),
        (read_coefficient, 1, "1", 1.0),
        (read_coefficient, 1e-07, "1e-07", 1e-07),
        (read_dryness, "0.98", "0.98", 0.98),
        (read_dryness, 0.98, "0.98", 0.98),
        (read_dryness, "98 percent", "98 %", 0.98),
        (read_duration, "12 s", "12 s", 12.0),
        (read_duration, "1 1/2 minutes", "1 1/2 min", 90.0),
        (read_duration, "250 ms", "250 ms", 0.25),
        (read_flow, "60 L/min", "60 L/min", 0.001),
        (read_flow, "60 l/min free air", "60 L/min", 0.001),
        (read_flow, "60 litres per minute of free air", "60 L/min", 0.001),
        (read_flow, "1 m³/h", "1 m3/h", 1 / 3600),
        (read_flow, "1 CFM", "1 cfm", FOOT**3 / 60),
        (read_flow, "1 cu ft/min", "1 cfm", FOOT**3 / 60),
        (read_volume, "25 cm³", "25 cm3", 25e-6),
        (read_volume, "25cc", "25 cm3", 25e-6),
        (read_volume, "25 ml", "25 mL", 25e-6),
        (read_volume, "0.4 litres", "0.4 L", 0.0004),
        (read_volume, "1 1/2 cu in", "1 1/2 in3", 1.5 * (FOOT / 12) ** 3),
    ],
)
def test_figures_of_a_run_as_people_write_them(
    read: Callable[[object], Quantity], written: object, shown: str, si: float
) -> None:
    quantity = read(written)
    assert str(quantity) == shown
    assert quantity.si == pytest.approx(si, rel=1e-13)
    assert quantity.doubt_plus is None
    assert read(shown) == quantity


@pytest.mark.parametrize(
    ("read", "written", "shown", "plus", "minus"),
    [
        (read_torque, "30 ± 2 mN m", "30 ± 2 mN m", 0.002, 0.002),
        (read_torque, "1 N m ± 5 mN m", "1 N m ± 5 mN m", 0.005, 0.005),
        (read_speed, "600 +60 -30 rpm", "600 +60 -30 rpm", 2 * pi, pi),
        (read_temperature, "20 ± 2 °C", "20 ± 2 degC", 2.0, 2.0),
        (read_temperature, "68 ± 9 F", "68 ± 9 degF", 5.0, 5.0),
        (read_temperature, "20 degC ± 9 degF", "20 degC ± 9 degF", 5.0, 5.0),
        (read_inertia, "20 kg cm2 ± 10 g cm2", "20 kg cm2 ± 10 g cm2", 1e-6, 1e-6),
        (read_coefficient, "0.70 ± 0.05", "0.70 ± 0.05", 0.05, 0.05),
        (read_coefficient, "0.7 +0.1 -0.05", "0.7 +0.1 -0.05", 0.1, 0.05),
        (read_dryness, "98 ± 1 %", "98 ± 1 %", 0.01, 0.01),
        (read_duration, "12.5 ± 0.5 s", "12.5 ± 0.5 s", 0.5, 0.5),
        (read_clearance, "8 ± 1 %", "8 ± 1 %", 0.01, 0.01),
        (read_volume, "25 ± 2 cm3", "25 ± 2 cm3", 2e-6, 2e-6),
    ],
)
def test_doubts_are_kept_in_si(
    read: Callable[[object], Quantity], written: str, shown: str, plus: float, minus: float
) -> None:
    quantity = read(written)
    assert str(quantity) == shown
    assert quantity.doubt_plus == pytest.approx(plus, rel=1e-13)
    assert quantity.doubt_minus == pytest.approx(minus, rel=1e-13)
    assert read(shown) == quantity


@pytest.mark.parametrize(
    ("read", "written", "sentence"),
    [
        (read_torque, "3", '3 has no unit: write "3 mN m" or "3 N m"'),
        (
            read_torque,
            "3 MN m",
            '"3 MN m": unit "MN m" is not known here: use one of N m, mN m, N cm, N mm, kgf cm, lbf in, lbf ft, ozf in',
        ),
        (read_torque, "1e9 N m", '"1e9 N m" is more than any small engine turns: check the figure and its unit'),
        (read_power, 5, '5 has no unit: write "5 W" or "5 hp"'),
        (read_power, "5 MW", '"5 MW": unit "MW" is not known here: use one of W, mW, kW, hp'),
        (read_power, "1e9 W", '"1e9 W" is more than any small engine gives: check the figure and its unit'),
        (read_load, "5", '5 has no unit: write "5 mN m" or "5 W"'),
        (read_load, "5 W ± 1 mN m", '"5 W ± 1 mN m" cannot be read as a load: write it like "30 mN m", "5 W"'),
        (read_speed, "600", '600 has no unit: write "600 rpm"'),
        (read_speed, "0 rpm", '"0 rpm" is not more than nothing: write the speed alone, like "600 rpm"'),
        (read_speed, "-5 rpm", '"-5 rpm" is not more than nothing: write the speed alone, like "600 rpm"'),
        (read_speed, "1e6 rpm", '"1e6 rpm" is faster than any crank turns: check the figure and its unit'),
        (read_temperature, "20", '20 has no unit: write "20 degC" or "20 degF"'),
        (read_temperature, "-274 C", '"-274 degC" is below absolute zero: check the figure and its unit'),
        (read_temperature, "5000 K", '"5000 K" is hotter than anything in an engine: check the figure and its unit'),
        (read_inertia, "20", '20 has no unit: write "20 kg m2" or "20 kg cm2"'),
        (
            read_inertia,
            "20 kg m",
            '"20 kg m": unit "kg m" is not known here: use one of kg m2, kg cm2, kg mm2, g cm2, lb in2, lb ft2',
        ),
        (
            read_inertia,
            "1e9 kg m2",
            '"1e9 kg m2" is more than the flywheel of any small engine has: check the figure and its unit',
        ),
        (
            read_coefficient,
            "0.70 mm",
            '"0.70 mm" cannot be read as a plain number: write it like "0.70", "0.70 ± 0.05"',
        ),
        (read_coefficient, "70 %", '"70 %" cannot be read as a plain number: write it like "0.70", "0.70 ± 0.05"'),
        (read_coefficient, "0,7", '"0,7" has a comma in the number: write the decimals after a point: "0.7"'),
        (read_coefficient, True, 'true is not text in quotes: write it as "0.70"'),
        (
            read_coefficient,
            float("nan"),
            '"nan" is not a figure: write the size as measured, or leave it out',
        ),
        (read_coefficient, 1e7, '"10000000.0" is larger than any coefficient: check the figure'),
        (read_dryness, "98", '"98" is not between 0 and 1, which is dry: write "98 %"'),
        (read_dryness, "-0.1", '"-0.1" is not between 0 and 1, which is dry: write it like "0.98" or "98 %"'),
        (read_dryness, "98 mm", '"98 mm" cannot be read as a dryness: write it like "0.98", "98 %"'),
        (read_duration, "12", '12 has no unit: write "12 s" or "12 min"'),
        (read_duration, "0 s", '"0 s" is not more than nothing: write it like "12 s"'),
        (read_duration, "1e9 h", '"1e9 h" is longer than any test: check the figure and its unit'),
        (read_flow, "14", '14 has no unit: write "14 L/min" or "14 cfm"'),
        (read_flow, "-1 L/min", '"-1 L/min" is less than nothing: write it like "14 L/min"'),
        (read_flow, "14 L", '"14 L": unit "L" is not known here: use one of L/min, L/s, m3/h, cfm'),
        (read_flow, "1e9 m3/h", '"1e9 m3/h" is more than any compressor gives: check the figure and its unit'),
        (read_volume, "25", '25 has no unit: write "25 cm3" or "25 in3"'),
        (read_volume, "0 L", '"0 L" is not more than nothing: write it like "25 cm3"'),
        (read_volume, "25 mm", '"25 mm": unit "mm" is not known here: use one of cm3, mL, L, m3, in3'),
        (read_volume, "1e4 m3", '"1e4 m3" is more than any vessel of a workshop holds: check the figure and its unit'),
        (read_clearance, "8", '8 has no unit: write "8 mm" or "8 %"'),
        (read_clearance, "8 % ± 1 mm", '"8 % ± 1 mm" cannot be read as a clearance: write it like "0.8 mm", "8 %"'),
        (read_clearance, "wide", '"wide" cannot be read as a clearance: write it like "0.8 mm", "8 %"'),
        (
            read_clearance,
            "3 hands",
            '"3 hands": unit "hands" is not known here: use one of mm, cm, m, in, thou, µm, %',
        ),
        (
            read_clearance,
            "120 %",
            '"120 %" is not between 0 and 100 % of the swept volume: write it like "8 %" or "0.8 mm"',
        ),
        (read_clearance, "1e9 m", '"1e9 m" is longer than anything on an engine: check the figure and its unit'),
    ],
)
def test_a_refusal_says_how_to_write_it(read: Callable[[object], object], written: object, sentence: str) -> None:
    with pytest.raises(BadInput) as refusal:
        read(written)
    assert str(refusal.value) == sentence


def test_a_load_is_a_torque_or_a_power_by_its_unit() -> None:
    assert read_load("30 mN m") == Torque(Fraction(3, 100))
    assert read_load("5 W") == Power(Fraction(5))


def test_a_clearance_is_a_gap_or_a_share_of_the_swept_volume() -> None:
    assert read_clearance("1/32 in") == Length(Fraction("0.00079375"))
    for written in ("8 %", "8 per cent", "8 percent of the swept volume", "8 % of swept volume"):
        assert read_clearance(written) == Share(Fraction(8, 100))
        assert str(read_clearance(written)) == "8 %"


def test_a_speed_says_its_turns() -> None:
    speed = read_speed("600 ± 6 rpm")
    assert (speed.turns_per_second, speed.rpm) == (10.0, 600.0)


def test_a_whole_number_too_long_to_be_meant_is_refused() -> None:
    with pytest.raises(BadInput, match="cannot be read as a plain number"):
        read_coefficient(10**200)
