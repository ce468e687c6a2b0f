"""Clearance holes: what the standards have, where they part, and what is done where there is none."""

from __future__ import annotations

import pytest

from lapwright.tables.naming import find_thread
from lapwright.tables.threads import CLEARANCES, list_threads
from lapwright.workshop.clearance import find_clearance


# ISO 273:1979, mm: close, medium, free.
@pytest.mark.parametrize(
    ("name", "holes"),
    [
        ("M2", (2.2, 2.4, 2.6)),
        ("M3", (3.2, 3.4, 3.6)),
        ("M4", (4.3, 4.5, 4.8)),
        ("M5", (5.3, 5.5, 5.8)),
        ("M6", (6.4, 6.6, 7.0)),
        ("M8", (8.4, 9.0, 10.0)),
        ("M10", (10.5, 11.0, 12.0)),
        ("M12", (13.0, 13.5, 14.5)),
    ],
)
def test_iso_273(name: str, holes: tuple[float, ...]) -> None:
    assert [1e3 * hole.diameter for hole in find_clearance(find_thread(name)).holes] == pytest.approx(holes)


# BS 4186:1967 (Machinery's Handbook, 31st edition, p. 2173) parts from ISO 273 at M12.
def test_bs_4186_is_shown_where_it_differs() -> None:
    assert "14.0 mm" in find_clearance(find_thread("M12")).notes[0]
    assert "14.0 mm" in find_clearance(find_thread("M12 x 1")).notes[0]
    assert not find_clearance(find_thread("M10")).notes


def test_ba_holes_are_from_memory_and_say_so() -> None:
    found = find_clearance(find_thread("4 BA"))
    assert [1e3 * hole.diameter for hole in found.holes] == pytest.approx([3.7, 3.8, 3.9])
    assert found.from_memory
    assert not find_clearance(find_thread("M4")).from_memory


def test_inch_screws_borrow_the_allowance_of_the_nearest_metric_screw() -> None:
    found = find_clearance(find_thread("1/4 BSW"))
    # M6: 6.4, 6.6 and 7.0, which is 0.4, 0.6 and 1.0 over the screw.
    assert [1e3 * hole.diameter for hole in found.holes] == pytest.approx([6.75, 6.95, 7.35])
    assert "no source" in found.source


@pytest.mark.parametrize("thread", list_threads(), ids=lambda thread: thread.name)
def test_every_screw_passes_its_holes_and_its_drills(thread) -> None:
    holes = find_clearance(thread).holes
    assert [hole.fit for hole in holes] == list(CLEARANCES)
    sizes = [hole.diameter for hole in holes]
    assert thread.major < sizes[0] < sizes[1] < sizes[2]
    for hole in holes:
        assert hole.drill is None or hole.drill.diameter >= hole.diameter - 2.1e-6


def test_drills_come_from_the_drawers_owned() -> None:
    holes = find_clearance(find_thread("M4"), drawers="number-letter").holes
    assert [hole.drill.name for hole in holes] == ["No 18", "No 15", "No 12"]
    assert all(hole.drill is None for hole in find_clearance(find_thread("G2")).holes)
