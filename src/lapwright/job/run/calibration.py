"""Friction and leaks of an engine from its bench tests, as they are told to a person and put into the record."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor, log10

from lapwright.cycle.bench_prediction import AIR_FLOW, DECAY_TIME, RUN_DOWN_TIME, TORQUE, TWO_SIDED, Reading
from lapwright.cycle.calibrating import Calibration, Estimate, calibrate
from lapwright.cycle.calibration_verdicts import (
    NEXT,
    READINGS,
    SAYS_NOTHING,
    TROUBLE,
    Verdict,
    list_informed,
    tell_verdicts,
)
from lapwright.engine.bench_test import DECAY, FITTED, RUN_DOWN, STEADY, BenchTest
from lapwright.job.run.notes import CAUTIONS, NO_PROOF, TURNING
from lapwright.job.showing import show_three, show_torque
from lapwright.job.visit import Visit
from lapwright.quantities import read_duration, read_flow, read_gap, read_pressure, show_number
from lapwright.quantities.duration import DURATION
from lapwright.quantities.flow import FLOW
from lapwright.quantities.length import GAP
from lapwright.quantities.pressure import PRESSURE
from lapwright.record import change_record, save_record

NO_TESTS = """\
The record has no bench test, so there is nothing to work friction and leaks out
from. Write down what you measured, one such table for every test, for example:

    [[bench_test]]                  # it ran steadily, light or against a load
    supply_pressure = "0.8 ± 0.05 bar"
    speed = "420 ± 10 rpm"
    air_flow = "14 L/min"           # if you can measure it

    [[bench_test]]                  # supply shut, drains open, down to rest
    run_down_from = "400 rpm"
    run_down_time = "8.5 s"

"lapwright new" writes a record with every line that a test may have."""
#: What goes with each kind of test, beside what goes with air, steam and turning parts.
CARE = {
    "run-down": "Running down: stand clear of flywheel, crank and belt until all is still, and never brake it by hand.",
    "decay": (
        "Shutting air in: air at low pressure only, from a regulator with a relief valve set to it, and eye protection "
        "on; let it out at the tap before a gland or a cover is touched."
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """In what a figure is shown: its name, and how much of it one is in SI."""

    name: str
    size: float

    def show(self, value: float) -> str:
        """Return a figure [SI] without its unit, to two figures."""
        return _round_to(value / self.size, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class CalibrationReport:
    """A calibration as it is told: the fit, sentences, and what to write into the record.

    `figures` has of each its name, how it stood before the tests, how it stands by them, and the test that tells most
    of it; `tests` has by test what it was, and its readings in sentences; `lines` has by key of the running engine the
    text that goes into the record, none while the tests do not agree.
    """

    name: str
    calibration: Calibration
    verdicts: tuple[Verdict, ...]
    tests: tuple[tuple[str, tuple[str, ...]], ...]
    lines: dict[str, str]
    figures: tuple[tuple[str, str, str, str], ...]
    cautions: tuple[str, ...]

    @property
    def told(self) -> tuple[str, ...]:
        """What the tests tell and leave open."""
        return tuple(verdict.sentence for verdict in self.verdicts if verdict.code not in NEXT)

    @property
    def tries(self) -> tuple[str, ...]:
        """What to try next."""
        return tuple(verdict.sentence for verdict in self.verdicts if verdict.code in NEXT)

    @property
    def has_trouble(self) -> bool:
        """Whether something must be cleared up before the figures are worth anything."""
        return any(verdict.code in TROUBLE for verdict in self.verdicts)


def report_calibration(visit: Visit) -> CalibrationReport:
    """Work out an engine's friction and leaks from its bench tests, and put them into words.

    Parameters
    ----------
    visit: the engine

    Raises
    ------
    CannotRun: there is no test, or sizes are missing, or a test cannot be worked out
    """
    calibration = calibrate(visit.engine)
    verdicts = tell_verdicts(calibration, wheel_is_weighed=visit.engine.running.flywheel_inertia is not None)
    units = {key: _choose_unit(visit, key) for key in FITTED}
    troubled = any(verdict.code in TROUBLE for verdict in verdicts)
    informed = () if troubled else list_informed(calibration)
    lines = {estimate.key: write_figure(estimate, units[estimate.key]) for estimate in informed}
    if lines:
        kept = [key for key in FITTED if key in lines or key in visit.engine.from_tests]
        lines["from_tests"] = ", ".join(kept)
    return CalibrationReport(
        name=visit.engine.name,
        calibration=calibration,
        verdicts=verdicts,
        tests=tuple(_tell_tests(visit, calibration)),
        lines=lines,
        figures=tuple(_show_figure(visit, estimate, units[estimate.key]) for estimate in calibration.estimates),
        cautions=tuple(_list_cautions(visit, verdicts)),
    )


def write_into_record(visit: Visit, report: CalibrationReport) -> None:
    """Put what the tests told into the record, every other byte of it left alone.

    Raises
    ------
    CannotChange: the record leaves no sure place for it
    RecordChanged: the file is not the one that was read
    CannotSave: the file system says no
    """
    opened = visit.record
    text = change_record(opened.text, {f"running.{key}": value for key, value in report.lines.items()})
    save_record(opened.source, text, expected_digest=opened.digest)


def write_figure(estimate: Estimate, unit: Unit) -> str:
    """Return a figure with its 95 % interval, as it is written in a record.

    Parameters
    ----------
    estimate: the figure
    unit: in what to write it
    """
    value = estimate.value / unit.size
    plus, minus = estimate.high / unit.size - value, value - estimate.low / unit.size
    # As fine as the doubt asks for, but never finer than the figure is worth.
    places = max(0, min(1 - floor(log10(min(plus, minus))), 2 - floor(log10(value))))
    shown, up, down = (show_number(part, places) for part in (value, plus, minus))
    least = show_number(10.0**-places, places)
    up, down = (least if float(part) == 0 else part for part in (up, down))
    return f"{shown} ± {up} {unit.name}" if up == down else f"{shown} +{up} -{down} {unit.name}"


def _show_figure(visit: Visit, estimate: Estimate, unit: Unit) -> tuple[str, str, str, str]:
    before, after, source = _show_before(visit, estimate, unit), "as before", ""
    if estimate.kept <= SAYS_NOTHING:
        after = f"{unit.show(estimate.value)} ({unit.show(estimate.low)} to {unit.show(estimate.high)}) {unit.name}"
        source = "" if estimate.mostly_from is None else f"test {estimate.mostly_from}"
    return estimate.key.replace("_", " "), before, after, source


def _show_before(visit: Visit, estimate: Estimate, unit: Unit) -> str:
    """What stood for a figure before the tests: as the record has it where it was measured, or with the usual range."""
    prior = estimate.prior
    if prior.is_own and (prior.spread == 0 or estimate.key in visit.engine.running.doubts):
        return visit.record.written.get(f"running.{estimate.key}", f"{unit.show(prior.value)} {unit.name}")
    low, high = prior.interval
    return f"{unit.show(prior.value)} ({unit.show(low)} to {unit.show(high)}) {unit.name}"


def _round_to(value: float, figures: int) -> str:
    if value == 0:
        return "0"
    rounded = float(f"{value:.{figures - 1}e}")
    return show_number(rounded, max(0, figures - 1 - floor(log10(abs(rounded)))))


def _choose_unit(visit: Visit, key: str) -> Unit:
    """The unit in which the record gives the figure, or in which it gives pressures; otherwise µm and bar."""
    written = visit.record.written
    own = written.get(f"running.{key}")
    if key != "friction_pressure":
        name, size = GAP.units[read_gap(own).unit if own else "µm"]
        return Unit(name=name, size=float(size))
    pressures = [text for path, text in written.items() if path.endswith("supply_pressure")]
    name, size = PRESSURE.units[read_pressure(text).unit if (text := own or next(iter(pressures), "")) else "bar"]
    return Unit(name=name, size=float(size))


def _tell_tests(visit: Visit, calibration: Calibration) -> Iterator[tuple[str, tuple[str, ...]]]:
    for test in visit.engine.bench_tests:
        own = [reading for reading in calibration.readings if reading.number == test.number]
        yield _describe_test(visit, test), tuple(tell_reading(visit, reading) for reading in own)


def _describe_test(visit: Visit, test: BenchTest) -> str:
    parts = []
    if test.has(STEADY):
        fluid = test.fluid or visit.engine.fluid or "air"
        load = _find_written(visit, test.number, "load")
        against = f"against {load}" if load and (test.load_torque or test.load_power) else "light"
        pressure, speed = (_find_written(visit, test.number, key) for key in STEADY)
        parts.append(f"{pressure} of {fluid}, {speed}, {against}")
        parts += [f"cylinder {test.dead} dragged"] if test.dead else []
    if test.has(RUN_DOWN):
        parts.append(f"run down from {_find_written(visit, test.number, 'run_down_from')}")
    if test.has(DECAY):
        start, stop, _, volume = (_find_written(visit, test.number, key) for key in DECAY)
        parts.append(f"shut in, from {start} to {stop}, {volume}")
    return f"Test {test.number}: {'; '.join(parts)}"


def _find_written(visit: Visit, number: int, key: str) -> str:
    return visit.record.written.get(f"bench_test.{number - 1}.{key}", "")


def tell_reading(visit: Visit, reading: Reading) -> str:
    """Say what a reading was and what the fit makes of it.

    Parameters
    ----------
    visit: the engine, whose record has the units
    reading: one of the calibration's
    """
    outside = abs(reading.off) > TWO_SIDED
    how_far = f", {show_number(abs(reading.off) / TWO_SIDED, 1)} times its doubt off" if outside else ""
    if reading.kind == TORQUE:
        doubt = TWO_SIDED * reading.scatter
        left = reading.predicted - reading.measured
        friction = reading.indicated - reading.predicted
        load = f", the load {show_torque(reading.measured)}" if reading.measured else ""
        return (
            f"torque: the pistons give {show_torque(reading.indicated)}, friction takes {show_torque(friction)}{load}; "
            f"{show_torque(abs(left))} {'left over' if left >= 0 else 'missing'}, with a doubt of "
            f"{show_torque(doubt)}{how_far}"
        )
    by_fit, measured = _show_both(visit, reading)
    return f"{READINGS[reading.kind]}: {by_fit} by the fit, {measured} measured{how_far}"


def _show_both(visit: Visit, reading: Reading) -> tuple[str, str]:
    """What the fit gives and what was measured, both in the unit of the record."""
    key = {AIR_FLOW: "air_flow", RUN_DOWN_TIME: "run_down_time", DECAY_TIME: "decay_time"}[reading.kind]
    written = _find_written(visit, reading.number, key)
    kind, unit = (
        (FLOW, read_flow(written).unit) if reading.kind == AIR_FLOW else (DURATION, read_duration(written).unit)
    )
    found = kind.find_unit(unit)
    size = float(found[1]) if found is not None else 1.0
    return f"{show_three(reading.predicted / size)} {unit}", written


def _list_cautions(visit: Visit, verdicts: tuple[Verdict, ...]) -> Iterator[str]:
    tests, codes = visit.engine.bench_tests, {verdict.code for verdict in verdicts}
    fluids = {test.fluid or visit.engine.fluid or "air" for test in tests if test.has(STEADY)}
    shuts_in = any(test.has(DECAY) for test in tests) or codes & {"try-pressure-fall", "try-soapy-water"}
    yield from (CAUTIONS[fluid] for fluid in ("air", "steam") if fluid in fluids)
    yield TURNING
    if any(test.has(RUN_DOWN) for test in tests) or "try-run-down" in codes:
        yield CARE["run-down"]
    if shuts_in:
        yield CARE["decay"]
    yield NO_PROOF
