"""Lengths, angles, pressures...: read what people write, show it back, value and doubt."""

from lapwright.quantities.angle import Angle, read_angle
from lapwright.quantities.area import Area, read_area
from lapwright.quantities.clearance import read_clearance
from lapwright.quantities.coefficient import Coefficient, read_coefficient, read_dryness
from lapwright.quantities.duration import Duration, read_duration
from lapwright.quantities.flow import Flow, read_flow
from lapwright.quantities.inertia import Inertia, read_inertia
from lapwright.quantities.length import Length, read_gap, read_length
from lapwright.quantities.load import Power, Torque, read_load, read_power, read_torque
from lapwright.quantities.pressure import Pressure, read_pressure
from lapwright.quantities.quantity import Quantity
from lapwright.quantities.share import Share, Turns, read_share, read_turns
from lapwright.quantities.showing import (
    show_angle,
    show_inch,
    show_length_both,
    show_length_like,
    show_mm,
    show_number,
    show_pressure_like,
    show_share,
)
from lapwright.quantities.speed import Speed, read_speed
from lapwright.quantities.temperature import Temperature, read_temperature
from lapwright.quantities.thread import Thread, find_ba_sizes, read_thread
from lapwright.quantities.volume import Volume, read_volume

__all__ = [
    "Angle",
    "Area",
    "Coefficient",
    "Duration",
    "Flow",
    "Inertia",
    "Length",
    "Power",
    "Pressure",
    "Quantity",
    "Share",
    "Speed",
    "Temperature",
    "Thread",
    "Torque",
    "Turns",
    "Volume",
    "find_ba_sizes",
    "read_angle",
    "read_area",
    "read_clearance",
    "read_coefficient",
    "read_dryness",
    "read_duration",
    "read_flow",
    "read_gap",
    "read_inertia",
    "read_length",
    "read_load",
    "read_power",
    "read_pressure",
    "read_share",
    "read_speed",
    "read_temperature",
    "read_thread",
    "read_torque",
    "read_turns",
    "read_volume",
    "show_angle",
    "show_inch",
    "show_length_both",
    "show_length_like",
    "show_mm",
    "show_number",
    "show_pressure_like",
    "show_share",
]
