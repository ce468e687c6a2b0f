"""The metals of the bench: for each the one set of figures to use; what each source says is in `material_rows`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from lapwright.errors import NotOneOf, NotText
from lapwright.quantities.figure import show_other, show_start
from lapwright.tables.reading import Cited, demand_si, read_rows, read_si

_GPA, _MPA, _PER_MILLION = "1000000000", "1000000", "0.000001"


@dataclass(frozen=True, slots=True)
class Strength(Cited):
    """A strength to count on [Pa], and what it rests on."""

    value: float
    source: str


@dataclass(frozen=True, slots=True)
class Metal(Cited):
    """The figures to use for a metal of the bench: the lower ones where sources differ.

    `name` is what people call it, `also` its other names and grades. Density [kg/m3], modulus [Pa], expansion [1/K] and
    conductivity [W/(m K)] rest on `source`; `proof`, `ultimate` and `shear` say themselves what they rest on, and
    `proof` is None where none was found.
    """

    name: str
    also: tuple[str, ...]
    condition: str
    density: float
    modulus: float
    proof: Strength | None
    ultimate: Strength
    shear: Strength
    expansion: float
    conductivity: float
    source: str


@cache
def list_metals() -> Mapping[str, Metal]:
    """List the metals of the bench by what people call them, each with the figures to use.

    Source: machinery-handbook (ratios of shear to tension); data sheets and standards as each metal names them

    Example:
    >>> list(list_metals())[:4]
    ['steel', 'stainless steel', 'brass', 'gunmetal']
    """
    return MappingProxyType({row["metal"]: _read_metal(row) for row in read_rows("metals_to_use")})


def _read_metal(row: Mapping[str, str]) -> Metal:
    proof = read_si(row["proof_MPa"], _MPA)
    return Metal(
        name=row["metal"],
        also=tuple(row["also"].split("; ")),
        condition=row["condition"],
        density=demand_si(row["density_kg_m3"]),
        modulus=demand_si(row["E_GPa"], _GPA),
        proof=None if proof is None else Strength(proof, row["strength_source"]),
        ultimate=Strength(demand_si(row["UTS_MPa"], _MPA), row["strength_source"]),
        shear=Strength(demand_si(row["shear_MPa"], _MPA), row["shear_source"]),
        expansion=demand_si(row["expansion_1e-6_per_K"], _PER_MILLION),
        conductivity=demand_si(row["conductivity_W_mK"]),
        source=row["source"],
    )


def find_metal(name: object) -> Metal:
    """Return the metal that goes by a name or a grade.

    Parameters
    ----------
    name: "brass", "LG2", "EN1A", in any case and spacing

    Raises
    ------
    NotText, NotOneOf: there is no such metal; says which there are

    Example:
    >>> find_metal("LG 2").name, find_metal("Brass").shear.value
    ('gunmetal', 210000000.0)
    """
    if not isinstance(name, str):
        raise NotText(show_other(name), "brass")
    metals = list_metals().values()
    wanted = _squeeze(name)
    found = next((metal for metal in metals if wanted in map(_squeeze, (metal.name, *metal.also))), None)
    if found is None:
        raise NotOneOf(show_start(name), tuple(metal.name for metal in metals))
    return found


def _squeeze(name: str) -> str:
    return "".join(name.lower().replace("-", "").split())


def shear_strength(metal: str) -> Strength:
    """Return the ultimate strength in shear to count on for a metal, with what it rests on.

    Parameters
    ----------
    metal: its name or grade

    Raises
    ------
    NotOneOf: there is no such metal

    Source: machinery-handbook (ratios of shear to tension); the rest as the answer says

    Example:
    >>> shear_strength("gunmetal").value, shear_strength("cast iron").from_memory
    (165000000.0, True)
    """
    return find_metal(metal).shear
