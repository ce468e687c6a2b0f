"""From plain tables to read values: every key known, every text read, every refusal noted with its line."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import Any

from lapwright.errors import BadInput, NoUnit
from lapwright.quantities import read_length
from lapwright.quantities.figure import show_start
from lapwright.record.key import Key
from lapwright.record.keys import LISTS, TABLES, find_subtables, show_heading
from lapwright.record.layout import Path
from lapwright.record.problem import Ledger

#: Cylinders an engine may have.
MOST_CYLINDERS = 4
#: Problems after which the nearest known key is no longer looked up.
_MOST_GUESSES = 50

#: Keys of a table beyond which they are not listed in a message.
_MOST_NAMED = 12

#: Read values by key; a table's keys start with its name ("valve.length", "port_face.edges.2").
Values = dict[str, Any]

#: What people write for a key, beside slips of the pen.
ALSO_CALLED = {
    "conrod": "connecting_rod",
    "con_rod": "connecting_rod",
    "rod": "connecting_rod",
    "rod_length": "connecting_rod",
    "diameter": "bore",
    "piston_diameter": "bore",
    "rod_diameter": "piston_rod",
    "eccentricity": "throw",
    "eccentric_throw": "throw",
    "valve_rod": "eccentric_rod",
    "angle": "eccentric_angle",
    "advance": "eccentric_angle",
    "angle_of_advance": "eccentric_angle",
    "port": "steam_port",
    "port_width": "steam_port",
    "exhaust": "exhaust_port",
    "valve_length": "length",
    "direction": "rotation",
    "pressure": "supply_pressure",
    "thread": "spindle_thread",
    "torque": "load",
    "load_torque": "load",
    "power": "load",
    "load_power": "load",
    "cd": "discharge_coefficient",
    "friction": "friction_pressure",
    "fmep": "friction_pressure",
    "temperature": "supply_temperature",
    "dryness": "steam_dryness",
    "inertia": "flywheel_inertia",
    "moment_of_inertia": "flywheel_inertia",
    "throttle": "supply_bore",
    "rpm": "speed",
    "flow": "air_flow",
    "free_air": "air_flow",
    "volume": "decay_volume",
    "packing": "packed_with",
    "washer": "gasket",
}


def read_table(raw: dict[str, Any], table: str, path: Path, *, ledger: Ledger) -> Values:
    """Read one table with the tables in it; what cannot be read is noted and left out."""
    values: Values = {}
    below = find_subtables(table)
    for name, value in raw.items():
        here = (*path, name)
        if name in TABLES[table]:
            values.update(_read_key(TABLES[table][name], value, here, ledger=ledger))
        elif name in below:
            inner = f"{table}.{name}" if table else name
            if inner in LISTS:
                values[name] = read_list(value, inner, here, ledger=ledger)
            elif isinstance(value, dict):
                found = read_table(value, inner, here, ledger=ledger)
                values.update({f"{name}.{key}": item for key, item in found.items()})
            else:
                ledger.add("not-a-table", here, f"{name} is not a table", instead=f"put it under {show_heading(inner)}")
        else:
            _note_unknown(name, table, here, ledger=ledger)
    return values


def _read_key(key: Key, value: object, path: Path, *, ledger: Ledger) -> Values:
    name = str(path[-1])
    if not key.count:
        found = _read_text(key, value, path, name=name, ledger=ledger)
        return {} if found is None else {name: found}
    if not isinstance(value, list) or len(value) != key.count:
        given = f"has {len(value)}" if isinstance(value, list) else "is not a list"
        message = f"{name} {given}; {key.count} are wanted" if isinstance(value, list) else f"{name} {given}"
        ledger.add("not-the-edges", path, message, instead=f"list {key.about}")
        return {name: None}
    read = (
        _read_text(key, item, (*path, i), name=f"{name}, no. {i + 1}", ledger=ledger) for i, item in enumerate(value)
    )
    found_edges = {f"{name}.{i}": item for i, item in enumerate(read) if item is not None}
    return {name: None, **found_edges}


def _read_text(key: Key, value: object, path: Path, *, name: str, ledger: Ledger) -> object:
    try:
        return key.read(value)
    except BadInput as error:
        instead = error.instead
        if isinstance(error, NoUnit) and key.read is read_length and not (key.count or name.endswith("_offset")):
            # A sign that the size cannot have is not offered back with it.
            instead = re.sub(r'"-\s*', '"', instead)
        ledger.add(error.code, path, f"{name}: {error.message}", instead=instead)
        return None


def _note_unknown(name: str, table: str, path: Path, *, ledger: Ledger) -> None:
    shown = show_start(name)
    heading = show_heading(table)
    home = next(
        (other for other in TABLES if other != table and name in (*TABLES[other], *find_subtables(other))), None
    )
    near = get_close_matches(name[:60].lower(), TABLES[table], 1, 0.85)
    meant = ALSO_CALLED.get(name.lower().replace("-", "_"))
    if home is not None and name != "name" and not near and meant not in TABLES[table]:
        is_table = name in find_subtables(home)
        where = show_heading(f"{home}.{name}".lstrip(".") if is_table else home)
        verb = "head the table" if is_table else f"put {shown} under"
        message = (
            f"{shown} does not belong under {heading}" if table else f"{shown} does not belong at the top of the file"
        )
        ledger.add("misplaced-key", path, message, instead=f"{verb} {where}")
        return
    known = (*TABLES[table], *find_subtables(table))
    guesses = len(ledger.problems) < _MOST_GUESSES
    if meant is not None:
        home = next(other for other in (table, *TABLES) if meant in TABLES[other] and other != "target")
        where = "" if home == table else f", under {show_heading(home)}"
        ledger.add("unknown-key", path, f"{shown} is not known here", instead=f"write {meant}{where}")
        return
    near = get_close_matches(name[:60].lower(), known, 1) if guesses else []
    elsewhere = _guess_elsewhere(name, table) if guesses and not near else None
    take_out = f"take it out; known there: {', '.join(known)}"
    if len(known) > _MOST_NAMED:
        take_out = 'take it out; "lapwright new" writes a record with every key that is known'
    instead = f"write {near[0]}" if near else elsewhere or take_out
    place = f"under {heading}" if table else "at the top of the file"
    ledger.add("unknown-key", path, f"{shown} is not known {place}", instead=instead)


def _guess_elsewhere(name: str, table: str) -> str | None:
    """Find the nearest key of another table."""
    # Where two tables have a key of one name, the first is meant.
    places = {key: other for other in reversed(list(TABLES)) for key in TABLES[other] if other != table}
    near = get_close_matches(name[:60].lower(), places, 1, 0.75)
    return f"write {near[0]}, under {show_heading(places[near[0]])}" if near else None


def read_cylinders(raw: object, *, ledger: Ledger) -> list[Values]:
    """Read the list of cylinders, one to four."""
    if not isinstance(raw, list | dict) or raw == []:
        ledger.add("no-cylinder", ("cylinder",), "the record has no cylinder", instead="start one with [[cylinder]]")
        return []
    if len(raw) > MOST_CYLINDERS and isinstance(raw, list):
        message = f"the record has {len(raw)} cylinders; {MOST_CYLINDERS} are the most"
        instead = f"keep {MOST_CYLINDERS}, or write a record for each engine"
        ledger.add("too-many-cylinders", ("cylinder", MOST_CYLINDERS), message, instead=instead)
        return []
    return list(read_list(raw, "cylinder", ("cylinder",), ledger=ledger).values())


def read_list(raw: object, table: str, path: Path, *, ledger: Ledger) -> dict[int, Values]:
    """Read a table of which there may be several, by the place of each; what is no table is noted and left out."""
    if isinstance(raw, dict):
        ledger.add("one-bracket", path, f"{table} is headed with one bracket", instead=f"write [[{table}]]")
        raw = [raw]
    found: dict[int, Values] = {}
    for number, item in enumerate(raw if isinstance(raw, list) else [raw]):
        here = (*path, number)
        if isinstance(item, dict):
            found[number] = read_table(item, table, here, ledger=ledger)
        else:
            ledger.add("not-a-table", here, f"{table} is not a table", instead=f"head it with [[{table}]]")
    return found
