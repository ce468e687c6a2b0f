"""Fits of the hole basis for sizes up to 30 mm: limits of hole and shaft, and the clearance that they leave."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.tables.reading import Cited, demand_si, read_rows

_MM, _MICRON = "0.001", "0.000001"


@dataclass(frozen=True, slots=True)
class FitRow(Cited):
    """A fit in one step of sizes, all in m: sizes `over` this and `up_to` that; limits as deviations from the size.

    A negative clearance is metal too much.
    """

    fit: str
    over: float
    up_to: float
    hole_lower: float
    hole_upper: float
    shaft_lower: float
    shaft_upper: float
    least_clearance: float
    most_clearance: float
    source: str


@cache
def list_fits() -> tuple[FitRow, ...]:
    """List the fits, step by step.

    Source: iso-286

    Example:
    >>> [(row.least_clearance, row.most_clearance) for row in list_fits() if row.fit == "H7/g6" and row.up_to == 0.006]
    [(4e-06, 2.4e-05)]
    """
    return tuple(
        FitRow(
            fit=row["fit"],
            over=demand_si(row["over_mm"], _MM),
            up_to=demand_si(row["to_incl_mm"], _MM),
            hole_lower=demand_si(row["hole_EI_um"], _MICRON),
            hole_upper=demand_si(row["hole_ES_um"], _MICRON),
            shaft_lower=demand_si(row["shaft_ei_um"], _MICRON),
            shaft_upper=demand_si(row["shaft_es_um"], _MICRON),
            least_clearance=demand_si(row["min_clearance_um"], _MICRON),
            most_clearance=demand_si(row["max_clearance_um"], _MICRON),
            source=row["source"],
        )
        for row in read_rows("fits")
    )
