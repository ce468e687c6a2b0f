"""A plain matched engine in round figures: ports and bridges 2 mm, exhaust port 4 mm, throw 2 mm, square eccentric."""

from __future__ import annotations

from math import asin, pi

from lapwright.engine.sizes import Sizes
from lapwright.findings.reading import Reading

MM = 1e-3
MATCHED = {
    "stroke": 18 * MM,
    "connecting_rod": 45 * MM,
    "piston_rod": 3 * MM,
    "port_face.steam_port": 2 * MM,
    "port_face.bridge": 2 * MM,
    "port_face.exhaust_port": 4 * MM,
    "valve.length": 12 * MM,
    "valve.cavity": 8 * MM,
    "valve_drive.throw": 2 * MM,
    "valve_drive.eccentric_rod": 60 * MM,
    "valve_drive.eccentric_angle": pi / 2,
}


def read(changes: dict[str, float] | None = None, *, admission: str = "outside", rocker: str = "none") -> Reading:
    """Read the matched engine with some sizes changed."""
    return Reading(Sizes("A", {**MATCHED, **(changes or {})}, admission=admission, rocker=rocker))


def read_lapped(lap: float, lead: float, *, admission: str = "outside", rocker: str = "none") -> Reading:
    """Read an engine with a steam lap and a lead [m], its rods so long that they count for nothing."""
    throw = MATCHED["valve_drive.throw"]
    turned = (admission == "inside") != (rocker == "reversing")
    angle = (pi / 2 + asin((lap + lead) / throw) + (pi if turned else 0.0)) % (2 * pi)
    edges = {"valve.length": 0.012 + 2 * lap} if admission == "outside" else {"valve.cavity": 0.008 - 2 * lap}
    rods = {"valve_drive.eccentric_rod": 1e4, "connecting_rod": 1e4}
    return read({**edges, **rods, "valve_drive.eccentric_angle": angle}, admission=admission, rocker=rocker)
