"""What cannot be known of a cylinder, and which size is missing for it."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.engine.cylinder import assemble_cylinder
from lapwright.engine.sizes import FACE_EDGES, VALVE_EDGES, Sizes

_FACE = "port_face.steam_port (or port_face.edges)"
_OUTER = "valve.length (or valve.edges)"
_CAVITY = "valve.cavity (or valve.edges)"
_THROW = "valve_drive.throw"


@dataclass(frozen=True, slots=True)
class Gap:
    """A figure that is not known: its path in the results, the same in words, why, and whose it is.

    `keys` are the record keys of the cylinder that are missing for it.
    """

    figure: str
    words: str
    because: str
    cylinder: str
    keys: tuple[str, ...] = ()


def find_gaps(sizes: Sizes) -> tuple[Gap, ...]:
    """Return every figure of a cylinder that cannot be told, each with the sizes that are missing for it.

    Example:
    >>> find_gaps(Sizes("A", {"bore": 0.02, "stroke": 0.02, "valve_drive.throw": 0.002}))[0].because
    'not known, because port_face.steam_port (or port_face.edges) and valve.length (or valve.edges) are not given'
    """
    outside, cylinder = sizes.admission == "outside", assemble_cylinder(sizes)
    lost = _find_lost(sizes)
    steam = [_FACE, _OUTER if outside else _CAVITY]
    exhaust = [_FACE, _CAVITY if outside else _OUTER]
    angle = [] if cylinder.gear is not None or _THROW in lost else _list_lost_gear(sizes)
    # With the cylinder's line through the shaft a dead centre needs no more than the crank.
    dead_centre = [] if cylinder.line_offset == 0 else ["stroke"]
    rod = ["connecting_rod"] if dead_centre and "connecting_rod" not in sizes.numbers else []
    needs = [
        ("piston_area_mm2", "the piston's area", ["bore"], []),
        ("laps_mm.*.steam", "the steam lap", steam, []),
        ("laps_mm.*.exhaust", "the exhaust lap", exhaust, []),
        ("ends.*.events.admission, cut_off", "admission and cut-off", [*steam, _THROW], angle),
        ("ends.*.events.release, compression", "release and compression", [*exhaust, _THROW], angle),
        ("ends.*.events.*.stroke_percent", "the piston's place at the events", ["stroke"], rod),
        ("ends.*.lead_mm", "the leads", [*steam, _THROW, *dead_centre], [*angle, *rod]),
        ("ends.*.greatest_steam_opening_mm", "the greatest opening to steam", [*steam, _THROW], angle),
        ("ends.*.greatest_exhaust_opening_mm", "the greatest opening to exhaust", [*exhaust, _THROW], angle),
        ("chest_to_exhaust_deg", "whether the chest is ever open to exhaust", [_FACE, _OUTER, _CAVITY, _THROW], angle),
        ("valve_travel_mm", "the valve's travel", [_THROW], angle),
    ]
    gaps = []
    for figure, words, wanted, more in needs:
        missing = [key for key in dict.fromkeys(wanted) if key in lost] + more
        if missing:
            keys = tuple(key.partition(" ")[0] for key in missing)
            gaps.append(Gap(f"cylinders.{sizes.name}.{figure}", words, _say(missing), sizes.name, keys))
    return tuple(gaps)


def _list_lost_gear(sizes: Sizes) -> list[str]:
    """The angle, and the rod too where the valve line runs so far off the shaft that no usual one would reach."""
    far = sizes.number("valve_drive.valve_line_offset") != 0
    keys = ["valve_drive.eccentric_rod"] * far + ["valve_drive.eccentric_angle"]
    return [key for key in keys if key not in sizes.numbers]


def _find_lost(sizes: Sizes) -> set[str]:
    known = sizes.numbers
    valve = all(key in known for key in VALVE_EDGES)
    face = all(key in known for key in FACE_EDGES) or "port_face.steam_port" in known
    present = {
        "bore": "bore" in known,
        "stroke": "stroke" in known,
        _FACE: face,
        _OUTER: valve or "valve.length" in known,
        _CAVITY: valve or "valve.cavity" in known,
        _THROW: _THROW in known,
    }
    return {key for key, here in present.items() if not here}


def _say(missing: list[str]) -> str:
    names = " and ".join(missing) if len(missing) < 3 else ", ".join(missing[:-1]) + " and " + missing[-1]
    return f"not known, because {names} {'is' if len(missing) == 1 else 'are'} not given"
