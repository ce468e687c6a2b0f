"""How to set the valve of this engine with its own numbers, and what to see when it is right."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, degrees, pi, radians, sin

from lapwright.engine.cylinder import ENDS
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.findings.reading import Reading
from lapwright.findings.words import ENDS_IN_WORDS, late_by
from lapwright.motion.answers import steam_opening
from lapwright.motion.linkage import slide_position


@dataclass(frozen=True, slots=True)
class SettingPart:
    """One part of the setting procedure: its title and its steps in order."""

    title: str
    steps: tuple[str, ...]


def describe_setting(engine: Engine, sizes: Sizes) -> tuple[SettingPart, ...]:
    """Return the setting procedure of one cylinder, with its own numbers.

    Source: sinclair-1885, chap. XIX (dead centre by a stop and two readings); rohan-1899 (equal leads);
    rose-1877 (lost motion taken up in the running direction)
    """
    reading = Reading(sizes)
    parts = (
        _describe_dead_centres(reading),
        _describe_eccentric(engine, reading),
        _describe_equal_leads(reading),
        _describe_equal_openings(reading),
        _describe_right(reading, _even_out(engine, reading)),
    )
    return tuple(part for part in parts if part.steps)


def _even_out(engine: Engine, reading: Reading) -> Reading:
    """The cylinder as the steps leave it: with equal leads, unless equal cut-off is asked for."""
    equal = reading.equal_lead_offset
    if equal is None or len(reading.ends) < 2 or engine.target.equal == "cut-off":
        return reading
    return reading.changed({"valve_drive.valve_offset": equal})


def _describe_dead_centres(reading: Reading) -> SettingPart:
    steps = [
        "Fix a degree disc to the shaft and a wire pointer to the bed. Fix a stop that the crosshead meets a "
        "little before the "
        "end of its stroke.",
        "Turn the crank gently against the stop and read the disc; turn the other way round to the same stop and "
        "read again. "
        "Dead centre is half-way between the two readings. Do the same at the other end.",
        "Come to every reading in the running direction, so that all slack lies on the one side; if you "
        "overshoot, go well back "
        "and come again.",
    ]
    own = _say_why(reading)
    if own:
        steps.append(own)
    return SettingPart("Find the dead centres", tuple(steps))


def _say_why(reading: Reading) -> str:
    """Why the eye is not enough: what one degree does to the piston and to the valve."""
    piston, valve = reading.moving.piston, reading.moving.valve
    if piston is None or valve is None:
        return ""
    centre, one = piston.dead_centre("head"), radians(1.0)
    crank = piston.slider
    place = slide_position(crank.throw, crank.rod, crank.offset, cosine=cos(centre + one), sine=sin(centre + one))
    moved = abs(valve.position(centre + one) - valve.position(centre))
    return (
        "The eye is not enough: one degree off the head-end dead centre moves the piston only "
        f"{(piston.high - place) * 1e3:.3f} mm, "
        f"but the valve {moved * 1e3:.2f} mm."
    )


def _describe_eccentric(engine: Engine, reading: Reading) -> SettingPart:
    angle = reading.sizes.numbers.get("valve_drive.eccentric_angle")
    if angle is None:
        return SettingPart("Set the eccentric", ())
    way = {
        "clockwise": "clockwise, seen from the flywheel end",
        "anticlockwise": "anticlockwise, seen from the flywheel end",
        "either": "either way; set it for the way it will run",
        None: "the record does not say which way: mark the way it is to run",
    }[engine.rotation]
    assumed = " (assumed, not measured)" if "valve_drive.eccentric_angle" in reading.sizes.assumed else ""
    return SettingPart(
        "Set the eccentric",
        (
            f"Running direction: {way}.",
            f"The eccentric's largest throw stands {degrees(angle):.1f} deg ahead of the crank in that "
            f"direction{assumed}. For the other "
            f"direction it would stand {degrees(2 * pi - angle):.1f} deg ahead.",
            "Nip its screw only lightly until both leads have been measured.",
        ),
    )


def _describe_equal_leads(reading: Reading) -> SettingPart:
    equal, lead = reading.equal_lead_offset, reading.lead
    if len(reading.ends) == 1:
        lead = reading.lead_at("head")
    if equal is None or lead is None:
        return SettingPart("Set for equal leads", ())
    both = "both ports" if len(reading.ends) == 2 else "the port"
    told = f"{both} open by {lead * 1e3:.2f} mm" if lead > 0.005e-3 else f"{both} just about to open"
    steps = [
        f"Put the crank on {'each' if len(reading.ends) == 2 else 'the'} dead centre in turn. You should find {told}."
    ]
    if len(reading.ends) == 2:
        steps += [
            f"If one end shows more than the other, move the valve by half the difference {_towards(reading)}.",
            "If both show too much, turn the eccentric back; if both too little, on. Then even them out once more.",
            f"Leads are equal with the valve {_show(equal)} from the middle of its travel (towards the head end is +).",
        ]
    title = "Set for equal leads" if len(reading.ends) == 2 else "Set by the lead"
    return SettingPart(title, tuple(steps))


def _towards(reading: Reading) -> str:
    """Which way the valve goes: an edge that covers the port with the greater lead has to come over it."""
    if reading.outside:
        return "towards the end that shows more"
    return "away from the end that shows more (steam is admitted over the inside edges)"


def _show(metres: float | None) -> str:
    return "not known" if metres is None else f"{metres * 1e3 + 0.0:+.2f} mm"


def _describe_equal_openings(reading: Reading) -> SettingPart:
    """With the valve at the ends of its travel; the quicker way, good enough where the eccentric rod is long."""
    valve, equal = reading.moving.valve, reading.equal_lead_offset
    title = "Or set for equal openings"
    if valve is None or equal is None or len(reading.ends) < 2:
        return SettingPart(title, ())
    half = valve.travel / 2
    openings = {}
    for end, sign in ENDS.items():
        place = -sign * half if reading.outside else sign * half
        openings[end] = steam_opening(reading.cylinder, end, place)
    if None in openings.values():
        return SettingPart(title, ())
    told = " and ".join(f"{(wide or 0.0) * 1e3:.2f} mm at the {ENDS_IN_WORDS[end]}" for end, wide in openings.items())
    return SettingPart(
        title,
        (
            "Quicker, with the cover off: turn the crank a full turn and measure each port at its widest; make "
            "the two alike.",
            f"With the valve central on its travel they should be {told}.",
            f"The leads then differ by {abs(2 * equal) * 1e3:.2f} mm, which the slant of the eccentric rod makes.",
        ),
    )


def _describe_right(found: Reading, reading: Reading) -> SettingPart:
    steps = _say_evened(found, reading)
    for end in reading.ends:
        motion, late = reading.motion.ends[end], late_by(reading, end)
        parts = []
        if late is not None:
            side = "after" if late > 0 else "before"
            when = "at dead centre" if abs(late) < 0.05 else f"{abs(late):.1f} deg {side} dead centre"
            parts.append(f"opens {when}")
        if motion.greatest_steam_opening_mm is not None:
            parts.append(f"opens {motion.greatest_steam_opening_mm:.2f} mm at most")
        for event, words in (("cut_off", "cut-off"), ("release", "release"), ("compression", "compression")):
            places, angles = motion.events[event].stroke_percent, motion.events[event].crank_deg
            if places and angles:
                parts.append(f"{words} at {places[0]:.1f} % of the stroke ({angles[0]:.1f} deg)")
        if parts:
            steps.append(f"{ENDS_IN_WORDS[end].capitalize()}: " + ", ".join(parts) + ".")
    return SettingPart("What to see when it is right", tuple(steps))


def _say_evened(found: Reading, reading: Reading) -> list[str]:
    """Why these figures are a little others than those of the valve where it stands in the record."""
    key = "valve_drive.valve_offset"
    moved = reading.sizes.number(key) - found.sizes.number(key)
    if abs(moved) < 0.005e-3:
        return []
    return [
        f"All this with the leads alike: the valve moved by {_show(moved)} (towards the head end is +) from where the "
        "lists of events have it."
    ]
