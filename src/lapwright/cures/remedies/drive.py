"""Turn the eccentric on its shaft, or give it another throw."""

from __future__ import annotations

from math import degrees, pi, sin

from lapwright.cures.action import OPENING_UP, Action
from lapwright.findings.aim import Aim
from lapwright.findings.causes.eccentric import right_advance
from lapwright.findings.causes.travel import right_throw
from lapwright.findings.reading import Reading, wrap
from lapwright.findings.suspicion import Suspicion
from lapwright.quantities.showing import show_length_both

ANGLE, THROW = "valve_drive.eccentric_angle", "valve_drive.throw"


def turn_eccentric(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose to turn the eccentric to where the lap there is asks for it."""
    base = reading.changed(dict(suspicion.changes)) if suspicion.code == "eccentric-reversed" else reading
    advance = right_advance(base, aim)
    if advance is None or ANGLE not in reading.sizes.numbers or ANGLE in reading.sizes.assumed:
        return []
    return turn_eccentric_to(reading, base.turned_to(advance)[ANGLE])


def turn_eccentric_to(reading: Reading, angle: float) -> list[Action]:
    """Say how the eccentric is turned to an angle; nothing where it stands there already.

    Parameters
    ----------
    reading: the cylinder, whose eccentric angle is known
    angle: where it shall stand, ahead of the crank [rad]
    """
    turn = wrap(angle - reading.sizes.numbers[ANGLE])
    if abs(degrees(turn)) < 0.1:
        return []
    return [
        Action(
            code="turn-eccentric",
            title=(
                f"Turn the eccentric {abs(degrees(turn)):.1f} deg {'on' if turn > 0 else 'back'}, to "
                f"{degrees(angle):.1f} deg"
            ),
            work="minutes",
            changes={ANGLE: angle},
            set={"eccentric_angle_deg": degrees(angle), "turn_deg": degrees(turn)},
            steps=_steps_to_turn(turn, angle),
            cautions=(OPENING_UP,),
        )
    ]


def _steps_to_turn(turn: float, angle: float) -> tuple[str, ...]:
    size = abs(turn)
    way = "on, the way the engine turns" if turn > 0 else "back, against the way the engine turns"
    return (
        "Scribe a line across the sheave and the shaft where they meet now, so that the way back is known.",
        f"Slacken the eccentric's screw and turn the sheave {degrees(size):.1f} deg {way}: {degrees(angle):.1f} "
        "deg ahead of the "
        f"crank. Along the rim that is {size / 2:.3f} mm for every mm of its diameter ({20 * size / 2:.2f} mm on "
        "a 20 mm "
        f"sheave); with dividers straight across, {20 * sin(size / 2):.2f} mm on 20 mm.",
        "Nip the screw, turn the crank to each dead centre in the running direction, and measure both leads; "
        "then tighten.",
    )


def change_throw(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose a new eccentric whose throw suits lap and ports."""
    throw, now = reading.throw, reading.sizes.numbers.get(THROW)
    wanted = _throw_for(reading, aim, suspicion)
    if throw is None or now is None or wanted is None or abs(wanted - throw) < 0.02e-3:
        return []
    return give_throw(reading, now * wanted / throw)


def give_throw(reading: Reading, new: float) -> list[Action]:
    """Say how an eccentric with another throw is made; nothing where the throw there is is not known.

    Parameters
    ----------
    reading: the cylinder
    new: the throw [m]
    """
    throw, now = reading.throw, reading.sizes.numbers.get(THROW)
    if throw is None or now is None:
        return []
    wanted = throw * new / now
    return [
        Action(
            code="new-throw",
            title=f"Make a new eccentric with {show_length_both(new)} throw",
            work="a new part",
            changes={THROW: new},
            set={"throw_mm": new * 1e3},
            steps=(
                f"Turn a new sheave with its bore {show_length_both(new)} off its centre (now {now * 1e3:.2f} "
                "mm): the valve's "
                f"travel becomes {show_length_both(2 * wanted)}.",
                "Keep the groove's diameter, so that the strap fits; check the distance between centres on a rod "
                "through the "
                "bore before parting off.",
                f"Set it {degrees(reading.sizes.numbers.get(ANGLE, pi / 2)):.1f} deg ahead of the crank and "
                "measure both leads.",
            ),
        )
    ]


def _throw_for(reading: Reading, aim: Aim, suspicion: Suspicion) -> float | None:
    """The throw that clears the fault: for a choked exhaust the largest that leaves the way free."""
    if suspicion.code != "exhaust-choked":
        return right_throw(reading, aim)
    face, valve = reading.cylinder.face, reading.cylinder.valve["head"]
    if face is None or valve.cavity is None or reading.port is None:
        return None
    free = min(face[end].middle for end in face) + valve.cavity - 0.9 * reading.port - abs(reading.offset)
    return free if free > 0 else None
