"""What is counted on for the metals of the bench, and where sources differ."""

from __future__ import annotations

import pytest

from lapwright.errors import NotOneOf, NotText
from lapwright.tables.conflicts import list_conflicts
from lapwright.tables.elastomers import find_elastomer
from lapwright.tables.gaskets import find_gasket
from lapwright.tables.material_rows import list_materials
from lapwright.tables.materials import find_metal, list_metals, shear_strength
from lapwright.tables.packings import find_packing_limit

#: Density [kg/m3], stiffness [GPa], expansion [1e-6/K], conductivity [W/(m K)], shear [MPa]: the set to use.
TO_USE = {
    "steel": (7850, 205, 12, 50, 360),
    "stainless steel": (8000, 193, 17.2, 16, 440),
    "brass": (8470, 97, 20.9, 120, 210),
    "gunmetal": (8700, 90, 18.2, 71, 165),
    "phosphor bronze": (8860, 110, 17.8, 70, 270),
    "cast iron": (7200, 110, 10, 48.5, 290),
    "aluminium": (2710, 69, 23.6, 167, 190),
    "copper": (8930, 117, 17.0, 385, 97),
}


@pytest.mark.parametrize(("name", "figures"), TO_USE.items())
def test_the_figures_of_a_metal_are_the_set_to_use(name: str, figures: tuple[float, ...]) -> None:
    metal = find_metal(name)
    found = (
        metal.density,
        metal.modulus / 1e9,
        metal.expansion * 1e6,
        metal.conductivity,
        shear_strength(name).value / 1e6,
    )
    assert found == pytest.approx(figures)


@pytest.mark.parametrize(
    ("name", "ratio"),
    # Shear over tension: wrought steel 0.75, copper alloys 0.65, aluminium 0.65, compiled from handbooks.
    [("steel", 0.75), ("stainless steel", 0.75), ("phosphor bronze", 0.65), ("copper", 0.65), ("aluminium", 0.65)],
)
def test_a_shear_strength_that_nobody_printed_is_the_handbooks_share_of_the_ultimate_one(
    name: str, ratio: float
) -> None:
    metal = find_metal(name)
    assert metal.shear.value == pytest.approx(ratio * metal.ultimate.value, rel=0.01)
    assert "ratio" in metal.shear.source


def test_the_lower_of_two_sources_is_counted_on() -> None:
    rows = [row for row in list_materials() if row.shear and row.name.startswith(("Gunmetal LG2", "Brass C36000"))]
    lowest = sorted(row.shear[0] for row in rows if row.shear)
    assert lowest == [find_metal("LG2").shear.value, find_metal("brass").shear.value]
    # Yield of cold drawn free-cutting steel: 410 MPa in one sheet and 350 in another.
    proof = find_metal("EN1A").proof
    assert proof is not None
    assert proof.value == 350e6


def test_a_metal_goes_by_its_grades_too() -> None:
    names = {
        "en 1a": "steel",
        "303": "stainless steel",
        "CZ121": "brass",
        "lg2": "gunmetal",
        "PB 102": "phosphor bronze",
    }
    assert {text: find_metal(text).name for text in names} == names
    with pytest.raises(NotOneOf, match="gunmetal"):
        find_metal("mithril")
    with pytest.raises(NotText):
        find_metal(None)


def test_what_was_recalled_says_so() -> None:
    assert shear_strength("cast iron").from_memory
    assert shear_strength("aluminium").from_memory
    assert not shear_strength("brass").from_memory
    assert not shear_strength("gunmetal").from_memory
    assert find_metal("steel").from_memory
    assert len(list_metals()) == 8


def test_only_three_rubbers_and_their_kin_live_in_steam_and_in_steam_oil() -> None:
    assert find_elastomer("NBR").steam_limit is None
    assert find_elastomer("FKM").steam_limit is None
    peroxide = find_elastomer("EPDM peroxide cured")
    # One table says 175 degC, another 150: the lower counts.
    assert peroxide.steam_limit == 423.15
    assert not peroxide.stands_mineral_oil
    with pytest.raises(NotOneOf, match="EPDM peroxide cured"):
        find_elastomer("EPDM")


def test_joints_and_packings_go_by_the_names_of_the_bench() -> None:
    paper = find_gasket("Oiled paper")
    assert (paper.m, paper.y) == (1.75, 7.58e6)
    assert find_gasket("soft rubber").y == 0
    assert "do not fit" in find_gasket("old sheet").note
    with pytest.raises(NotOneOf, match="write"):
        find_gasket("cornflake box")
    assert find_packing_limit("Graphite yarn").celsius == 550
    assert find_packing_limit("hemp").from_memory
    with pytest.raises(NotOneOf, match="write"):
        find_packing_limit("string")


def test_disagreements_are_kept_and_those_found_here_are_among_them() -> None:
    assert {row.item for row in list_conflicts("drills")} == {
        "No 25",
        "No 28",
        "No 40",
        "No 5",
        "No 10",
        "No 18",
        "No 69",
    }
    assert len(list_conflicts()) > 90
    assert all(row.verdict for row in list_conflicts())
