"""Whether a gland nut can belong to its gland: it goes over the rod, and screws into the box or over it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lapwright.errors import DoesNotFit
from lapwright.quantities import show_mm

if TYPE_CHECKING:
    # A gland without a nut does without the tables of threads.
    from lapwright.tables.threads import ThreadRow

_MEASURE = (
    "measure the thread over its crests, on the nut that screws into the box or on the outside of a box that the nut "
    "goes over, and its pitch; and the bore of the box below the thread"
)


def check_nut(thread: ThreadRow, rod: float, bore: float) -> None:
    """Refuse a gland nut whose thread is not larger than the rod and the bore of the box.

    A nut that screws into the mouth of the box is larger than its bore, one over the outside larger still.

    Parameters
    ----------
    thread: of the nut
    rod, bore: diameters of rod and stuffing box [m]

    Raises
    ------
    DoesNotFit: the thread is not larger than the bore, or not even larger than the rod

    Source: exact geometry

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> check_nut(find_thread("3/8 x 32"), 0.004, 0.008)
    """
    if thread.major > max(rod, bore):
        return
    size = f"a gland nut of {thread.name} is {show_mm(thread.major)} over its thread"
    if thread.major <= rod:
        raise DoesNotFit(f"{size} and does not even go over a rod of {show_mm(rod)}", _MEASURE)
    raise DoesNotFit(
        f"{size}, no larger than the bore of the box, {show_mm(bore)}, while it has to screw into its mouth or over it",
        _MEASURE,
    )
