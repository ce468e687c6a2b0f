"""Printed figures held against the formula that they should follow."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

Row = Mapping[str, str]
INCH_MM = 25.4


def broken(rows: Iterable[Row], column: str, formula: Callable[[Row], float], *, slack: float = 1.0) -> list[str]:
    """The rows whose printed figure is not what the formula gives, to half of its last place times the slack."""
    return [
        f"{dict(row)} {column} should be {formula(row):.6g}"
        for row in rows
        if row[column] and abs(float(row[column]) - formula(row)) > slack * half_place(row[column]) + 1e-12
    ]


def half_place(printed: str) -> float:
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


def number(row: Row, column: str) -> float:
    return float(row[column])
