"""The clearance of a plain bearing: the rules in use, the one that is used here, and how a measured one stands."""

from __future__ import annotations

import pytest

from lapwright.errors import OutOfRange
from lapwright.workshop.clearances import find_clearance, judge_clearance, list_clearances
from lapwright.workshop.fits import find_fit

THOU = 25.4e-6


def test_the_four_rules_at_an_inch_and_the_bench_rule_before_them() -> None:
    # A trade journal, 2016: 1 thou + 1 per inch, 2 + 1 per inch, 1.5 per inch, 2 per inch: at an inch 2, 3, 1.5, 2.
    rules = {rule.words: rule.clearance / THOU for rule in list_clearances(25.4e-3)}
    bench, *others = rules.items()
    assert bench == ("0.001 of the diameter, at least 0.01 mm", pytest.approx(1.0))
    assert dict(others) == {
        "1 thou, and 1 more for each inch": pytest.approx(2.0),
        "2 thou, and 1 more for each inch": pytest.approx(3.0),
        "1.5 thou for each inch": pytest.approx(1.5),
        "2 thou for each inch": pytest.approx(2.0),
    }


def test_each_rule_says_where_it_comes_from_and_only_the_bench_rule_is_used() -> None:
    bench, *others = list_clearances(6e-3)
    assert bench.is_used
    assert "from memory" in bench.source
    assert not any(rule.is_used for rule in others)
    assert {rule.source for rule in others if "1.5" in rule.words} == {
        "a bearing maker's rule; a trade journal on the sleeve bearings of motors, 2016"
    }


@pytest.mark.parametrize(
    ("diameter", "microns"),
    # From memory: 0.001 d, not under 0.01 mm.
    [(3, 10), (6, 10), (10, 10), (12, 12), (20, 20)],
)
def test_the_bench_rule(diameter: float, microns: float) -> None:
    assert 1e6 * find_clearance(diameter / 1000) == pytest.approx(microns)


def test_h7_f7_from_3_to_10_mm_gives_what_the_bench_rule_asks() -> None:
    # The table's note: H7/f7 on 3 to 10 mm gives 0.010 to 0.043 mm.
    spans = [find_fit(size, "H7/f7") for size in (4e-3, 10e-3)]
    assert 1e6 * min(limits.least_clearance for limits in spans) == pytest.approx(10)
    assert 1e6 * max(limits.most_clearance for limits in spans) == pytest.approx(43)


@pytest.mark.parametrize(
    ("microns", "verdict"),
    # On 6 mm: half the bench rule is 5 µm, the running fits leave 34 (H7/f7) and 40 µm (H8/f7).
    [
        (0, "too tight"),
        (4.9, "too tight"),
        (5.0, "fine"),
        (34.0, "fine"),
        (34.1, "at the limit"),
        (40.0, "at the limit"),
        (40.1, "worn"),
        (200, "worn"),
    ],
)
def test_a_measured_clearance_is_judged(microns: float, verdict: str) -> None:
    judged = judge_clearance(1e-6 * microns, diameter=6e-3)
    assert judged.verdict == verdict
    assert verdict in judged.sentence
    assert (1e6 * judged.wanted, 1e6 * judged.least, 1e6 * judged.most) == pytest.approx((10, 5, 40))
    assert 1e6 * judged.near == pytest.approx(34)
    assert len(judged.rules) == 5
    assert "common practice, no source" in judged.sources[1]


def test_the_sentence_says_what_the_band_is_made_of() -> None:
    assert judge_clearance(20e-6, diameter=4e-3).sentence == (
        "0.020 mm on 4.00 mm is fine. A new bearing is made with 0.010 mm; it runs from half of that, 0.005 mm, to "
        "0.040 mm, the most that the easy running fit H8/f7 leaves."
    )
    limit = judge_clearance(40e-6, diameter=4e-3).sentence
    assert "at the limit: over 0.034 mm, the most that the running fit H7/f7 leaves" in limit
    assert "A shaft bearing may stay; a pin in a fork is bushed" in limit


@pytest.mark.parametrize(
    ("microns", "millimetres", "told"),
    # ISO 286-2, H7/p6: over 3 up to 6 mm 0 to 20 µm tight, over 18 up to 30 mm 1 to 35 µm tight.
    [
        (-10, 4, "an interference of 0.010 mm on 4.00 mm: a press fit (H7/p6, 0.000 to 0.020 mm), not a running fit."),
        (-30, 4, "more than the press fit H7/p6 has (0.000 to 0.020 mm), and a thin boss splits"),
        (-0.6, 25, "less than the press fit H7/p6 has (0.001 to 0.035 mm), so it may come loose"),
        (-10, 40, "a press fit, not a running fit."),
    ],
)
def test_metal_too_much_is_a_press_fit_and_not_a_tight_bearing(microns: float, millimetres: float, told: str) -> None:
    judged = judge_clearance(1e-6 * microns, diameter=1e-3 * millimetres)
    assert judged.verdict == "press fit"
    assert told in judged.sentence
    assert "ease" not in judged.sentence


def test_beyond_the_table_of_fits_the_widest_rule_goes_on_from_it() -> None:
    inside, beyond = (judge_clearance(50e-6, diameter=size).most for size in (30e-3, 30.1e-3))
    # 30 mm: H8/f7 74 µm; 2 thou and 1 per inch at 30.1 mm: 50.8 + 30.1 = 80.9 µm.
    assert (1e6 * inside, 1e6 * beyond) == pytest.approx((74, 80.9), abs=0.05)


@pytest.mark.parametrize("diameter", [0.0, -1e-3, float("nan")])
def test_no_diameter_is_refused(diameter: float) -> None:
    with pytest.raises(OutOfRange):
        judge_clearance(1e-5, diameter=diameter)
