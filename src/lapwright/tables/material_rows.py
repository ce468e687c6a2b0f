"""What each source says of a material, one row for each: where they differ, both stand here."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.tables.reading import Cited, read_range, read_rows, read_si

#: A range of values, least and greatest; twice the same where one value is printed.
Range = tuple[float, float]
_GPA, _MPA, _PER_MILLION = "1000000000", "1000000", "0.000001"


@dataclass(frozen=True, slots=True)
class MaterialRow(Cited):
    """What one source says of a material: density [kg/m3], stresses and stiffness [Pa], expansion [1/K], W/(m K).

    None stands for what that source does not give. `proof` is a yield or proof stress, `shear` the ultimate in shear.
    """

    name: str
    condition: str
    density: float | None
    modulus: Range | None
    proof: Range | None
    ultimate: Range | None
    shear: Range | None
    expansion: float | None
    conductivity: float | None
    source: str
    note: str


@cache
def list_materials() -> tuple[MaterialRow, ...]:
    """List what each source says, one row for each; sources that disagree stand under one name.

    Source: callister; tribology-handbook; data sheets and standards as each row names them

    Example:
    >>> [row.source for row in list_materials() if row.name == "Tin bronze 90/10"]
    ['a table of materials for engineering students, open on the web']
    """
    return tuple(
        MaterialRow(
            name=row["material"],
            condition=row["condition"],
            density=read_si(row["density_kg_m3"]),
            modulus=read_range(row["E_GPa"], _GPA),
            proof=read_range(row["yield_or_proof_MPa"], _MPA),
            ultimate=read_range(row["UTS_MPa"], _MPA),
            shear=read_range(row["shear_ult_MPa"], _MPA),
            expansion=read_si(row["expansion_1e-6_per_K"], _PER_MILLION),
            conductivity=read_si(row["conductivity_W_mK"]),
            source=row["source"],
            note=row["note"],
        )
        for row in read_rows("materials")
    )
