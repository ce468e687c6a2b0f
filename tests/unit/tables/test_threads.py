"""Sizes of threads that can be looked up in ten seconds, each in the book that it is from."""

from __future__ import annotations

from math import isclose

import pytest

from lapwright.errors import NotOneOf
from lapwright.tables.naming import find_thread
from lapwright.tables.reading import is_from_memory
from lapwright.tables.threads import list_threads

INCH = 0.0254

#: Name, size, value [mm or in], half of its last place, source.
TEN_SECONDS = [
    # BS 93, as reprinted in Machinery's Handbook, 31st edition, p. 2115 [mm].
    ("0 BA", "major", 6.00, 0.005, 1e-3),
    ("0 BA", "pitch", 1.00, 0.005, 1e-3),
    ("0 BA", "minor", 4.80, 0.005, 1e-3),
    ("2 BA", "major", 4.70, 0.005, 1e-3),
    ("2 BA", "pitch", 0.81, 0.005, 1e-3),
    ("2 BA", "effective", 4.215, 0.0005, 1e-3),
    ("4 BA", "minor", 2.81, 0.005, 1e-3),
    ("7 BA", "pitch", 0.48, 0.005, 1e-3),
    ("16 BA", "major", 0.79, 0.005, 1e-3),
    # BS 84 [in].
    ("1/4 BSW", "effective", 0.2180, 0.00005, INCH),
    ("1/4 BSW", "minor", 0.1860, 0.00005, INCH),
    ("1/8 BSW", "minor", 0.0930, 0.00005, INCH),
    ("1/4 BSF", "minor", 0.2007, 0.00005, INCH),
    ("1/4 x 40 ME", "minor", 0.2180, 0.00005, INCH),
    # ISO 228-1 [mm].
    ("G1/8", "minor", 8.566, 0.0005, 1e-3),
    ("G1 3/4", "major", 53.746, 0.0005, 1e-3),
    # ISO 724 [mm].
    ("M4", "effective", 3.545, 0.0005, 1e-3),
    ("M4", "minor", 3.242, 0.0005, 1e-3),
    ("M4", "minor_external", 3.141, 0.0005, 1e-3),
    # ISO 898-1 [mm2].
    ("M3", "stress_area", 5.03, 0.005, 1e-6),
    ("M4", "stress_area", 8.78, 0.005, 1e-6),
    ("M5", "stress_area", 14.2, 0.05, 1e-6),
    ("M6", "stress_area", 20.1, 0.05, 1e-6),
    # ASME B1.1 [in, in2].
    ("No 3-48 UNC", "major", 0.099, 0.0005, INCH),
    ("No 5-40 UNC", "minor", 0.0979, 0.00005, INCH),
    ("1/4-20 UNC", "stress_area", 0.0318, 0.00005, INCH**2),
]


@pytest.mark.parametrize(("name", "size", "value", "place", "unit"), TEN_SECONDS)
def test_a_size_is_what_the_standard_prints(name: str, size: str, value: float, place: float, unit: float) -> None:
    assert abs(getattr(find_thread(name), size) / unit - value) <= place + 1e-9


def test_every_size_of_each_series_is_there() -> None:
    counts = {series: len(list_threads(series)) for series in ("BA", "BSW", "BSF", "brass", "model", "BSP")}
    assert counts == {"BA": 17, "BSW": 17, "BSF": 14, "brass": 10, "model": 20, "BSP": 13}
    assert {row.name for row in list_threads("metric coarse")} >= {"M1.6", "M2", "M2.5", "M3", "M4", "M5", "M6", "M8"}
    assert {row.name for row in list_threads("UNF")} >= {"No 0-80 UNF", "No 10-32 UNF", "1/4-28 UNF"}


def test_threads_that_are_the_same_name_each_other() -> None:
    twins = {row.name: row.twins for row in list_threads() if row.twins}
    assert twins == {
        "1/16 BSW": ("1/16 x 60 ME",),
        "1/16 x 60 ME": ("1/16 BSW",),
        "1/8 BSW": ("1/8 x 40 ME",),
        "1/8 x 40 ME": ("1/8 BSW",),
        "3/16 BSF": ("3/16 x 32 ME",),
        "3/16 x 32 ME": ("3/16 BSF",),
        "1/4 BSF": ("1/4 x 26 brass",),
        "1/4 x 26 brass": ("1/4 BSF",),
    }


def test_what_was_recalled_says_so_for_each_figure_by_itself() -> None:
    four, two, fine = find_thread("4 BA"), find_thread("2 BA"), find_thread("1/8 x 60 ME")
    assert not four.from_memory
    assert not is_from_memory(four.drill_source)
    assert is_from_memory(two.drill_source)
    assert is_from_memory(four.clearance_source)
    assert fine.from_memory
    assert not find_thread("1/8 x 40 ME").from_memory
    assert not find_thread("M4").from_memory


def test_clearance_holes_are_those_of_the_international_standard_where_standards_differ() -> None:
    # ISO 273 has 13.5 mm for a medium M12 hole, BS 4186 had 14 mm.
    assert isclose(find_thread("M12").clearance["medium"], 13.5e-3)
    assert isclose(find_thread("M4").clearance["close"], 4.3e-3)
    assert not find_thread("1/4 BSW").clearance


def test_an_unknown_series_is_refused_with_those_that_there_are() -> None:
    with pytest.raises(NotOneOf, match="BSW"):
        list_threads("Whitworth")
