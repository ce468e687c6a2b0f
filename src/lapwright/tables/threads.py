"""Screw threads: one row for each size of each series, in metres, with what its sizes, drill and clearance rest on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType
from typing import Final

from lapwright.errors import NotOneOf
from lapwright.tables.reading import Cited, demand_si, read_rows, read_si

#: The series, in the order in which they are listed and in which a name that fits several is read.
SERIES: Final = ("BA", "BSW", "BSF", "brass", "model", "BSP", "metric coarse", "metric fine", "UNC", "UNF")
#: How loosely a screw goes through a clearance hole.
CLEARANCES: Final = ("close", "medium", "free")
_MM, _INCH, _MM2 = "0.001", "0.0254", "0.000001"
#: Root of an external thread under its major diameter, in pitches: 17/12 of the height of the sharp vee (ISO 724).
_ROOT_60 = 1.226869


@dataclass(frozen=True, slots=True)
class ThreadRow(Cited):
    """One thread: its name and series, the form of its profile, and its sizes [m].

    `major`, `effective` and `minor` are the basic diameters, `minor` that of the nut and `minor_external` that of the
    screw. `clearance` has the holes to clear it by "close", "medium" and "free", and is empty where none is known;
    `stress_area` [m2] is None where none is printed. `twins` name the threads of other series that are the same.
    """

    name: str
    series: str
    form: str
    major: float
    pitch: float
    effective: float
    minor: float
    minor_external: float
    tapping_drill: float | None
    drill_source: str
    clearance: Mapping[str, float]
    clearance_source: str
    stress_area: float | None
    stress_area_source: str
    source: str
    twins: tuple[str, ...] = ()


def list_threads(series: str | None = None) -> tuple[ThreadRow, ...]:
    """List the threads of one series from thin to thick, or those of all of them, series by series.

    Parameters
    ----------
    series: one of `SERIES`; left out, all

    Raises
    ------
    NotOneOf: there is no such series

    Source: bs-93; bs-84; iso-228-1; iso-261; iso-724; asme-b1-1; tapping drills: bs-1157; iso-2306

    Example:
    >>> [thread.name for thread in list_threads("BA")][:3]
    ['16 BA', '15 BA', '14 BA']
    """
    if series is None:
        return _read_threads()
    if series not in SERIES:
        raise NotOneOf(series, SERIES)
    return tuple(thread for thread in _read_threads() if thread.series == series)


@cache
def _read_threads() -> tuple[ThreadRow, ...]:
    rows = (*_read_ba(), *_read_whitworth(), *_read_pipe(), *_read_metric(), *_read_unified())
    ordered = sorted(rows, key=lambda row: (SERIES.index(row.series), row.major, -row.pitch))
    alike: dict[tuple[str, float, float], list[str]] = {}
    for row in ordered:
        alike.setdefault(_shape(row), []).append(row.name)
    return tuple(replace(row, twins=tuple(name for name in alike[_shape(row)] if name != row.name)) for row in ordered)


def _shape(row: ThreadRow) -> tuple[str, float, float]:
    return row.form, row.major, row.pitch


def _read_ba() -> Iterator[ThreadRow]:
    for row in read_rows("threads_ba"):
        minor = demand_si(row["minor_mm"], _MM)
        yield ThreadRow(
            name=f"{row['ba']} BA",
            series="BA",
            form="BA",
            major=demand_si(row["major_mm"], _MM),
            pitch=demand_si(row["pitch_mm"], _MM),
            effective=demand_si(row["effective_mm"], _MM),
            minor=minor,
            minor_external=minor,
            tapping_drill=read_si(row["tap_drill_mm"], _MM),
            drill_source=row["tap_drill_source"],
            clearance=_read_clearance(row),
            clearance_source=row["clearance_source"],
            stress_area=read_si(row["stress_area_mean_eff_minor_mm2"], _MM2),
            stress_area_source=row["stress_area_source"],
            source=row["source"],
        )


#: How the size and the threads to the inch make the name, by the series.
_BRITISH_NAMES = {"BSW": "{0} BSW", "BSF": "{0} BSF", "brass": "{0} x {1} brass", "model": "{0} x {1} ME"}


def _read_whitworth() -> Iterator[ThreadRow]:
    for row in read_rows("threads_whitworth"):
        minor = demand_si(row["minor_mm"], _MM)
        yield ThreadRow(
            name=_BRITISH_NAMES[row["series"]].format(row["nominal_in"], row["tpi"]),
            series=row["series"],
            form="Whitworth",
            major=demand_si(row["nominal_in"], _INCH),
            pitch=_read_pitch(row),
            effective=demand_si(row["effective_mm"], _MM),
            minor=minor,
            minor_external=minor,
            tapping_drill=read_si(row["tap_drill_mm"], _MM),
            drill_source=row["tap_drill_source"],
            clearance=MappingProxyType({}),
            clearance_source="",
            stress_area=read_si(row["stress_area_mean_eff_minor_mm2"], _MM2),
            stress_area_source=row["stress_area_source"],
            source=row["source"],
        )


def _read_pipe() -> Iterator[ThreadRow]:
    for row in read_rows("threads_bsp"):
        minor = demand_si(row["minor_mm"], _MM)
        yield ThreadRow(
            name=row["size"],
            series="BSP",
            form="Whitworth",
            major=demand_si(row["major_mm"], _MM),
            pitch=_read_pitch(row),
            effective=demand_si(row["pitch_dia_mm"], _MM),
            minor=minor,
            minor_external=minor,
            tapping_drill=read_si(row["tap_drill_mm"], _MM),
            drill_source=row["tap_drill_source"],
            clearance=MappingProxyType({}),
            clearance_source="",
            stress_area=None,
            stress_area_source="",
            source=row["source"],
        )


def _read_metric() -> Iterator[ThreadRow]:
    for row in read_rows("threads_metric"):
        yield ThreadRow(
            name=row["size"].replace("x", " x "),
            series=f"metric {row['series']}",
            form="ISO metric",
            major=demand_si(row["major_mm"], _MM),
            pitch=demand_si(row["pitch_mm"], _MM),
            effective=demand_si(row["pitch_dia_mm"], _MM),
            minor=demand_si(row["minor_int_D1_mm"], _MM),
            minor_external=demand_si(row["minor_ext_d3_mm"], _MM),
            tapping_drill=read_si(row["tap_drill_mm"], _MM),
            drill_source=row["tap_drill_source"],
            clearance=_read_clearance(row),
            clearance_source=row["clearance_source"],
            stress_area=read_si(row["stress_area_mm2"], _MM2),
            stress_area_source=row["stress_area_source"],
            source=row["source"],
        )


def _read_unified() -> Iterator[ThreadRow]:
    for row in read_rows("threads_unified"):
        major, pitch = demand_si(row["major_in"], _INCH), _read_pitch(row)
        yield ThreadRow(
            name=f"{row['size']} {row['series']}",
            series=row["series"],
            form="Unified",
            major=major,
            pitch=pitch,
            effective=demand_si(row["pitch_dia_in"], _INCH),
            minor=demand_si(row["minor_int_in"], _INCH),
            minor_external=major - _ROOT_60 * pitch,
            tapping_drill=read_si(row["drill_soft_in"], _INCH),
            drill_source=row["tap_drill_source"],
            clearance=MappingProxyType({}),
            clearance_source="",
            stress_area=read_si(row["stress_area_mm2"], _MM2),
            stress_area_source=row["stress_area_source"],
            source=row["source"],
        )


def _read_pitch(row: Mapping[str, str]) -> float:
    """Read the pitch of an inch thread from its threads to the inch [m]: exact, which the printed pitch is not."""
    return demand_si(f"1/{row['tpi']}", _INCH)


def _read_clearance(row: Mapping[str, str]) -> Mapping[str, float]:
    holes = {fit: read_si(row[f"clear_{fit}_mm"], _MM) for fit in CLEARANCES}
    return MappingProxyType({fit: hole for fit, hole in holes.items() if hole is not None})
