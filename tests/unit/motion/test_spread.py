"""Doubts added up, on sums that can be done by hand."""

import pytest

from lapwright.engine.sizes import Doubt, Sizes
from lapwright.motion.spread import Spread, measure_spread, rank_culprits

DOUBTS = {"valve.length": Doubt(3.0, 3.0), "valve.cavity": Doubt(4.0, 4.0)}


def difference(sizes: Sizes) -> dict[str, float]:
    return {"left_mm": sizes.numbers["valve.length"] - sizes.numbers["valve.cavity"]}


def test_independent_doubts_add_as_squares() -> None:
    sizes = Sizes("A", {"valve.length": 20.0, "valve.cavity": 10.0}, DOUBTS)
    assert measure_spread(sizes, difference) == {"left_mm": Spread(5.0, "valve.cavity")}


def test_a_lopsided_tolerance_counts_by_half_its_width() -> None:
    sizes = Sizes("A", {"valve.length": 20.0, "valve.cavity": 10.0}, {"valve.length": Doubt(0.03, 0.01)})
    assert measure_spread(sizes, difference)["left_mm"].half_width == pytest.approx(0.02)


def test_without_tolerances_there_is_no_spread() -> None:
    assert measure_spread(Sizes("A", {"valve.length": 20.0, "valve.cavity": 10.0}), difference) == {}


def test_a_tolerance_on_a_size_that_is_not_known_is_passed_over() -> None:
    sizes = Sizes("A", {"valve.length": 20.0, "valve.cavity": 10.0}, {"bore": Doubt(1.0, 1.0)})
    assert measure_spread(sizes, difference) == {}


def test_angles_wrap_round_the_turn() -> None:
    sizes = Sizes("A", {"valve.length": 0.0}, {"valve.length": Doubt(2.0, 2.0)})
    spread = measure_spread(sizes, lambda s: {"admission_deg": s.numbers["valve.length"] % 360})
    assert spread["admission_deg"].half_width == pytest.approx(2.0)


def test_a_figure_that_rests_on_no_doubtful_size_has_nobody_to_blame() -> None:
    sizes = Sizes("A", {"valve.length": 20.0, "bore": 1.0}, {"valve.length": Doubt(1.0, 1.0)})
    assert measure_spread(sizes, lambda s: {"bore": s.numbers["bore"]}) == {"bore": Spread(0.0, "")}


def test_culprits_are_ranked_by_the_figures_they_spoil_and_the_blameless_left_out() -> None:
    spreads = {"a": Spread(1.0, "throw"), "b": Spread(1.0, "bore"), "c": Spread(1.0, "bore"), "d": Spread(0.0, "")}
    assert rank_culprits(spreads) == (("bore", 2), ("throw", 1))
