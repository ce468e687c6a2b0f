"""The one small search."""

from collections.abc import Callable
from math import cos, exp

import pytest
from scipy.optimize import brentq

from lapwright.motion.solve import find_zero

CURVES: list[tuple[Callable[[float], float], float, float]] = [
    (lambda x: x**3 - 2, 0.0, 2.0),
    (lambda x: cos(x) - x, 0.0, 1.0),
    (lambda x: exp(x) - 100, 0.0, 10.0),
    (lambda x: (x - 0.3) ** 3, -1.0, 2.0),
    (lambda x: 2 - x, 5.0, 0.0),
]


@pytest.mark.parametrize(("curve", "low", "high"), CURVES[:3] + CURVES[4:])
def test_it_finds_what_a_general_root_finder_finds(curve: Callable[[float], float], low: float, high: float) -> None:
    assert find_zero(curve, low, high) == pytest.approx(brentq(curve, low, high, xtol=1e-14), abs=1e-12)


def test_at_a_flat_zero_the_figure_is_nothing_to_speak_of() -> None:
    curve, low, high = CURVES[3]
    found = find_zero(curve, low, high)
    assert found is not None
    assert abs(curve(found)) < 1e-12


def test_no_change_of_sign_is_no_answer() -> None:
    assert find_zero(lambda x: x * x + 1, -1.0, 1.0) is None


def test_a_zero_at_either_end_is_that_end() -> None:
    assert find_zero(lambda x: x, 0.0, 1.0) == 0.0
    assert find_zero(lambda x: x - 1, 0.0, 1.0) == 1.0
