"""What an engine is run on, and what is taken for the sizes a run needs and nobody gave."""

from __future__ import annotations

from dataclasses import dataclass, replace

from lapwright.engine.running import Running
from lapwright.engine.sizes import Assumed, Sizes
from lapwright.quantities.pressure import ATMOSPHERE

#: How warm the shop is taken to be [K].
SHOP = 293.15
#: A clearance below this share of the swept volume is no engine's, and would stall the sums.
LEAST_CLEARANCE = 0.005

_NO_SOURCE = "common practice, no source"
_USUAL_CLEARANCE = 0.08
_PORT_TO_BORE = 0.4
_WIDTH_TO_PORT = 1.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """What a run takes place under; absolute pressures [Pa], temperatures [K], speed in rad/s.

    `dryness` counts for wet steam alone; with `supply_temperature` steam is superheated. `ideal` leaves out leaks,
    wall heat and friction.
    """

    fluid: str
    supply: float
    exhaust: float
    speed: float
    supply_temperature: float | None = None
    dryness: float = 0.98
    ideal: bool = False

    def at_speed(self, speed: float) -> Conditions:
        """Return the same at another speed [any, as of the shaft in rad/s]."""
        return replace(self, speed=speed)

    def at_supply(self, supply: float) -> Conditions:
        """Return the same at another supply pressure, absolute [Pa]."""
        return replace(self, supply=supply)

    def dead(self) -> Conditions:
        """Return what a cylinder meets whose pipes are off: the air of the shop, in and out."""
        return replace(self, fluid="air", supply=ATMOSPHERE, exhaust=ATMOSPHERE, supply_temperature=SHOP, dryness=1.0)


def find_missing(sizes: Sizes) -> tuple[str, ...]:
    """Return the record keys that a run of this cylinder cannot do without and that are not known."""
    known = sizes.numbers
    missing = [
        key for key in ("bore", "stroke", "valve_drive.throw", "valve_drive.eccentric_angle") if key not in known
    ]
    missing += [key for key in ("connecting_rod", "valve_drive.eccentric_rod") if key not in known]
    if "port_face.edges.0" not in known and "port_face.steam_port" not in known:
        missing.append("port_face.steam_port")
    if "valve.edges.0" not in known:
        missing += [key for key in ("valve.length", "valve.cavity") if key not in known]
    return tuple(missing)


def assume_for_run(sizes: Sizes) -> tuple[Sizes, tuple[Assumed, ...]]:
    """Fill in what only a run needs: the ports' length, the valve's width and the clearances, each with its reason.

    Source: common practice, no source (8 % clearance: the middle of machinery-70's table I for high-speed engines)
    """
    changes: dict[str, float] = {}
    told: list[Assumed] = []
    known, affects = sizes.numbers, ("run",)
    if "port_face.port_length" not in known:
        changes["port_face.port_length"] = _PORT_TO_BORE * known["bore"]
        shown = f"{changes['port_face.port_length'] * 1e3:.1f} mm"
        because = f"not given: taken as 0.4 of the bore ({_NO_SOURCE})"
        told.append(Assumed(f"cylinder.{sizes.name}.port_face.port_length", shown, because, affects))
    if sizes.kind == "slide" and sizes.admission == "outside" and "valve.width" not in known:
        port_length = changes.get("port_face.port_length", known.get("port_face.port_length", 0.0))
        changes["valve.width"] = _WIDTH_TO_PORT * port_length
        because = f"not given: taken as 1.25 times the ports' length; what presses the valve hangs on it ({_NO_SOURCE})"
        shown = f"{changes['valve.width'] * 1e3:.1f} mm"
        told.append(Assumed(f"cylinder.{sizes.name}.valve.width", shown, because, affects))
    for end in ("head", "crank"):
        if end == "crank" and "piston_rod" not in known:
            continue
        share, gap = f"clearance_{end}_share", f"clearance_{end}"
        if share in known:
            continue
        if gap in known:
            because = f"taken as port-sized and 0.6 stroke long; write {gap} as a share to say better ({_NO_SOURCE})"
            told.append(Assumed(f"cylinder.{sizes.name}.passage_{end}", "0.6 stroke", because, affects))
        else:
            changes[share] = _USUAL_CLEARANCE
            because = f"not given: taken as 8 % of the swept volume, passages included ({_NO_SOURCE})"
            told.append(Assumed(f"cylinder.{sizes.name}.{gap}", "8 %", because, affects))
    return (sizes.replacing(changes) if changes else sizes), tuple(told)


@dataclass(frozen=True, slots=True)
class Setup:
    """One cylinder ready to be run: its sizes with everything filled in, and what is known of its running."""

    sizes: Sizes
    running: Running
