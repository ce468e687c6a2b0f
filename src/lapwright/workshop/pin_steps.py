"""A shouldered pin in words: its sizes for a drawing, the work step by step, and what to have ready."""

from __future__ import annotations

from math import ceil
from typing import Final

from lapwright.quantities import show_inch, show_mm
from lapwright.workshop.fits import FitLimits
from lapwright.workshop.item import Item
from lapwright.workshop.pin_sizes import PinSizes, PinWish
from lapwright.workshop.pins import SHANK_PLAY

#: A bush is thicker than the hole in it by so much, on the diameter [m]; common practice, no source.
_BUSH_WALL: Final = 2e-3
#: A hole that is to be reamed is drilled this much smaller [m].
_REAMING: Final = 0.2e-3
#: From this diameter of shank a split pin behind the nut is strong enough to be handled [m].
_SPLIT_PIN_FROM: Final = 4e-3
#: Thickness of nut, washer and head, in diameters [-]; what a lathe needs to hold [m].
_NUT, _WASHER, _HEAD_LENGTH, _GRIP = 0.8, 0.2, 0.5, 15e-3
#: Rod is sold by whole mm [m].
_ROD_STEP: Final = 1e-3


def show_limits(limits: tuple[float, float], places: int = 3) -> str:
    """Show the two limits of a size in mm, and in inches behind.

    Parameters
    ----------
    limits: least and greatest [m]
    places: digits after the point, of the mm

    Example:
    >>> show_limits((2.984e-3, 2.994e-3))
    '2.984 to 2.994 mm (0.1175 to 0.1179 in)'
    """
    low, high = limits
    inches = f"{show_inch(low, places + 1).removesuffix(' in')} to {show_inch(high, places + 1)}"
    return f"{show_mm(low, places).removesuffix(' mm')} to {show_mm(high, places)} ({inches})"


def list_sizes(wish: PinWish, sizes: PinSizes) -> tuple[tuple[str, str], ...]:
    """List the sizes of a pin as they stand on a drawing, label and figure.

    Parameters
    ----------
    wish: what is known of the pin and of its place
    sizes: what it is made to
    """
    longer = ", more by the thickness of the cheek under the head" if sizes.adds_cheek else ""
    rows = [
        ("shank", f"{show_limits(sizes.shank.shaft)}, {sizes.shank.fit}"),
        ("length of shank", f"{show_limits(sizes.length, 2)}{longer}"),
        ("hole of the moving part", f"{show_limits(sizes.shank.hole)}, reamed"),
        ("head", f"{show_mm(sizes.head, 1)} across"),
    ]
    if sizes.thread is not None:
        rows.append(("far end", f"{sizes.thread.name}, with washer and nut"))
    if sizes.end is not None:
        rows.append(("far end", f"{show_limits(sizes.end.shaft)}, {sizes.end.fit}"))
        rows.append(("hole for it", show_limits(sizes.end.hole)))
    return (*rows, ("metal", wish.metal))


def list_steps(wish: PinWish, sizes: PinSizes) -> tuple[str, ...]:
    """List the work on a pin in order.

    Parameters
    ----------
    wish: what is known of the pin and of its place
    sizes: what it is made to

    Source: common practice, no source
    """
    return (
        *_prepare(wish, sizes.shank),
        *_turn(sizes),
        *(_fit_nut(wish, sizes) if sizes.end is None else _fit_press(wish, sizes.end)),
        "Oil it and turn the engine over by hand: the part swings freely through a whole turn, and neither knocks nor "
        "binds at the dead centres.",
    )


def _prepare(wish: PinWish, shank: FitLimits) -> tuple[str, ...]:
    drill, size = show_mm(shank.size - _REAMING, 1), show_mm(shank.size, 1)
    where = "the moving part and the cheek under the head, clamped in line," if wish.planes == 2 else "the moving part"
    fork = "the cheeks, the opening of the fork" if wish.planes == 2 else "the piece that holds the pin"
    return (
        f"Take the {wish.name} out and measure again: the moving part along the pin, {fork}, and the worn hole.",
        f"Drill {where} {drill} if the hole is smaller than that, and ream {size} (H7), square to the face, so that "
        "the reamer cleans up all round.",
    )


def _turn(sizes: PinSizes) -> tuple[str, ...]:
    shank = (
        f"Turn the shank to {show_limits(sizes.shank.shaft)} and polish it; try the reamed hole on it before going on."
    )
    cheek = "the thickness of the cheek under the head and " if sizes.adds_cheek else ""
    length = f"Face the shoulder square: it stands {cheek}{show_limits(sizes.length, 2)} from under the head."
    end = (
        f"Turn the far end down and cut {sizes.thread.name} with the die held square in the tailstock, with a narrow "
        "undercut at the shoulder so that the shoulder seats, not the thread."
        if sizes.thread is not None
        else f"Turn the far end to {show_limits((sizes.end or sizes.shank).shaft)}, with a small chamfer."
    )
    hold = "" if sizes.thread is None else ", and cut a slot or two flats in it to hold it by"
    return (shank, length, end, f"Part off and finish the head{hold}.")


def _fit_nut(wish: PinWish, sizes: PinSizes) -> tuple[str, ...]:
    name = "" if sizes.thread is None else sizes.thread.name
    against = "the inner face of the far cheek" if wish.planes == 2 else "the face of the piece that holds it"
    lock = (
        "a second nut against it" if sizes.shank.size < _SPLIT_PIN_FROM else "a second nut, or a split pin through both"
    )
    hole = (
        _keep_thread(wish.thread.name, name)
        if wish.thread is not None
        else f"Drill the far side to clear {name}, or tap it {name}; the shoulder needs a seat all round."
    )
    return (
        hole,
        f"Draw the shoulder up against {against} with washer and nut, holding the head; lock it with {lock}. "
        f"{_say_play(wish.planes)}",
    )


def _keep_thread(old: str, new: str) -> str:
    if old == new:
        return f"Keep the {old} thread in the far side; face round it, so that the shoulder has a seat."
    return (
        f"Where the far side is tapped {old}, bush it and tap the bush {new}, so that the shoulder has a seat all "
        "round; where it is plain, a nut does."
    )


def _fit_press(wish: PinWish, end: FitLimits) -> tuple[str, ...]:
    against = "the inner face of the far cheek" if wish.planes == 2 else "the face of the piece that holds it"
    return (
        f"Ream the hole that holds the end {show_mm(end.size, 1)} (H7), bushing it first if it is larger already, and "
        f"measure both: the hole is {show_limits(end.hole)}.",
        f"Put the moving part on, oil the end and press it home in the vice between soft jaws until the shoulder seats "
        f"on {against}. {_say_play(wish.planes)}",
    )


def _say_play(planes: int) -> str:
    low, high = (1e3 * play for play in SHANK_PLAY)
    if planes == 2:
        return (
            f"What is tight is the shoulder, not the fork: the head stays {low:.2f} to {high:.2f} mm off its cheek, "
            "and the moving part stays free."
        )
    play = f"{low:.2f} to {high:.2f} mm of play along the pin"
    return f"What is tight is the shoulder, not the moving part: that keeps {play}."


def list_items(wish: PinWish, sizes: PinSizes) -> tuple[Item, ...]:
    """List what to have ready for a pin.

    Parameters
    ----------
    wish: what is known of the pin and of its place
    sizes: what it is made to

    Source: common practice, no source
    """
    use = (wish.name,)
    size, drill = show_mm(sizes.shank.size, 1), show_mm(sizes.shank.size - _REAMING, 1)
    rod = _ROD_STEP * ceil(round(sizes.head / _ROD_STEP, 6))
    items = [
        Item("metal", f"{wish.metal} rod, {show_mm(rod, 0)}", 1, show_mm(_find_rod(wish, sizes), 0), use),
        Item("drills", f"{drill} drill", 1, "", use),
        Item("tools", f"{size} reamer, H7", 1, "", use),
        Item("tools", "micrometer", 1, "", use),
        Item("consumables", "cutting oil", 1, "a little", use),
    ]
    if sizes.thread is not None:
        items.append(Item("taps and dies", f"{sizes.thread.name} die, with its stock", 1, "", use))
        items.append(Item("screws", f"{sizes.thread.name} nut", 2, "", use))
        items.append(Item("screws", f"{sizes.thread.name} washer", 1, "", use))
        if wish.thread is not None and wish.thread != sizes.thread:
            items.append(Item("taps and dies", f"{sizes.thread.name} taps, taper and plug", 1, "", use))
            if sizes.thread.tapping_drill is not None:
                items.append(Item("drills", f"{round(1e3 * sizes.thread.tapping_drill, 3):g} mm drill", 1, "", use))
            bar = show_mm(1e-3 * ceil(round(1e3 * (wish.thread.major + _BUSH_WALL), 6)), 0)
            items.append(Item("metal", f"{wish.runs_in} rod, {bar}, for a bush in the far side", 1, "a short end", use))
            items.append(Item("drills", f"{bar} drill, for the bush", 1, "", use))
    if sizes.end is not None:
        items.append(Item("tools", f"{show_mm(sizes.end.size, 1)} reamer, H7", 1, "", use))
    return tuple(items)


def _find_rod(wish: PinWish, sizes: PinSizes) -> float:
    """Length of rod: head, shank, far cheek, washer, two nuts, and what the lathe holds, up to a whole cm [m]."""
    across = sizes.shank.size
    end = wish.cheek + (_WASHER + 2 * _NUT) * across if sizes.thread is not None else max(wish.cheek, across)
    # The shank's length lacks the cheek where that is not known: a diameter is taken for it.
    near = across if sizes.adds_cheek else 0.0
    return 0.01 * ceil((_HEAD_LENGTH * across + near + sizes.length[1] + end + _GRIP) / 0.01)
