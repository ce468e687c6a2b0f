"""What goes with the plan of a gland: what to know besides, what can hurt, what to have ready, and where it is from."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.quantities import show_length_both, show_mm, show_number, show_share
from lapwright.sources import cite
from lapwright.workshop.cautions import LET_DOWN, OLD_PACKING, STEAM, TRYING_UNDER_PRESSURE
from lapwright.workshop.gland import ENTRY, FEWEST, SEATING, usual_section
from lapwright.workshop.gland_cutting import Cutting
from lapwright.workshop.gland_steps import size_pusher
from lapwright.workshop.gland_winding import NutTravel
from lapwright.workshop.item import Item

#: By what share a section passes the usual ones before it is said; from memory.
_BEYOND = 0.25
_WHY_NO_RUBBER = (
    "Rubber in steam: steam hardens NBR and HNBR, and strips FKM, which oil does not harm. EPDM is the other way "
    "round: it lives in steam and swells in mineral steam oil. Silicone is weak and tears in motion. Only TFE/P, FFKM "
    "and PTFE live with both, which is why graphite or PTFE packing is the usual cure."
)
_FINISH = (
    "Rod: 0.4 µm Ra or better and 250 HB or harder (Tribology Handbook, used here); makers of valve packing allow 0.8 "
    "µm on the stem and 3.2 µm in the box."
)
_FRICTION = (
    "Friction goes with the gland's pressure: twice as tight rubs twice as much. It is shown for the middle of a "
    "range of coefficients, all from memory, with half of the gland's pressure reaching the rod and the rings pressed "
    f"down by {show_share(SEATING)} of their height. An oiled rod rubs less (tests told of in 1906, without figures)."
)
_ASBESTOS = (
    "Old string: in an engine packed before 2000 presume asbestos. In the United Kingdom trained people may take rope "
    "or a gasket out without a licence where it comes away nearly whole: damped, with hand tools, a class H vacuum, "
    f"bagged twice and tipped where that is licensed ({cite('hse-asbestos')}). Never dig it out dry or blow it out; "
    "have a doubtful piece tested. Elsewhere ask the local regulator."
)


def list_warnings(cutting: Cutting) -> tuple[str, ...]:
    """List what is unusual or not known of a gland's sizes.

    Parameters
    ----------
    cutting: what is cut

    Source: tribology-handbook, table 25.2; from memory (three to five rings)
    """
    return (*_warn_section(cutting), *_warn_depth(cutting))


def list_background(cutting: Cutting, *, nut: NutTravel | None, winding: str, hand: str, fluid: str) -> tuple[str, ...]:
    """List why it is done so, and where books and makers differ.

    Parameters
    ----------
    cutting: what is cut
    nut: what its turning moves; None where its thread is not known
    winding: which way a string is wound, as seen from the nut
    hand: of the nut
    fluid: what it holds

    Source: tribology-handbook, B25; mobley-1999, p. 226; hse-asbestos; from memory (winding)
    """
    return (
        _tell_height(cutting),
        _tell_practices(nut),
        _tell_winding(cutting, winding, hand),
        _tell_joints(cutting.joint),
        *((_WHY_NO_RUBBER,) if fluid == "steam" else ()),
        _FINISH,
        _FRICTION,
        _ASBESTOS,
    )


def _warn_section(cutting: Cutting) -> Iterator[str]:
    low, high, says = usual_section(cutting.rod)
    usual = show_mm(low) if low == high else f"{show_mm(low)} to {show_mm(high)}"
    side = (
        "narrow" if cutting.section < (1 - _BEYOND) * low else "wide" if cutting.section > (1 + _BEYOND) * high else ""
    )
    if side:
        yield f"The box is {side} for its rod: usual is a section of {usual} ({says})."


def _tell_height(cutting: Cutting) -> str:
    stack = cutting.rings.count * cutting.section / cutting.rod
    return (
        f"The rings stand {show_number(stack, 1)} rods high. Books differ: 1.5 rods is a rule of limited worth; "
        f"{cite('bourne-1865')}, has marine boxes 4.1 rods deep with their bush."
    )


def _warn_depth(cutting: Cutting) -> Iterator[str]:
    count, needed = cutting.rings.count, show_mm((FEWEST + ENTRY) * cutting.section)
    if cutting.depth is None:
        yield (
            f"The depth of the box is not given: {count} rings are taken, which with the gland's nose need "
            f"{show_mm(cutting.rings.depth_needed)}. Three to five are usual at bench size (from memory)."
        )
    elif count < FEWEST:
        yield (
            f"The box holds only {count}: three to five rings are usual at bench size (from memory), and three need a "
            f"box {needed} deep. It will want the gland tighter, and more often."
        )


def _tell_practices(nut: NutTravel | None) -> str:
    moves = f", {show_mm(nut.eighth)} of the gland's travel" if nut else ""
    return (
        "How tight: two practices. Used here, common practice, no source: nip until resistance is felt, then back an "
        f"eighth of a turn{moves}. The other, as makers advise: nip to seat, slacken to finger tight, run, then a flat "
        "at a time; overtightening at the first fitting is what spoils most packings."
    )


def _tell_winding(cutting: Cutting, winding: str, hand: str) -> str:
    count = cutting.rings.count
    return (
        "Cut rings beat one wound length, and makers say never to wind: it leaks along its own groove. If it must be: "
        f"{'1 turn' if count == 1 else f'{count} turns'}, {show_mm(cutting.wound, 0)} of string, laid {winding} as "
        f"seen from the nut, from the bottom of the box outwards (from memory). Tightening the {hand}-hand nut then "
        "drags the outer end the way it points and draws the coil tight; the other way round it pushes the coil open."
    )


def _tell_joints(joint: str) -> str:
    return (
        "Joints: a butt, cut square on a mandrel (Tribology Handbook), and a skive at 45 degrees (makers of valve "
        f"packing) are both published; used here: {joint}. Old books leave 1/16 to 1/8 in between the ends of hemp, "
        "to swell; braided packing is cut to meet."
    )


def list_cautions(fluid: str) -> tuple[str, ...]:
    """List what can hurt in packing a gland.

    Parameters
    ----------
    fluid: what it is tried on

    Source: hse-asbestos; common practice, no source
    """
    return (LET_DOWN, OLD_PACKING, TRYING_UNDER_PRESSURE, *((STEAM,) if fluid == "steam" else ()))


def list_items(cutting: Cutting, *, material: str, fluid: str, purpose: str) -> tuple[Item, ...]:
    """List what to have ready.

    Parameters
    ----------
    cutting: what is cut
    material: of the packing
    fluid: what it is tried on
    purpose: the part it is for

    Source: common practice, no source
    """
    inner, outer = size_pusher(cutting)
    tools = (
        f"mandrel {show_length_both(cutting.rod)}, the rod's size",
        "sharp blade",
        "packing hook",
        f"split sleeve {show_mm(inner, 1)} bore, {show_mm(outer, 1)} outside, to push rings home",
    )
    oil = "steam oil" if fluid == "steam" else "oil"
    used = ("soapy water and brush", oil) if fluid != "water" else (oil,)
    amount = f"{show_number(cutting.total, 2)} m"
    return (
        *(Item("tools", name, purposes=(purpose,)) for name in tools),
        Item("packing", f"{cutting.bought.name} {material}", amount=amount, purposes=(purpose,)),
        *(Item("consumables", name, purposes=(purpose,)) for name in used),
    )


def list_sources() -> tuple[str, ...]:
    """List what the plan of a gland rests on."""
    return (
        cite("tribology-handbook", "section B25 (widths, joints, stagger, finish, temperatures)"),
        cite("mobley-1999", "p. 226 (length of a ring)"),
        f"{cite('drago-evans-2017')} (friction); {cite('denny-1957')}, and {cite('ochonski-1988')} (its decay along "
        "the box, from the balance of forces)",
        "makers' fitting advice (seating 15 to 20 %, running in, cut rings)",
        "from memory: three to five rings, sections sold, how far a packing may be off, friction, which way to wind",
    )
