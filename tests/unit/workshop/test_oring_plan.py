"""An O-ring that was asked for: when it is the answer, how it is fitted, and what it is put in with."""

from __future__ import annotations

import pytest

from lapwright.workshop.gland_cutting import cut_rings
from lapwright.workshop.gland_plan import GlandPlan, plan_gland
from lapwright.workshop.gland_service import settle_service
from lapwright.workshop.item import SHELVES


def plan(
    material: str,
    rod: float = 4.0,
    bore: float = 8.0,
    depth: float | None = 10.0,
    *,
    fluid: str = "air",
    oil: str = "none",
) -> GlandPlan:
    cutting = cut_rings(rod / 1000, bore / 1000, None if depth is None else depth / 1000)
    return plan_gland(cutting, settle_service(fluid, pressure=3e5, oil=oil), material=material)


def test_a_ring_that_suits_is_the_answer_and_packing_the_alternative() -> None:
    made = plan("NBR")
    assert made.ring is not None
    assert (made.ring.rubber, made.ring.ring.code, made.ring.ring.way) == ("NBR", "0041-16", "bush")
    assert made.material.material == "graphite yarn"
    assert any("Wind the packing" in step for step in made.steps)
    assert not any("packing" in step for step in made.ring.steps[1:])


@pytest.mark.parametrize(
    ("material", "fluid", "oil"),
    [
        ("graphite yarn", "air", "none"),
        ("EPDM", "steam", "mineral"),
        ("NBR", "steam", "none"),
        ("solid PTFE", "air", "none"),
    ],
)
def test_what_is_no_o_ring_or_does_not_suit_is_packed(material: str, fluid: str, oil: str) -> None:
    assert plan(material, fluid=fluid, oil=oil).ring is None


def test_where_no_ring_goes_in_it_is_packed() -> None:
    # Too shallow for a groove with its lands; and a rod that lies between two sizes of ring.
    assert plan("NBR", depth=4.0).ring is None
    assert plan("NBR", 2.4, 4.8).ring is None


def test_steps_in_the_box_as_it_stands_name_washers_and_their_distance() -> None:
    made = plan("NBR", 3.0, 6.0, 8.0).ring
    assert made is not None
    steps = " ".join(made.steps)
    # 6 - 0.05; 3 + 0.02 and 3 + 0.10; the groove of 1.78 mm is 2.41 wide.
    for said in ("5.95 mm outside", "bored 3.02 to 3.10 mm", "2.41 mm (0.095 in) is left between them", "lower washer"):
        assert said in steps
    assert "Counterbore" not in steps
    for said in ("Chamfer", "every edge", "silicone grease", "twisted", "must not nip", "soapy water"):
        assert said in steps


def test_steps_in_a_bush_name_its_groove_and_a_box_bored_out_its_bore() -> None:
    bush = plan("NBR").ring
    assert bush is not None
    steps = " ".join(bush.steps)
    for said in ("7.95 mm outside", "6.51 to 6.61 mm (0.256 in to 0.260 in) across", "2.22 mm (0.087 in) deep"):
        assert said in steps
    assert "Bore the box" not in steps
    bored = plan("NBR", 4.0, 6.0).ring
    assert bored is not None
    assert any(step.startswith("Bore the box to 7.61 mm") for step in bored.steps)
    assert any("7.56 mm outside" in item.name for item in bored.have_ready)


def test_epdm_is_kept_from_oil_and_silicone_from_silicone_grease() -> None:
    epdm = plan("EPDM", fluid="steam").ring
    assert epdm is not None
    assert "never mineral oil" in epdm.grease
    assert not any(step.startswith("Oil") for step in epdm.steps)
    assert any("then warm on steam" in step for step in epdm.steps)
    silicone = plan("silicone").ring
    assert silicone is not None
    assert silicone.grease.startswith("a drop of mineral oil, never silicone grease")


def test_what_to_have_ready_is_a_ring_to_spare_and_what_is_turned() -> None:
    made = plan("NBR").ring
    assert made is not None
    assert {item.shelf for item in made.have_ready} <= set(SHELVES)
    ring = next(item for item in made.have_ready if item.shelf == "packing")
    assert (ring.name, ring.count, ring.purposes) == (
        "BS 4518 0041-16, 4.10 mm x 1.60 mm, O-ring of NBR",
        2,
        ("gland",),
    )


def test_a_box_of_unknown_depth_says_what_the_ring_needs() -> None:
    made = plan("NBR", depth=None).ring
    assert made is not None
    assert made.taken == ("The depth of the box is not given: this needs 4.22 mm.",)
