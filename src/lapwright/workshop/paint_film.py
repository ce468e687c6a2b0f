"""How thick paint lies: wet against dry, how many coats, how much of it, and how soon it slides down a wall."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, isfinite

from lapwright.errors import OutOfRange
from lapwright.quantities import show_number

#: How thick a brushing enamel is while it is laid on [Pa s], and how heavy [kg/m3]: from memory.
VISCOSITY = 0.5
DENSITY = 1200.0
#: How much more is wanted than lies on the work, for what stays in brush and pot: from memory.
WASTE = 1.3
_GRAVITY = 9.80665
_MICROMETRE = 1e-6
#: Thicker than this nothing is a coat of paint any more [m].
_THICKEST = 2e-3


@dataclass(frozen=True, slots=True)
class Build:
    """A dry film made up of equal coats: how many, and how thick each dries [m]."""

    coats: int
    each: float

    @property
    def film(self) -> float:
        """How thick all of them are together, dry [m]."""
        return self.coats * self.each


def find_wet_film(dry_film: float, volume_solids: float) -> float:
    """Return how thick a coat has to be laid on wet to be as thick as wanted when dry [m].

    Parameters
    ----------
    dry_film: what is wanted when it is dry [m], more than 0
    volume_solids: the share of the paint that stays when the solvent has gone [-], more than 0, up to 1

    Raises
    ------
    OutOfRange: a film or a share that no paint has

    Source: exact geometry: the solids keep their volume, and the surface its size

    Example: 50 µm of an enamel with 48 % solids
    >>> round(find_wet_film(50e-6, 0.48) * 1e6)
    104
    """
    check_film(dry_film)
    if not 0 < volume_solids <= 1:
        raise OutOfRange(f"{volume_solids:g}", "is no share of solids", "write it as a share above 0, up to 1")
    return dry_film / volume_solids


def build_film(wanted: float, *, least: float, most: float) -> Build:
    """Return the fewest equal coats that reach a wanted dry film, none thicker than the data sheet allows.

    Parameters
    ----------
    wanted: the dry film that is to be reached [m], more than 0
    least: the thinnest dry film of one coat [m]
    most: the thickest dry film of one coat [m], not less than `least`

    Raises
    ------
    OutOfRange: a film that no paint has, or a thinnest above the thickest

    Source: exact geometry

    Example: 100 µm of an enamel whose sheet says 35 to 75 µm a coat
    >>> build_film(100e-6, least=35e-6, most=75e-6)
    Build(coats=2, each=5e-05)
    """
    for film in (wanted, least, most):
        check_film(film)
    if least > most:
        raise OutOfRange(show_micrometres(least), f"is thicker than the thickest coat of {show_micrometres(most)}")
    # A film that is a whole number of thickest coats must not need one more because of the last binary digit.
    coats = ceil(wanted / most * (1 - 1e-9))
    return Build(coats, max(wanted / coats, least))


def find_volume(area: float, wet_film: float, *, coats: int = 1, waste: float = WASTE) -> float:
    """Return how much paint a surface takes, with what stays in brush and pot [m3].

    Parameters
    ----------
    area: of the surface [m2]
    wet_film: of one coat [m]
    coats: how many of them
    waste: how many times the paint that lies on the work [-], at least 1; 1.3 from memory, for brushing

    Source: exact geometry; the waste from memory

    Example: 350 cm2 with one coat of 104 µm
    >>> round(find_volume(0.035, 104e-6) * 1e6, 1)
    4.7
    """
    return area * wet_film * coats * waste


def find_sag_speed(wet_film: float, *, viscosity: float = VISCOSITY, density: float = DENSITY) -> float:
    """Return how fast the surface of a wet coat slides down an upright wall [m/s].

    Parameters
    ----------
    wet_film: how thick the coat is [m]
    viscosity: of the paint as it is laid on, at rest [Pa s]
    density: of the paint [kg m-3]

    Holds for: an even coat that has no stiffness of its own; a paint that gels at rest slides less

    Source: exact geometry: the weight of the film against its viscosity, rho g h^2 / (2 eta)

    Example: 100 µm, in mm/min
    >>> round(find_sag_speed(100e-6) * 60e3, 1)
    7.1
    """
    return density * _GRAVITY * wet_film**2 / (2 * viscosity)


def show_micrometres(film: float) -> str:
    """Show the thickness of a film.

    Parameters
    ----------
    film: how thick it is [m]

    Example:
    >>> show_micrometres(50e-6)
    '50 µm'
    """
    return f"{show_number(film / _MICROMETRE, 0)} µm"


def check_film(film: float) -> None:
    """Refuse a thickness that no coat of paint has.

    Parameters
    ----------
    film: how thick it is [m]

    Raises
    ------
    OutOfRange: it is not more than nothing, or more than 2 mm
    """
    if not (isfinite(film) and 0 < film <= _THICKEST):
        raise OutOfRange(f"{film / _MICROMETRE:g} µm", "is no thickness of a coat of paint")
