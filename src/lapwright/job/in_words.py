"""Codes and record keys in the words of a person, and back again: what is written in the log and shown on a page."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from math import degrees

from lapwright.engine.sizes import VALVE_EDGES
from lapwright.findings.finding import CODES, PART_CODES
from lapwright.papers.measure_terms import TERMS, call_size, split_key
from lapwright.quantities import read_angle, read_length, show_number

#: A record key in a sentence.
_KEY = re.compile(r"\b[a-z_]+(?:\.[A-Za-z0-9_]+)+")
#: A code with its hyphens.
_CODE = re.compile(r"[a-z]+(?:[-+][a-z]+)*")
#: As finely as figures are told.
_PLACES = {"mm": 2, "deg": 1}


def find_unit(key: str) -> str:
    """Return in what a size of the record is told: "deg" or "mm".

    Parameters
    ----------
    key: record key of a cylinder

    Example:
    >>> find_unit("valve_drive.eccentric_angle"), find_unit("valve.length")
    ('deg', 'mm')
    """
    return "deg" if key.endswith("_angle") else "mm"


def write_size(key: str, value: float) -> str:
    """Write a size of a cylinder with its unit.

    Parameters
    ----------
    key: its record key
    value: of it [SI]

    Example:
    >>> write_size("valve.length", 0.012), write_size("valve_drive.eccentric_angle", 1.5707963)
    ('12.00 mm', '90.0 deg')
    """
    unit = find_unit(key)
    return f"{show_number(degrees(value) if unit == 'deg' else value * 1e3, _PLACES[unit])} {unit}"


def read_size(key: str, written: str) -> float:
    """Read a size of a cylinder [SI].

    Parameters
    ----------
    key: its record key
    written: with its unit

    Raises
    ------
    BadInput
    """
    return float(read_angle(written).si) if find_unit(key) == "deg" else float(read_length(written).si)


def find_size(name: str) -> str:
    """Return the record key of a size of the valve or its drive by its name, empty where it is none.

    Parameters
    ----------
    name: as `call_size` has it, or the key itself, as it was written in earlier logs

    Example:
    >>> find_size("valve length"), find_size("valve_drive.throw"), find_size("lead, head end")
    ('valve.length', 'valve_drive.throw', '')
    """
    return _list_names().get(name, name if name in _list_names().values() else "")


@cache
def _list_names() -> Mapping[str, str]:
    start = "cylinder."
    keys = [key.removeprefix(start) for key in TERMS if key.startswith((f"{start}valve.", f"{start}valve_drive."))]
    keys = [key for key in keys if not key.endswith(".edges")]
    return {call_size(key): key for key in (*keys, *VALVE_EDGES)}


def say_code(code: str) -> str:
    """Say the code of a cure in words.

    Parameters
    ----------
    code: of the cure

    Example:
    >>> say_code("turn-eccentric+new-throw")
    'turn eccentric and new throw'
    """
    return code.replace("+", " and ").replace("-", " ")


def find_code(words: str) -> str:
    """Return the code of a cure from its words, or from the code itself.

    Parameters
    ----------
    words: as `say_code` has them

    Example:
    >>> find_code("turn eccentric and new throw"), find_code("new-valve")
    ('turn-eccentric+new-throw', 'new-valve')
    """
    return words.replace(" and ", "+").replace(" ", "-")


def say_keys(sentence: str) -> str:
    """Say a sentence with the names of sizes in place of their record keys.

    Parameters
    ----------
    sentence: of a lower room

    Example:
    >>> say_keys("cylinder A cannot be run: not known: valve.cavity"), say_keys("tern.toml was changed")
    ('cylinder A cannot be run: not known: cavity', 'tern.toml was changed')
    """
    return _KEY.sub(lambda found: _say_key(found[0]), sentence)


def _say_key(key: str) -> str:
    # A cylinder is called by its name or its number.
    plain = re.sub(r"^cylinder\.[^.]+\.", "", key)
    is_known = any(split_key(path)[0] in TERMS for path in (plain, f"cylinder.{plain}", f"engine.{plain}"))
    return call_size(plain) if is_known else key


def say_reading(name: str, value: str) -> tuple[str, str]:
    """Return a reading of the log as it is shown; those of earlier logs have codes and record keys in them.

    Parameters
    ----------
    name: of the reading
    value: as it was written

    Example:
    >>> say_reading("cure chosen", "new-valve"), say_reading("valve.length", "13.5000 mm")
    (('cure chosen', 'new valve'), ('valve length', '13.50 mm'))
    >>> say_reading("finding", "A gland-leaks gland of the valve spindle"), say_reading("finding", "scored-face")
    (('finding', 'A: gland leaks, gland of the valve spindle'), ('finding', 'scored-face'))
    """
    if name == "cure chosen":
        return name, say_code(value) if _CODE.fullmatch(value) else value
    if name == "finding":
        return name, say_finding(value)
    key = find_size(name)
    if not key or key != name:
        return name, value
    figure = re.fullmatch(r"(-?\d+\.\d+) (mm|deg)", value)
    return call_size(key), f"{show_number(float(figure[1]), _PLACES[figure[2]])} {figure[2]}" if figure else value


def say_finding(ref: str) -> str:
    """Return the name of a finding from the one that earlier logs gave it; any other text stays as it is.

    Parameters
    ----------
    ref: as it was written
    """
    found = _list_old_names().fullmatch(ref)
    if found is None:
        return ref
    cylinder, code, end, part = (found[name] or "" for name in ("cylinder", "code", "end", "part"))
    return tell_finding(cylinder, code, end=end, part=part)


@cache
def _list_old_names() -> re.Pattern[str]:
    """Cylinder, code, end and part, with nothing but a space between them."""
    codes = "|".join((*CODES, *PART_CODES))
    return re.compile(rf"(?:(?P<cylinder>.+?) )?(?P<code>{codes})(?: (?P<end>head|crank))?(?: (?P<part>.+))?")


def tell_finding(cylinder: str, code: str, *, end: str = "", part: str = "") -> str:
    """Return what a finding is called in the log.

    Parameters
    ----------
    cylinder: by its name; empty for the engine as a whole
    code: of the finding
    end: "head" or "crank"; empty for none
    part: by its name; empty for none

    Example:
    >>> tell_finding("A", "valve-too-long"), tell_finding("B", "port-starved", end="head")
    ('A: valve too long', 'B: port starved, head end')
    """
    start = f"{cylinder}: " if cylinder else ""
    return ", ".join(filter(None, (start + code.replace("-", " "), end and f"{end} end", part)))
