"""Engines that could exist: sound ones with nothing wrong, and any that can be put together and turned.

A *sound* engine is one that a setter would leave alone: its leads are equal at both ends and as asked, its cavity just
spans the inner edges of the steam ports, both ports open fully, and nothing is choked or struck. *Any* engine has the
same proportions, but its lines are offset, its laps differ, and its eccentric stands anywhere.

The proportions are those of small engines: port area about a tenth of the piston's (bourne-1865, Q320), port length
three quarters of the bore (dole-1914, p. 62), piston rod 0.15 of the bore (langley-1911, p. 116); the rest is common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import asin, pi, sin, sqrt
from random import Random

from hypothesis import strategies as st

from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import Sizes

#: kind, admission, rocker: how steam is let in and what drives the valve.
ARRANGEMENTS = (
    ("slide", "outside", "none"),
    ("slide", "outside", "reversing"),
    ("piston", "outside", "none"),
    ("piston", "inside", "none"),
    ("piston", "inside", "reversing"),
)
PLAIN = ARRANGEMENTS[0]

#: What a sound engine's proportions are drawn from: shares of the size named after "per", plain numbers otherwise.
SOUND: Mapping[str, tuple[float, float]] = {
    "bore_mm": (16.0, 30.0),
    "stroke per bore": (0.9, 1.5),
    "rod per stroke": (1.8, 3.0),
    "port per bore": (0.07, 0.11),
    "lap per port": (0.0, 0.6),
    "travel to spare": (1.08, 1.2),
    "bridge per port": (0.9, 1.4),
    "exhaust to spare": (1.1, 1.4),
    "eccentric rod per throw": (10.0, 30.0),
    "clearance per stroke": (0.02, 0.04),
    "chest room per port": (0.5, 1.5),
}

#: What is drawn besides for an engine that may be wrong in every way.
ODD: Mapping[str, tuple[float, float]] = {
    "eccentric angle": (0.0, 2 * pi),
    "throw": (0.4, 3.0),
    "cylinder offset per throw": (-0.5, 0.5),
    "valve line offset per throw": (-2.0, 2.0),
    "valve offset per throw": (-0.3, 0.3),
    "face head port": (0.8, 1.25),
    "face head bridge": (0.8, 1.25),
    "head land": (0.5, 1.6),
    "crank land": (0.5, 1.6),
    "cavity": (0.6, 1.4),
}


def _draw(rng: Random, ranges: Mapping[str, tuple[float, float]]) -> dict[str, float]:
    return {name: rng.uniform(low, high) for name, (low, high) in ranges.items()}


def random_sound_engine(
    rng: Random,
    *,
    scale: float = 1.0,
    lap_share: float | None = None,
    lead_share: float = 0.05,
    arrangement: tuple[str, str, str] = PLAIN,
) -> Sizes:
    """Return a matched engine with nothing wrong.

    Parameters
    ----------
    rng: seeded by the caller
    scale: multiplies every length; 0.5 to 2 spans bores of 8 to 60 mm
    lap_share: steam lap as a share of the port's width; drawn from 0 to 0.6 where it is not given
    lead_share: lead at both ends as a share of the port's width
    arrangement: one of `ARRANGEMENTS`
    """
    drawn = _draw(rng, SOUND)
    if lap_share is not None:
        drawn["lap per port"] = lap_share
    return match_engine(drawn, scale=scale, lead_share=lead_share, arrangement=arrangement)


def match_engine(
    drawn: Mapping[str, float], *, scale: float, lead_share: float, arrangement: tuple[str, str, str]
) -> Sizes:
    """Put a sound engine together from its proportions."""
    kind, admission, rocker = arrangement
    bore = drawn["bore_mm"] * 1e-3 * scale
    stroke, port = bore * drawn["stroke per bore"], bore * drawn["port per bore"]
    lap, lead, bridge = port * drawn["lap per port"], port * lead_share, port * drawn["bridge per port"]
    throw = (lap + port) * drawn["travel to spare"]
    rod = throw * drawn["eccentric rod per throw"]
    advance = asin((lap + lead) / throw)
    hand, sign = (1 if admission == "outside" else -1), (-1 if rocker == "reversing" else 1)
    angle = (pi / 2 + advance + (pi if hand * sign < 0 else 0)) % (2 * pi)
    # The eccentric rod's obliquity makes the leads unequal; the valve stands off centre by what evens them out.
    offset = sign * (rod - sqrt(rod**2 - (throw * sin(angle)) ** 2))
    # The valve's end stays over the bridge, or it would bare the middle port.
    bridge = max(bridge, 1.05 * (throw + abs(offset)) - port - (lap if hand > 0 else 0))
    covered = throw + abs(offset) - bridge + (0 if hand > 0 else lap)
    exhaust = max(1.5 * port, covered + port) * drawn["exhaust to spare"]
    inner, outer = exhaust / 2 + bridge, exhaust / 2 + bridge + port
    length, cavity = (2 * (outer + lap), 2 * inner) if hand > 0 else (2 * outer, 2 * (inner - lap))
    room = length / 2 + throw + abs(offset) + port * drawn["chest room per port"]
    return Sizes(
        "A",
        {
            "crank_phase": 0.0,
            "bore": bore,
            "stroke": stroke,
            "connecting_rod": stroke * drawn["rod per stroke"],
            "piston_rod": 0.15 * bore,
            "cylinder_offset": 0.0,
            "clearance_head": stroke * drawn["clearance per stroke"],
            "clearance_crank": stroke * drawn["clearance per stroke"],
            "port_face.steam_port": port,
            "port_face.bridge": bridge,
            "port_face.exhaust_port": exhaust,
            "port_face.port_length": 0.75 * bore,
            "port_face.chest_head": room,
            "port_face.chest_crank": room,
            "valve.length": length,
            "valve.cavity": cavity,
            "valve.width": 0.75 * bore + 2 * port,
            "valve_drive.throw": throw,
            "valve_drive.eccentric_rod": rod,
            "valve_drive.eccentric_angle": angle,
            "valve_drive.valve_line_offset": 0.0,
            "valve_drive.valve_offset": offset,
            "valve_drive.spindle_thread": 0.025e-3 * drawn["bore_mm"] * scale,
            "valve_drive.spindle_step": 0.5,
        },
        kind=kind,
        admission=admission,
        rocker=rocker,
    )


def random_engine(rng: Random, *, scale: float = 1.0, arrangement: tuple[str, str, str] | None = None) -> Sizes:
    """Return an engine that can be put together and turned over, but may be wrong in every way."""
    sound = random_sound_engine(rng, scale=scale, arrangement=arrangement or rng.choice(ARRANGEMENTS))
    return upset_engine(sound, _draw(rng, ODD))


def upset_engine(sound: Sizes, odd: Mapping[str, float]) -> Sizes:
    """Give a sound engine offset lines, edges that are all different, and another eccentric, set anywhere."""
    numbers = dict(sound.numbers)
    throw, rod = numbers["valve_drive.throw"] * odd["throw"], numbers["valve_drive.eccentric_rod"]
    numbers["valve_drive.throw"] = throw
    numbers["cylinder_offset"] = numbers["stroke"] / 2 * odd["cylinder offset per throw"]
    numbers["valve_drive.valve_line_offset"] = min(throw * odd["valve line offset per throw"], 0.5 * (rod - throw))
    numbers["valve_drive.valve_offset"] = throw * odd["valve offset per throw"]
    numbers["valve_drive.eccentric_angle"] = odd["eccentric angle"]
    for key in ("port_face.chest_head", "port_face.chest_crank"):
        numbers.pop(key)
    port, bridge, exhaust = (numbers.pop(f"port_face.{name}") for name in ("steam_port", "bridge", "exhaust_port"))
    widths = (port * odd["face head port"], bridge * odd["face head bridge"], exhaust, bridge, port)
    numbers.update({f"port_face.edges.{i}": sum(widths[:i]) for i in range(6)})
    length, cavity = numbers.pop("valve.length"), numbers.pop("valve.cavity")
    land = (length - cavity) / 2
    parts = (land * odd["head land"], cavity * odd["cavity"], land * odd["crank land"])
    numbers.update({f"valve.edges.{i}": sum(parts[:i]) for i in range(4)})
    return Sizes("A", numbers, kind=sound.kind, admission=sound.admission, rocker=sound.rocker)


def _proportions(ranges: Mapping[str, tuple[float, float]]) -> st.SearchStrategy[dict[str, float]]:
    return st.fixed_dictionaries({name: st.floats(low, high) for name, (low, high) in ranges.items()})


def sound_engines(
    *, arrangements: tuple[tuple[str, str, str], ...] = ARRANGEMENTS, lead_share: float = 0.05
) -> st.SearchStrategy[Sizes]:
    """Engines with nothing wrong, bore 8 to 60 mm."""
    return st.builds(
        lambda drawn, scale, arrangement: match_engine(
            drawn, scale=scale, lead_share=lead_share, arrangement=arrangement
        ),
        _proportions(SOUND),
        st.floats(0.5, 2.0),
        st.sampled_from(arrangements),
    )


def any_engines(*, arrangements: tuple[tuple[str, str, str], ...] = ARRANGEMENTS) -> st.SearchStrategy[Sizes]:
    """Engines that can be put together and turned over, but may be wrong in every way."""
    return st.builds(upset_engine, sound_engines(arrangements=arrangements), _proportions(ODD))


def other_end(end: str) -> str:
    """Name the other end of the cylinder."""
    return next(name for name in ENDS if name != end)
