"""Packing a gland, step by step: the sentences for the person who does it."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.quantities import show_length_both, show_mm
from lapwright.workshop.gland import ENTRY, FINAL, SEATING_RANGE
from lapwright.workshop.gland_cutting import EXTRA_TURNS, JOINTS, Cutting
from lapwright.workshop.gland_winding import NutTravel

#: How far the pusher goes clear of rod and box [m]; common practice, no source.
PUSHER_EASE = 0.0002


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
        "Shut off, let the pressure down, block the flywheel, and mind the cautions.",
        "Damp the old packing and lift it out whole with the hook, every scrap, down to the bottom of the box.",
        "Clean box and rod. The rod wants to be round, straight and polished; a scored rod spoils the new packing.",
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
        f"Wind the packing {count + EXTRA_TURNS} turns, each close to the last, round a mandrel of the rod's size, "
        f"{show_length_both(cutting.rod)}, and cut along the mandrel with a sharp blade, {JOINTS[cutting.joint]}. That "
        f"makes {count + 1} rings, one to spare, {show_length_both(cutting.length)} long on their middle line. Try one "
        "round the rod in the empty box: its ends just meet."
    )


def _filling(cutting: Cutting) -> Iterator[str]:
    rings, section = cutting.rings, cutting.section
    if rings.spacer:
        yield (
            f"Put a spacer ring {show_length_both(rings.spacer)} long, bored to clear the rod, at the bottom of the "
            f"box: more than {rings.count} rings only rub, since the gland hardly presses the inner ones."
        )
    inner, outer = size_pusher(cutting)
    least, most = ((1 - share) * section for share in reversed(SEATING_RANGE))
    yield (
        "Oil the first ring. Spring it sideways into an S, just far enough to go over the rod; never open it flat. "
        f"Enter it joint first and push it down square with a sleeve split lengthwise, {show_mm(inner, 1)} bore, "
        f"{show_mm(outer, 1)} outside. Seat it before the next goes in: {show_mm(section)} high becomes "
        f"{show_mm(least)} to {show_mm(most)}."
    )
    if rings.count > 1:
        others = "The second one" if rings.count == 2 else f"The other {rings.count - 1}"
        yield f"{others} the same way, each joint {cutting.stagger} degrees on from the one below."


def _tightening(cutting: Cutting, nut: NutTravel | None) -> Iterator[str]:
    follow = FINAL * cutting.rings.count * cutting.section
    yield (
        f"Enter the gland square, with the same gap all round. Its nose is {show_mm(ENTRY * cutting.section)} in "
        f"before it presses, and has to be free to follow up to {show_mm(follow)} more as the rings settle."
    )
    back = f", which lets the gland back {show_mm(nut.eighth)}" if nut else ""
    flat = f" ({show_mm(nut.flat)} of the gland's travel)" if nut else ""
    yield (
        f"Tighten the nut until resistance is felt, then back it off an eighth of a turn{back} (common practice, no "
        f"source). From here on it is taken up one flat of the hexagon at a time{flat}."
    )
    yield "Oil the rod and turn the engine over by hand: no tight place, no squeak, no dry streak on the rod."


def _trying(fluid: str) -> Iterator[str]:
    if fluid == "steam":
        yield (
            "Try it on air at low pressure first, with soapy water brushed round rod and gland: bubbles show where it "
            "passes."
        )
        yield (
            "Then run it warm on steam, and take up a flat at a time until only a faint weep is left that stops when "
            "the gland is hot (from memory). Look again when the packing has settled."
        )
        return
    shows = "soapy water brushed round rod and gland: bubbles show where it passes"
    if fluid == "water":
        shows = "a dry rag held round the gland: it shows the first drop"
    yield (
        f"Run it on {fluid} at low pressure, with {shows}. A drop of oil at the rod is drawn in or blown off as well. "
        "Take up a flat at a time until the leak just stops, and no further."
    )
