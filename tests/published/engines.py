"""The sources' engines, built from laps, leads and travel as the books give them."""

from __future__ import annotations

from collections.abc import Callable
from math import asin, degrees, pi

from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.findings import find_faults
from lapwright.findings.reading import Reading, wrap
from lapwright.motion.answers import EVENTS, describe_motion

INCH, MM = 0.0254, 0.001
#: Rods so long that their slant counts for nothing, in throws.
LONG = 1e6


def build(
    *,
    throw: float,
    lap: float,
    port: float,
    lead: float = 0.0,
    exhaust_lap: float = 0.0,
    advance: float | None = None,
    stroke: float = 24.0,
    n: float = LONG,
    unit: float = INCH,
    admission: str = "outside",
    rocker: str = "none",
    bridge: float | None = None,
    middle: float | None = None,
    offset: float = 0.0,
) -> Sizes:
    """Return a cylinder's sizes; lengths in `unit`, `n` is the rod in cranks, `advance` in rad (else lap and lead's).

    Bridge and middle port are as wide as leaves the exhaust free, where the source does not give them.
    """
    bridge = port if bridge is None else bridge
    middle = 2 * port + 2 * throw if middle is None else middle
    inner, outer = middle + 2 * bridge, middle + 2 * bridge + 2 * port
    over_outer, over_inner = (lap, exhaust_lap) if admission == "outside" else (exhaust_lap, lap)
    turned = (admission == "inside") != (rocker == "reversing")
    advance = asin((lap + lead) / throw) if advance is None else advance
    lengths = {
        "bore": stroke,
        "stroke": stroke,
        "piston_rod": stroke / 10,
        "connecting_rod": n * stroke / 2,
        "port_face.steam_port": port,
        "port_face.bridge": bridge,
        "port_face.exhaust_port": middle,
        "valve.length": outer + 2 * over_outer,
        "valve.cavity": inner - 2 * over_inner,
        "valve_drive.throw": throw,
        "valve_drive.eccentric_rod": LONG * throw,
        "valve_drive.valve_offset": offset,
    }
    numbers = {key: value * unit for key, value in lengths.items()}
    numbers["crank_phase"] = 0.0
    numbers["valve_drive.eccentric_angle"] = (pi / 2 + advance + (pi if turned else 0.0)) % (2 * pi)
    return Sizes("A", numbers, admission=admission, rocker=rocker)


def read_event(sizes: Sizes, event: str, *, end: str = "head", angle: bool = False) -> float:
    """Return where an event happens: share of the stroke from its dead centre, or crank angle [deg]."""
    times = describe_motion(sizes).ends[end].events[event]
    values = times.crank_deg if angle else times.stroke_percent
    assert values is not None
    assert len(values) == 1, f"{event} happens {len(values)} times"
    return values[0] if angle else values[0] / 100


def read_opening(sizes: Sizes, unit: float = INCH) -> float:
    """Return the greatest steam opening of the head end in `unit`."""
    opening = describe_motion(sizes).ends["head"].greatest_steam_opening_mm
    assert opening is not None
    return opening * MM / unit


def read_laps(sizes: Sizes, unit: float = INCH) -> tuple[float, float]:
    """Return steam lap and exhaust lap of the head end in `unit`, having seen that the crank end has the same."""
    laps = describe_motion(sizes).laps_mm
    head, crank = laps["head"], laps["crank"]
    assert head.steam is not None
    assert head.exhaust is not None
    assert head == crank
    return head.steam * MM / unit, head.exhaust * MM / unit


def read_advance(sizes: Sizes, lead: float, unit: float = INCH) -> float:
    """Return the angle of advance [deg] that the program solves for a lead in `unit`."""
    advance = Reading(sizes).solve_advance(lead * unit)
    assert advance is not None
    return degrees(advance)


def read_lead(sizes: Sizes, end: str, unit: float = INCH) -> float:
    """Return one end's lead in `unit`."""
    lead = describe_motion(sizes).ends[end].lead_mm
    assert lead is not None
    return lead * MM / unit


def name_faults(sizes: Sizes) -> str:
    """Return the codes found in an engine of these sizes, or `sound`."""
    found = find_faults(Engine(name="Wren", cylinders=(sizes,)))
    return ", ".join(finding.code for finding in found if not finding.instead_of) or "sound"


def read_angle(sizes: Sizes, event: str) -> float:
    """Return the crank angle [deg] of an event of the head end, as the gear has it."""
    return read_event(sizes, event, angle=True)


def say_shifts(
    before: Sizes,
    after: Sizes,
    events: tuple[str, ...] = EVENTS,
    *,
    read: Callable[[Sizes, str], float] = read_angle,
) -> str:
    """Say in words how events of the head end shift from one engine to another, read off the gear or off a card."""
    words = []
    for event in events:
        then, now = (read(sizes, event) for sizes in (before, after))
        shift = degrees(wrap((now - then) * pi / 180))
        word = "unchanged" if abs(shift) < 1e-3 else "later" if shift > 0 else "earlier"
        words.append(f"{event.replace('_', '-')} {word}")
    return ", ".join(words)
