"""Laws of what is read and shown: nothing is lost on the way out and in again."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from lapwright.errors import BadInput
from lapwright.quantities import (
    read_angle,
    read_clearance,
    read_coefficient,
    read_dryness,
    read_duration,
    read_flow,
    read_inertia,
    read_length,
    read_load,
    read_power,
    read_pressure,
    read_share,
    read_speed,
    read_temperature,
    read_thread,
    read_torque,
    read_turns,
    read_volume,
    show_length_like,
)

decimals = st.decimals(0, 9999, allow_nan=False, allow_infinity=False, places=4).map(str)
fractions = st.builds("{}/{}".format, st.integers(0, 999), st.integers(1, 64))
mixed = st.builds("{}{}{}".format, st.integers(0, 99), st.sampled_from([" ", "-", "  "]), fractions)
powers = st.builds("{}e{}".format, st.integers(0, 99), st.integers(-9, 3))
numbers = st.one_of(decimals, fractions, mixed)
tolerances = st.one_of(
    st.just(""),
    st.builds("{}{}".format, st.sampled_from(["±", " ± ", "+/-", " +- "]), numbers),
    st.builds(" +{}{}-{}".format, numbers, st.sampled_from([" ", "/", " / "]), numbers),
)
READERS = {
    read_length: ["mm", "MM", "cm", "m", "in", '"', "″", "inch", "thou", "um", "µm"],
    read_angle: ["deg", "°", "rad"],
    read_pressure: ["bar", "psi", "kPa", "psia", "bar abs", "bar (abs)"],
    read_share: ["%", "percent"],
    read_clearance: ["mm", "in", "%", "per cent"],
    read_torque: ["N m", "mNm", "N.cm", "kgf cm", "lbf-in", "oz in"],
    read_power: ["W", "kW", "hp"],
    read_load: ["mN m", "oz in", "W", "hp"],
    read_speed: ["rpm", "rev/s", "turns per minute"],
    read_temperature: ["C", "°C", "degF", "K"],
    read_inertia: ["kg m2", "kg cm²", "lb in^2"],
    read_coefficient: [""],
    read_dryness: ["", "%"],
    read_duration: ["s", "min", "h"],
    read_flow: ["L/min", "l/min free air", "cfm", "m³/h"],
    read_volume: ["cm3", "cc", "ml", "L", "in³"],
}


@given(st.data(), st.sampled_from(list(READERS)), st.sampled_from(["", "-", "+"]), numbers | powers, tolerances)
def test_what_is_shown_reads_as_the_same_and_shows_as_the_same(data, read, sign, number, tolerance) -> None:
    unit = data.draw(st.sampled_from(READERS[read]))
    try:
        quantity = read(f"{sign}{number}{tolerance} {unit}")
    except BadInput:
        return
    again = read(str(quantity))
    assert again == quantity
    assert str(again) == str(quantity)


@given(st.integers(-459, 3000))
def test_degrees_of_both_scales_are_the_same_warmth(fahrenheit: int) -> None:
    celsius = Fraction(fahrenheit - 32) * 5 / 9
    assert read_temperature(f"{fahrenheit} F") == read_temperature(f"{fahrenheit} degF")
    kelvin = read_temperature(f"{fahrenheit} F").value
    assert kelvin - Fraction("273.15") == celsius


@given(st.integers(1, 5_000))
def test_a_power_is_the_same_in_horses_as_a_weight_lifted(pounds: int) -> None:
    foot_pounds = read_torque(f"{pounds} lbf ft").value
    assert read_power(f"{pounds}/550 hp").value == foot_pounds


@given(numbers, st.sampled_from(["mm", "cm", "in", "thou"]))
def test_a_length_is_its_number_times_its_unit_exactly(number: str, unit: str) -> None:
    factor = {"mm": "0.001", "cm": "0.01", "in": "0.0254", "thou": "0.0000254"}[unit]
    parts = number.replace("-", " ").split()
    assert read_length(f"{number} {unit}").metres == sum(map(Fraction, parts)) * Fraction(factor)


@given(st.text(max_size=70))
def test_any_text_is_read_or_refused_with_a_better_way(text: str) -> None:
    for read in (*READERS, read_turns, read_thread):
        refusal = None
        try:
            quantity = read(text)
        except BadInput as error:
            refusal = error
        if refusal is None:
            assert read(str(quantity)) == quantity
        else:
            assert refusal.instead
            assert str(refusal).isprintable()


alphabet = st.text(alphabet='0123456789./-+± "xMBAmincthoudegbarpsik%,½eNWCFKµ²fw', max_size=24)


@given(alphabet)
def test_texts_made_of_likely_characters_are_read_or_refused(text: str) -> None:
    test_any_text_is_read_or_refused_with_a_better_way.hypothesis.inner_test(text)


@given(st.integers(0, 16))
def test_ba_threads_show_and_read(number: int) -> None:
    thread = read_thread(f"{number}BA")
    assert read_thread(str(thread)) == thread
    assert str(read_thread(str(thread))) == str(thread)


@given(st.floats(-1, 1), st.sampled_from(["mm", "cm", "m", "in", "thou", "µm"]))
def test_a_result_shown_in_a_unit_reads_back_within_its_digits(metres: float, unit: str) -> None:
    like = read_length(f"1 {unit}")
    step = {"mm": 5e-6, "cm": 5e-6, "m": 5e-6, "in": 1.27e-5, "thou": 1.27e-6, "µm": 5e-8}[unit]
    assert abs(read_length(show_length_like(metres, like)).si - metres) <= step * 1.0001
