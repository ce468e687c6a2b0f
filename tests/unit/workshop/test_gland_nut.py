"""A gland nut goes over the rod, and screws into the mouth of the box or over its outside."""

from __future__ import annotations

import pytest

from lapwright.errors import DoesNotFit
from lapwright.tables.naming import find_thread
from lapwright.workshop.gland_nut import check_nut

INCH = 0.0254


@pytest.mark.parametrize(
    ("name", "said"),
    [
        # A rod of 1/8 in is 3.175 mm, its box of 1/4 in 6.35 mm.
        ("M3", "a gland nut of M3 is 3.00 mm over its thread and does not even go over a rod of 3.17 mm"),
        ("M5", "a gland nut of M5 is 5.00 mm over its thread, no larger than the bore of the box, 6.35 mm"),
        ("1/4 x 40", "6.35 mm over its thread, no larger than the bore of the box, 6.35 mm"),
    ],
)
def test_a_nut_that_is_no_larger_than_rod_or_box_is_refused_with_what_to_measure(name: str, said: str) -> None:
    with pytest.raises(DoesNotFit) as refused:
        check_nut(find_thread(name), INCH / 8, INCH / 4)
    assert said in refused.value.message
    assert "over its crests" in refused.value.instead
    assert "its pitch" in refused.value.instead


@pytest.mark.parametrize("name", ["5/16 x 32", "M8", "0 BA", "3/8 x 32", "G1/4"])
def test_a_nut_larger_than_the_box_passes(name: str) -> None:
    thread = find_thread(name)
    check_nut(thread, INCH / 8, thread.major - 1e-6)
    with pytest.raises(DoesNotFit):
        check_nut(thread, INCH / 8, thread.major)
