"""The sizes of a shouldered pin, from what is measured of the bolt that it takes the place of."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Final

from lapwright.engine.parts import JOINTS
from lapwright.errors import DoesNotFit, NotOneOf, OutOfRange
from lapwright.quantities import show_mm
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop.fits import FitLimits, find_fit
from lapwright.workshop.pins import find_shank

#: How the far end of a pin is held: drawn up against its shoulder by a nut, or pressed in.
HOLDS: Final = ("nut", "press")
#: Joints that rock a little get the closer running fit; what goes round gets room for oil.
ROCKING: Final = ("valve fork", "eccentric rod")
CLOSE, RUNNING, PRESS = "H7/g6", "H7/f7", "H7/p6"
#: Reamers go by half a mm.
_REAMER_STEP_MM: Final = 0.5
#: How much the shoulder stands out round the end at least: a share of the shank's diameter [-], or so much [m].
_SHOULDER_SHARE, _SHOULDER_LEAST = 0.08, 0.2e-3
#: Diameter of the head in diameters of the shank [-].
_HEAD: Final = 1.6


@dataclass(frozen=True, slots=True, kw_only=True)
class PinWish:
    """What is known of a pin that is to be made anew; lengths in m.

    `diameter` and `hole` are as they are now, of the pin and of the part that turns on it; one of the two may be None.
    `moving_part` is that part's length along the pin, `gap` what is free at each side of it, `cheek` the thickness of
    what holds the pin, 0 where not known; `planes` is 2 for a fork, 1 for a pin that stands out. `thread` is that of
    the bolt found in it. `load` [N] is the greatest on the part and `steam_pressure` [Pa, above the atmosphere] that
    behind it, None where not known; `fast` is whether the engine counts as a fast one.
    """

    name: str = "pin"
    joint: str = JOINTS[-1]
    moving_part: float
    diameter: float | None = None
    hole: float | None = None
    cheek: float = 0.0
    gap: float = 0.0
    planes: int = 2
    metal: str = "steel"
    runs_in: str = "gunmetal"
    held: str = HOLDS[0]
    thread: ThreadRow | None = None
    load: float | None = None
    steam_pressure: float | None = None
    fast: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class PinSizes:
    """The sizes of a shouldered pin [m].

    `shank` is the fit in the moving part, `length` the least and the greatest of the plain shank; where the cheek under
    the head is not known it is counted without it, and `adds_cheek` is true. `head` is its diameter. The far end has
    `thread` and is held by a nut, or `end` is the fit with which it is pressed in; the other is None.
    """

    shank: FitLimits
    length: tuple[float, float]
    adds_cheek: bool
    head: float
    thread: ThreadRow | None
    end: FitLimits | None


def size_pin(wish: PinWish) -> PinSizes:
    """Work out the sizes of a shouldered pin.

    Parameters
    ----------
    wish: what is known of the pin and of its place

    Raises
    ------
    NotOneOf: a joint or a way of holding that is not known
    NotInTable: a pin beyond the table of fits
    OutOfRange: a size of nothing or less
    DoesNotFit: neither the pin nor its hole has been measured, or it is too thin for a shoulder

    Source: iso-286 (limits); common practice, no source (shoulder, head, length)
    """
    for written, words in ((wish.joint, JOINTS), (wish.held, HOLDS)):
        if written not in words:
            raise NotOneOf(written, words)
    diameter = choose_shank_diameter(pin=wish.diameter, hole=wish.hole)
    nut = wish.held == HOLDS[0]
    return PinSizes(
        shank=find_fit(diameter, CLOSE if wish.joint in ROCKING else RUNNING),
        length=_find_length(wish),
        adds_cheek=wish.planes == 2 and wish.cheek == 0,
        head=_REAMER_STEP_MM / 1e3 * ceil(round(1e3 * _HEAD * diameter / _REAMER_STEP_MM, 6)),
        thread=choose_end_thread(diameter, found=wish.thread) if nut else None,
        end=None if nut else find_fit(_choose_end(diameter), PRESS),
    )


def choose_shank_diameter(*, pin: float | None, hole: float | None) -> float:
    """Choose the diameter of a new pin [m]: the smallest that a reamer goes by and that cleans up the worn hole.

    Parameters
    ----------
    pin: diameter of the pin as it is [m]; looked at where the hole is not known
    hole: bore of the part that turns on it, as it is [m]

    Raises
    ------
    DoesNotFit: neither has been measured
    OutOfRange: a size of nothing or less
    NotInTable: beyond the table of fits

    Source: common practice, no source (reamers by half a mm)

    Example:
    >>> [round(1e3 * choose_shank_diameter(pin=2.5e-3, hole=hole), 1) for hole in (2.55e-3, 2.505e-3, None)]
    [3.0, 2.5, 2.5]
    """
    found = hole if hole is not None else pin
    if found is None:
        raise DoesNotFit("a pin cannot be planned", "measure the pin or the hole of the part that turns on it")
    if found <= 0:
        raise OutOfRange(show_mm(found), "is no size of a pin", "measure it again")
    # Counted in whole reamers, so that 18 mm is 18 mm to the last bit, as the bands of the table have it.
    count = round(found * 1e9) // round(_REAMER_STEP_MM * 1e6)
    # A hole that is still within the limits of its size needs no larger reamer.
    if count > 0 and found <= find_fit(count * _REAMER_STEP_MM / 1e3, RUNNING).hole[1]:
        return count * _REAMER_STEP_MM / 1e3
    return (count + 1) * _REAMER_STEP_MM / 1e3


def choose_end_thread(shank: float, *, found: ThreadRow | None = None) -> ThreadRow:
    """Choose the thread for the far end of a pin: that of the bolt if it leaves a shoulder, or the thickest that does.

    Parameters
    ----------
    shank: diameter of the shank [m]
    found: thread of the bolt; its series is kept, BA where it is left out

    Raises
    ------
    DoesNotFit: the shank is too thin for any thread and a shoulder

    Source: common practice, no source (shoulder of 0.08 d, at least 0.2 mm, all round)

    Example:
    >>> choose_end_thread(3e-3).name, choose_end_thread(4e-3).name
    ('7 BA', '5 BA')
    """
    most = shank - 2 * max(_SHOULDER_SHARE * shank, _SHOULDER_LEAST) + 1e-9
    if found is not None and found.major <= most:
        return found
    series = "BA" if found is None else found.series
    fitting = [row for name in dict.fromkeys((series, "BA")) for row in list_threads(name) if row.major <= most]
    if not fitting:
        raise DoesNotFit(
            f"a shank of {show_mm(shank)} leaves no shoulder round a thread", "press it in, or make it thicker"
        )
    return max(fitting, key=lambda row: (row.series == series, row.major))


def _choose_end(shank: float) -> float:
    """The next smaller reamer that leaves a shoulder [m]."""
    end = (1e3 * shank - _REAMER_STEP_MM) / 1e3
    if end <= 1e-9:
        raise DoesNotFit(f"a shank of {show_mm(shank)} leaves no shoulder round a smaller end", "make it thicker")
    return end


def _find_length(wish: PinWish) -> tuple[float, float]:
    """Through a fork the shank reaches from under the head to the inner face of the far cheek."""
    if wish.planes == 1:
        return find_shank(wish.moving_part)
    return find_shank(wish.cheek + wish.moving_part + 2 * wish.gap)
