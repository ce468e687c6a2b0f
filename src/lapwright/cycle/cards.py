"""What can be said of a card on paper: ideal mean pressures, power, steam shown and missing, the old rules of flow.

Closed forms of the handbooks, for a first guess and to hold a run against; SI units, absolute pressures.
"""

from __future__ import annotations

from math import log, pi, sqrt

from lapwright.errors import OutOfRange
from lapwright.medium.water import find_saturation
from lapwright.motion.travel import TURN
from lapwright.quantities.pressure import ATMOSPHERE, PSI

#: Napier's rule in its own units, pounds a second of a pressure in pounds on the square inch, and what those are.
_NAPIER = 70.0
_POUND, _INCH = 0.45359237, 0.0254


def ideal_mean_pressure(
    pressure: float, cut_off: float, *, back: float, clearance: float = 0.0, exponent: float = 1.0
) -> float:
    """Return the mean effective pressure [Pa] of a card with sharp corners.

    Full pressure p1 up to the cut-off c, then expansion along p v^n = constant to the end of the stroke, and the back
    pressure all the way home. With the clearance k and e = (1 + k) / (c + k) the mean forward pressure is
    p1 (c + (c + k) ln e) where n = 1, else p1 (c + (c + k) (1 - e^(1 - n)) / (n - 1)).

    Parameters
    ----------
    pressure: of the supply, absolute [Pa]
    cut_off: share of the stroke [-, above 0 to 1]
    back: pressure on the way home, absolute [Pa]
    clearance: volume as a share of the swept volume [-]; it is filled afresh at every stroke
    exponent: n of the expansion [-]: 1 for steam by the handbooks, 1.135 dry steam without heat, 1.4 air without heat

    Raises
    ------
    OutOfRange: a cut-off that is no share of the stroke, or a clearance below nothing

    Source: lardner-1840, p. 519; machinery-70, table II (n = 1); exact geometry

    Example: 90 lb gauge, cut off at a third, 3 % clearance, 17 lb back
    >>> psi = 6894.757
    >>> f"{ideal_mean_pressure(105 * psi, 1 / 3, back=17 * psi, clearance=0.03) / psi:.1f} lb"
    '57.8 lb'
    """
    if not 0 < cut_off <= 1:
        raise OutOfRange(f"{cut_off:g}", "is not a cut-off", "write a share of the stroke, above 0 and up to 1")
    if clearance < 0:
        raise OutOfRange(f"{clearance:g}", "is not a clearance", "write a share of the swept volume, 0 or more")
    filled = cut_off + clearance
    expansion = (1 + clearance) / filled
    power = 1 - exponent
    swelling = log(expansion) if abs(power) < 1e-9 else (expansion**power - 1) / power
    return pressure * (cut_off + filled * swelling) - back


def indicated_power(
    mean_pressure: float, *, bore: float, stroke: float, speed: float, rod: float | None = None
) -> float:
    """Return the power [W] on the pistons of one cylinder: pressure x stroke x area x working strokes in a second.

    Parameters
    ----------
    mean_pressure: mean effective pressure, the same at both ends [Pa]
    bore, stroke: [m]
    speed: of the crankshaft [rad/s]
    rod: diameter of the piston rod [m], 0 leaves it out of account; None for a single-acting cylinder

    Source: machinery-70, chap. II

    Example: 12 by 18 in at 300 turns a minute and 40 lb
    >>> watts = indicated_power(40 * 6894.757, bore=12 * 0.0254, stroke=18 * 0.0254, speed=300 * 2 * pi / 60, rod=0.0)
    >>> f"{watts / 745.7:.0f} horse-power"
    '123 horse-power'
    """
    return mean_pressure * swept_volume(bore, stroke, rod=rod) * speed / TURN


def swept_volume(bore: float, stroke: float, *, rod: float | None = None) -> float:
    """Return what the working ends of one cylinder sweep in a turn [m3].

    Parameters
    ----------
    bore, stroke: [m]
    rod: diameter of the piston rod [m], 0 leaves it out of account; None for a single-acting cylinder

    Source: exact geometry

    Example:
    >>> f"{swept_volume(0.019, 0.019, rod=0.00476) * 1e6:.2f} cubic centimetres"
    '10.44 cubic centimetres'
    """
    head = pi / 4 * bore**2 * stroke
    return head if rod is None else 2 * head - pi / 4 * rod**2 * stroke


def measure_card(area: float, length: float, *, spring: float) -> float:
    """Return the mean effective pressure [Pa] of a card drawn by an indicator: its mean height times the spring.

    Parameters
    ----------
    area: enclosed by the card [m2]
    length: of the card [m]
    spring: pressure that lifts the pencil by a metre [Pa/m]

    Source: machinery-70, chap. VI

    Example: 2.6 sq in on 3.6 in, a 60 lb spring
    >>> psi, inch = 6894.757, 0.0254
    >>> f"{measure_card(2.6 * inch**2, 3.6 * inch, spring=60 * psi / inch) / psi:.1f} lb"
    '43.3 lb'
    """
    return area / length * spring


def steam_shown(pressure: float, volume: float) -> float:
    """Return the mass [kg] of dry steam that would fill a volume, as a card shows it; the water in it does not show.

    What it shows after cut-off, less what it shows as compression begins, is the steam that a card accounts for.

    Parameters
    ----------
    pressure: absolute [Pa]
    volume: clearance included [m3]

    Source: machinery-70, chap. VI; iapws-r7-97 (volume of dry steam)

    Example:
    >>> f"{steam_shown(3e5, 1e-5) * 1e6:.1f} mg"
    '16.5 mg'
    """
    return volume / find_saturation(pressure).steam.volume


def steam_missing(expansion: float, *, bore: float, speed: float, coefficient: float = 7.0) -> float:
    """Return the steam that a card does not show, condensed and leaked, as a share of what it shows [-].

    Cotterill's rule: coefficient x ln(expansion) / (bore in inches x root of the turns in a minute).

    Parameters
    ----------
    expansion: volume at release over volume at cut-off [-, 1 or more]
    bore: [m]
    speed: of the crankshaft [rad/s]
    coefficient: 6 to 8 without a jacket, 4 with jacket and slide valve, 12 very bad [-]

    Raises
    ------
    OutOfRange: an expansion below 1

    Holds for: large engines, from which it was gathered; smaller ones lie far outside what was tried

    Source: lineham, p. 884; that the bore is in inches and the speed in turns a minute is from memory

    Example:
    >>> f"{steam_missing(2.0, bore=0.019, speed=600 * 2 * pi / 60):.2f}"
    '0.26'
    """
    if expansion < 1:
        raise OutOfRange(f"{expansion:g}", "is not an expansion", "write how many times the steam expands, 1 or more")
    return coefficient * log(expansion) / (bore / _INCH * sqrt(speed / TURN * 60))


def steam_speed(piston_area: float, port_area: float, *, piston_speed: float) -> float:
    """Return the mean speed [m/s] with which steam has to pass a port to keep up with the piston.

    Parameters
    ----------
    piston_area, port_area: [m2]
    piston_speed: its mean, two strokes in a turn [m/s]

    Holds for: a port wide open; 20 m/s is easy (bourne-1865, Q320: 4000 ft a minute), 30 m/s the most (lineham, p. 681)

    Source: exact geometry

    Example:
    >>> f"{steam_speed(10.0, 1.0, piston_speed=2.0):.0f} m/s"
    '20 m/s'
    """
    return piston_speed * piston_area / port_area


def napier_flow(pressure: float, area: float) -> float:
    """Return the dry steam [kg/s] that an opening passes when it is choked, by Napier's rule.

    Pounds a second = pounds on the square inch, absolute, x square inches / 70; the pressure beyond the opening must
    be below 0.58 of the one before it.

    Parameters
    ----------
    pressure: before the opening, absolute [Pa]
    area: of the opening [m2]

    Source: babcock-1919, equation 49

    Example:
    >>> f"{napier_flow(4.01325e5, 1e-6) * 3600:.2f} kg an hour through a square millimetre"
    '2.10 kg an hour through a square millimetre'
    """
    return pressure / PSI * area / _INCH**2 / _NAPIER * _POUND


def thermal_efficiency(
    power: float, steam: float, *, supply: float, exhaust: float = ATMOSPHERE, dryness: float = 1.0
) -> float:
    """Return which share [-] of the heat in the steam becomes work, the feed water as hot as the exhaust boils.

    Parameters
    ----------
    power: [W]
    steam: used [kg/s]
    supply, exhaust: absolute pressures [Pa]
    dryness: of the steam supplied [-]

    Source: definition; iapws-r7-97 (heats)

    Example:
    >>> f"{thermal_efficiency(22500, 514.3 / 3600, supply=9e5, exhaust=1.4e5):.1%}"
    '6.8%'
    """
    boiling = find_saturation(supply)
    heat = boiling.water.enthalpy + dryness * boiling.latent_heat - find_saturation(exhaust).water.enthalpy
    return power / (steam * heat)


def free_air_by_rule(swept: float, *, supply: float, speed: float, free: float = ATMOSPHERE) -> float:
    """Return the free air [m3/s] that cylinders take which are filled afresh at full pressure at every stroke.

    Parameters
    ----------
    swept: by all working ends in a turn [m3]
    supply: absolute [Pa]
    speed: of the crankshaft [rad/s]
    free: pressure of the free air, absolute [Pa]

    Holds for: no clearance and no cut-off, and air as warm in the cylinder as outside it

    Source: common practice, no source (the usual rule for air cylinders)

    Example:
    >>> swept = swept_volume(0.019, 0.019, rod=0.00476)
    >>> f"{free_air_by_rule(swept, supply=301325, speed=600 * 2 * pi / 60) * 60e3:.1f} litres a minute"
    '18.6 litres a minute'
    """
    return swept * supply / free * speed / TURN
