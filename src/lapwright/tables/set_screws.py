"""Grub screws with a socket: how hard to seat them, what they hold, and the hexagon keys that turn them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from lapwright.quantities.figure import read_number
from lapwright.tables.reading import Cited, demand_si, is_from_memory, read_rows, read_si

_MM: Final = "0.001"
#: The two kinds of grub screw in the table.
KINDS: Final = ("inch cup point", "metric cup point")


@dataclass(frozen=True, slots=True)
class SetScrewRow:
    """A cup point grub screw of alloy steel: diameter [m], seating torque [N.m], and how much it then holds [N].

    `seating_torque` is the lower of what makers print, `highest_torque` the higher; `stainless_torque` is for stainless
    screws and `test_torque` what the standard has a screw stand, None where none is printed. `holding_force` is along
    the shaft, at the seating torque, in a steel hub on a soft steel shaft; it has a source of its own.
    """

    kind: str
    size: str
    diameter: float
    seating_torque: float
    highest_torque: float
    stainless_torque: float | None
    test_torque: float | None
    holding_force: float
    holding_source: str
    source: str

    @property
    def from_memory(self) -> bool:
        """Whether torque or holding force was recalled and not read."""
        return is_from_memory(self.source) or is_from_memory(self.holding_source)


@dataclass(frozen=True, slots=True)
class KeyRow(Cited):
    """A hexagon key: its size [m], the torques at which it starts to twist for good and at which it breaks [N.m]."""

    across_flats: float
    yield_torque: float
    ultimate_torque: float
    source: str


@dataclass(frozen=True, slots=True)
class SocketRow(Cited):
    """The socket of a metric grub screw: the screw's size in words and as a diameter [m], and the key's size [m]."""

    size: str
    diameter: float
    across_flats: float
    source: str


@cache
def list_set_screws() -> tuple[SetScrewRow, ...]:
    """List the grub screws, inch sizes first, each kind from thin to thick.

    Source: set-screw-chart; iso-898-5 (test torques)

    Example:
    >>> [(row.size, row.seating_torque) for row in list_set_screws() if row.size == "M4"]
    [('M4', 2.2)]
    """
    return tuple(_read_screw(row) for row in read_rows("set_screws"))


def _read_screw(row: Mapping[str, str]) -> SetScrewRow:
    first = demand_si(row["torque_Nm"])
    second = read_si(row["second_torque_Nm"]) or first
    seating = min(first, second)
    return SetScrewRow(
        kind=row["kind"],
        size=row["size"],
        diameter=_read_diameter(row),
        seating_torque=seating,
        highest_torque=max(first, second),
        stainless_torque=read_si(row["stainless_torque_Nm"]),
        test_torque=read_si(row["test_torque_Nm"]),
        # What is printed goes with the first torque, and holding goes as the thrust.
        holding_force=demand_si(row["holding_N"]) * seating / first,
        holding_source=row["holding_source"],
        source=row["source"],
    )


def _read_diameter(row: Mapping[str, str]) -> float:
    return float(read_number(row["size"]) * 254 / 10000) if "/" in row["size"] else demand_si(row["diameter_mm"], _MM)


@cache
def list_keys() -> tuple[KeyRow, ...]:
    """List the hexagon keys from small to large.

    Source: set-screw-chart (as far as its makers print them); from memory (2 mm and more)

    Example:
    >>> [row.yield_torque for row in list_keys() if row.across_flats == 0.0015]
    [1.02]
    """
    return tuple(
        KeyRow(
            across_flats=demand_si(row["across_flats_mm"], _MM),
            yield_torque=demand_si(row["yield_torque_Nm"]),
            ultimate_torque=demand_si(row["ultimate_torque_Nm"]),
            source=row["source"],
        )
        for row in read_rows("hex_keys")
    )


@cache
def list_sockets() -> tuple[SocketRow, ...]:
    """List the sockets of metric grub screws, from thin to thick.

    Source: iso-4026

    Example:
    >>> [row.across_flats for row in list_sockets() if row.size == "M4"]
    [0.002]
    """
    return tuple(
        SocketRow(
            size=row["size"],
            diameter=demand_si(row["size"].removeprefix("M"), _MM),
            across_flats=demand_si(row["across_flats_mm"], _MM),
            source=row["source"],
        )
        for row in read_rows("set_screw_sockets")
    )
