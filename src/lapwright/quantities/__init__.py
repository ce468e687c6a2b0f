"""Lengths, angles, pressures...: read what people write, show it back, value and doubt."""

from importlib import import_module
from typing import TYPE_CHECKING

# A quick look-up wants few of them: each is fetched from its module when it is first asked for.
if TYPE_CHECKING:
    from lapwright.quantities.angle import Angle as Angle
    from lapwright.quantities.angle import read_angle as read_angle
    from lapwright.quantities.area import Area as Area
    from lapwright.quantities.area import read_area as read_area
    from lapwright.quantities.clearance import read_clearance as read_clearance
    from lapwright.quantities.coefficient import Coefficient as Coefficient
    from lapwright.quantities.coefficient import read_coefficient as read_coefficient
    from lapwright.quantities.coefficient import read_dryness as read_dryness
    from lapwright.quantities.duration import Duration as Duration
    from lapwright.quantities.duration import read_duration as read_duration
    from lapwright.quantities.flow import Flow as Flow
    from lapwright.quantities.flow import read_flow as read_flow
    from lapwright.quantities.inertia import Inertia as Inertia
    from lapwright.quantities.inertia import read_inertia as read_inertia
    from lapwright.quantities.length import Length as Length
    from lapwright.quantities.length import read_gap as read_gap
    from lapwright.quantities.length import read_length as read_length
    from lapwright.quantities.load import Power as Power
    from lapwright.quantities.load import Torque as Torque
    from lapwright.quantities.load import read_load as read_load
    from lapwright.quantities.load import read_power as read_power
    from lapwright.quantities.load import read_torque as read_torque
    from lapwright.quantities.pressure import Pressure as Pressure
    from lapwright.quantities.pressure import read_pressure as read_pressure
    from lapwright.quantities.quantity import Quantity as Quantity
    from lapwright.quantities.share import Share as Share
    from lapwright.quantities.share import Turns as Turns
    from lapwright.quantities.share import read_share as read_share
    from lapwright.quantities.share import read_turns as read_turns
    from lapwright.quantities.showing import show_angle as show_angle
    from lapwright.quantities.showing import show_inch as show_inch
    from lapwright.quantities.showing import show_length_both as show_length_both
    from lapwright.quantities.showing import show_length_like as show_length_like
    from lapwright.quantities.showing import show_mm as show_mm
    from lapwright.quantities.showing import show_number as show_number
    from lapwright.quantities.showing import show_pressure_like as show_pressure_like
    from lapwright.quantities.showing import show_share as show_share
    from lapwright.quantities.speed import Speed as Speed
    from lapwright.quantities.speed import read_speed as read_speed
    from lapwright.quantities.temperature import Temperature as Temperature
    from lapwright.quantities.temperature import read_temperature as read_temperature
    from lapwright.quantities.thread import Thread as Thread
    from lapwright.quantities.thread import find_ba_sizes as find_ba_sizes
    from lapwright.quantities.thread import read_thread as read_thread
    from lapwright.quantities.volume import Volume as Volume
    from lapwright.quantities.volume import read_volume as read_volume

_MODULE_OF = {
    "Angle": "angle",
    "Area": "area",
    "Coefficient": "coefficient",
    "Duration": "duration",
    "Flow": "flow",
    "Inertia": "inertia",
    "Length": "length",
    "Power": "load",
    "Pressure": "pressure",
    "Quantity": "quantity",
    "Share": "share",
    "Speed": "speed",
    "Temperature": "temperature",
    "Thread": "thread",
    "Torque": "load",
    "Turns": "share",
    "Volume": "volume",
    "find_ba_sizes": "thread",
    "read_angle": "angle",
    "read_area": "area",
    "read_clearance": "clearance",
    "read_coefficient": "coefficient",
    "read_dryness": "coefficient",
    "read_duration": "duration",
    "read_flow": "flow",
    "read_gap": "length",
    "read_inertia": "inertia",
    "read_length": "length",
    "read_load": "load",
    "read_power": "load",
    "read_pressure": "pressure",
    "read_share": "share",
    "read_speed": "speed",
    "read_temperature": "temperature",
    "read_thread": "thread",
    "read_torque": "load",
    "read_turns": "share",
    "read_volume": "volume",
    "show_angle": "showing",
    "show_inch": "showing",
    "show_length_both": "showing",
    "show_length_like": "showing",
    "show_mm": "showing",
    "show_number": "showing",
    "show_pressure_like": "showing",
    "show_share": "showing",
}

__all__ = list(_MODULE_OF)


def __getattr__(name: str) -> object:
    """Fetch a name from the module it lives in, and keep it for the next time."""
    module = _MODULE_OF.get(name)
    if module is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: object = getattr(import_module(f"{__name__}.{module}"), name)
    globals()[name] = value
    return value
