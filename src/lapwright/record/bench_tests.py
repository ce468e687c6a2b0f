"""The bench tests of a record: what cannot be true or is not whole is noted and left out, the rest is in SI."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi
from typing import Any

from lapwright.engine.bench_test import DECAY, RUN_DOWN, STEADY, BenchTest
from lapwright.engine.sizes import Doubt
from lapwright.quantities import Pressure, Quantity, Torque
from lapwright.record.contents import Values
from lapwright.record.form import Form
from lapwright.record.problem import Ledger


@dataclass(frozen=True, slots=True)
class _Kind:
    """A kind of test: what it needs, what it may say besides, and what to write where something is missing."""

    needs: tuple[str, ...]
    besides: tuple[str, ...]
    wanted: str


_KINDS = (
    _Kind(STEADY, ("load", "air_flow", "exhaust_pressure"), "both the chest's pressure and the speed it settled at"),
    _Kind(RUN_DOWN, (), "both the speed from which it ran down and the time to rest"),
    _Kind(DECAY, (), "all four of decay_from, decay_to, decay_time and decay_volume"),
)
_ALL_KINDS = "write supply_pressure and speed, run_down_from and run_down_time, or decay_from to decay_volume"
#: Between which figures each lies, in SI, and how they are shown.
_RANGES: Mapping[str, tuple[float, float, str]] = {
    "speed": (pi / 30, 50_000 * pi / 30, "1 and 50,000 rpm"),
    "run_down_from": (pi / 30, 50_000 * pi / 30, "1 and 50,000 rpm"),
    "run_down_time": (0.05, 86_400.0, "0.05 s and a day"),
    "decay_time": (0.05, 86_400.0, "0.05 s and a day"),
    "decay_volume": (1e-8, 1.0, "0.01 cm3 and 1 m3"),
    "air_flow": (1e-8, 10.0, "0.001 L/min and 10 m3/s"),
}
#: What is nothing at least; everything else is more.
_MAY_BE_NOTHING = ("load", "exhaust_pressure")


@dataclass(slots=True)
class _Sheet(Form):
    """One test under check, with what it was run on and the pressure behind its exhaust."""

    fluid: str
    exhaust: float


def build_tests(
    tests: Mapping[int, Values], *, engine: Values, names: list[str], ledger: Ledger
) -> tuple[BenchTest, ...]:
    """Build what can be used of the tests; `engine` are the values of the engine's own table, `names` its cylinders."""
    exhaust = engine.get("exhaust_pressure")
    behind = 0.0 if exhaust is None else exhaust.gauge
    built = []
    for number, values in tests.items():
        fluid = values.get("fluid") or engine.get("fluid") or "air"
        sheet = _Sheet(("bench_test", number), values, ledger, fluid, behind)
        is_blank = sheet.is_blank
        _check_figures(sheet)
        _check_pressures(sheet)
        _check_fluid(sheet)
        _check_dead(sheet, names)
        whole = [_is_whole(sheet, kind) for kind in _KINDS]
        if any(whole):
            built.append(_build_test(sheet, number + 1))
        elif not is_blank and not sheet.is_refused():
            _note_incomplete(sheet, "", "nothing measured stands in the test", instead=_ALL_KINDS)
    return tuple(built)


def _check_figures(sheet: _Sheet) -> None:
    for key, value in list(sheet.values.items()):
        if not isinstance(value, Quantity):
            continue
        if key in _RANGES:
            least, most, span = _RANGES[key]
            if not least <= value.si <= most:
                sheet.strike("absurd", key, f"{value} is not between {span}", instead="check the figure and its unit")
                continue
        figure = value.gauge if isinstance(value, Pressure) else value.si
        if figure < 0 and key == "load":
            instead = "write what the engine drove, or leave it out if nothing"
            sheet.strike("absurd", key, f"{value} would drive the engine", instead=instead)
        elif figure > 0 and (value.doubt_minus or 0.0) >= figure and key not in _MAY_BE_NOTHING:
            message = f"{value} has a doubt as large as the figure"
            sheet.strike("doubt-too-large", key, message, instead="write how far it may really be out")


def _check_pressures(sheet: _Sheet) -> None:
    supply, exhaust = sheet.values.get("supply_pressure"), sheet.values.get("exhaust_pressure")
    behind = sheet.exhaust if exhaust is None else exhaust.gauge
    if supply is not None and supply.gauge <= behind:
        shown = "atmosphere's" if behind == 0 else "exhaust's"
        message = f"{supply} is not above the {shown}, so nothing would drive the engine"
        sheet.strike("pressures-swapped", "supply_pressure", message, instead="write what the gauge at the chest read")
    start, stop = sheet.values.get("decay_from"), sheet.values.get("decay_to")
    if stop is not None and stop.gauge <= 0:
        instead = "stop the clock while the gauge still shows something"
        sheet.strike("absurd", "decay_to", f"{stop} is not above the atmosphere's pressure", instead=instead)
    elif start is not None and stop is not None and start.gauge <= stop.gauge:
        message = f"{stop} is not below decay_from, {start}"
        sheet.strike("pressures-swapped", "decay_to", message, instead="check both figures")


def _check_fluid(sheet: _Sheet) -> None:
    if sheet.fluid != "steam":
        return
    if "air_flow" in sheet.values:
        instead = 'take it out, or write fluid = "air" if the test was made on air'
        sheet.strike("not-on-steam", "air_flow", "the test was made on steam", instead=instead)
    if sheet.values.get("fluid") == "steam" and "decay_from" in sheet.values:
        instead = "make this test with air at low pressure: steam condenses in the chest, and tells nothing of leaks"
        sheet.strike("not-on-steam", "decay_from", "the test was made on steam", instead=instead)


def _check_dead(sheet: _Sheet, names: list[str]) -> None:
    dead = sheet.values.get("dead")
    if dead is None:
        return
    if dead not in names:
        instead = f"its cylinders: {', '.join(names)}" if names else "take it out"
        sheet.strike("no-such-cylinder", "dead", f"the engine has no cylinder {dead}", instead=instead)
    elif len(names) == 1:
        message = f"{dead} is the engine's only cylinder, and nothing would be left to drive it"
        sheet.strike("no-such-cylinder", "dead", message, instead="take it out")


def _is_whole(sheet: _Sheet, kind: _Kind) -> bool:
    """Whether a kind of test has all it needs; where it has some of it, that is noted, and all of it left out."""
    given = [key for key in (*kind.needs, *kind.besides) if key in sheet.values]
    missing = [key for key in kind.needs if key not in sheet.values]
    if not missing:
        return True
    # What was refused has been told already.
    unsaid = [key for key in missing if not sheet.is_refused(key)]
    if given and unsaid:
        message = f"{' and '.join(unsaid)} {'is' if len(unsaid) == 1 else 'are'} missing beside it"
        _note_incomplete(sheet, given[0], message, instead=f"write {kind.wanted}, or take it out")
    for key in given:
        sheet.values.pop(key)
    return False


def _note_incomplete(sheet: _Sheet, key: str, message: str, *, instead: str) -> None:
    sheet.add("incomplete-test", key, message, instead=instead, severity="warning")


def _build_test(sheet: _Sheet, number: int) -> BenchTest:
    numbers: dict[str, Any] = {}
    doubts: dict[str, Doubt] = {}
    for key, value in sheet.values.items():
        name = key if key != "load" else "load_torque" if isinstance(value, Torque) else "load_power"
        numbers[name] = value.gauge if isinstance(value, Pressure) else getattr(value, "si", value)
        if isinstance(value, Quantity) and value.doubt_plus is not None and value.doubt_minus is not None:
            doubts[name] = Doubt(value.doubt_plus, value.doubt_minus)
    return BenchTest(number=number, doubts=doubts, **numbers)
