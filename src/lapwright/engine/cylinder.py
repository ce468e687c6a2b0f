"""The geometry of one cylinder, put together from its sizes; what is not known is None."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from lapwright.engine.sizes import FACE_EDGES, FACE_WIDTHS, VALVE_EDGES, Sizes

#: +1 looks along the valve line towards the head end, -1 towards the crank end.
ENDS = {"head": 1, "crank": -1}
OTHER_END = {"head": "crank", "crank": "head"}


@dataclass(frozen=True, slots=True)
class Slider:
    """A crank (or eccentric), its rod, and a slide that moves along a line.

    `throw` and `rod` are in m, `offset` is the line's distance from the shaft centre in m, positive
    towards the side on which the crank pin stands at 90 deg.
    """

    throw: float
    rod: float
    offset: float


@dataclass(frozen=True, slots=True)
class FaceSide:
    """One end's half of the port face: distances from the port-face centre towards that end, m."""

    inner: float
    outer: float
    middle: float

    @property
    def width(self) -> float:
        """Width of the steam port along the valve line [m]."""
        return self.outer - self.inner


@dataclass(frozen=True, slots=True)
class ValveSide:
    """One end's half of the valve: distances from the valve's centre towards that end, m."""

    outer: float | None
    cavity: float | None


@dataclass(frozen=True, slots=True)
class ValveGear:
    """What moves the valve: eccentric, rod and rocker; `angle` in rad ahead of the crank, `valve_offset` in m."""

    slider: Slider
    angle: float
    valve_offset: float
    sign: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder:
    """One cylinder with its face, valve and gear; a part is None where a size of it is not known."""

    name: str
    crank_phase: float
    line_offset: float
    piston: Slider | None
    gear: ValveGear | None
    face: dict[str, FaceSide] | None
    valve: dict[str, ValveSide]
    admission: str
    kind: str
    area: dict[str, float | None]
    port_length: float | None
    chest: dict[str, float | None]
    double_acting: bool

    @property
    def can_turn(self) -> bool:
        """Whether both rods reach their lines all round the turn, as far as they are known."""
        sliders = (self.piston, None if self.gear is None else self.gear.slider)
        return all(slider is None or slider.rod > slider.throw + abs(slider.offset) for slider in sliders)


def assemble_cylinder(sizes: Sizes) -> Cylinder:
    """Put one cylinder's geometry together from its sizes.

    Example:
    >>> tern = Sizes("A", {"valve.length": 0.014, "valve.cavity": 0.008})
    >>> assemble_cylinder(tern).valve["head"].outer
    0.007
    """
    known = sizes.numbers
    return Cylinder(
        name=sizes.name,
        crank_phase=sizes.number("crank_phase"),
        line_offset=sizes.number("cylinder_offset"),
        piston=_assemble_piston(sizes),
        gear=_assemble_gear(sizes),
        face=_assemble_face(sizes),
        valve=_assemble_valve(sizes),
        admission=sizes.admission,
        kind=sizes.kind,
        area=_find_areas(sizes),
        port_length=known.get("port_face.port_length"),
        chest={end: known.get(f"port_face.chest_{end}") for end in ENDS},
        double_acting="piston_rod" in known,
    )


def _assemble_piston(sizes: Sizes) -> Slider | None:
    known = sizes.numbers
    if "stroke" not in known or "connecting_rod" not in known:
        return None
    return Slider(known["stroke"] / 2, known["connecting_rod"], sizes.number("cylinder_offset"))


def _assemble_gear(sizes: Sizes) -> ValveGear | None:
    known = sizes.numbers
    needed = ("valve_drive.throw", "valve_drive.eccentric_rod", "valve_drive.eccentric_angle")
    if any(key not in known for key in needed):
        return None
    throw, rod, angle = (known[key] for key in needed)
    slider = Slider(throw, rod, sizes.number("valve_drive.valve_line_offset"))
    sign = -1 if sizes.rocker == "reversing" else 1
    return ValveGear(slider, angle, sizes.number("valve_drive.valve_offset"), sign)


def _assemble_face(sizes: Sizes) -> dict[str, FaceSide] | None:
    known = sizes.numbers
    if all(key in known for key in FACE_EDGES):
        e = [known[key] for key in FACE_EDGES]
        c = (e[0] + e[5]) / 2
        head, crank = FaceSide(c - e[1], c - e[0], c - e[2]), FaceSide(e[4] - c, e[5] - c, e[3] - c)
        return {"head": head, "crank": crank}
    if all(key in known for key in FACE_WIDTHS):
        port, bridge, exhaust = (known[key] for key in FACE_WIDTHS)
        side = FaceSide(exhaust / 2 + bridge, exhaust / 2 + bridge + port, exhaust / 2)
        return {"head": side, "crank": side}
    return None


def _assemble_valve(sizes: Sizes) -> dict[str, ValveSide]:
    known = sizes.numbers
    if all(key in known for key in VALVE_EDGES):
        e = [known[key] for key in VALVE_EDGES]
        c, half = (e[0] + e[3]) / 2, (e[3] - e[0]) / 2
        return {"head": ValveSide(half, c - e[1]), "crank": ValveSide(half, e[2] - c)}
    length, cavity = known.get("valve.length"), known.get("valve.cavity")
    side = ValveSide(None if length is None else length / 2, None if cavity is None else cavity / 2)
    return {"head": side, "crank": side}


def _find_areas(sizes: Sizes) -> dict[str, float | None]:
    bore, rod = sizes.numbers.get("bore"), sizes.numbers.get("piston_rod")
    if bore is None:
        return {"head": None, "crank": None}
    head = pi / 4 * bore**2
    return {"head": head, "crank": 0.0 if rod is None else head - pi / 4 * rod**2}
