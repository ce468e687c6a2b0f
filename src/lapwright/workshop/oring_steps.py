"""Fitting an O-ring to a rod, step by step: what is turned for it, how it goes in, and how it is tried."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.quantities import show_inch, show_length_both, show_mm, show_number
from lapwright.workshop.gland_steps import EMPTYING
from lapwright.workshop.oring_gland import BORED, IN_BOX, LIGHT, WALL, RingGland

#: How far a washer or a bush goes clear of the wall of the box [m]; common practice, no source.
EASE = 0.00005
#: The least clearance of the rod in it [m]; common practice, no source.
RUN = 0.00002
#: The chamfer that leads a ring in, and how far its edges are broken [m]; from memory.
_CHAMFER, _EDGE = "15 to 20 degrees", 0.0002


def list_ring_steps(ring: RingGland, *, rod: float, bore: float, fluid: str, grease: str) -> tuple[str, ...]:
    """List what is done, in order, from the full box to the running engine.

    Parameters
    ----------
    ring: what is fitted, and in what way
    rod, bore: diameters of rod and stuffing box [m]
    fluid: what it is tried on
    grease: what it is put in with

    Source: as568; iso-3601; bs-4518; makers' groove tables; from memory (chamfers, finish); common practice, no source
    """
    return (
        EMPTYING,
        "Clean rod and box: the rod polished, and no scratch along the wall that the ring lies against.",
        *_making(ring, rod, bore),
        f"Chamfer the mouth and the end of the rod at {_CHAMFER}, and round every edge that the ring meets by "
        f"{show_mm(_EDGE, 1)} (from memory): one sharp edge cuts it. Wrap a thread that it passes in tape.",
        f"Wet ring, rod and box with {grease}. {_order(ring)} A twisted ring leaks.",
        "Draw the gland up until nothing shifts along the rod, and lock it. It must not nip the ring: it seals by its "
        "squeeze, and a tighter nut does not help it.",
        "Turn the engine by hand: a light, even drag, no tight place.",
        _trying(fluid),
    )


def _making(ring: RingGland, rod: float, bore: float) -> Iterator[str]:
    width = show_length_both(ring.groove.width)
    holes = f"{show_number(1000 * (rod + RUN), 2)} to {show_mm(rod + ring.groove.clearance)}"
    if ring.way in (IN_BOX, LIGHT):
        yield (
            f"Turn two brass or bronze washers, {show_mm(bore - EASE)} outside, bored {holes}, 1 mm thick or more; the "
            f"lower one so that with the gland home {width} is left between them."
        )
        return
    low, high = ring.diameters
    outside = bore
    if ring.way == BORED:
        outside = high + 2 * WALL
        yield (
            f"Bore the box to {show_length_both(outside)}, true with the rod, where its wall and the thread of the nut "
            "leave metal for it; or pack it as it stands."
        )
    yield (
        f"Turn a brass or bronze bush, {show_mm(outside - EASE)} outside, bored {holes}. Counterbore it "
        f"{show_number(1000 * low, 2)} to {show_mm(high)} ({show_inch(low)} to {show_inch(high)}) across and {width} "
        "deep, and close that with a washer: it is the groove. Seal the bush in the box with a smear of jointing."
    )


def _order(ring: RingGland) -> str:
    if ring.way in (IN_BOX, LIGHT):
        return "Put in the lower washer, then the ring, pushed down square, then the upper washer."
    return "Put the ring in the counterbore, the washer over it, and both with the bush into the box."


def _trying(fluid: str) -> str:
    shows = "a dry rag at the rod shows the first drop" if fluid == "water" else "soapy water at the rod shows bubbles"
    first = "air first, then warm on steam" if fluid == "steam" else fluid
    return f"Try it at low pressure, on {first}: {shows}; then look for a cut, a twist or a scored rod."
