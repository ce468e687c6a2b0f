"""What screws are made of, what is between their threads, and the torques that lists give them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from lapwright.errors import NotOneOf
from lapwright.workshop.strength import stress_area

if TYPE_CHECKING:
    from lapwright.tables.threads import ThreadRow

#: Torque over thrust and diameter [-], by what is between the threads: published bolting tables, right to a third.
COEFFICIENTS: Final[Mapping[str, float]] = MappingProxyType(
    {"dry": 0.20, "oiled": 0.15, "zinc plated": 0.18, "waxed": 0.10, "molybdenum grease": 0.12, "galvanised": 0.25}
)
#: Torque that published lists give small steel screws of about class 4.8 [N m].
PUBLISHED: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {"M2": (0.17, 0.23), "M2.5": (0.34, 0.45), "M3": (0.7, 1.1), "M4": (1.5, 2.0), "M5": (2.8, 3.8), "M6": (5.0, 6.2)}
)
#: Proof stress of that class [Pa] (ISO 898-1, from memory).
_PROOF_48 = 310e6


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewMetal:
    """What a screw is made of: proof stress, tensile and shear strength [Pa], and where the figures come from."""

    name: str
    proof: float
    tensile: float
    shear: float
    source: str


#: Screws by the metal a person calls them by.
SCREWS: Final[Mapping[str, ScrewMetal]] = MappingProxyType(
    {
        screw.name: screw
        for screw in (
            ScrewMetal(
                name="steel",
                proof=225e6,
                tensile=400e6,
                shear=300e6,
                source="steel screw: property class 4.6, proof 225 MPa (ISO 898-1); shear 0.75 of 400 MPa",
            ),
            ScrewMetal(
                name="high-tensile steel",
                proof=580e6,
                tensile=800e6,
                shear=480e6,
                source="high-tensile screw: property class 8.8, proof 580 MPa, shear 0.6 of 800 MPa (from memory)",
            ),
            ScrewMetal(
                name="stainless steel",
                proof=450e6,
                tensile=700e6,
                shear=420e6,
                source="stainless screw: A2-70, proof 450 MPa, shear 0.6 of 700 MPa (from memory)",
            ),
            ScrewMetal(
                name="brass",
                proof=112e6,
                tensile=330e6,
                shear=210e6,
                source="brass screw: about half of what a steel one is tightened to (from memory)",
            ),
        )
    }
)
#: A socket grub screw: it is pushed, not pulled, and its thread is far harder than any hole.
GRUB: Final = ScrewMetal(
    name="alloy steel",
    proof=1_100e6,
    tensile=1_400e6,
    shear=840e6,
    source="socket grub screw: alloy steel 45H, shear 0.6 of 1400 MPa (from memory)",
)


def find_coefficient(condition: str) -> float:
    """Return the torque coefficient of a condition of thread [-].

    Parameters
    ----------
    condition: one of `COEFFICIENTS`

    Raises
    ------
    NotOneOf: it is none of them
    """
    if condition not in COEFFICIENTS:
        raise NotOneOf(condition, tuple(COEFFICIENTS))
    return COEFFICIENTS[condition]


def find_screw(metal: str) -> ScrewMetal:
    """Return what a screw of a metal bears.

    Parameters
    ----------
    metal: one of `SCREWS`

    Raises
    ------
    NotOneOf: it is none of them
    """
    if metal not in SCREWS:
        raise NotOneOf(metal, tuple(SCREWS))
    return SCREWS[metal]


def is_past_proof(row: ThreadRow) -> bool:
    """Tell whether the upper figure that lists give a screw draws one of class 4.8 past its proof load.

    Parameters
    ----------
    row: a thread that `PUBLISHED` names

    Source: iso-898-1 (proof stress of class 4.8; from memory)
    """
    thrust = PUBLISHED[row.name][1] / (COEFFICIENTS["dry"] * row.major)
    return thrust > _PROOF_48 * stress_area(row)
