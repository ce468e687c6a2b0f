"""The forms of screw threads, and how much of the full depth a drilled hole leaves.

The share is that of the full double depth which the form's own standard gives a nut. On 60 degree threads American
lists count on three quarters of the sharp vee instead, which is 6/5 of that: their 75 % is 90 % of the ISO depth.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import radians, sin, sqrt, tan
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from lapwright.errors import NotOneOf

if TYPE_CHECKING:
    from lapwright.tables.threads import ThreadRow

#: The bases on which the depth of a thread is counted, in words.
BASES: Final = ("own", "american")
#: What each is called where it is shown.
BASIS_NAMES: Final = MappingProxyType(
    {"own": "of the form's own full depth", "american": "on the American basis (1.299 x pitch)"}
)


@dataclass(frozen=True, slots=True)
class ThreadForm:
    """The shape of a thread in one pitch: flank angle [rad, both flanks together], and factors of the pitch [-].

    `depth_factor` is the double depth on which a percentage is counted; major less pitch times `effective_factor`,
    `depth_factor` (nut) and `external_minor_factor` (screw) gives the effective and the two minor diameters.
    `radius_factor` rounds crests and roots, and is nothing where the crests are flat.
    """

    name: str
    flank_angle: float
    depth_factor: float
    effective_factor: float
    external_minor_factor: float
    radius_factor: float

    @property
    def half_angle_tangent(self) -> float:
        """Tangent of half the flank angle [-]: how fast a ridge of thread widens towards its root."""
        return tan(self.flank_angle / 2)

    @property
    def has_american_basis(self) -> bool:
        """Whether percentages of it are counted on the American basis as well: those of 60 degree threads are."""
        return self.flank_angle == _SIXTY


_SIXTY = radians(60)
#: Height of the sharp vee for a pitch of one: half the pitch over the tangent of the half angle.
_VEE_60 = sqrt(3) / 2  # 0.866025
_VEE_55 = 0.5 / tan(radians(27.5))  # 0.960491
#: BS 93 states the depth itself, 0.6 p; of its sharp vee, 1.13634 p high, 0.26817 p is taken off at each end.
_DEPTH_BA = 0.6
#: BS 84 takes a sixth off each end of the sharp vee: 0.640327 p is left.
_DEPTH_55 = 2 / 3 * _VEE_55
#: Crest and root are arcs that run into the flanks: what is cut off the vee is radius x (1 / sin(half angle) - 1).
_RADIUS_BA = (1 / (4 * tan(radians(23.75))) - _DEPTH_BA / 2) / (1 / sin(radians(23.75)) - 1)  # 0.180834
_RADIUS_55 = _VEE_55 / 6 / (1 / sin(radians(27.5)) - 1)  # 0.137329
#: ISO 68-1 counts eighths: the nut's depth is 5/8 of the sharp vee (0.541266 p), the pitch line lies 3/8 under the
#: crest (0.324760 p), and ISO 724's screw with a rounded root is 17/24 deep (0.613435 p).
_NUT_60, _PITCH_LINE_60, _SCREW_60 = 5 / 8 * _VEE_60, 3 / 8 * _VEE_60, 17 / 24 * _VEE_60
#: Three quarters of the sharp vee, twice: 1.299038.
_AMERICAN = 2 * 3 / 4 * _VEE_60


def _list_forms() -> dict[str, ThreadForm]:
    ba = ThreadForm("BA", radians(47.5), 2 * _DEPTH_BA, _DEPTH_BA, 2 * _DEPTH_BA, _RADIUS_BA)
    whitworth = ThreadForm("Whitworth", radians(55), 2 * _DEPTH_55, _DEPTH_55, 2 * _DEPTH_55, _RADIUS_55)
    iso, unified = (
        ThreadForm(name, _SIXTY, 2 * _NUT_60, 2 * _PITCH_LINE_60, 2 * _SCREW_60, 0.0)
        for name in ("ISO metric", "Unified")
    )
    return {form.name: form for form in (ba, whitworth, iso, unified)}


#: Every form that the tables know, by the word that stands in a row's `form`.
FORMS: Final[Mapping[str, ThreadForm]] = MappingProxyType(_list_forms())


def measure_depth(thread: ThreadRow, *, basis: str = "own") -> float:
    """Work out the double depth of a full thread [m], on which its percentage is counted.

    BS 93 rounds the depth of each size to 0.005 mm, and its rounded table is the standard: there 100 % is the table's
    minor diameter, not the formula's.

    Parameters
    ----------
    thread: a thread of the tables
    basis: "own", or "american" for a thread of 60 degrees

    Raises
    ------
    NotOneOf: there is no such basis, or the thread is not counted on it

    Source: bs-93 (table); bs-84 (0.640327 p); iso-68-1 (5/8 H); machinery-handbook (1.299 p for the American custom)
    """
    form = FORMS[thread.form]
    bases = BASES if form.has_american_basis else BASES[:1]
    if basis not in bases:
        raise NotOneOf(basis, bases)
    if basis == "american":
        return _AMERICAN * thread.pitch
    return thread.major - thread.minor if form.name == "BA" else form.depth_factor * thread.pitch


def measure_engagement(thread: ThreadRow, hole_diameter: float, *, basis: str = "own") -> float:
    """Work out how much of the full depth a tapped hole has [-]: above 1 the drill is under the minor diameter.

    Parameters
    ----------
    thread: a thread of the tables
    hole_diameter: the hole before it is tapped [m]; a hole as wide as the screw, or wider, leaves nothing: 0
    basis: "own", or "american" for a thread of 60 degrees

    Raises
    ------
    NotOneOf: the thread is not counted on that basis

    Source: machinery-handbook (31st ed., p. 2155: percentage of thread)
    """
    return max(0.0, (thread.major - hole_diameter) / measure_depth(thread, basis=basis))


def find_hole(thread: ThreadRow, engagement: float, *, basis: str = "own") -> float:
    """Work out the hole that leaves a wanted share of the full depth [m].

    Parameters
    ----------
    thread: a thread of the tables
    engagement: the share of the full depth, 0 to 1 [-]
    basis: "own", or "american" for a thread of 60 degrees

    Raises
    ------
    NotOneOf: the thread is not counted on that basis

    Source: machinery-handbook (31st ed., p. 2155: percentage of thread)
    """
    return thread.major - engagement * measure_depth(thread, basis=basis)
