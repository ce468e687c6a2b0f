"""Compiling the running engine ahead of its first use, so that nobody at the bench waits for it."""

from __future__ import annotations

from math import pi

from lapwright.cycle.conditions import Conditions, Setup
from lapwright.cycle.cylinder_run import run_cylinder
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes

#: Any small engine will do.
_SIZES = {
    "bore": 0.02,
    "stroke": 0.02,
    "connecting_rod": 0.05,
    "piston_rod": 0.004,
    "clearance_head_share": 0.1,
    "clearance_crank_share": 0.1,
    "port_face.steam_port": 0.002,
    "port_face.bridge": 0.002,
    "port_face.exhaust_port": 0.004,
    "port_face.port_length": 0.008,
    "valve.length": 0.0125,
    "valve.cavity": 0.008,
    "valve_drive.throw": 0.0022,
    "valve_drive.eccentric_rod": 0.06,
    "valve_drive.eccentric_angle": 0.55 * pi,
}


def prepare_kernels() -> None:
    """Compile every kernel of a run and keep the machine code on disk; quick where that was done before."""
    conditions = Conditions(fluid="steam", supply=3e5, exhaust=101_325.0, speed=60.0)
    run_cylinder(Setup(Sizes("A", _SIZES), Running(wall_heat="usual", ring_gap=4e-6)), conditions, quick=True)
    run_cylinder(Setup(Sizes("A", _SIZES), Running(wall_heat="none")), conditions.dead(), quick=True)
