"""How the figures of a running engine and its bench tests are found (common practice, no source)."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.job.measure.guide import OPEN_CAUTION, TEST_CAUTION, Guide

_FITTED = "bench tests; until you have some, leave it out"
_GUESS = "a factor of two, unless it comes from bench tests"
_DRILL = "± 0.1 mm with a drill as a plug gauge"
_STOPWATCH = "± 0.3 s by hand"

_RUNNING: Mapping[str, Guide] = {
    "discharge_coefficient": Guide(_FITTED, "Ports with sharp corners pass about 0.6 to 0.8 of their area.", "± 0.1"),
    "friction_pressure": Guide(_FITTED, "The page Run works it out from a run without load or a run-down.", _GUESS),
    "ring_gap": Guide(_FITTED, "Or from feeler gauges round the piston, which only tell the widest place.", _GUESS),
    "valve_face_gap": Guide(_FITTED, "Or from a blue test: where the face is not blue, it does not touch.", _GUESS),
    "gland_gap": Guide(_FITTED, "Soap round the gland shows whether it leaks at all.", _GUESS, TEST_CAUTION),
    "wall_heat": Guide("no tool", "Usual for steam; none to compare with textbooks, which leave it out.", "a choice"),
    "supply_temperature": Guide(
        "thermometer in a pocket of the pipe",
        "Of steam only if it is superheated; else the pressure tells it.",
        "± 3 degC",
    ),
    "steam_dryness": Guide("no tool", "A short dry pipe brings 0.95 to 1; a long bare one less.", "± 0.03"),
    "load": Guide("brake or known machine", "What it drives, as a torque or as a power.", "± 10 %", TEST_CAUTION),
    "flywheel_inertia": Guide(
        "scale and rule",
        "Weigh the flywheel and measure it: half the mass times the radius squared for a plain disc, nearly the "
        "whole for a heavy rim.",
        "± 10 %",
    ),
    "supply_bore": Guide(
        "drills as plug gauges", "The narrowest place between valve chest and supply.", _DRILL, OPEN_CAUTION
    ),
    "exhaust_bore": Guide("drills as plug gauges", "The narrowest place of the exhaust pipe.", _DRILL, OPEN_CAUTION),
    "passage_bore": Guide(
        "drills as plug gauges", "The narrowest place between a port and its end of the cylinder.", _DRILL, OPEN_CAUTION
    ),
    "valve_friction": Guide("no tool", "About 0.05 to 0.15 for oiled metal on metal.", "a factor of two"),
    "from_tests": Guide("no tool", "Calibration on the page Run writes this line itself.", "exact"),
}
_BENCH_TEST: Mapping[str, Guide] = {
    "fluid": Guide("no tool", "What this test was run on.", "a choice"),
    "supply_pressure": Guide(
        "pressure gauge at the chest", "Read it while the speed is steady.", "± 0.05 bar", TEST_CAUTION
    ),
    "exhaust_pressure": Guide("pressure gauge", "0 bar with an open pipe.", "± 0.05 bar", TEST_CAUTION),
    "speed": Guide("tachometer, or counting for a minute", "When it no longer rises or falls.", "± 2 %", TEST_CAUTION),
    "load": Guide("brake", "What it drove then; leave it out for a run without load.", "± 10 %", TEST_CAUTION),
    "air_flow": Guide(
        "flow meter in the supply", "Free air, as the meter says after correction.", "± 5 %", TEST_CAUTION
    ),
    "dead": Guide("no tool", "The name of a cylinder that was only dragged, its pipes off.", "exact", TEST_CAUTION),
    "run_down_from": Guide("tachometer", "The speed at the moment the supply is shut.", "± 2 %", TEST_CAUTION),
    "run_down_time": Guide("stop watch", "From shutting the supply until it stands.", _STOPWATCH, TEST_CAUTION),
    "decay_from": Guide(
        "pressure gauge", "Valve over both ports, air shut in at a tap: the first reading.", "± 0.02 bar", TEST_CAUTION
    ),
    "decay_to": Guide("pressure gauge", "The second reading.", "± 0.02 bar", TEST_CAUTION),
    "decay_time": Guide("stop watch", "Between the two readings.", _STOPWATCH, TEST_CAUTION),
    "decay_volume": Guide("water from a measure", "What was shut in: chest, and pipe up to the tap.", "± 5 %"),
    "note": Guide("no tool", "Oil, glands, weather: what would explain a different figure next time.", "any words"),
}
#: Guidance by table and key.
RUNNING_GUIDES: Mapping[str, Mapping[str, Guide]] = {"running": _RUNNING, "bench_test": _BENCH_TEST}
