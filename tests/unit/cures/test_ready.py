"""What to have ready for a cure of the valve and its drive."""

import pytest

from lapwright.cures.ready import list_ready
from lapwright.engine.sizes import Sizes
from lapwright.workshop.item import SHELVES
from tests.house.test_reference import find_cure_codes

KNOWN = Sizes("A", {"valve.length": 0.014, "valve.cavity": 0.008, "valve.width": 0.011})
#: Cures of parts bring a list of their own; these two are made of the jobs of others.
OF_OTHERS = {
    *("pack-gland", "rethread", "secure-screw", "renew-screw", "make-pin", "draw-up-cover"),
    *("set-alike", "new-valve-alike"),
}


@pytest.mark.parametrize("code", sorted(find_cure_codes() - OF_OTHERS))
def test_every_job_on_valve_and_drive_says_what_it_wants(code: str) -> None:
    items = list_ready([code], KNOWN)
    assert items
    for item in items:
        assert item.shelf in SHELVES
        assert item.purposes == ("valve and its drive",)


def test_a_new_valve_wants_a_bar_over_its_size() -> None:
    # 14 mm and 11 mm finished, 2 mm over for squaring up.
    names = [item.name for item in list_ready(["new-valve"], KNOWN) if item.shelf == "metal"]
    assert names == ["gunmetal or cast iron for the valve, 16 mm long, 13 mm wide"]
    unknown = [item.name for item in list_ready(["new-valve"], Sizes("A", {})) if item.shelf == "metal"]
    assert unknown == ["gunmetal or cast iron for the valve, as long as the old valve, as wide as the old valve"]


def test_what_two_jobs_want_is_listed_once() -> None:
    names = [item.name for item in list_ready(["shorten-valve", "turn-eccentric"], KNOWN)]
    assert len(names) == len(set(names))
    assert "degree disc and pointer" in names
