"""The whole plan for packing a gland: what is bought and cut, how it is fitted, how tight, and what that rubs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lapwright.workshop.gland import SEATING
from lapwright.workshop.gland_cutting import Cutting
from lapwright.workshop.gland_friction import Pressing, press_packing
from lapwright.workshop.gland_notes import list_background, list_cautions, list_items, list_sources, list_warnings
from lapwright.workshop.gland_service import Service
from lapwright.workshop.gland_steps import list_steps
from lapwright.workshop.gland_verdict import Judgement
from lapwright.workshop.gland_winding import HANDS, NutTravel, find_nut_travel, find_winding
from lapwright.workshop.gland_words import HAND_NAMES, pick_word
from lapwright.workshop.gland_yarns import YARNS, find_friction
from lapwright.workshop.item import Item
from lapwright.workshop.oring_gland import RingGland, find_ring_glands
from lapwright.workshop.packing_choice import USUAL_CURE, choose_yarn, find_material, judge_all, judge_in

if TYPE_CHECKING:
    from lapwright.workshop.oring_plan import RingPlan

#: What a gland's friction is told for where no pressure is given [Pa].
ONE_BAR = 1e5


@dataclass(frozen=True, slots=True, kw_only=True)
class Nut:
    """The gland's nut: the pitch of its thread [m], None where not known, and its hand, "right" or "left"."""

    pitch: float | None = None
    hand: str = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tightness:
    """How hard the gland has to press to hold a pressure [Pa], with the least, middle and most friction of its packing.

    Where no pressure is known it is told for 1 bar: everything goes in step with it.
    """

    held: float
    least: Pressing
    middle: Pressing
    most: Pressing


@dataclass(frozen=True, slots=True, kw_only=True)
class GlandPlan:
    """How a gland is packed: what is cut, how tight it is, what it is packed with, and all that is said about it.

    `asked` judges what was asked for, `material` what the gland is packed with: the same where that is a packing that
    suits. `others` judges everything else there is. `ring` is what is done instead where an O-ring was asked for that
    suits and goes in; `steps` and `have_ready` are those of packing all the same. `taken` says what was assumed and
    what is unusual, `background` why it is done so.
    """

    cutting: Cutting
    nut: NutTravel | None
    nut_hand: str
    winding: str
    service: Service
    asked: Judgement
    material: Judgement
    others: tuple[Judgement, ...]
    tightness: Tightness
    ring_glands: tuple[RingGland, ...]
    ring: RingPlan | None
    steps: tuple[str, ...]
    taken: tuple[str, ...]
    background: tuple[str, ...]
    cautions: tuple[str, ...]
    have_ready: tuple[Item, ...]
    sources: tuple[str, ...]

    @property
    def notes(self) -> tuple[str, ...]:
        """Everything that a person may want to know besides the steps."""
        return (*self.taken, *self.background)


def plan_gland(
    cutting: Cutting,
    service: Service,
    *,
    nut: Nut | None = None,
    material: str = USUAL_CURE,
    purpose: str = "gland",
) -> GlandPlan:
    """Plan how a gland is packed.

    Parameters
    ----------
    cutting: what is bought and cut for it
    service: what it has to live with
    nut: the gland's; left out, with a right-hand thread of unknown pitch
    material: by any name that people write
    purpose: the part it is for, as the list of things to have ready names it

    Raises
    ------
    OutOfRange: the nut's pitch is nothing or negative
    NotOneOf: no such material or hand

    Source: tribology-handbook, B25; mobley-1999, p. 226; drago-evans-2017; denny-1957; ochonski-1988

    Example:
    >>> from lapwright.workshop.gland_service import settle_service
    >>> from lapwright.workshop.gland_cutting import cut_rings
    >>> plan = plan_gland(cut_rings(0.004, 0.008, 0.010), settle_service("steam", pressure=3e5))
    >>> plan.winding, plan.material.verdict, f"{plan.tightness.middle.friction:.1f} N"
    ('clockwise', 'suits', '4.6 N')
    """
    nut = nut or Nut()
    hand = pick_word(nut.hand, HANDS, HAND_NAMES)
    winding = find_winding(hand)
    ring_glands = find_ring_glands(cutting.rod, cutting.bore, cutting.depth)
    travel = None if nut.pitch is None else find_nut_travel(nut.pitch)
    asked = judge_in(find_material(material), service)
    chosen = choose_yarn(asked.material, service)
    return GlandPlan(
        cutting=cutting,
        nut=travel,
        nut_hand=hand,
        winding=winding,
        service=service,
        asked=asked,
        material=chosen,
        others=tuple(each for each in judge_all(service) if each.material not in (asked.material, chosen.material)),
        tightness=find_tightness(cutting, service.pressure, material=chosen.material),
        ring_glands=ring_glands,
        ring=_plan_ring(asked, ring_glands, cutting=cutting, service=service, purpose=purpose),
        steps=list_steps(cutting, nut=travel, fluid=service.fluid),
        taken=(*service.notes, *list_warnings(cutting)),
        background=list_background(cutting, nut=travel, winding=winding, hand=hand, fluid=service.fluid),
        cautions=list_cautions(service.fluid),
        have_ready=list_items(cutting, material=chosen.material, fluid=service.fluid, purpose=purpose),
        sources=tuple(dict.fromkeys((*list_sources(), *asked.sources, *chosen.sources, *_cite_rings(ring_glands)))),
    )


def _plan_ring(
    asked: Judgement, rings: tuple[RingGland, ...], *, cutting: Cutting, service: Service, purpose: str
) -> RingPlan | None:
    if asked.material in YARNS:
        return None
    # Most glands are packed, and do without.
    from lapwright.workshop.oring_plan import plan_ring

    return plan_ring(asked, rings, cutting=cutting, service=service, purpose=purpose)


def _cite_rings(rings: tuple[RingGland, ...]) -> tuple[str, ...]:
    if not rings:
        return ()
    sources = (
        f"O-ring: {ring.source}{_OF_AS568 * ring.tolerance_taken}; groove: {ring.groove.source}" for ring in rings
    )
    memory = "from memory: how loose a ring may be, how lightly squeezed, its grease and chamfers, walls of its bush"
    return (*dict.fromkeys(sources), memory)


_OF_AS568 = ", tolerance of the section as AS568 has it, for none is printed"


def find_tightness(cutting: Cutting, pressure: float | None, *, material: str) -> Tightness:
    """Work out how tight a packed gland has to be, over the range of friction of its packing.

    Parameters
    ----------
    cutting: what is in the box
    pressure: to be held, above the atmosphere [Pa]; None for 1 bar
    material: a soft packing by its name

    Source: drago-evans-2017; denny-1957; ochonski-1988; from memory (coefficients of friction)
    """
    held = ONE_BAR if pressure is None else pressure
    stack = (1 - SEATING) * cutting.rings.count * cutting.section
    low, high = find_friction(material)
    least, middle, most = (
        press_packing(cutting.rod, cutting.bore, stack, held=held, friction=friction)
        for friction in (low, (low + high) / 2, high)
    )
    return Tightness(held=held, least=least, middle=middle, most=most)
