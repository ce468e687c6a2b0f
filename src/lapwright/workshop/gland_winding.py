"""Which way to wind a packing in one length, and what turning the gland's nut does."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.errors import OutOfRange
from lapwright.quantities import show_mm
from lapwright.workshop.gland_words import HAND_NAMES, pick_word

HANDS = ("right", "left")
#: Parts of a turn of the gland's nut: what is backed off by the bench's rule, and one flat of a hexagon.
EIGHTH, FLAT = 1 / 8, 1 / 6


@dataclass(frozen=True, slots=True)
class NutTravel:
    """What a nut's turning moves the gland by: a turn, an eighth of a turn, one flat of a hexagon [m]."""

    turn: float
    eighth: float
    flat: float


def find_winding(hand: str) -> str:
    """Tell which way a string is wound in, from the bottom of the box outwards, as seen from the nut.

    The nut drags the outer end round with it: the end has to point the way the nut turns when it is tightened, so that
    the coil is drawn tighter round the rod and not pushed open.

    Parameters
    ----------
    hand: of the nut's thread, "right" or "left"

    Raises
    ------
    NotOneOf: it is neither

    Source: from memory

    Example:
    >>> find_winding("right"), find_winding("left")
    ('clockwise', 'anticlockwise')
    """
    return "clockwise" if pick_word(hand, HANDS, HAND_NAMES) == HANDS[0] else "anticlockwise"


def find_nut_travel(pitch: float) -> NutTravel:
    """Tell what turning the gland's nut moves.

    Parameters
    ----------
    pitch: of the nut's thread [m]

    Raises
    ------
    OutOfRange: the pitch is nothing or negative

    Source: exact geometry

    Example:
    >>> f"{1000 * find_nut_travel(0.0254 / 32).eighth:.3f} mm"
    '0.099 mm'
    """
    if pitch <= 0:
        raise OutOfRange(show_mm(pitch), "is no pitch of a thread")
    return NutTravel(pitch, pitch * EIGHTH, pitch * FLAT)
