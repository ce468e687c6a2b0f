"""Empty boxes, wrong sections and packing that does not last."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.engine.parts import OILS, PACKINGS
from lapwright.findings.parts import find_part_faults
from tests.unit.findings.parted import GLAND, LOADS, MM, SPINDLE, make_engine, with_gland


def test_empty_boxes_of_a_cylinder_are_one_finding() -> None:
    empty = {"packed_with": "nothing", "packing_section": None}
    engine = make_engine(glands=(replace(GLAND, **empty), replace(SPINDLE, **empty)))
    (finding,) = find_part_faults(engine, LOADS)
    assert finding.part == "glands of the piston rod and the valve spindle"
    assert "2.00 mm" in finding.because
    assert "1.60 mm" in finding.because


def test_an_empty_box_of_unknown_size_is_said_to_be_empty() -> None:
    (finding,) = find_part_faults(with_gland(packed_with="nothing", rod=None, packing_section=None), {})
    assert finding.because == "nothing is in the box round the piston rod"


@pytest.mark.parametrize(
    ("section", "severity"), [(1.8, "spoils-it"), (1.9, None), (2.0, None), (2.25, None), (2.4, "worth-doing")]
)
def test_the_section_has_to_fill_the_space(section: float, severity: str | None) -> None:
    # The space is (9 - 5) / 2 = 2.0 mm: 8 % thinner to 15 % thicker goes.
    found = find_part_faults(with_gland(packing_section=section * MM), LOADS)
    assert [finding.severity for finding in found] == ([] if severity is None else [severity])
    if found:
        assert found[0].size == pytest.approx(abs(section - 2.0))


@pytest.mark.parametrize("section", [1.0, 3.0])
def test_a_ring_of_rubber_is_not_measured_as_a_packing(section: float) -> None:
    # FFKM lives with steam and with oil; its ring lies in a groove of its own.
    assert find_part_faults(with_gland(packed_with="FFKM O-ring", packing_section=section * MM), LOADS) == ()


def test_a_space_too_narrow_for_any_packing_is_left_unsaid() -> None:
    assert find_part_faults(with_gland(box_bore=5.4 * MM, packing_section=0.2 * MM), LOADS) == ()


@pytest.mark.parametrize("packing", PACKINGS)
@pytest.mark.parametrize("oil", [None, *OILS])
@pytest.mark.parametrize("fluid", [None, "air", "steam"])
def test_every_word_of_a_gland_is_judged(packing: str, oil: str | None, fluid: str | None) -> None:
    engine = make_engine(glands=(replace(GLAND, packed_with=packing, oil=oil),), fluid=fluid)
    for loads in ({}, LOADS):
        codes = {finding.code for finding in find_part_faults(engine, loads)}
        assert codes <= {"gland-leaks", "packing-unsuitable"}
        assert ("gland-leaks" in codes) == (packing == "nothing")


def test_rubber_that_lives_in_steam_dies_in_its_oil() -> None:
    def is_found(packing: str, oil: str) -> bool:
        return bool(find_part_faults(with_gland(packed_with=packing, oil=oil), LOADS))

    # EPDM lives in steam and swells in mineral oil; nitrile is the other way round.
    assert is_found("EPDM O-ring", "mineral")
    assert not is_found("EPDM O-ring", "none")
    assert is_found("NBR O-ring", "none")


def test_a_pressure_under_which_water_does_not_boil_says_nothing() -> None:
    assert find_part_faults(make_engine(supply_pressure=4e7, fasteners=(), pins=()), {}) == ()


def test_a_gland_below_the_atmosphere_is_judged_as_at_it() -> None:
    engine = make_engine(glands=(replace(GLAND, packed_with="NBR O-ring"),), supply_pressure=-5e4)
    assert [finding.code for finding in find_part_faults(engine, {})] == ["packing-unsuitable"]
