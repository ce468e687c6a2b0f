"""The whole plan for an O-ring that was asked for: which ring, of what, how it is fitted, and what to have ready."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from lapwright.quantities import show_mm
from lapwright.workshop.gland_cutting import Cutting
from lapwright.workshop.gland_service import Service
from lapwright.workshop.gland_verdict import Judgement
from lapwright.workshop.item import Item
from lapwright.workshop.oring_gland import BORED, IN_BOX, LAND, LIGHT, SHALLOW, WALL, RingGland
from lapwright.workshop.oring_steps import EASE, list_ring_steps
from lapwright.workshop.rubbers import RUBBERS

_SQUEEZE = (
    "Squeeze of a ring on a moving rod: one maker asks for 12 to 18 %, whatever the section; another lists for each "
    "its own, 11 to 28 % for 1.02 mm, 15 to 25 % for 1.78 mm, 10 to 18 % for 2.62 mm, between the worst of all limits. "
    "What either asks for is used here. More squeeze seals a higher pressure, rubs more and wears sooner."
)
_FILL = (
    "How full the ring makes its groove: with the grooves that makers list it comes to 63 to 77 %. The 85 % that is "
    "often named is the worst case, not the aim: a full groove leaves the rubber nowhere to go."
)
_STRETCH = (
    "A ring that the rod stretches grows thinner, since its rubber stays as much: squeeze is counted on what is left. "
    "Makers allow 5 % in a groove; up to 10 % is shown here (from memory), for want of small sizes in between."
)
#: How the names of rings end.
O_RING = " O-ring"


@dataclass(frozen=True, slots=True, kw_only=True)
class RingPlan:
    """What is done where an O-ring was asked for, suits, and can be fitted; packing is then the alternative.

    `taken` says what was assumed, `background` how its figures are meant, and where makers differ.
    """

    ring: RingGland
    rubber: str
    grease: str
    steps: tuple[str, ...]
    have_ready: tuple[Item, ...]
    taken: tuple[str, ...]
    background: tuple[str, ...]


def plan_ring(
    asked: Judgement, rings: tuple[RingGland, ...], *, cutting: Cutting, service: Service, purpose: str
) -> RingPlan | None:
    """Plan an O-ring where one was asked for and suits; None where it does not, or where no ring goes into the box.

    Parameters
    ----------
    asked: what was asked for, judged
    rings: those that suit the rod, the easiest way first
    cutting: with the sizes of rod and box
    service: what it has to live with
    purpose: the part it is for

    Source: as568; iso-3601; bs-4518; makers' groove tables; from memory (lubricants); common practice, no source
    """
    if not asked.material.endswith(O_RING) or not asked.suits or not rings or rings[0].way == SHALLOW:
        return None
    ring, grease = rings[0], RUBBERS[asked.material].grease
    rubber = asked.material.removesuffix(O_RING)
    return RingPlan(
        ring=ring,
        rubber=rubber,
        grease=grease,
        steps=list_ring_steps(ring, rod=cutting.rod, bore=cutting.bore, fluid=service.fluid, grease=grease),
        have_ready=_list_items(ring, rubber, grease, cutting=cutting, purpose=purpose),
        taken=(*service.notes, *_warn(ring, cutting.depth)),
        background=(_SQUEEZE, _FILL, _STRETCH),
    )


def _warn(ring: RingGland, depth: float | None) -> Iterator[str]:
    if depth is None:
        yield f"The depth of the box is not given: this needs {show_mm(ring.groove.width + 2 * LAND)}."


def _list_items(ring: RingGland, rubber: str, grease: str, *, cutting: Cutting, purpose: str) -> tuple[Item, ...]:
    outside = ring.diameters[1] + 2 * WALL if ring.way == BORED else cutting.bore
    turned = "two washers" if ring.way in (IN_BOX, LIGHT) else "a bush and its washer"
    shown = (
        Item("packing", f"{ring.name}, O-ring of {rubber}", 2),
        Item("metal", f"brass or bronze bar for {turned} {show_mm(outside - EASE)} outside", amount="a short end"),
        Item("tools", "packing hook"),
        Item("consumables", grease.partition(",")[0]),
        Item("consumables", "soapy water and brush"),
    )
    return tuple(replace(item, purposes=(purpose,)) for item in shown)
