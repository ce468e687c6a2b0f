"""The boiling point in plain arithmetic, against the release and the compiled equation."""

import pytest

from lapwright.errors import OutOfRange
from lapwright.medium.boiling import find_boiling_point
from lapwright.medium.water import find_saturation


def test_the_boiling_point_is_that_of_the_running_engine() -> None:
    # IAPWS R7-97, table 36: 372.755919 K at 0.1 MPa, 453.035632 K at 1 MPa.
    assert find_boiling_point(0.1e6) == pytest.approx(372.755919, abs=5e-7)
    assert find_boiling_point(1e6) == pytest.approx(453.035632, abs=5e-7)
    for pressure in (2e5, 4.5e5, 12e5):
        assert find_boiling_point(pressure) == pytest.approx(find_saturation(pressure).temperature, abs=1e-6)


@pytest.mark.parametrize("pressure", [600.0, 23e6, -1.0])
def test_beyond_the_ends_of_the_line_there_is_no_boiling_point(pressure: float) -> None:
    with pytest.raises(OutOfRange, match="no pressure at which water boils"):
        find_boiling_point(pressure)
