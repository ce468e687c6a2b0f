"""Packing a gland, step by step: the sentences for the person who does it."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.quantities import show_length_both, show_mm
from lapwright.workshop.gland import ENTRY, FINAL, SEATING_RANGE
from lapwright.workshop.gland_cutting import EXTRA_TURNS, JOINTS, Cutting
from lapwright.workshop.gland_winding import NutTravel

#: How far the pusher goes clear of rod and box [m]; common practice, no source.
PUSHER_EASE = 0.0002
#: What comes first, whatever goes in afterwards.
EMPTYING = (
    "Shut off, let the pressure down, block the flywheel. Damp the old packing and lift it all out with the hook, "
    "whole, to the bottom of the box."
)
#: The same where the box was found empty: something may still lie at its bottom.
EMPTY_ALREADY = (
    "Shut off, let the pressure down, block the flywheel. Feel to the bottom of the box with the hook: if anything of "
    "the old packing is left, damp it and lift it out whole."
)


def size_pusher(cutting: Cutting) -> tuple[float, float]:
    """Work out bore and outside diameter of the sleeve that pushes the rings home [m].

    Parameters
    ----------
    cutting: what is cut

    Source: common practice, no source
    """
    return cutting.rod + PUSHER_EASE, cutting.bore - PUSHER_EASE


def list_steps(cutting: Cutting, *, nut: NutTravel | None, fluid: str) -> tuple[str, ...]:
    """List what is done, in order, from the full box to the running engine.

    Parameters
    ----------
    cutting: what is cut
    nut: what its turning moves; None where its thread is not known
    fluid: what it is tried on

    Source: tribology-handbook, B25; common practice, no source
    """
    return (
        EMPTYING,
        "Clean box and rod, and polish the rod: a scored one spoils the new packing.",
        *_cutting(cutting),
        *_filling(cutting),
        *_tightening(cutting, nut),
        *_trying(fluid),
    )


def _cutting(cutting: Cutting) -> Iterator[str]:
    count = cutting.rings.count
    if cutting.bought.advice:
        yield cutting.bought.advice
    yield (
        f"Wind the packing {count + EXTRA_TURNS} turns, close, round a mandrel of the rod's size, and cut along it, "
        f"{JOINTS[cutting.joint]}: {count + 1} rings, one to spare, {show_length_both(cutting.length)} long on their "
        "middle line. Try one in the box."
    )


def _filling(cutting: Cutting) -> Iterator[str]:
    rings, section = cutting.rings, cutting.section
    if rings.spacer:
        yield (
            f"Put a spacer ring {show_length_both(rings.spacer)} long, bored to clear the rod, at the bottom: more "
            f"than {rings.count} rings only rub."
        )
    inner, outer = size_pusher(cutting)
    least, most = ((1 - share) * section for share in reversed(SEATING_RANGE))
    yield (
        "Oil the first ring. Spring it sideways into an S, just far enough to go over the rod; never open it flat. "
        f"Enter it joint first, press it home with a split sleeve, {show_mm(inner, 1)} bore, {show_mm(outer, 1)} "
        f"outside, from {show_mm(section)} high to {show_mm(least)} to {show_mm(most)}."
    )
    if rings.count > 1:
        others = "The second one" if rings.count == 2 else f"The other {rings.count - 1}"
        yield f"{others} the same way, each joint {cutting.stagger} degrees on from the one below."


def _tightening(cutting: Cutting, nut: NutTravel | None) -> Iterator[str]:
    rings = cutting.rings
    follow, stack = FINAL * rings.count * cutting.section, rings.count * cutting.section + rings.spacer
    inside = ENTRY * cutting.section if cutting.depth is None else cutting.depth - stack
    yield (
        f"Enter the gland square: its nose is {show_mm(inside)} in before it presses, and has to be free to follow up "
        f"to {show_mm(follow)} more."
    )
    back = f", {show_mm(nut.eighth)}" if nut else ""
    flat = f", {show_mm(nut.flat)}" if nut else ""
    yield (
        f"Tighten the nut until resistance is felt, then back an eighth of a turn{back} (common practice, no source); "
        f"later a flat at a time{flat}."
    )
    yield "Oil the rod, turn the engine by hand: no tight place, squeak or dry streak."


def _trying(fluid: str) -> Iterator[str]:
    if fluid == "steam":
        yield "Try it on air at low pressure first: soapy water bubbles where it passes."
        yield (
            "Then warm on steam: take up a flat at a time until only a faint weep is left that stops when the gland is "
            "hot (from memory)."
        )
        return
    shows = "a dry rag at the gland shows the first drop" if fluid == "water" else "soapy water at the gland bubbles"
    yield (
        f"Run it on {fluid} at low pressure: {shows}. Take up a flat at a time until the leak just stops, and no "
        "further."
    )
