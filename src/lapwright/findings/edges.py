"""Which record keys to change so that a valve, a face or a wall gets the edges one wants."""

from __future__ import annotations

from lapwright.engine.cylinder import ENDS, FaceSide
from lapwright.engine.sizes import FACE_EDGES, VALVE_EDGES, Sizes
from lapwright.findings.reading import Reading


def set_steam_laps(reading: Reading, laps: dict[str, float]) -> dict[str, float]:
    """Return the changes that give each end its steam lap [m], whichever edges admit."""
    face = _face(reading)
    if reading.outside:
        return set_valve_edges(reading, outer=face["head"].outer + laps["head"])
    return set_valve_edges(reading, cavity={end: face[end].inner - laps[end] for end in ENDS})


def set_exhaust_laps(reading: Reading, laps: dict[str, float]) -> dict[str, float]:
    """Return the changes that give each end its exhaust lap [m], whichever edges exhaust."""
    face = _face(reading)
    if reading.outside:
        return set_valve_edges(reading, cavity={end: face[end].inner - laps[end] for end in ENDS})
    return set_valve_edges(reading, outer=face["head"].outer + laps["head"])


def set_valve_edges(
    reading: Reading, *, outer: float | None = None, cavity: dict[str, float] | None = None
) -> dict[str, float]:
    """Return the changes that put the valve's edges at the given distances from its centre [m].

    The record's own way of giving the valve is kept; a valve given by widths gets edges only where its cavity can
    no longer stand central.
    """
    now, known = reading.cylinder.valve, reading.sizes.numbers
    half = now["head"].outer if outer is None else outer
    holes = {end: now[end].cavity for end in ENDS} if cavity is None else cavity
    by_edges = all(key in known for key in VALVE_EDGES)
    if not by_edges and holes["head"] == holes["crank"]:
        lengths = {"valve.length": half, "valve.cavity": holes["head"]}
        return {key: 2 * value for key, value in lengths.items() if value is not None and known.get(key) != 2 * value}
    if half is None or holes["head"] is None or holes["crank"] is None:
        return {}
    centre = (known["valve.edges.0"] + known["valve.edges.3"]) / 2 if by_edges else half
    places = (centre - half, centre - holes["head"], centre + holes["crank"], centre + half)
    return dict(zip(VALVE_EDGES, places, strict=True))


def set_middle_port(reading: Reading, wider: float) -> dict[str, float]:
    """Return the changes that widen the middle port by as much [m] on each side, off the bridges."""
    known = reading.sizes.numbers
    if all(key in known for key in FACE_EDGES):
        return {
            "port_face.edges.2": known["port_face.edges.2"] - wider,
            "port_face.edges.3": known["port_face.edges.3"] + wider,
        }
    return {
        "port_face.exhaust_port": known["port_face.exhaust_port"] + 2 * wider,
        "port_face.bridge": known["port_face.bridge"] - wider,
    }


def read_valve(sizes: Sizes) -> tuple[float | None, float | None]:
    """Return a valve's length and the length of its cavity [m], however the record gives them."""
    known = sizes.numbers
    if all(key in known for key in VALVE_EDGES):
        e = [known[key] for key in VALVE_EDGES]
        return e[3] - e[0], e[2] - e[1]
    return known.get("valve.length"), known.get("valve.cavity")


def _face(reading: Reading) -> dict[str, FaceSide]:
    face = reading.cylinder.face
    assert face is not None, "asked for the edges of a face that is not known"
    return face
