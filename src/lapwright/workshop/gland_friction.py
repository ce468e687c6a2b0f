"""What packing does to the rod: how hard the gland has to press to hold a pressure, and what friction that costs.

Packing that is pressed along the rod presses out against rod and box with a share of it, `ratio`. By the simple formula
that pressure is the same all along; by the balance of forces it falls off from the gland inwards, since both walls hold
the packing back.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, expm1, pi

#: Share of the gland's pressure that braided packing passes on sideways (drago-evans-2017).
RATIO = 0.5


@dataclass(frozen=True, slots=True)
class Pressing:
    """What it takes to hold a pressure: the gland's least pressure [Pa] and thrust [N], and the friction it costs [N].

    `friction` is with the gland just tight, `friction_twice` with it pressed twice as hard; `plain` is the first by the
    formula without decay.
    """

    gland_pressure: float
    thrust: float
    friction: float
    friction_twice: float
    plain: float


def find_decay(rod: float, bore: float, *, friction: float, ratio: float = RATIO) -> float:
    """Work out how fast the pressure in a packing falls off along the box [1/m].

    Parameters
    ----------
    rod, bore: diameters of rod and stuffing box [m]
    friction: coefficient on both walls [-]
    ratio: sideways to end-wise pressure [-]

    Source: denny-1957; ochonski-1988; the form here from the balance of forces on a slice

    Example:
    >>> round(find_decay(0.005, 0.009, friction=0.1), 6)
    50.0
    """
    return 4 * ratio * friction * (rod + bore) / (bore**2 - rod**2)


def friction_plain(rod: float, length: float, *, pressure: float, friction: float, ratio: float = RATIO) -> float:
    """Work out the friction of a packing on its rod as if it were pressed alike all along [N].

    Parameters
    ----------
    rod: diameter of the rod [m]
    length: of the packing along the rod [m]
    pressure: with which the gland presses [Pa]
    friction: coefficient on the rod [-]
    ratio: sideways to end-wise pressure [-]

    Source: drago-evans-2017

    Example:
    >>> round(friction_plain(0.005, 0.010, pressure=1e6, friction=0.1), 2)
    7.85
    """
    return pi * rod * length * pressure * friction * ratio


def friction_decaying(
    rod: float, bore: float, length: float, *, pressure: float, friction: float, ratio: float = RATIO
) -> float:
    """Work out the friction of a packing on its rod, with its pressure falling off from the gland inwards [N].

    Parameters
    ----------
    rod, bore: diameters of rod and stuffing box [m]
    length: of the packing along the rod [m]
    pressure: with which the gland presses [Pa]
    friction: coefficient on both walls [-]
    ratio: sideways to end-wise pressure [-]

    Source: denny-1957; ochonski-1988; the form here from the balance of forces on a slice

    Example:
    >>> round(friction_decaying(0.005, 0.009, 0.010, pressure=1e6, friction=0.1), 2)
    6.18
    """
    decay = find_decay(rod, bore, friction=friction, ratio=ratio)
    share = -expm1(-decay * length) / decay if decay else length
    return pi * rod * friction * ratio * pressure * share


def sealing_pressure(
    rod: float, bore: float, length: float, *, held: float, friction: float, ratio: float = RATIO
) -> float:
    """Work out with what pressure the gland has to press, so that the innermost ring still holds [Pa].

    Parameters
    ----------
    rod, bore: diameters of rod and stuffing box [m]
    length: of the packing along the rod [m]
    held: pressure to be held, above the atmosphere [Pa]
    friction: coefficient on both walls [-]
    ratio: sideways to end-wise pressure [-]

    Source: denny-1957; ochonski-1988

    Example:
    >>> round(sealing_pressure(0.005, 0.009, 0.010, held=4e5, friction=0.1) / 1e6, 2)
    1.32
    """
    return held * exp(find_decay(rod, bore, friction=friction, ratio=ratio) * length) / ratio


def press_packing(
    rod: float, bore: float, length: float, *, held: float, friction: float, ratio: float = RATIO
) -> Pressing:
    """Work out how hard a gland has to press to hold a pressure, and the friction on the rod then and at twice that.

    Parameters
    ----------
    rod, bore: diameters of rod and stuffing box [m]
    length: of the packing along the rod [m]
    held: pressure to be held, above the atmosphere [Pa]
    friction: coefficient on both walls [-]
    ratio: sideways to end-wise pressure [-]

    Source: drago-evans-2017; denny-1957; ochonski-1988

    Example:
    >>> pressed = press_packing(0.005, 0.009, 0.010, held=4e5, friction=0.1)
    >>> f"{pressed.thrust:.0f} N on the gland, {pressed.friction:.1f} N on the rod"
    '58 N on the gland, 8.2 N on the rod'
    """
    pressure = sealing_pressure(rod, bore, length, held=held, friction=friction, ratio=ratio)
    force = friction_decaying(rod, bore, length, pressure=pressure, friction=friction, ratio=ratio)
    return Pressing(
        gland_pressure=pressure,
        thrust=pressure * pi / 4 * (bore**2 - rod**2),
        friction=force,
        friction_twice=2 * force,
        plain=friction_plain(rod, length, pressure=pressure, friction=friction, ratio=ratio),
    )
