"""From read values to the engine: plain numbers in SI, their doubts, and what had to be assumed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from lapwright.engine.engine import Engine, Target
from lapwright.engine.sizes import NUMBER_KEYS, SHARE_KEYS, Doubt, Sizes
from lapwright.quantities import Share
from lapwright.record.bench_tests import build_tests
from lapwright.record.contents import Values
from lapwright.record.fitting import LONGEST, Bench, check_sizes
from lapwright.record.parts import build_fasteners, build_finish, build_glands, build_pins
from lapwright.record.problem import Ledger
from lapwright.record.running import build_running

#: Sizes taken as nothing where they are not given, and why that is the likeliest.
_ZERO_UNLESS_GIVEN = {
    "cylinder_offset": "not given: taken as 0, the cylinder line through the shaft centre",
    "valve_drive.valve_line_offset": "not given: taken as 0, the valve line through the shaft centre",
    "valve_drive.valve_offset": "not given: taken as 0, the valve midway over the ports",
}
_FIRST_PHASE = "not given: taken as 0, angles are counted from the first cylinder's crank"


def build_engine(
    cylinders: list[Values],
    *,
    single: Mapping[str, Values],
    several: Mapping[str, Mapping[int, Values]],
    ledger: Ledger,
) -> Engine | None:
    """Build the engine as far as it is known, None without a cylinder; what does not fit is noted.

    `single` holds the tables of which there is one, `several` those of which there may be several, by their names.
    """
    engine, target, running = single["engine"], single["target"], single["running"]
    if "name" not in engine and not any(p.key == "engine.name" for p in ledger.problems):
        ledger.add("no-name", ("engine", "name"), "the engine has no name", instead='write name = "..." under [engine]')
    _check_pressures(engine, ledger=ledger)
    _check_target(target, ledger=ledger)
    from_tests = running.pop("from_tests", ())
    run = build_running(running, engine=engine, ledger=ledger)
    _name_cylinders(cylinders, ledger=ledger)
    names = [values["name"] for values in cylinders]
    sizes = tuple(build_sizes(Bench(i, values, ledger)) for i, values in enumerate(cylinders))
    if not sizes:
        return None
    supply, exhaust = engine.get("supply_pressure"), engine.get("exhaust_pressure")
    return Engine(
        name=engine.get("name", "(no name)"),
        cylinders=sizes,
        notes=engine.get("notes", ""),
        rotation=engine.get("rotation"),
        fluid=engine.get("fluid"),
        supply_pressure=None if supply is None else supply.gauge,
        exhaust_pressure=None if exhaust is None else exhaust.gauge,
        purpose=engine.get("purpose"),
        target=Target(_si(target, "cut_off"), _si(target, "lead"), _si(target, "lap"), target.get("equal")),
        running=run,
        bench_tests=build_tests(several["bench_test"], engine=engine, names=names, ledger=ledger),
        from_tests=tuple(name for name in from_tests if getattr(run, name) is not None),
        glands=build_glands(cylinders, sizes, ledger=ledger),
        fasteners=build_fasteners(several["fastener"], sizes, ledger=ledger),
        pins=build_pins(several["pin"], names, ledger=ledger),
        finish=build_finish(single["finish"], ledger=ledger),
    )


def _si(values: Values, key: str) -> float | None:
    value: Any = values.get(key)
    return None if value is None else float(value.si)


def _check_pressures(engine: Values, *, ledger: Ledger) -> None:
    supply, exhaust = engine.get("supply_pressure"), engine.get("exhaust_pressure")
    if supply is not None and exhaust is not None and supply.gauge < exhaust.gauge:
        message = f"supply_pressure: {supply} is below the exhaust's {exhaust}"
        path = ("engine", "supply_pressure")
        ledger.add("pressures-swapped", path, message, instead="check both figures", severity="warning")


def _check_target(target: Values, *, ledger: Ledger) -> None:
    for key in ("lead", "lap"):
        if key in target and abs(target[key].metres) > LONGEST:
            message = f"{key}: {target[key]} is longer than 10 m"
            ledger.add("absurd", ("target", key), message, instead="check the figure and its unit")
            del target[key]


def _name_cylinders(cylinders: list[Values], *, ledger: Ledger) -> None:
    """Give every cylinder a name of its own."""
    taken: set[str] = set()
    for number, values in enumerate(cylinders):
        name = values.setdefault("name", "ABCD"[number])
        if name in taken:
            free = next(letter for letter in "ABCDEFGH" if letter not in taken)
            message = f"name: two cylinders are called {name}"
            ledger.add("name-twice", ("cylinder", number, "name"), message, instead=f'write name = "{free}"')
            values["name"] = free
        taken.add(values["name"])


def build_sizes(bench: Bench) -> Sizes:
    """Build one cylinder's sizes from its values, once they are checked."""
    given = set(bench.values)
    check_sizes(bench)
    values = _name_shares(bench.values)
    known = {key: values[key] for key in NUMBER_KEYS if values.get(key) is not None}
    numbers = {key: float(value.si) for key, value in known.items()}
    doubts = {
        key: Doubt(value.doubt_plus, value.doubt_minus)
        for key, value in known.items()
        if value.doubt_plus is not None and (value.doubt_plus or value.doubt_minus)
    }
    zeros = dict(_ZERO_UNLESS_GIVEN)
    _check_phase(bench, given, zeros)
    path_keys = _refused_keys(bench)
    assumed = {key: why for key, why in zeros.items() if key not in given and key not in path_keys}
    numbers.update(dict.fromkeys(assumed, 0.0))
    return Sizes(
        name=values["name"],
        numbers=numbers,
        doubts=doubts,
        assumed=assumed,
        kind=values.get("valve.kind", "slide"),
        admission=values.get("valve.admission", "outside"),
        rocker=values.get("valve_drive.rocker", "none"),
    )


def _name_shares(values: Values) -> Values:
    """Put a clearance that is a share of the swept volume under a key of its own: the length means something else."""
    return {SHARE_KEYS[key] if isinstance(value, Share) else key: value for key, value in values.items()}


def _refused_keys(bench: Bench) -> set[str]:
    """List the keys of this cylinder that were given but could not be used: nothing is assumed for them."""
    start = f"cylinder.{bench.number}."
    return {p.key.removeprefix(start) for p in bench.ledger.problems if p.key.startswith(start)}


def _check_phase(bench: Bench, given: set[str], zeros: dict[str, str]) -> None:
    path = ("cylinder", bench.number, "crank_phase")
    phase = bench.values.get("crank_phase")
    if bench.number == 0:
        zeros["crank_phase"] = _FIRST_PHASE
        if phase is not None and phase.degrees != 0:
            message = f"crank_phase: {phase}, but phases are counted from the first cylinder's own crank"
            instead = 'write "0 deg" here and the others\' lead over it there'
            bench.ledger.add("phase-of-first", path, message, instead=instead, severity="warning")
    elif "crank_phase" not in given and "crank_phase" not in _refused_keys(bench):
        name = bench.values["name"]
        message = f"crank_phase is not given for cylinder {name}: how the cylinders work together is not known"
        instead = 'write crank_phase = "90 deg", or what it is'
        bench.ledger.add("no-phase", path, message, instead=instead, severity="warning")
