"""Which packing and which rubber lives with what, and what is said of those that do not."""

from __future__ import annotations

import pytest

from lapwright.engine.parts import PACKINGS
from lapwright.errors import NotOneOf, OutOfRange
from lapwright.workshop.gland_service import settle_service
from lapwright.workshop.gland_yarns import YARNS, find_friction
from lapwright.workshop.packing_choice import MATERIALS, choose_yarn, find_material, judge_all, judge_in, judge_packing

BAR = 1e5


def judge(material: str, fluid: str, *, celsius: float | None = None, oil: str = "mineral") -> str:
    temperature = None if celsius is None else celsius + 273.15
    return judge_packing(material, fluid=fluid, temperature=temperature, oil=oil).verdict


def test_all_that_a_record_may_name_is_judged() -> None:
    assert {name for name in PACKINGS if name != "nothing"} <= set(MATERIALS)


@pytest.mark.parametrize("name", ["NBR O-ring", "HNBR O-ring", "FKM O-ring"])
@pytest.mark.parametrize("oil", ["mineral", "none"])
def test_some_rubbers_are_never_for_steam(name: str, oil: str) -> None:
    # A seal maker's table and an O-ring supplier's pages: "not recommended", whatever the temperature.
    assert judge(name, "steam", oil=oil) == "unsuitable"
    assert judge(name, "steam", celsius=105, oil=oil) == "unsuitable"


def test_epdm_lives_in_steam_but_not_in_mineral_steam_oil_and_fkm_the_other_way_round() -> None:
    assert judge("EPDM", "steam", celsius=120, oil="none") == "suits"
    assert judge("EPDM", "steam", celsius=120) == "unsuitable"
    assert judge("EPDM", "air", celsius=20) == "unsuitable"
    assert "swells" in judge_packing("EPDM", fluid="steam").reason
    assert judge("FKM", "air", celsius=150) == "suits"
    assert judge("FKM", "steam", celsius=120, oil="none") == "unsuitable"
    assert "hydrogen fluoride" in judge_packing("FKM", fluid="steam").reason


def test_epdm_by_its_cure() -> None:
    # Sulphur cured 130 degC; peroxide cured 150 (a supplier) or 175 (a maker): the lower is used, both are shown.
    assert judge("EPDM", "steam", celsius=130, oil="none") == "suits"
    judged = judge_packing("EPDM", fluid="steam", temperature=145 + 273.15, oil="none")
    assert judged.verdict == "with care"
    differ = "to 150 degC if peroxide cured (tables differ, 150 and 175 degC; the lower is used)"
    assert differ in judged.reason
    assert "only a peroxide cured one will do" in judged.reason
    # Where sulphur cured will do as well, both are told all the same.
    assert differ in judge_packing("EPDM", fluid="steam", oil="none").reason
    assert judge("EPDM", "steam", celsius=151, oil="none") == "unsuitable"
    # In dry air the second cure's 150 degC stands alone.
    assert judge("EPDM", "air", celsius=140, oil="none") == "with care"
    assert "tables differ" not in judge_packing("EPDM", fluid="air", temperature=413.15, oil="none").reason


def test_only_three_kinds_of_ring_live_with_steam_and_steam_oil() -> None:
    # At 3 bar, 144 degC: TFE/P 200, FFKM over 200, PTFE 260 degC; silicone 120.
    judged = judge_all(settle_service("steam", pressure=3 * BAR, oil="mineral"))
    rings = {each.material for each in judged if each.suits and each.material not in YARNS}
    assert rings == {"TFE/P O-ring", "FFKM O-ring", "solid PTFE ring"}
    assert {each.material for each in judged if each.verdict == "suits"} == {"graphite yarn", "PTFE yarn"}


def test_on_air_any_nbr_ring_is_fine() -> None:
    assert judge("NBR", "air", celsius=20) == "suits"
    assert judge("NBR", "air", celsius=101) == "unsuitable"


@pytest.mark.parametrize(
    ("name", "limit"),
    [
        ("expanded graphite", 550),
        ("graphite yarn", 550),
        ("aramid yarn", 250),
        ("PTFE yarn", 250),
        ("graphite and PTFE yarn", 250),
        ("ramie", 120),
    ],
)
def test_packings_stand_what_the_tribology_handbook_says(name: str, limit: float) -> None:
    # Tribology Handbook, table 25.1.
    fluid = "water" if name == "ramie" else "steam"
    assert judge_packing(name, fluid=fluid, temperature=limit + 273.15).suits
    hotter = judge_packing(name, fluid=fluid, temperature=limit + 274.15)
    assert hotter.verdict == "unsuitable"
    assert hotter.reason == f"{name} is good to {limit} degC, and here it is {limit + 1} degC."
    assert "Tribology Handbook" in hotter.sources[0]


def test_what_is_from_memory_says_so() -> None:
    judged = judge_packing("flax", fluid="steam", temperature=110 + 273.15)
    assert judged.verdict == "with care"
    assert "from memory" in judged.sources[0]
    assert "120 degC (from memory)" in judged.reason
    assert judge("flax", "water", celsius=20) == "suits"


def test_ramie_is_for_pumps_and_old_string_for_nobody() -> None:
    assert judge("ramie", "steam") == "unsuitable"
    assert judge("ramie", "water", celsius=20) == "suits"
    for fluid in ("air", "steam", "water"):
        judged = judge_packing("asbestos", fluid=fluid)
        assert (judged.material, judged.verdict) == ("old string", "unsuitable")
        assert "asbestos" in judged.reason


def test_the_packing_is_what_was_asked_for_where_that_suits() -> None:
    service = settle_service("steam", pressure=3 * BAR)
    assert choose_yarn("PTFE yarn", service).material == "PTFE yarn"
    assert choose_yarn("ramie", service).material == "graphite yarn"
    assert choose_yarn("NBR O-ring", service).material == "graphite yarn"
    assert choose_yarn("old string", service).material == "graphite yarn"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Graphite Yarn", "graphite yarn"),
        ("  ptfe ", "PTFE yarn"),
        ("hemp", "flax"),
        ("nitrile", "NBR O-ring"),
        ("EPDM O-ring", "EPDM O-ring"),
        ("fepm o-ring", "TFE/P O-ring"),
        ("solid PTFE rings", "solid PTFE ring"),
        ("Nitrile O rings", "NBR O-ring"),
        ("nitrile rubber", "NBR O-ring"),
        ("O-ring", "NBR O-ring"),
        ("oring", "NBR O-ring"),
        ("silicone rubber", "silicone O-ring"),
        ("flax packing", "flax"),
        ("graphite string", "graphite yarn"),
    ],
)
def test_materials_go_by_many_names(text: str, name: str) -> None:
    assert find_material(text) == name


@pytest.mark.parametrize("text", ["rubber", "", "x" * 5000, "graphite\x00"])
def test_an_unknown_material_is_refused(text: str) -> None:
    with pytest.raises(NotOneOf, match="is not a word for this"):
        find_material(text)


def test_friction_is_that_of_the_table() -> None:
    # From memory: PTFE 0.08 to 0.15, graphite 0.10 to 0.20, tallowed hemp or flax 0.10 to 0.25.
    assert find_friction("PTFE yarn") == (0.08, 0.15)
    assert find_friction("graphite yarn") == (0.10, 0.20)
    assert find_friction("flax") == (0.10, 0.25)
    for name in YARNS:
        low, high = find_friction(name)
        assert 0 < low < high < 0.5


def test_what_is_taken_is_said() -> None:
    service = settle_service()
    assert (service.fluid, service.temperature, service.oil) == ("steam", None, "mineral")
    assert len(service.notes) == 3
    assert settle_service("air", pressure=2 * BAR, oil="none").notes == ()
    steam = settle_service("steam", pressure=3 * BAR, oil="none")
    assert steam.celsius == pytest.approx(143.7, abs=0.05)
    assert steam.notes == ("The steam is taken as saturated, 144 degC; superheated it is hotter.",)
    assert settle_service("steam", pressure=3 * BAR, temperature=500.0, oil="none").notes == ()


@pytest.mark.parametrize(
    ("oil", "word"),
    [
        ("steam oil", "mineral"),
        ("Mineral oil", "mineral"),
        ("cylinder-oil", "mineral"),
        ("no oil", "none"),
        ("dry", "none"),
    ],
)
def test_oil_goes_by_many_names(oil: str, word: str) -> None:
    assert settle_service("Compressed air", oil=oil).oil == word


def test_what_is_no_service_is_refused() -> None:
    with pytest.raises(NotOneOf, match='"air" or "steam" or "water"'):
        settle_service("gas")
    with pytest.raises(NotOneOf, match='"mineral" or "none"'):
        settle_service("air", oil="olive")
    with pytest.raises(OutOfRange, match="below the atmosphere"):
        settle_service("air", pressure=-0.5 * BAR)


@pytest.mark.parametrize("name", MATERIALS)
@pytest.mark.parametrize("fluid", ["air", "steam", "water"])
@pytest.mark.parametrize("oil", ["mineral", "none"])
def test_hotter_is_never_better(name: str, fluid: str, oil: str) -> None:
    order = ("suits", "with care", "unsuitable")
    verdicts = [judge_in(name, settle_service(fluid, temperature=273.15 + t, oil=oil)) for t in range(20, 620, 10)]
    ranks = [order.index(judged.verdict) for judged in verdicts]
    assert ranks == sorted(ranks)
    assert ranks[-1] == 2
    assert all(judged.reason.endswith(".") and judged.sources for judged in verdicts)
