"""What is known of one cylinder and its valve gear, as plain numbers keyed like the record.

The same keys serve everywhere a size has to be spoken of: the reader fills them, an assumption names
one, a doubt belongs to one, a cure changes one, and the writer puts one back into the file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

FACE_WIDTHS = ("port_face.steam_port", "port_face.bridge", "port_face.exhaust_port")
FACE_EDGES = tuple(f"port_face.edges.{i}" for i in range(6))
VALVE_EDGES = tuple(f"valve.edges.{i}" for i in range(4))
#: Where a clearance stands that is given as a share of the swept volume, by its key in the record.
SHARE_KEYS = {"clearance_head": "clearance_head_share", "clearance_crank": "clearance_crank_share"}

#: Every number a cylinder may have: lengths in m, angles in rad, `spindle_step` in turns. The clearance of an end is
#: either the gap at dead centre or, under `_share`, the whole clearance volume as a share of that end's swept volume.
NUMBER_KEYS = (
    "crank_phase",
    "bore",
    "stroke",
    "connecting_rod",
    "piston_rod",
    "cylinder_offset",
    "clearance_head",
    "clearance_crank",
    *SHARE_KEYS.values(),
    *FACE_WIDTHS,
    *FACE_EDGES,
    "port_face.port_length",
    "port_face.chest_head",
    "port_face.chest_crank",
    "valve.length",
    "valve.cavity",
    *VALVE_EDGES,
    "valve.width",
    "valve_drive.throw",
    "valve_drive.eccentric_rod",
    "valve_drive.eccentric_angle",
    "valve_drive.valve_line_offset",
    "valve_drive.valve_offset",
    "valve_drive.spindle_thread",
    "valve_drive.spindle_step",
)


@dataclass(frozen=True, slots=True)
class Doubt:
    """How far a size may lie above and below its figure, both zero or positive, in the size's own unit."""

    plus: float
    minus: float


#: Keys that say nothing without the part they belong to.
_WANT_THEIR_PART = {"width"}


@dataclass(frozen=True, slots=True)
class Assumed:
    """A size nobody gave: its key, the value taken, why, and which answers rest on it."""

    key: str
    value: str
    because: str
    affects: tuple[str, ...]

    @property
    def words(self) -> str:
        """What the size is called in a sentence: the key's last word or two, without whose it is.

        Example:
        >>> Assumed("cylinder.A.valve.width", "9.9 mm", "not given", ()).words
        'valve width'
        """
        *_, part, name = ("", *self.key.split("."))
        return (f"{part} {name}" if name in _WANT_THEIR_PART else name).replace("_", " ")


@dataclass(frozen=True, slots=True)
class Sizes:
    """One cylinder's known sizes.

    `numbers` holds SI values by key (see `NUMBER_KEYS`); a key that is absent is not known.
    `doubts` holds the tolerances of the numbers that were given with one.
    `assumed` names the keys in `numbers` that nobody measured, each with the reason.
    """

    name: str
    numbers: Mapping[str, float]
    doubts: Mapping[str, Doubt] = field(default_factory=dict)
    assumed: Mapping[str, str] = field(default_factory=dict)
    kind: str = "slide"
    admission: str = "outside"
    rocker: str = "none"

    def replacing(self, changes: Mapping[str, float]) -> Sizes:
        """Return the same cylinder with some numbers changed; what is changed is no longer assumed."""
        left = {key: why for key, why in self.assumed.items() if key not in changes}
        return replace(self, numbers={**self.numbers, **changes}, assumed=left)

    def number(self, key: str, default: float = 0.0) -> float:
        """Return a size [SI], or the default where it is not known."""
        return self.numbers.get(key, default)
