"""A cover in words: its figures, the work step by step, and what to have ready."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Final

from lapwright.quantities import show_mm
from lapwright.workshop.cover_figures import CoverFigures, CoverWish
from lapwright.workshop.covers import StudLoad
from lapwright.workshop.gasket_choice import THICKNESSES
from lapwright.workshop.item import Item

#: How the threads are made to be as the torque takes them.
_THREADS: Final = {"oiled": "Oil the threads", "dry": "Clean the threads and leave them dry, as the torque takes them"}
#: What is left on the sheet round a joint when it is marked out [m].
_MARGIN: Final = 5e-3


def show_torque(newton_metres: float) -> str:
    """Show the torque of a small screw, to two figures at least.

    Parameters
    ----------
    newton_metres: the torque [N.m]

    Example:
    >>> show_torque(0.0457), show_torque(0.137), show_torque(2.2)
    ('0.046 N m', '0.14 N m', '2.20 N m')
    """
    return f"{newton_metres:.{2 if newton_metres >= 0.0995 else 3}f} N m"


def show_stress(stud: StudLoad) -> str:
    """Show what a stud bears, and how much of its proof stress that is.

    Parameters
    ----------
    stud: the stud under its load
    """
    return f"{stud.pull:.0f} N, {stud.stress / 1e6:.0f} MPa, {100 * stud.share:.0f} % of its proof stress"


def say_order(count: int, order: tuple[int, ...]) -> str:
    """Say in which order the studs of a cover are drawn down.

    Parameters
    ----------
    count: how many studs
    order: as `covers.order_studs` gives it

    Example:
    >>> say_order(4, (1, 3, 2, 4))
    '1, 3, 2, 4, counted round the cover: always to the one opposite, then across again'
    >>> say_order(5, (1, 3, 5, 2, 4))
    '1, 3, 5, 2, 4, counted round the cover: always nearly across, as a star is drawn'
    """
    if count < 4:
        return f"{', '.join(map(str, order))}, round and round"
    way = "to the one opposite, then across again" if count % 2 == 0 else "nearly across, as a star is drawn"
    return f"{', '.join(map(str, order))}, counted round the cover: always {way}"


def list_rows(wish: CoverWish, figures: CoverFigures) -> tuple[tuple[str, str], ...]:
    """List the figures of a cover, label and figure.

    Parameters
    ----------
    wish: what is known of the cover
    figures: what was worked out
    """
    loads = figures.loads
    rows = [
        ("pressure pushes with", f"{loads.pressure:.0f} N at {wish.pressure / 1e5:.1f} bar"),
        ("to hold it, tight", f"{loads.operating:.0f} N"),
        ("to bed the joint", f"{loads.seating:.0f} N ({figures.gasket})"),
        ("what decides", loads.governs),
        ("each stud", f"{show_stress(figures.stud)} ({wish.count} of {wish.thread.name}, {wish.stud_metal})"),
        ("torque for that", f"{show_torque(figures.stud.torque)}, {wish.condition}"),
        ("at most", f"{show_torque(figures.most_torque)}, set by {figures.limited_by}"),
    ]
    if figures.found is not None:
        rows.append(("as found", f"{show_torque(figures.found.torque)}: {show_stress(figures.found)}"))
    if figures.chord is not None:
        rows.append(("hole to hole", show_mm(figures.chord)))
    return tuple(rows)


def list_steps(wish: CoverWish, figures: CoverFigures) -> tuple[str, ...]:
    """List the work on a cover in order.

    Parameters
    ----------
    wish: what is known of the cover
    figures: what was worked out

    Source: common practice, no source
    """
    order = say_order(wish.count, figures.order)
    first, second, last = map(show_torque, figures.passes)
    drawn = wish.drawn
    return (
        "Shut off, let the pressure down to nothing and the metal cool, and block the flywheel.",
        f"Slacken all {drawn}s a quarter of a turn, one opposite the other, then take them off; free the cover with a "
        "tap of a wooden drift, never with a lever between the faces.",
        "Clean both faces wet, with a scraper of brass or hard wood, and try them for flatness with marking blue.",
        *_mend_studs(wish, figures),
        *_cut_joint(wish, figures),
        f"{_THREADS.get(wish.condition, 'Clean the threads')}, lay the joint on, and run the {drawn}s down by hand.",
        f"Draw them down in the order {order}.",
        f"Go round three times: to {first}, to {second}, to {last}; then once more with {last}, without an order, "
        f"until no {drawn} moves.",
        "After it has been warm once, let the pressure down and the metal cool, and go round again.",
    )


def _mend_studs(wish: CoverWish, figures: CoverFigures) -> Iterator[str]:
    if figures.found is not None and figures.found.is_past_proof:
        yield (
            f"Put in {wish.count} new {wish.kind}s: drawn past their proof stress the old ones stay longer and thinner "
            "than they were, and shear off at the next pull."
        )
    elif figures.was_overtightened:
        by_hand = "Run a nut down every stud" if wish.kind == "stud" else f"Run every {wish.kind} into its hole"
        yield f"{by_hand} with the fingers: one that binds half way has stretched, and is renewed."


def _cut_joint(wish: CoverWish, figures: CoverFigures) -> Iterator[str]:
    ring = f"{show_mm(wish.joint.outside, 1)} over the outside, {show_mm(wish.joint.bore, 1)} inside"
    thick = _show_thickness(figures.gasket)
    holes = (
        f"no holes, for it lies inside the {wish.kind}s"
        if wish.lies_inside
        else f"with {wish.count} holes to clear {wish.thread.name}"
    )
    apart = "" if figures.chord is None or wish.lies_inside else f", {show_mm(figures.chord)} from hole to hole"
    yield f"Cut a joint of {figures.gasket}{thick}: {ring}, {holes}{apart}; nothing of it may stand into the bore."


def _show_thickness(gasket: str) -> str:
    if gasket not in THICKNESSES:
        return ""
    thin, thick = THICKNESSES[gasket]
    return f", {1e3 * thin:g} to {1e3 * thick:g} mm thick"


def list_items(wish: CoverWish, figures: CoverFigures) -> tuple[Item, ...]:
    """List what to have ready for a cover.

    Parameters
    ----------
    wish: what is known of the cover
    figures: what was worked out

    Source: common practice, no source
    """
    use, thread = (wish.name,), wish.thread
    side = 1e3 * (wish.joint.outside + 2 * _MARGIN)
    piece = f"{5 * ceil(round(side / 5, 6)):.0f} x {5 * ceil(round(side / 5, 6)):.0f} mm"
    items = [
        Item("joints", f"{figures.gasket}{_show_thickness(figures.gasket)}", 1, piece, use),
        Item("tools", f"torque driver or spanner, to {show_torque(figures.most_torque)}", 1, "", use),
        Item("tools", f"spanner or driver for {thread.name} {wish.drawn}s", 1, "", use),
        Item("tools", "marking blue and scraper of brass", 1, "", use),
    ]
    if wish.condition == "oiled":
        items.append(Item("consumables", "oil for threads", 1, "a little", use))
    if thread.clearance and not wish.lies_inside:
        # Up to the next tenth: a punch smaller than the hole would let the sheet bind on the thread.
        punch = ceil(round(1e4 * thread.clearance["medium"], 6)) / 1e4
        items.append(Item("tools", f"hole punch, {show_mm(punch, 1)}", 1, "", use))
    if figures.found is not None and figures.found.is_past_proof:
        items.append(Item("screws", f"{thread.name} {wish.kind}, {wish.stud_metal}", wish.count, "", use))
        if wish.kind == "stud":
            items.append(Item("screws", f"{thread.name} nut", wish.count, "", use))
    return tuple(items)
