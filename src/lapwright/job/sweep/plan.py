"""All settings of a sweep, by number: each is the record with some of its figures replaced."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from importlib.metadata import version
from math import prod

from lapwright.engine.engine import Engine
from lapwright.errors import CannotRun, CannotSweep, CannotVary, FlawedRecord
from lapwright.job.sweep.keys import SPEED, Place, Varied, read_varied
from lapwright.quantities import Pressure, Quantity, read_load, read_pressure, read_speed
from lapwright.record import OpenedRecord, Problem, change_record
from lapwright.record.building import build_sizes
from lapwright.record.contents import Values, read_cylinders, read_table
from lapwright.record.fitting import Bench
from lapwright.record.problem import Ledger
from lapwright.record.running import build_running
from lapwright.record.syntax import load_tables

#: More settings than this would take weeks.
MOST_ROWS = 10_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepAsked:
    """What is asked of every setting: texts as people write them, None where nothing is said.

    `ideal` leaves out leaks, wall heat and friction; `fine` runs each setting as closely as a single run would;
    `least_pressure` also looks for the lowest pressure at which the engine turns over.
    """

    fluid: str | None = None
    pressure: str | None = None
    speed: str | None = None
    load: str | None = None
    ideal: bool = False
    fine: bool = False
    least_pressure: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepPlan:
    """What is worked out: the engine, what was read of its record by table or cylinder, what varies, how it is run.

    `speed` [rad/s] is None where it varies, or is found from the load (`loaded`), or is an easy one for the stroke.
    `told` is the whole plan in words.
    """

    engine: Engine
    values: Mapping[str | int, Values]
    varied: tuple[Varied, ...]
    asked: SweepAsked
    fluid: str
    speed: float | None
    loaded: bool
    told: str

    @property
    def digest(self) -> str:
        """What tells the plan from any other: the SHA-256 of all that a figure may depend on."""
        return hashlib.sha256(self.told.encode()).hexdigest()

    @property
    def rows(self) -> int:
        """How many settings there are."""
        return prod(varied.steps for varied in self.varied)

    def steps(self, row: int) -> tuple[int, ...]:
        """Return at which step each key stands in a row, counted from 0; what is named last changes quickest."""
        found = []
        for varied in reversed(self.varied):
            row, step = divmod(row, varied.steps)
            found.append(step)
        return tuple(reversed(found))

    def numbers(self, row: int) -> list[str]:
        """Return the varied figures of a row, each in the unit in which it was given."""
        return [varied.number(step) for varied, step in zip(self.varied, self.steps(row), strict=True)]

    def choose_speed(self, row: int) -> float | None:
        """Return the speed of a row [rad/s]; None where it is not given."""
        for varied, step in zip(self.varied, self.steps(row), strict=True):
            if SPEED in varied.places:
                return varied.quantity(step).si
        return self.speed

    def build_engine(self, row: int) -> Engine:
        """Return the engine that the record would tell of with the figures of a row.

        Raises
        ------
        CannotRun: the figures do not go together
        """
        values = {table: dict(known) for table, known in self.values.items()}
        for varied, step in zip(self.varied, self.steps(row), strict=True):
            quantity = varied.quantity(step)
            for table, key in varied.places:
                values[table][key] = quantity
        ledger = Ledger()
        engine = replace(
            self.engine,
            cylinders=tuple(build_sizes(Bench(n, values[n], ledger)) for n in range(len(self.engine.cylinders))),
            running=build_running(values["running"], engine=values["engine"], ledger=ledger),
            fluid=self.fluid,
            supply_pressure=_gauge(values["engine"].get("supply_pressure")),
            exhaust_pressure=_gauge(values["engine"].get("exhaust_pressure")),
        )
        wrong = next((problem for problem in ledger.close() if problem.severity == "error"), None)
        if wrong is not None:
            raise CannotRun(self._name_part(wrong), wrong.message)
        return engine

    def _name_part(self, problem: Problem) -> str:
        parts = problem.key.split(".")
        return f"cylinder {self.engine.cylinders[int(parts[1])].name}" if parts[0] == "cylinder" else "the engine"


def _gauge(pressure: Pressure | None) -> float | None:
    return None if pressure is None else pressure.gauge


def plan_sweep(record: OpenedRecord, vary: Iterable[str], asked: SweepAsked) -> SweepPlan:
    """Lay out every setting of a sweep.

    Parameters
    ----------
    record: the engine's
    vary: what varies, like `valve.length=13 mm:14 mm:50`; the last of several changes quickest
    asked: what each setting is run on, and what is wanted of it

    Raises
    ------
    FlawedRecord: the record has errors
    CannotVary: a key or a range that will not do
    CannotSweep: conditions that exclude each other, or too many settings
    BadInput: a pressure, speed or load that cannot be read
    """
    if record.engine is None or not record.is_sound:
        raise FlawedRecord(record.source, record.problems)
    names = tuple(sizes.name for sizes in record.engine.cylinders)
    varied = tuple(read_varied(text, names) for text in vary)
    _check_varied(record, varied)
    fluid = asked.fluid or record.engine.fluid or "air"
    values = _read_values(record.engine, record.text)
    _set_conditions(values, asked, fluid=fluid)
    places = {place for item in varied for place in item.places}
    _check_speed(asked, places)
    timed = asked.speed is not None or SPEED in places
    return SweepPlan(
        engine=record.engine,
        values=values,
        varied=varied,
        asked=asked,
        fluid=fluid,
        speed=None if asked.speed is None else read_speed(asked.speed).si,
        loaded=not timed and ("load" in values["running"] or ("running", "load") in places),
        told=_tell(record, varied, asked, fluid=fluid),
    )


def _check_varied(record: OpenedRecord, varied: tuple[Varied, ...]) -> None:
    """Refuse what varies twice, what the record gives in another way, and more settings than can be lived with."""
    if not varied:
        raise CannotSweep("nothing varies", 'say what does, like --vary "valve.length=13 mm:14 mm:50"')
    seen = set()
    for item in varied:
        for table, key in item.places:
            if (table, key) in seen:
                raise CannotVary(item.key, "it varies twice", "name each key once")
            seen.add((table, key))
            if (table, key) != SPEED:
                where = f"cylinder.{table}" if isinstance(table, int) else table
                change_record(record.text, {f"{where}.{key}": str(item.first)})
    rows = prod(item.steps for item in varied)
    if rows > MOST_ROWS:
        raise CannotSweep(f"{rows:,} settings are too many", f"keep to {MOST_ROWS:,} at most")


def _read_values(engine: Engine, text: str) -> dict[str | int, Values]:
    """Read the figures and words of a sound record, by table or number of the cylinder."""
    loaded = load_tables(text)
    assert not isinstance(loaded, Problem)
    raw, ledger = loaded[0], Ledger()
    values: dict[str | int, Values] = {SPEED[0]: {}}
    for table in ("engine", "running"):
        read = read_table(raw.get(table, {}), table, (table,), ledger=ledger)
        values[table] = {key: value for key, value in read.items() if isinstance(value, Quantity | str)}
    values.update(enumerate(read_cylinders(raw["cylinder"], ledger=ledger)))
    for number, sizes in enumerate(engine.cylinders):
        values[number]["name"] = sizes.name
    return values


def _set_conditions(values: dict[str | int, Values], asked: SweepAsked, *, fluid: str) -> None:
    """Put what was asked in the place of what the record says."""
    if values["engine"].get("fluid") not in (None, fluid):
        # What the record says of the one does not hold for the other.
        values["running"].pop("supply_temperature", None)
    values["engine"]["fluid"] = fluid
    if asked.pressure is not None:
        values["engine"]["supply_pressure"] = read_pressure(asked.pressure)
    if asked.load is not None:
        values["running"]["load"] = read_load(asked.load)


def _check_speed(asked: SweepAsked, places: set[Place]) -> None:
    """A speed is given, or varied, or found from the load: one of them."""
    for text, place, name in (
        (asked.speed, SPEED, "speed"),
        (asked.load, ("running", "load"), "load"),
        (asked.pressure, ("engine", "supply_pressure"), "pressure"),
    ):
        if text is not None and place in places:
            raise CannotSweep(f"the {name} is given, and varies", "keep one of the two")
    timed = asked.speed is not None or SPEED in places
    if asked.ideal and asked.least_pressure:
        why = "without friction and leaks the least pressure turns it over"
        raise CannotSweep(why, "leave out one of --ideal and --least-pressure")
    if timed and (asked.load is not None or ("running", "load") in places):
        raise CannotSweep("the speed is given, and is to be found from the load", "keep one of the two")


def _tell(record: OpenedRecord, varied: tuple[Varied, ...], asked: SweepAsked, *, fluid: str) -> str:
    """The plan as JSON: whatever a figure in the table may depend on."""
    told = {
        "program": f"lapwright {version('lapwright')}",
        "record": record.digest,
        "engine": record.engine.name if record.engine else "",
        "vary": [item.shown for item in varied],
        "fluid": fluid,
        "pressure": asked.pressure,
        "speed": asked.speed,
        "load": asked.load,
        "ideal": asked.ideal,
        "fine": asked.fine,
        "least_pressure": asked.least_pressure,
    }
    return json.dumps(told, ensure_ascii=False)
