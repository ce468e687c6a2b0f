"""The table of the running engine: what cannot be true is noted and left out, the rest becomes plain numbers in SI."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from lapwright.engine.running import Running
from lapwright.engine.sizes import Doubt
from lapwright.quantities import Pressure, Torque
from lapwright.record.contents import Values
from lapwright.record.problem import Ledger

_GAP, _BORE = (0.0, 1e-3, "0 and 1 mm"), (1e-4, 1.0, "0.1 mm and 1 m")
#: Between which figures each lies, in SI, and how they are shown.
_RANGES: Mapping[str, tuple[float, float, str]] = {
    "discharge_coefficient": (0.1, 1.0, "0.1 and 1"),
    "friction_pressure": (0.0, 5e5, "0 and 5 bar"),
    "ring_gap": _GAP,
    "valve_face_gap": _GAP,
    "gland_gap": _GAP,
    "steam_dryness": (0.5, 1.0, "0.5 and 1"),
    "flywheel_inertia": (1e-9, 1000.0, "0.01 g cm2 and 1000 kg m2"),
    "supply_bore": _BORE,
    "exhaust_bore": _BORE,
    "passage_bore": _BORE,
    "valve_friction": (0.0, 1.0, "0 and 1"),
}
#: Compressed air of a workshop, with some heat from the compressor or without; steam up to a strong superheat [K].
_AIR = (223.15, 603.15, "-50 and 330 degC for air")
_STEAM = (373.0, 873.15, "100 and 600 degC for steam")
_THIN_STEAM = (313.15, 873.15, "40 and 600 degC for steam below the atmosphere's pressure")
_EITHER = (223.15, 873.15, "-50 and 600 degC")


def build_running(values: Values, *, engine: Values, ledger: Ledger) -> Running:
    """Build what is known of the running from the table's values; `engine` are those of the engine's own table."""
    known = {key: value for key, value in values.items() if _is_likely(key, value, engine, ledger=ledger)}
    _check_steam(known, engine, ledger=ledger)
    numbers: dict[str, Any] = {}
    doubts: dict[str, Doubt] = {}
    for key, value in known.items():
        name = _name_field(key, value)
        numbers[name] = value if isinstance(value, str) else value.si
        if not isinstance(value, str) and value.doubt_plus is not None and (value.doubt_plus or value.doubt_minus):
            doubts[name] = Doubt(value.doubt_plus, value.doubt_minus)
    return Running(**numbers, doubts=doubts)


def _name_field(key: str, value: object) -> str:
    """The record has one key for the load, whichever way it is given."""
    return key if key != "load" else "load_torque" if isinstance(value, Torque) else "load_power"


def _is_likely(key: str, value: Any, engine: Values, *, ledger: Ledger) -> bool:
    """Whether a value can be true by itself; if not it is noted."""
    if isinstance(value, str):
        return True
    path = ("running", key)
    if isinstance(value, Pressure) and value.absolute:
        message = f"{key}: {value} is absolute, but this is a difference of pressures"
        ledger.add("not-absolute", path, message, instead='write it without "abs", like "0.25 bar"')
        return False
    if key == "load":
        if value.value < 0:
            message = f"{key}: {value} would drive the engine"
            ledger.add("absurd", path, message, instead="write what the engine drives, or leave it out if nothing")
        return bool(value.value >= 0)
    least, most, span = _find_range(key, engine)
    if not least <= value.si <= most:
        message = f"{key}: {value} is not between {span}"
        ledger.add("absurd", path, message, instead="check the figure, or leave it out")
        return False
    if value.minus is not None and value.minus > value.value:
        message = f"{key}: {value} has a doubt larger than itself"
        ledger.add("doubt-too-large", path, message, instead="write how far it may really be out")
        return False
    return True


def _find_range(key: str, engine: Values) -> tuple[float, float, str]:
    if key != "supply_temperature":
        return _RANGES[key]
    supply = engine.get("supply_pressure")
    steam = _THIN_STEAM if supply is not None and supply.gauge < 0 else _STEAM
    return {"air": _AIR, "steam": steam}.get(engine.get("fluid", ""), _EITHER)


def _check_steam(known: Values, engine: Values, *, ledger: Ledger) -> None:
    if engine.get("fluid") == "steam" and "steam_dryness" in known and "supply_temperature" in known:
        temperature = known["supply_temperature"]
        message = f"steam_dryness: supply_temperature is given too, and steam superheated to {temperature} is dry"
        instead = "keep one of the two; as it stands the temperature counts"
        ledger.add("given-both-ways", ("running", "steam_dryness"), message, instead=instead, severity="warning")
