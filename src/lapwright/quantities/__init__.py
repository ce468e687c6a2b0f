"""Lengths, angles, pressures...: read what people write, show it back, value and doubt."""

from lapwright.quantities.angle import Angle, read_angle
from lapwright.quantities.length import Length, read_length
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
from lapwright.quantities.thread import Thread, find_ba_sizes, read_thread

__all__ = [
    "Angle",
    "Length",
    "Pressure",
    "Quantity",
    "Share",
    "Thread",
    "Turns",
    "find_ba_sizes",
    "read_angle",
    "read_length",
    "read_pressure",
    "read_share",
    "read_thread",
    "read_turns",
    "show_angle",
    "show_inch",
    "show_length_both",
    "show_length_like",
    "show_mm",
    "show_number",
    "show_pressure_like",
    "show_share",
]
